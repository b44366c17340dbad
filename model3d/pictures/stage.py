"""The stage: everything a picture needs, in numbers, with no renderer behind it.

A stage is written by whoever knows the job (which parts stand where, which one is new, how it moves) and
read by the picture code, which knows only meshes, looks, arrows and words. Room frame, millimetres, z up.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
import numpy.typing as npt

from model3d.geometry.placement import Placement, Vec2, Vec3
from model3d.wording import Language

Look = Literal[
    "room-floor",
    "room-wall",
    "room-fixture",
    "fitted",
    "new",
    "clip-front",
    "clip-back",
    "fitting",
    "waiting",
    "hose",
    "o-ring",
    "bracket",
    "cradle",
    "trim",
    "end-cap",
    "valve",
    "obstacle",
    "ghost",
]
ArrowKind = Literal["offer", "raise", "slide", "engage", "press", "push-home", "draw-out", "tap"]
CalloutKind = Literal["plain", "grease", "screws-up", "click", "snag", "warning"]
Level = Literal[1, 2, 3, 4, 5]

Points = npt.NDArray[np.float64]
Triangles = npt.NDArray[np.int64]

ROOM_LOOKS: frozenset[Look] = frozenset({"room-floor", "room-wall", "room-fixture"})


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Mesh:
    """One shape as triangles, in its own frame.

    ``vertices_mm`` is (n, 3); ``triangles`` is (m, 3) with outward faces anticlockwise; ``edges_mm`` holds
    the lines to be drawn on the shape, each a polyline (k, 3): its sharp edges, without seams and tangent
    joins. Left None, the sharp edges are found from the triangles. Vertices may be repeated from face to
    face. Raises ValueError on a wrong shape.
    """

    vertices_mm: Points
    triangles: Triangles
    edges_mm: tuple[Points, ...] | None = None

    def __post_init__(self) -> None:
        if self.vertices_mm.ndim != 2 or self.vertices_mm.shape[1] != 3:
            raise ValueError(f"vertices must be (n, 3), not {self.vertices_mm.shape}")
        if self.triangles.ndim != 2 or self.triangles.shape[1] != 3 or len(self.triangles) == 0:
            raise ValueError(f"triangles must be (m, 3) with m > 0, not {self.triangles.shape}")
        if self.triangles.min() < 0 or self.triangles.max() >= len(self.vertices_mm):
            raise ValueError("a triangle names a vertex that is not there")


@dataclass(frozen=True, slots=True, kw_only=True)
class Actor:
    """A mesh standing somewhere, with the look of its role.

    Walls come one actor a wall, with ``facing`` the unit direction from the wall into the room, so that a
    wall between the viewer and the work can be cut down; other parts leave it None.
    """

    id: str
    mesh_key: str
    placement: Placement = field(default_factory=Placement)
    look: Look
    facing: Vec3 | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrow:
    """One straight leg of a move. A leg too short to be seen is drawn longer, in its own direction: from its
    start on, or, for a press or a tap, up to its start, pushing on the face there.

    ``label`` is its place in the order of the moves ('1', '2', ..) or empty; ``note`` is written beside it, as
    its length. ``along_mm`` is the line (two points) on which the arrow's start may be shifted without changing
    its meaning, for example the new piece's length: the page uses it to keep arrows apart. ``snag`` puts the
    sign of a known snag at its number.
    """

    start_mm: Vec3
    end_mm: Vec3
    label: str = ""
    kind: ArrowKind
    along_mm: tuple[Vec3, Vec3] | None = None
    note: str = ""
    snag: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Swing:
    """A turning leg: from ``start_mm`` about the line through ``centre_mm`` along ``axis``, by ``turn_deg``
    (right-hand rule).
    """

    centre_mm: Vec3
    start_mm: Vec3
    turn_deg: float
    axis: Vec3 = (0.0, 0.0, 1.0)
    label: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Badge:
    """The letter of a clip's face: F (front) or B (back), tied to the clip at ``at_mm``."""

    at_mm: Vec3
    text: Literal["F", "B"]

    @property
    def look(self) -> Look:
        """The look whose colour the badge wears."""
        return "clip-front" if self.text == "F" else "clip-back"


@dataclass(frozen=True, slots=True, kw_only=True)
class Callout:
    """A few words tied to a point; ``kind`` adds a mark (grease, screws up, click, snag, warning)."""

    at_mm: Vec3
    text: str
    kind: CalloutKind = "plain"


