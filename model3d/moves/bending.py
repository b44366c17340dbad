"""What bends while a piece goes on, and how far: the latch past the lip, the cradle's lip past the block, the nib's
catch past its slot. Figures from the family's own outlines.
"""

from __future__ import annotations

import math

from model3d.families.family import Family
from model3d.families.shapes import cut_at, faceted, shifted, spans_at_u


def latch_bend_mm(family: Family) -> float:
    """By how much a bracket's latch moves up (negative: down) to let the lip of the groove pass: as far as its hook
    stands beyond the mouth.
    """
    section = family.section
    piece = shifted(faceted(section.outline.outline()), section.stand_off_mm, section.floor_gap_mm)
    upper = cut_at(faceted(family.bracket.outline.outline()), 1, section.middle_v_mm, 1)
    heights = [v for _, v in cut_at(upper, 0, section.stand_off_mm + 1e-6, 1)]
    low, high = min(heights), max(heights)
    covered = spans_at_u(piece, section.stand_off_mm + 1e-3)
    below = max((top for _, top in covered if top < (low + high) / 2.0), default=-math.inf)
    above = min((bottom for bottom, _ in covered if bottom > (low + high) / 2.0), default=math.inf)
    return above - high if high > above else max(below - low, 0.0)


def catch_bend_mm(family: Family) -> float:
    """By how much a nib gives for its catch to pass the clip's slot."""
    return max(family.nib.catch_mm - family.nib.slot_clearance_mm, 0.0)


def lip_bend_mm(family: Family) -> float:
    """By how much the lip of the valve's cradle is eased up for the block to pass."""
    return family.valve_end.cradle.lip_mm


def latch_from_mm(family: Family) -> float:
    """The height above which a bracket is latch: the middle of the piece."""
    return family.section.middle_v_mm


def lip_from_mm(family: Family) -> float:
    """The height above which a cradle is arm and lip: halfway up its plate, where nothing of the block comes."""
    cradle, block = family.valve_end.cradle, family.valve_end.block
    return (cradle.bottom_mm + block.top_mm - cradle.lip_mm) / 2.0
