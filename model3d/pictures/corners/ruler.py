"""The ruler of the long legs' insertion on a corner sheet: what is allowed, and where every state stands."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from model3d.pictures.corners.dimensions import moved
from model3d.pictures.corners.values import CornerSheet, Window, key_of
from model3d.pictures.labelled.tags import Picture
from model3d.pictures.labelled.words import Words, words_in
from model3d.pictures.paper import Box, Px
from model3d.pictures.theme import Theme
from model3d.wording import Catalogue


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    """A state on the ruler: where it stands, and its words under it."""

    x: float
    words: Words
    right: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Ruler:
    """What is allowed as a bar from the cut face inward, with a tick for every state."""

    bar: Box
    zero: tuple[Px, Px]
    ticks: tuple[Tick, ...]

    def lead(self, tick: Tick) -> tuple[Px, Px]:
        """From a tick to its words."""
        y = self.bar.middle[1]
        return (tick.x, y + 10.0), (tick.words.room.middle[0], y + 32.0)


def ruler(sheet: CornerSheet, window: Window, picture: Picture, words: Catalogue, theme: Theme) -> Ruler:
    """The insertion window along the earlier piece, under it, with a tick for every state; from the cut face inward."""
    side, frame = sheet.sides[0], picture.frame
    face = (side.face_mm[0], side.face_mm[1], sheet.cut_at_mm[2])

    def x_of(insertion: float) -> float:
        return picture.pixel(moved(face, insertion, side.along))[0]

    under = moved(face, 0.0, side.along, sheet.front_u_mm + 9.0, side.to_room)
    y = picture.pixel(under)[1] + 14.0
    low, high = sorted((x_of(window.least_mm), x_of(window.most_mm)))
    zero = x_of(0.0)
    ordered = sorted(window.states, key=lambda s: x_of(s.value_mm))
    left, right = sorted((zero, frame.left if zero > x_of(1.0) else frame.right))
    apart = min(128.0, (right - left) / len(ordered))
    seats = _spread([x_of(s.value_mm) for s in ordered], apart, (left, right))
    ticks = []
    for state, seat in zip(ordered, seats, strict=True):
        room = Box(left=seat - apart / 2 + 3, top=y + 34, width=apart - 6, height=min(66.0, frame.bottom - y - 36))
        text = f"{words.say(f'state.{key_of(state.name)}')} {words.fixed(state.value_mm, 1)}"
        colour = theme.ink if state.right else theme.warn
        said = words_in(room, text, 17.0, colour, bold=not state.right, anchor="middle")
        ticks.append(Tick(x=x_of(state.value_mm), words=said, right=state.right))
    bar = Box(left=low, top=y - 8, width=high - low, height=16)
    return Ruler(bar=bar, zero=((zero, frame.top + 14), (zero, y + 12)), ticks=tuple(ticks))


def _spread(wanted: Sequence[float], apart: float, ends: tuple[float, float]) -> list[float]:
    """Places in order, each at least ``apart`` from the next, as near to the wanted ones as a sweep each way leaves."""
    places = list(wanted)
    for _ in range(60):
        for k in range(len(places) - 1):
            lack = apart - (places[k + 1] - places[k])
            if lack > 0:
                places[k] -= lack / 2
                places[k + 1] += lack / 2
        shift = max(ends[0] + apart / 2 - places[0], 0.0) + min(ends[1] - apart / 2 - places[-1], 0.0)
        places = [p + shift for p in places]
    return places
