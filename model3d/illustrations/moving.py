"""Marks moved about a page."""

from __future__ import annotations

from dataclasses import replace

from model3d.illustrations.sheet import Area, Disc, Mark, Mm, Stroke


def moved(mark: Mark, by: Mm) -> Mark:
    """The same mark, shifted by page mm."""
    if isinstance(mark, Stroke):
        return replace(mark, points=_ring(mark.points, by))
    if isinstance(mark, Area):
        return replace(mark, rings=tuple(_ring(ring, by) for ring in mark.rings))
    if isinstance(mark, Disc):
        return replace(mark, centre=(mark.centre[0] + by[0], mark.centre[1] + by[1]))
    return replace(mark, at=(mark.at[0] + by[0], mark.at[1] + by[1]))


def _ring(points: tuple[Mm, ...], by: Mm) -> tuple[Mm, ...]:
    return tuple((x + by[0], y + by[1]) for x, y in points)
