"""When one person should not lift a piece alone: a length or a mass of the family (manual handling; figures ours)."""

from __future__ import annotations

from collections.abc import Sequence

from model3d.families.family import Family
from model3d.layout import Piece


def mass_kg(family: Family, piece: Piece) -> float:
    """Dry mass of a piece's aluminium: section area x length x density."""
    area = family.section.spec(heated=piece.heated).metal_area_mm2
    return area * piece.cut_length_mm * 1e-9 * family.material.density_kg_per_m3


def needs_two_people(family: Family, group: Sequence[Piece]) -> bool:
    """Past the family's length or mass for one person."""
    length = sum(p.cut_length_mm for p in group)
    mass = sum(mass_kg(family, p) for p in group)
    return length > family.handling.one_person_length_mm or mass > family.handling.one_person_mass_kg
