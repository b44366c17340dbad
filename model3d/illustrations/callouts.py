"""Balloons with their parts list, and flags, each tied to the best seen point of what it is about."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from model3d.illustrations import marks
from model3d.illustrations.balloons import arranged
from model3d.illustrations.camera import Camera, Window
from model3d.illustrations.picture import Face, Flag, Setting
from model3d.illustrations.regions import Deepest, deepest
from model3d.illustrations.sheet import Listed, Mark, Mm
from model3d.illustrations.sight import Ids, Sight
from model3d.themes import Theme
from model3d.wording import Catalogue

BALLOON_AWAY_MM = 6.0
FLAG_AWAY_MM = 1.5
SEEN_MM = 0.6  # as deep inside what is seen of a part a leader must reach for a flag that may be left out


class NotSeen(ValueError):
    """A part that the picture is about cannot be seen from any of its directions."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Callouts:
    """A drawing to be called out on: what is seen where in its window."""

    setting: Setting
    ids: Ids
    sight: Sight
    window: Window
    camera: Camera
    theme: Theme
    words: Catalogue

    def letter(self, face: Face | None) -> marks.Letter | None:
        """A clip's face with its letter."""
        return None if face is None else (face, self.words.say(f"letter.{face}"))

    def deepest(self, owner: str) -> Deepest | None:
        """The point of what is seen of a part that lies furthest from its rim."""
        numbers = [k for k, body in enumerate(self.sight.bodies) if body.owner == owner]
        per_mm = self.ids.shape[1] / self.window.width
        return deepest(np.isin(self.ids, numbers), self.window, per_mm)


def balloons(on: Callouts, drawn: Sequence[Mm]) -> tuple[list[Mark], tuple[Listed, ...]]:
    """Each place's balloon with its number, and the parts list. Raises NotSeen when a place is not seen at all."""
    anchors: list[Mm] = []
    said: list[tuple[str, Face | None]] = []
    items = on.setting.items
    for number, item in enumerate(items, start=1):
        for k, place in enumerate(item.places):
            seen = [d for d in map(on.deepest, place) if d]
            if not seen:
                raise NotSeen(f"nothing is seen of {item.name}: {', '.join(place)}")
            anchors.append(_best(seen).at)
            said.append((str(number), item.faces[k] if item.faces else None))
    radius = marks.balloon_radius_mm(on.theme)
    found: list[Mark] = []
    leaders = arranged(anchors, drawn, radius_mm=radius, away_mm=BALLOON_AWAY_MM)
    for (number_said, face), one in zip(said, leaders, strict=True):
        found += marks.balloon(number_said, one.balloon, one.anchor, on.theme, letter=on.letter(face))
    return found, tuple(Listed(number=k, name=i.name, count=i.count) for k, i in enumerate(items, start=1))


def flags(on: Callouts, drawn: Sequence[Mm]) -> Iterator[Mark]:
    """Words round the drawing, each tied to its point. Raises NotSeen when a part is not seen that must be."""
    kept: list[tuple[Flag, Mm]] = []
    for flag in on.setting.flags:
        if flag.at_mm is not None:
            x, y = on.camera.project(np.array([flag.at_mm]))[0, :2]
            kept.append((flag, (float(x), float(y))))
            continue
        found = on.deepest(flag.owner)
        if flag.if_seen and (found is None or found.depth_mm < SEEN_MM):
            continue
        if found is None:
            raise NotSeen(f"nothing is seen of {flag.owner}")
        kept.append((flag, found.at))
    if not kept:
        return
    widest = max(marks.flag_size_mm(flag, on.theme)[0] for flag, _ in kept)
    leaders = arranged([at for _, at in kept], drawn, radius_mm=widest, away_mm=FLAG_AWAY_MM)
    for (flag, _), one in zip(kept, leaders, strict=True):
        yield from marks.flag(flag, one.balloon, one.anchor, on.theme, on.letter(flag.face))


def _best(seen: Sequence[Deepest]) -> Deepest:
    """Of like parts in one place the uppermost that is seen nearly as well as the best one."""
    least = 0.7 * max(d.depth_mm for d in seen)
    return min((d for d in seen if d.depth_mm >= least), key=lambda d: d.at[1])
