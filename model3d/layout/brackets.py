"""Where a piece's brackets stand. Common practice, no source; the figures are the family's."""

from __future__ import annotations

import math

from model3d.families.family import Family
from model3d.layout.values import EndJoint

PREFERRED_END_MM = 120.0


def bracket_offsets_mm(family: Family, length_mm: float, near: EndJoint, far: EndJoint) -> tuple[float, ...]:
    """Middles of the brackets from the near cut face, in order.

    Two at least, one in the middle of a short piece; the first within the family's distances of each end
    (another after an elbow corner), the rest evenly, no further apart than the family's greatest spacing.
    """
    spacing, width = family.bracket.spacing, family.bracket.width_mm
    if length_mm < spacing.single_below_mm:
        return (length_mm / 2.0,)
    first = _end_offset(family, length_mm, near)
    last = length_mm - _end_offset(family, length_mm, far)
    if (
        last - first < width
    ):  # a piece too short for the usual offsets: as far apart as the end distance allows
        first, last = spacing.end_least_mm, length_mm - spacing.end_least_mm
    if last - first < width:
        return (length_mm / 2.0,)
    gaps = max(1, math.ceil((last - first) / spacing.most_mm - 1e-9))
    return tuple(first + (last - first) * i / gaps for i in range(gaps + 1))


def _end_offset(family: Family, length_mm: float, joint: EndJoint) -> float:
    least, most = end_range_mm(family, joint)
    return min(max(least, min(PREFERRED_END_MM, length_mm / 4.0)), most)


def end_range_mm(family: Family, joint: EndJoint) -> tuple[float, float]:
    """Least and greatest distance of the first bracket from an end; another after an elbow corner."""
    spacing = family.bracket.spacing
    return spacing.after_elbow_mm if joint == "elbow-short" else (spacing.end_least_mm, spacing.end_most_mm)
