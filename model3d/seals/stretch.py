"""The ring on its groove's floor: its stretch, and the section it has left."""

from __future__ import annotations

import math
from dataclasses import dataclass

from model3d.families.family import Family
from model3d.families.specs import bore_opening
from model3d.figures import Figure
from model3d.seals.ring_sizes import inside_tolerance_mm, nearest_inside_mm

WANTED_STRETCH = 0.02
RULE = "stretch goes by the groove's perimeter"


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A family's ring stretched over its groove's floor: nominal, and at the ends of the ring's tolerance.

    ``inside`` is None for a section without a series and without a diameter given; then there is no
    stretch to know, and the section is taken as free.
    """

    perimeter: Figure
    inside: Figure | None
    nominal: Figure | None
    least: Figure | None
    most: Figure | None

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Its figures in order."""
        return tuple(f for f in (self.perimeter, self.inside, self.nominal, self.least, self.most) if f is not None)


def stretch_of(family: Family) -> Stretch:
    """The stretch of a family's rings."""
    floor = bore_opening(family).grown(-family.oring.gland_depth_mm)
    around = floor.perimeter_mm
    perimeter = Figure(
        name="groove floor, perimeter",
        formula=f"pi x {min(floor.width_mm, floor.height_mm):g} + 2 x {floor.straight_mm:g}",
        value=around,
        unit="mm",
        rule="obround: two half rounds and two straights",
    )
    given = family.oring.inside_diameter_mm
    wanted = around / math.pi / (1.0 + WANTED_STRETCH)
    inside = nearest_inside_mm(family.oring.section_mm, wanted) if given is None else given
    if inside is None:
        return Stretch(perimeter=perimeter, inside=None, nominal=None, least=None, most=None)
    off = inside_tolerance_mm(inside)
    source = "as the family gives it" if given is not None else f"ISO 3601-1 size nearest to {wanted:.2f}, from memory"
    return Stretch(
        perimeter=perimeter,
        inside=Figure(name="free ring, inside diameter", formula=f"{inside:g}", value=inside, unit="mm", rule=source),
        nominal=_stretched("stretch", around, inside, ""),
        least=_stretched("least stretch", around, inside, f" + {off:.3f}", off),
        most=_stretched("most stretch", around, inside, f" - {off:.3f}", -off),
    )


def _stretched(name: str, around: float, inside: float, shown: str, off: float = 0.0) -> Figure:
    around_of = f"({inside:g}{shown})" if shown else f"{inside:g}"
    return Figure(
        name=name,
        formula=f"({around:.3f} / (pi x {around_of}) - 1) x 100",
        value=100.0 * (around / (math.pi * (inside + off)) - 1.0),
        unit="%",
        rule=RULE,
    )


def section_left(stretch: float) -> float:
    """The share of its section that a ring keeps when stretched by a share e: (1 + e)^-1/2, its volume
    kept.
    """
    return 1.0 / math.sqrt(1.0 + max(stretch, 0.0))
