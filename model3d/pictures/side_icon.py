"""The side view of a clip in its piece: wall, profile, clip, and its tabs toward the wall or the room."""

from __future__ import annotations

from typing import Literal

from model3d.pictures.markup import element
from model3d.pictures.paper import Box
from model3d.pictures.stage import SideView
from model3d.pictures.theme import Theme

_WALL_PX = 8.0


def side_icon(view: SideView, face: Literal["F", "B"], box: Box, theme: Theme) -> str:
    """SVG of the section in a box: the hatched wall on the left, the room on the right. Widths are drawn larger than
    heights, and the tabs as far as the profile's skin, so that the side they stand on is seen.
    """
    surface = theme.surfaces["clip-front" if face == "F" else "clip-back"]
    across = max(u for u, _ in view.outline)
    sx = (box.width - _WALL_PX - 2.0) / across
    sy = box.height / max(v for _, v in view.outline)

    def x(u: float) -> float:
        return box.left + _WALL_PX + u * sx

    def y(v: float) -> float:
        return box.bottom - v * sy

    outline = " ".join(f"{x(u):.1f},{y(v):.1f}" for u, v in view.outline)
    left, low, wide, high = view.plate
    plate = _rect(x(left + 0.2 * wide), y(low + high), 0.6 * wide * sx, high * sy, surface.fill, surface.line)
    back, front = min(u for u, _ in view.outline), across
    ends = (left + 0.7 * wide, front) if face == "F" else (back, left + 0.3 * wide)
    tabs = view.front_tabs if face == "F" else view.back_tabs
    pegs = [
        _rect(x(ends[0]), y(v + h / 2) - 3.5, (ends[1] - ends[0]) * sx, 7.0, surface.fill, surface.line)
        for _, v, _, h in tabs
    ]
    return element(
        "g",
        _wall(box, theme),
        element("polygon", points=outline, fill=theme.paper, stroke=theme.ink, stroke_width=1.5),
        *pegs,
        plate,
    )


def _wall(box: Box, theme: Theme) -> str:
    """A hatched strip."""
    edge = box.left + _WALL_PX - 1.0
    lines = "".join(
        f"M{box.left:.1f} {top + 6:.1f}L{edge:.1f} {top:.1f}"
        for top in (box.top + 6.0 * k for k in range(int(box.height // 6)))
    )
    return element(
        "path",
        d=f"M{edge:.1f} {box.top:.1f}V{box.bottom:.1f}{lines}",
        fill="none",
        stroke=theme.soft_ink,
        stroke_width=1.3,
    )


def _rect(left: float, top: float, wide: float, high: float, fill: str, line: str) -> str:
    return element("rect", x=left, y=top, width=wide, height=high, fill=fill, stroke=line, stroke_width=1.2)
