"""The profile's section and the piece cut from it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from model3d.geometry.outline import Obround, Outline
from model3d.geometry.placement import Vec2


@dataclass(frozen=True, slots=True, kw_only=True)
class Bore:
    """One waterway of a section: its centre in (u, v) and its stadium or round opening."""

    centre: Vec2
    opening: Obround


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionSpec:
    """A profile section in (u, v): u = 0 the back plane, v = 0 the underside.

    ``outline`` is the outside; ``chambers`` are the closed hollows (the clip guides are notches of the middle one);
    ``bores`` the waterways, lower first, none for a dry section. Every bore mouth is reamed: over ``lead_in_length_mm``
    the opening narrows evenly from ``lead_in_radial_mm`` wider all round.
    """

    outline: Outline
    chambers: tuple[Outline, ...]
    bores: tuple[Bore, ...]
    lead_in_length_mm: float
    lead_in_radial_mm: float

    @property
    def metal_area_mm2(self) -> float:
        """Area of metal away from the ends: outline less hollows less waterways."""
        hollow = sum(c.area_mm2 for c in self.chambers) + sum(b.opening.area_mm2 for b in self.bores)
        return self.outline.area_mm2 - hollow


def lead_in_volume_mm3(opening: Obround, length_mm: float, radial_mm: float) -> float:
    """Metal a reamed mouth takes beyond the plain bore: P x + pi x^2 (Steiner) summed as x falls evenly to nothing."""
    return length_mm * (opening.perimeter_mm * radial_mm / 2.0 + math.pi * radial_mm**2 / 3.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceSpec:
    """One cut length of profile. Datum: the lower back edge at the end with the least x.

    x along the length from 0 to ``length_mm``, y = u of the section, z = v of the section.
    """

    length_mm: float
    section: SectionSpec

    @property
    def volume_mm3(self) -> float:
        """Section area times length, less the reamed mouths at both ends."""
        section = self.section
        reamed = sum(
            lead_in_volume_mm3(b.opening, section.lead_in_length_mm, section.lead_in_radial_mm) for b in section.bores
        )
        return section.metal_area_mm2 * self.length_mm - 2.0 * reamed