@dataclass(frozen=True, slots=True, kw_only=True)
class Notch:
    """A window cut into the parts named: what lies past ``from_mm`` in direction ``along`` and past ``at_mm`` in
    direction ``normal`` is taken away.
    """

    from_mm: Vec3
    along: Vec3
    at_mm: Vec3
    normal: Vec3
    actor_ids: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SideView:
    """A section across the run as a small picture: the wall at u = 0, the profile's outline, a clip's plate and its
    tabs as boxes (u, v, width, height), mm, v up from the floor. ``front_tabs`` and ``back_tabs`` are the tabs of a
    clip that faces front and back.
    """

    outline: tuple[tuple[float, float], ...]
    plate: tuple[float, float, float, float]
    front_tabs: tuple[tuple[float, float, float, float], ...]
    back_tabs: tuple[tuple[float, float, float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanMap:
    """The room from above: its outline and those of what stands free in it, and the pieces as lines: up ``before``, and
    going up ``now``. Room frame, mm.
    """

    rings: tuple[tuple[Vec2, ...], ...]
    before: tuple[tuple[Vec2, Vec2], ...] = ()
    now: tuple[tuple[Vec2, Vec2], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """A plane that opens what hides a joint: what lies on the side of ``normal`` is taken away from the
    actors named.

    ``actor_ids`` empty: from every actor that is not a clip, fitting, hose or O-ring.
    """

    at_mm: Vec3
    normal: Vec3
    actor_ids: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Inset:
    """A round close-up of a place: a ball of ``radius_mm`` about ``centre_mm`` seen from ``direction``
    (pointing to the viewer).

    ``subject_ids`` names what must be seen (clip, fitting); several ``other_directions`` may be offered, and
    the one that shows most of the subject is taken; unless it ``keeps_side``, others still, round the step's own
    facing, and what hides the subject is cut open. ``actors`` None: those of the stage; otherwise the joint as it
    stands at the moment shown. ``badges`` None: those of the stage that lie inside the ball. ``spot_mm``
    is the place that is ringed in the main picture, where it is not ``centre_mm``: a joint drawn in another pose.
    ``guides`` are lines that show where a part drawn out of its place goes. ``face`` puts the side view of the
    clip beside the title.
    """

    centre_mm: Vec3
    radius_mm: float
    title: str
    direction: Vec3
    other_directions: tuple[Vec3, ...] = ()
    keeps_side: bool = False
    subject_ids: tuple[str, ...] = ()
    actors: tuple[Actor, ...] | None = None
    cut: Cut | None = None
    notch: Notch | None = None
    spot_mm: Vec3 | None = None
    guides: tuple[tuple[Vec3, Vec3], ...] = ()
    face: Literal["F", "B"] | None = None
    arrows: tuple[Arrow, ...] = ()
    badges: tuple[Badge, ...] | None = None
    callouts: tuple[Callout, ...] = ()

    @property
    def ringed_mm(self) -> Vec3:
        """The place that is ringed in the main picture."""
        return self.centre_mm if self.spot_mm is None else self.spot_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Camera:
    """A perspective viewpoint: eye, the point looked at, up, and the upright field of view in degrees."""

    eye_mm: Vec3
    target_mm: Vec3
    up: Vec3 = (0.0, 0.0, 1.0)
    field_deg: float = 28.0


@dataclass(frozen=True, slots=True, kw_only=True)
class LegendEntry:
    """One line of the legend: a look, the moves, or work on the bench, and what it stands for."""

    look: Look | Literal["move", "bench"]
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Caption:
    """One line of what to do; ``label`` ties it to the arrows of that number, ``kind`` gives it a mark.

    A line with both a ``label`` and a ``kind`` that is not plain stands under the line of that number.
    """

    text: str
    label: str = ""
    kind: CalloutKind = "plain"


@dataclass(frozen=True, slots=True, kw_only=True)
class Hardness:
    """How hard a step is, from 1 to 5, and that in words with the reasons."""

    level: Level
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The words round the picture. ``legend`` None: written from the looks that are on the stage. ``hardness`` None:
    not said.
    """

    title: str
    captions: tuple[Caption, ...] = ()
    legend: tuple[LegendEntry, ...] | None = None
    step: int = 1
    steps: int = 1
    language: Language = "en"
    hardness: Hardness | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stage:
    """A whole picture in numbers.

    ``facing`` is the level direction from the target wall into the room: the viewer stands on that side.
    ``subject_ids`` names what must be seen; empty: every actor that looks ``new``. ``framed_ids`` names what the
    picture must hold besides. ``overview`` stands the viewer higher, for what stands on several walls. ``side_view``
    is drawn beside the titles of close-ups that say a clip's face, and in the legend; ``plan_map`` in a free corner.
    ``camera`` None: chosen by rule. Raises ValueError when an id comes twice, a mesh key or a subject is unknown.
    """

    meshes: Mapping[str, Mesh]
    actors: tuple[Actor, ...]
    frame: Frame
    facing: Vec3
    arrows: tuple[Arrow, ...] = ()
    swings: tuple[Swing, ...] = ()
    badges: tuple[Badge, ...] = ()
    callouts: tuple[Callout, ...] = ()
    insets: tuple[Inset, ...] = ()
    subject_ids: tuple[str, ...] = ()
    framed_ids: tuple[str, ...] = ()
    overview: bool = False
    side_view: SideView | None = None
    plan_map: PlanMap | None = None
    camera: Camera | None = None

    def __post_init__(self) -> None:
        for actors in (self.actors, *(inset.actors for inset in self.insets if inset.actors is not None)):
            ids = [actor.id for actor in actors]
            if len(ids) != len(set(ids)):
                raise ValueError("two actors share an id: " + ", ".join(sorted({i for i in ids if ids.count(i) > 1})))
            lost = sorted({actor.mesh_key for actor in actors} - set(self.meshes))
            if lost:
                raise ValueError("no mesh for: " + ", ".join(lost))
        unknown = sorted({*self.subject_ids, *self.framed_ids} - {actor.id for actor in self.actors})
        if unknown:
            raise ValueError("no actor on the stage for the subject: " + ", ".join(unknown))

    @property
    def subjects(self) -> tuple[str, ...]:
        """Ids of what must be seen."""
        return self.subject_ids or tuple(actor.id for actor in self.actors if actor.look == "new")
