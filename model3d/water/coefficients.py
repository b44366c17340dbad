"""Loss coefficients of bends, sudden changes of section and chambers, each with the sum that a person can do again.

They come from the fluids library (Rennels), loaded when first asked for.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from model3d.figures import Figure, plain
from model3d.geometry.outline import Obround
from model3d.water.waterway import Stretch, hydraulic_diameter_mm


def coefficients_of(stretch: Stretch, before: Stretch | None, reynolds: float, factor: float) -> Iterator[Figure]:
    """K of a stretch: of the change of section on the way in, of its bend, of the chambers; by the velocity in it."""
    where = f"{stretch.part}, {stretch.what}"
    if stretch.from_chamber:
        k = entrance_k()
        yield _coefficient("entrance", where, f"{k:g}", k, "sharp entrance from a chamber (Rennels)")
    elif before is not None and not _alike(before.shape, stretch.shape):
        k = section_change_k(before.shape, stretch.shape)
        text, rule = _section_change_sum(before.shape.area_mm2, stretch.shape.area_mm2)
        yield _coefficient("change of section", where, text, k, rule)
    if stretch.turn_deg:
        across = hydraulic_diameter_mm(stretch.shape)
        k = bend_k(stretch.turn_deg, stretch.bend_radius_mm, across, reynolds, factor)
        text = _bend_sum(stretch.turn_deg, stretch.bend_radius_mm / across, factor)
        yield _coefficient("bend", where, text, k, "smooth bend, its own friction included (Rennels)")
    if stretch.to_chamber:
        yield _coefficient("exit", where, "1", 1.0, "all the dynamic pressure is lost in a chamber")


def _coefficient(kind: str, where: str, formula: str, value: float, rule: str) -> Figure:
    return Figure(name=f"K of the {kind}, {where}", formula=formula, value=value, unit="", rule=rule)


def _section_change_sum(before_mm2: float, after_mm2: float) -> tuple[str, str]:
    if after_mm2 > before_mm2:
        rule = "sudden widening, by the velocity after it (Borda and Carnot)"
        return f"({after_mm2:.2f} / {before_mm2:.2f} - 1)^2", rule
    share = math.sqrt(after_mm2 / before_mm2)
    jet = 1.0 + 0.622 * (1.0 - 0.215 * share**2 - 0.785 * share**5)
    rule = "sudden narrowing (Rennels), diameters of equal area"
    return f"0.0696 x (1 - {share:.5f}^5) x {jet:.5f}^2 + ({jet:.5f} - 1)^2", rule


def _bend_sum(turn_deg: float, bend: float, factor: float) -> str:
    turn = math.radians(turn_deg)
    half = f"sin({plain(turn_deg)} / 2)"
    return (
        f"{factor:.6f} x {turn:.5f} x {bend:.4f} + (0.1 + 2.4 x {factor:.6f}) x {half}"
        f" + 6.6 x {factor:.6f} x (sqrt({half}) + {half}) / {bend:.4f}^{4.0 * turn / math.pi:.5f}"
    )


def _alike(one: Obround, other: Obround) -> bool:
    return math.isclose(one.area_mm2, other.area_mm2, rel_tol=1e-9)


def bend_k(turn_deg: float, radius_mm: float, across_mm: float, reynolds: float, factor: float | None = None) -> float:
    """Loss coefficient of a smooth bend, its own friction included (Rennels)."""
    from fluids.fittings import bend_rounded

    return float(bend_rounded(Di=across_mm / 1000.0, angle=turn_deg, rc=radius_mm / 1000.0, Re=reynolds, fd=factor))


def entrance_k() -> float:
    """Loss coefficient of a sharp entrance (Rennels)."""
    from fluids.fittings import entrance_sharp

    return float(entrance_sharp())


def section_change_k(before: Obround, after: Obround) -> float:
    """Loss coefficient of a sudden change of section, by the velocity after it (Rennels; Borda and
    Carnot).
    """
    one, two = (2.0 * math.sqrt(s.area_mm2 / math.pi) / 1000.0 for s in (before, after))
    if math.isclose(one, two, rel_tol=1e-9):
        return 0.0
    from fluids.fittings import contraction_sharp, diffuser_sharp

    if two < one:
        return float(contraction_sharp(Di1=one, Di2=two))
    return float(diffuser_sharp(Di1=one, Di2=two)) * (two / one) ** 4
