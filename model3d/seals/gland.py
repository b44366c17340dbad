"""A family's gland: squeeze, fill and lead-in, nominal and at the tolerance limits (ISO 3601-2, static
radial).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from model3d.families.family import Family
from model3d.families.iso3601 import lead_in_least_mm, ring_size
from model3d.figures import Figure, plain
from model3d.seals.stretch import Stretch, section_left

SQUEEZE_RULE = "(section - gland depth) / section"
FILL_RULE = "ring's section over gland depth x width"
LEFT_RULE = "section / sqrt(1 + stretch), volume kept"


@dataclass(frozen=True, slots=True, kw_only=True)
class Mouth:
    """The reamed mouth of a bore: how far the free ring stands out of the bore, the angle, the length and the
    length asked, None where ISO 3601-2 gives none: past 20 degrees, or past its sizes.
    """

    stands_out: Figure
    angle: Figure
    length: Figure
    asked: Figure | None

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Its figures in order."""
        return (self.stands_out, self.angle, self.length, *(() if self.asked is None else (self.asked,)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Gland:
    """The figures of a gland. Thin is the least section most stretched, thick the greatest least
    stretched.

    ``squeeze_hard_over`` is what is left on the slack side with the leg hard against the other side of its
    bore.
    """

    thin: Figure
    thick: Figure
    squeeze: Figure
    squeeze_least: Figure
    squeeze_most: Figure
    squeeze_hard_over: Figure
    fill: Figure
    fill_most: Figure
    mouth: Mouth

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Its figures in order."""
        return (self.thin, self.thick, *self.squeezes_and_fills, *self.mouth.figures)

    @property
    def squeezes_and_fills(self) -> tuple[Figure, ...]:
        """Squeeze in each case, then fill."""
        squeezes = (self.squeeze, self.squeeze_least, self.squeeze_most, self.squeeze_hard_over)
        return (*squeezes, self.fill, self.fill_most)


def gland_of(family: Family, stretch: Stretch) -> Gland:
    """A family's gland with its ring stretched over the groove."""
    oring = family.oring
    section, off, depth, loose = (
        oring.section_mm,
        oring.section_tolerance_mm,
        oring.gland_depth_mm,
        oring.gland_tolerance_mm,
    )
    thin = _section("thin ring", section, -off, stretch.most)
    thick = _section("thick ring", section, off, stretch.least)
    play = (family.section.waterways[0].width_mm - family.leg.width_mm) / 2.0
    return Gland(
        thin=thin,
        thick=thick,
        squeeze=_squeeze("squeeze", section, depth, "free section, nominal"),
        squeeze_least=_squeeze("least squeeze", thin.value, depth + loose, "thin ring, deepest gland"),
        squeeze_most=_squeeze("most squeeze", thick.value, depth - loose, "thick ring, shallowest gland"),
        squeeze_hard_over=_squeeze(
            "squeeze with the leg hard over",
            thin.value,
            depth + loose + play,
            f"thin ring, leg's play of {play:g} to one side",
        ),
        fill=_fill("gland fill", section, depth, oring.groove_width_mm),
        fill_most=_fill("most gland fill", thick.value, depth - loose, oring.groove_width_mm),
        mouth=_mouth(family),
    )


def _section(name: str, section: float, off: float, stretch: Figure | None) -> Figure:
    share = 0.0 if stretch is None else stretch.value / 100.0
    sign = "-" if off < 0 else "+"
    return Figure(
        name=name,
        formula=f"({section:g} {sign} {abs(off):g}) / sqrt(1 + {max(share, 0.0):.5f})",
        value=(section + off) * section_left(share),
        unit="mm",
        rule=LEFT_RULE,
    )


def _squeeze(name: str, section: float, depth: float, case: str) -> Figure:
    return Figure(
        name=name,
        formula=f"({plain(section, 4)} - {plain(depth, 4)}) / {plain(section, 4)} x 100",
        value=100.0 * (section - depth) / section,
        unit="%",
        rule=f"{SQUEEZE_RULE}; {case}",
    )


def _fill(name: str, section: float, depth: float, width: float) -> Figure:
    return Figure(
        name=name,
        formula=f"pi / 4 x {plain(section, 4)}^2 / ({plain(depth, 4)} x {width:g}) x 100",
        value=100.0 * math.pi * section**2 / 4.0 / (depth * width),
        unit="%",
        rule=FILL_RULE,
    )


def _mouth(family: Family) -> Mouth:
    """The reamed mouth: wide enough for the free ring, long enough at its angle."""
    oring, mouth = family.oring, family.section.lead_in
    thickest = oring.section_mm + oring.section_tolerance_mm
    depth = oring.gland_depth_mm - oring.gland_tolerance_mm
    angle = math.degrees(math.atan2(mouth.radial_mm, mouth.length_mm))
    size = ring_size(oring.section_mm)
    least = None if size is None else lead_in_least_mm(size, angle)
    asked = None
    if size is not None and least is not None:
        asked = Figure(
            name="lead-in asked",
            formula=f"{least:g}",
            value=least,
            unit="mm",
            rule=f"ISO 3601-2, section {size.section_mm:g}, up to {15 if angle <= 15.0 else 20} degrees",
        )
    return Mouth(
        stands_out=Figure(
            name="ring stands out of the bore",
            formula=f"{thickest:g} - {depth:g}",
            value=thickest - depth,
            unit="mm",
            rule=f"the mouth is {mouth.radial_mm:g} wider all round",
        ),
        angle=Figure(
            name="lead-in angle",
            formula=f"atan({mouth.radial_mm:g} / {mouth.length_mm:g})",
            value=angle,
            unit="deg",
            rule="to the bore's axis; at most 20",
        ),
        length=Figure(
            name="lead-in", formula=f"{mouth.length_mm:g}", value=mouth.length_mm, unit="mm", rule="as reamed"
        ),
        asked=asked,
    )
