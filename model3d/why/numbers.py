"""Numbers as an explanation writes them: millimetres, or feet and inches."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

Units = Literal["mm", "ft-in"]
MM_PER_INCH = Fraction("25.4")  # international yard and pound agreement, 1959
TAPE_PARTS = 32


def plain(value: float) -> str:
    """A number with up to two decimals and no empty ones, as it stands in a sum."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def feet_inches(mm: float, parts: int = TAPE_PARTS) -> str:
    """A length in feet and inches to the nearest 1/``parts`` of an inch: ``11 ft 5 23/32 in``. Feet of nothing are
    left out.
    """
    sign = "-" if mm < 0 else ""
    steps = round(abs(Fraction(mm)) / MM_PER_INCH * parts)
    feet, rest = divmod(steps, 12 * parts)
    whole, left = divmod(rest, parts)
    part = Fraction(left, parts)
    inches = " ".join([str(whole)] * bool(whole or not left) + [str(part)] * bool(left))
    return f"{sign}{feet} ft {inches} in" if feet else f"{sign}{inches} in"


def shown(value: float, unit: str, units: Units) -> str:
    """A figure's value in its unit; lengths in the units asked for."""
    if unit == "mm" and units == "ft-in":
        return f"{feet_inches(value)} ({value:.2f} mm)"
    small = abs(value) < 1.0 and unit != "mm"
    return f"{value:.4g} {unit}".rstrip() if small else f"{value:.2f} {unit}".rstrip()
