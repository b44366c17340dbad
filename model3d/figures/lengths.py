"""Numbers as people read them: millimetres, or feet and inches."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal

Units = Literal["mm", "ft-in"]
MM_PER_INCH = Fraction("25.4")  # international yard and pound agreement, 1959
TAPE_PARTS = 32


def plain(value: float, decimals: int = 2) -> str:
    """A number with up to so many decimals and no empty ones, as it stands in a sum."""
    text = f"{value:.{decimals}f}".rstrip("0").rstrip(".")
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


_LENGTH = r"-?\d+(?:\.\d+)?"
_IN_TEXT = re.compile(rf"(?<![\w.])((?:{_LENGTH}(?:, | to | and | by | or ))*)({_LENGTH}) mm\b(?! per\b)")


def in_units(text: str, units: Units) -> str:
    """A sentence with its lengths in the units asked for: ``8 mm``, ``12 to 16 mm``. Sums that carry no unit, areas and
    volumes stay as they are.
    """
    if units == "mm":
        return text
    return _IN_TEXT.sub(
        lambda m: re.sub(_LENGTH, lambda n: feet_inches(float(n[0])), m[1]) + feet_inches(float(m[2])), text
    )


def length(mm: float, units: Units, decimals: int = 1) -> str:
    """A length without its unit in millimetres, as tables have it; with it in feet and inches."""
    return feet_inches(mm) if units == "ft-in" else f"{mm:.{decimals}f}"


def shown(value: float, unit: str, units: Units) -> str:
    """A figure's value in its unit; lengths in the units asked for."""
    if unit == "mm" and units == "ft-in":
        return f"{feet_inches(value)} ({value:.2f} mm)"
    small = abs(value) < 1.0 and unit != "mm"
    return f"{value:.4g} {unit}".rstrip() if small else f"{value:.2f} {unit}".rstrip()
