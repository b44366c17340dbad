"""A picture before it is drawn: bodies in the room, where they are looked at from, and what points at them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from model3d.families.family import Family
from model3d.geometry.placement import Vec3
from model3d.illustrations.sheet import Colour
from model3d.illustrations.strokes import Shown
from model3d.layout import Layout
from model3d.rooms import Room
from model3d.scene import Scene
from model3d.steps import Step
from model3d.wording import ENGLISH, Catalogue

Path3 = tuple[Vec3, ...]
Verdict = Literal["right", "wrong"]
Face = Literal["front", "back"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """A place to look from: eye and target in the room, the full field of view across, how wide the picture is for its
    height, how far it is shifted up its plane (a share of its height), and the ids of walls that are not drawn.
    """

    eye_mm: Vec3
    target_mm: Vec3
    field_deg: float
    aspect: float = 1.6
    shift: float = 0.0
    left_out: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """What illustrations are drawn from: a room laid out, its scene and its steps. ``words`` is the language of what is
    written on them; ``viewpoints`` are the names of the plan's own viewpoints, ``outlooks`` those of them, and of what
    is seen from above, that are drawn from.
    """

    room: Room
    layout: Layout
    scene: Scene
    steps: tuple[Step, ...]
    family: Family
    words: Catalogue = ENGLISH
    viewpoints: tuple[str, ...] = ()
    outlooks: Mapping[str, Outlook] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrow:
    """One leg of a move or one push, from ``start_mm`` to ``end_mm``; one too short to be seen is drawn longer.
    ``label`` is its number, or empty.
    """

    start_mm: Vec3
    end_mm: Vec3
    label: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """A line of the parts list: ``places`` are the ids of its parts, grouped by where they are; each group gets one
    balloon, on the part of it that is best seen. ``faces`` is the way the clips of each place look; empty for other
    parts.
    """

    name: str
    places: tuple[tuple[str, ...], ...]
    faces: tuple[Face | None, ...] = ()

    @property
    def count(self) -> int:
        """How many there are."""
        return sum(len(place) for place in self.places)


@dataclass(frozen=True, slots=True, kw_only=True)
class Flag:
    """Words tied to a part (``owner``, at its best seen point) or to a point of the room. ``face`` puts the letter of a
    clip's face before them. With ``if_seen`` it is left out where hardly anything is seen of its part.
    """

    text: str
    owner: str = ""
    at_mm: Vec3 | None = None
    colour: Colour = "ink"
    face: Face | None = None
    if_seen: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """One drawing: ``shown`` bodies seen from ``toward`` (a direction to the viewer).

    ``others`` are directions to try when something that must be seen is not. ``parallel``: no perspective.
    ``room_lines`` are drawn thin and grey, ``guides`` thin and dash-dotted, both hidden where bodies stand before them.
    ``stipple`` names parts to be dotted over (grease). ``must_see`` are ids of parts that a direction is judged by.
    ``to_scale``: at a standard scale, which is printed. With an ``outlook`` it is seen from there, cut off at the
    picture's rim.
    """

    shown: tuple[Shown, ...]
    toward: Vec3
    others: tuple[Vec3, ...] = ()
    up: Vec3 = (0.0, 0.0, 1.0)
    parallel: bool = False
    room_lines: tuple[Path3, ...] = ()
    guides: tuple[Path3, ...] = ()
    arrows: tuple[Arrow, ...] = ()
    items: tuple[Item, ...] = ()
    flags: tuple[Flag, ...] = ()
    stipple: tuple[str, ...] = ()
    must_see: tuple[str, ...] = ()
    to_scale: bool = False
    outlook: Outlook | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """A setting on a page, with the words under it and, in a pair, whether it shows what is right."""

    setting: Setting
    caption: str = ""
    verdict: Verdict | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A page: panels side by side under a title, all at one scale and seen from one place; ``captions`` below, each
    with the number of its arrow or ''. ``words`` is the language of what stands on every page.
    """

    title: str
    panels: tuple[Panel, ...]
    captions: tuple[tuple[str, str], ...] = ()
    words: Catalogue = ENGLISH
