"""The section across the run with a clip in it, as lines: which way is front and which is back."""

from __future__ import annotations

import math

from model3d.families import specs
from model3d.families.family import Family
from model3d.geometry.outline import arc_through
from model3d.geometry.placement import Vec2
from model3d.pictures.stage import SideView

_ARC_STEPS = 8
Rect = tuple[float, float, float, float]


def side_view(family: Family) -> SideView:
    """The family's profile where it stands before the wall, and its clip's plate and tabs, facing either way."""
    section, clip = family.section, specs.clip_spec(family)
    middle_u, middle_v = section.bore_u_mm, section.middle_v_mm

    def tabs(side: int) -> tuple[Rect, ...]:
        found = []
        for height in clip.tab_heights_mm:
            ends = sorted((middle_u + side * clip.tab_inner_mm, middle_u + side * clip.tab_outer_mm))
            low = middle_v + height - clip.tab_half_height_mm
            found.append((ends[0], low, ends[1] - ends[0], 2.0 * clip.tab_half_height_mm))
        return tuple(found)

    return SideView(
        outline=tuple((u + section.stand_off_mm, v + section.floor_gap_mm) for u, v in _points(family)),
        plate=(
            middle_u - clip.half_width_mm,
            middle_v - clip.half_height_mm,
            2.0 * clip.half_width_mm,
            2.0 * clip.half_height_mm,
        ),
        front_tabs=tabs(1),
        back_tabs=tabs(-1),
    )


def _points(family: Family) -> list[Vec2]:
    """The section's outline as a polygon, each arc in eight chords."""
    found: list[Vec2] = []
    for start, segment in family.section.outline.outline().edges:
        if segment.through is None:
            found.append(segment.to)
            continue
        arc = arc_through(start, segment.through, segment.to)
        for k in range(1, _ARC_STEPS + 1):
            angle = arc.start_rad + arc.sweep_rad * k / _ARC_STEPS
            x, y = arc.centre
            found.append((x + arc.radius_mm * math.cos(angle), y + arc.radius_mm * math.sin(angle)))
    return found
