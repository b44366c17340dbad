"""When one person should not lift a piece alone: a length or a mass of the family (manual handling; figures ours)."""

from __future__ import annotations

from collections.abc import Sequence

from model3d.families.family import Family
from model3d.layout import Piece
from model3d.water import dry_mass_kg


def needs_two_people(family: Family, group: Sequence[Piece]) -> bool:
    """Past the family's length or mass for one person."""
    length = sum(p.cut_length_mm for p in group)
    mass = sum(dry_mass_kg(family, p) for p in group)
    return length > family.handling.one_person_length_mm or mass > family.handling.one_person_mass_kg
