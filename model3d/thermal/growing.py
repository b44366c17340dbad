"""Which ends are held, and how far each piece grows and shrinks."""

from __future__ import annotations

from collections.abc import Sequence

from model3d.families.family import Family
from model3d.figures import Figure, plain
from model3d.layout import Layout, Piece, RunLayout
from model3d.layout.values import EndJoint
from model3d.rooms import Temperatures
from model3d.thermal.values import EndHold, Growth

_WHY: dict[EndJoint, EndHold] = {
    "valve": EndHold(held=True, why="the valve end holds it"),
    "elbow-short": EndHold(held=True, why="its clip holds it to the short legs, which cannot move sideways"),
    "elbow-long": EndHold(held=False, why="the long legs slide in it"),
    "link": EndHold(held=False, why="the hoses give"),
    "turn-back": EndHold(held=False, why="the turn-back end moves with it"),
    "return": EndHold(held=False, why="the return end moves with it"),
    "coupler": EndHold(held=False, why="the coupler moves with it"),
    "none": EndHold(held=False, why="nothing stands against it"),
}
_RETURN_FIXED = EndHold(held=True, why="the pipework at the return end is fixed")


def growths_of(family: Family, temperatures: Temperatures, layout: Layout) -> tuple[Growth, ...]:
    """The growth of every piece of every run, coupled pieces as one, and of every dry piece."""
    found = [growth_of(family, temperatures, run, group) for run in layout.runs for group in coupled_groups(run)]
    return tuple(found) + tuple(_dry(family, temperatures, piece) for piece in layout.dry_pieces)


def coupled_groups(run: RunLayout) -> tuple[tuple[Piece, ...], ...]:
    """A run's pieces in order, those that couplers make one together."""
    groups: list[list[Piece]] = []
    joined = {j.later for j in run.joints if j.kind == "coupler"}
    for piece in run.pieces:
        if piece.mark in joined and groups:
            groups[-1].append(piece)
        else:
            groups.append([piece])
    return tuple(tuple(g) for g in groups)


def growth_of(family: Family, temperatures: Temperatures, run: RunLayout, group: Sequence[Piece]) -> Growth:
    """One piece, or coupled pieces as one: where it is held, and its growth in each state."""
    near = _WHY[group[0].start.joint]
    far = _WHY[group[-1].end.joint]
    if group[-1].end.joint == "return" and run.return_fixed:
        far = _RETURN_FIXED
    length = _length(group)
    t = temperatures
    mean = _grown(family, length, "at the mean water temperature", t.mean_c, t.install_c)
    hot = _grown(family, length, "at the flow temperature", t.flow_c, t.install_c)
    frost = _grown(family, length, "at the frost set-back", t.frost_c, t.install_c)
    force = _force(family, group[0], t) if near.held and far.held else None
    return Growth(
        marks=tuple(p.mark for p in group),
        near=near,
        far=far,
        length=length,
        mean=mean,
        hot=hot,
        frost=frost,
        force=force,
    )


def _dry(family: Family, temperatures: Temperatures, piece: Piece) -> Growth:
    """A dry piece warms by the family's rise above the installation, no more."""
    length, install = _length((piece,)), temperatures.install_c
    warm = install + family.dry_temperature_rise_k
    grown = _grown(family, length, "in the warm room", warm, install)
    return Growth(
        marks=(piece.mark,),
        near=_WHY["none"],
        far=_WHY["none"],
        length=length,
        mean=grown,
        hot=grown,
        frost=_grown(family, length, "at the frost set-back", temperatures.frost_c, install),
    )


def _length(group: Sequence[Piece]) -> Figure:
    if len(group) == 1:
        value = group[0].cut_length_mm
        return Figure(
            name=f"length of {group[0].mark}",
            formula=plain(value),
            value=value,
            unit="mm",
            rule="cut length",
        )
    value = abs(group[-1].far_mm - group[0].near_mm)
    gaps = value - sum(p.cut_length_mm for p in group)
    text = " + ".join(f"{plain(p.cut_length_mm)}" for p in group) + f" + {plain(gaps)}"
    name = f"length of {group[0].mark} to {group[-1].mark}"
    return Figure(
        name=name,
        formula=text,
        value=value,
        unit="mm",
        rule="coupled pieces move as one, with the gaps in their couplers",
    )


def _grown(family: Family, length: Figure, when: str, then_c: float, install_c: float) -> Figure:
    """dL = alpha L (T - T_install)."""
    alpha = family.material.expansion_per_k
    return Figure(
        name=f"growth {when}",
        formula=f"{alpha * 1e6:g}e-6 x {plain(length.value)} x ({then_c:g} - {install_c:g})",
        value=alpha * length.value * (then_c - install_c),
        unit="mm",
        rule=f"dL = alpha L (T - T_install), {family.material.name}",
    )


def _force(family: Family, piece: Piece, t: Temperatures) -> Figure:
    """E A alpha dT, for the greater of the two changes of temperature."""
    material, area = family.material, family.section.spec(heated=piece.heated).metal_area_mm2
    change = max(abs(t.flow_c - t.install_c), abs(t.frost_c - t.install_c))
    alpha = material.expansion_per_k
    formula = f"{material.elastic_modulus_mpa:g} x {area:.1f} x {alpha * 1e6:g}e-6 x {change:g} / 1000"
    return Figure(
        name="force if it is held at both ends",
        formula=formula,
        value=material.elastic_modulus_mpa * area * alpha * change / 1000.0,
        unit="kN",
        rule="E A alpha dT, straight and rigidly held",
    )
