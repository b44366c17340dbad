"""Water in a run and its pieces, and their mass dry and filled."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from model3d.families.family import Family
from model3d.families.specs import bore_opening
from model3d.figures import Figure, plain
from model3d.layout import Piece
from model3d.water.waterway import Stretch

WATERWAYS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceMass:
    """A piece by itself: its water with both bores full, its aluminium, and both. A dry piece holds no
    water.
    """

    mark: str
    water: Figure
    dry: Figure
    filled: Figure

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Its figures in order."""
        return (self.water, self.dry, self.filled)


def dry_mass_kg(family: Family, piece: Piece) -> float:
    """Aluminium of a piece: section area x length x density."""
    area = family.section.spec(heated=piece.heated).metal_area_mm2
    return area * piece.cut_length_mm * 1e-9 * family.material.density_kg_per_m3


def piece_mass(family: Family, piece: Piece, density_kg_per_m3: float) -> PieceMass:
    """A piece's water and mass, with water of a density."""
    area = bore_opening(family).area_mm2 if piece.heated else 0.0
    litres = WATERWAYS * area * piece.cut_length_mm * 1e-6
    metal = family.section.spec(heated=piece.heated).metal_area_mm2
    dry = dry_mass_kg(family, piece)
    rho = family.material.density_kg_per_m3
    few = piece.cut_length_mm >= 100.0  # a short piece's sums are open with so few digits
    water = Figure(
        name=f"water in {piece.mark}",
        formula=f"2 x {area:.2f} x {plain(piece.cut_length_mm)} / 1000000",
        value=litres,
        unit="l",
        rule="both bores, full",
    )
    return PieceMass(
        mark=piece.mark,
        water=water,
        dry=Figure(
            name=f"mass of {piece.mark}, dry",
            formula=f"{metal:.2f} x {plain(piece.cut_length_mm)} x {rho:g} / 1000000000",
            value=dry,
            unit="kg",
            rule="section (outline less hollows) x length x density",
        ),
        filled=Figure(
            name=f"mass of {piece.mark}, filled",
            formula=f"{dry:.{3 if few else 6}f} + {litres:.{4 if few else 7}f} x {density_kg_per_m3:.2f} / 1000",
            value=dry + litres * density_kg_per_m3 / 1000.0,
            unit="kg",
            rule="aluminium and water",
        ),
    )


def run_content(run_id: str, stretches: Sequence[Stretch]) -> Figure:
    """Water in a run from spigot to spigot: every stretch of both waterways."""
    litres = WATERWAYS * sum(s.volume_mm3 for s in stretches) * 1e-6
    by_kind: dict[str, float] = {}
    for stretch in stretches:
        kind = "bores" if stretch.what == "bore" else "fittings"
        by_kind[kind] = by_kind.get(kind, 0.0) + WATERWAYS * stretch.volume_mm3 * 1e-6
    text = " + ".join(f"{value:.4f}" for value in by_kind.values())
    return Figure(
        name=f"water in run {run_id}",
        formula=text,
        value=litres,
        unit="l",
        rule=f"section x length, both waterways: in {', in '.join(by_kind)}",
    )
