"""Lengths as people write them, read to millimetres: ``3200``, ``3.2 m``, ``320 cm``, ``10 ft 6 in``, ``6 1/2
in``.

A plain number is millimetres. 1 in = 25.4 mm and 1 ft = 304.8 mm exactly (international yard and pound
agreement, 1959). The sums are exact (fractions) and rounded once.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Annotated, Any

from pydantic import Field, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from model3d.sources.faults import near_miss

if TYPE_CHECKING:
    from fractions import Fraction

_UNITS = {
    "mm": "1",
    "cm": "10",
    "m": "1000",
    "in": "25.4",
    "inch": "25.4",
    "inches": "25.4",
    "ft": "304.8",
    "foot": "304.8",
    "feet": "304.8",
    '"': "25.4",
    "'": "304.8",
    "″": "25.4",
    "′": "304.8",
    "”": "25.4",
    "’": "304.8",
}
_IMPERIAL = frozenset(unit for unit, size in _UNITS.items() if size in ("25.4", "304.8"))
_FEET = frozenset(unit for unit, size in _UNITS.items() if size == "304.8")
_NUMBER = r"(?:[0-9]+[ -][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
_PART = re.compile(rf"\s*(-?)\s*({_NUMBER})\s*([a-zA-Z]+|[\"'″′”’])")
_ANY_NUMBER = re.compile(rf"[-+]?\s*{_NUMBER}\s*\Z")
_SPELT = re.compile(r"(milli|centi)?met(?:re|er)s?\Z", re.IGNORECASE)  # units spelt out are not read, but known
_COMMA = re.compile(r"[0-9]\s*,\s*[0-9]")
_LONGEST_MM = 1_000_000.0
_WRITTEN_HOW = "write millimetres as a plain number, or a number and its unit, such as 3.2 m, 320 cm or 10 ft 6 in"


def length_mm(text: str) -> float:
    """The length a text means, in millimetres. Raises ValueError that says what is wrong with it."""
    rest = text.strip()
    sign = -1 if rest[:1] in ("-", "−") else 1
    rest = rest[1:] if rest[:1] in ("-", "−", "+") else rest
    if _COMMA.search(rest):
        raise ValueError(f"'{text}' is not a length: decimals take a point, not a comma, and thousands take neither")
    if _ANY_NUMBER.match(rest):
        raise ValueError(f"'{text}' is text without a unit: {_WRITTEN_HOW}")
    parts: list[tuple[Fraction, str]] = []
    while rest.strip():
        found = _PART.match(rest)
        if not found or (found[1] and not (parts and parts[-1][1] in _FEET)):
            raise ValueError(f"'{text}' is not a length: {_WRITTEN_HOW}")
        parts.append((_number(found[2], text), _unit(found[3], text)))
        rest = rest[found.end() :]
    if not parts:
        raise ValueError(f"an empty text is not a length: {_WRITTEN_HOW}")
    _refuse_odd_parts(parts, text)
    total = sum(number * _size(unit) for number, unit in parts)
    return sign * float(total)


def _size(unit: str) -> Fraction:
    from fractions import Fraction

    return Fraction(_UNITS[unit])


def _number(written: str, text: str) -> Fraction:
    from fractions import Fraction

    try:
        return sum((Fraction(part) for part in re.split("[ -]", written)), Fraction(0))
    except ZeroDivisionError:
        raise ValueError(f"'{text}' divides by nought") from None


def _unit(written: str, text: str) -> str:
    unit = written if written in _UNITS else written.lower()
    if unit not in _UNITS or (unit == "m" and written == "M"):
        spelt = _SPELT.match(written)
        near = f"; did you mean '{(spelt[1] or ' ')[0].strip().lower()}m'?" if spelt else near_miss(written, _UNITS)
        raise ValueError(f"unknown unit '{written}' in '{text}'{near}: {_WRITTEN_HOW}")
    return unit


def _refuse_odd_parts(parts: list[tuple[Fraction, str]], text: str) -> None:
    """Parts must go from the larger unit to the smaller, within one system, and each fit under the one before
    it.
    """
    for (number, unit), (less, smaller) in pairwise(parts):
        if (unit in _IMPERIAL) != (smaller in _IMPERIAL):
            raise ValueError(f"'{text}' mixes metric and imperial units")
        if number.denominator != 1 or _size(smaller) >= _size(unit) or less * _size(smaller) >= _size(unit):
            raise ValueError(f"'{text}' is not a length: '{smaller}' does not follow on from '{unit}' so")


def _from_written(value: Any) -> Any:
    """What pydantic is given before it asks for a number. Text is read as a length."""
    if isinstance(value, str):
        try:
            value = length_mm(value)
        except ValueError as error:
            raise PydanticCustomError("length", "{reason}", {"reason": str(error)}) from None
    if isinstance(value, int | float) and not isinstance(value, bool) and not abs(value) <= _LONGEST_MM:
        raise PydanticCustomError("length", "a length of more than a kilometre")
    return value


@dataclass(frozen=True, slots=True)
class _AsLength:
    """The annotation that lets a number of millimetres be written with its unit."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_before_validator_function(_from_written, handler(source))

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        described = dict(handler(schema))
        described["type"] = ["number", "string"]
        described["description"] = "A length: millimetres, or text with its unit (3.2 m, 320 cm, 10 ft 6 in)."
        described["pattern"] = "[0-9]\\s*(mm|cm|m|in|inch|inches|ft|foot|feet|[\"'″′”’])\\s*$"
        return described


Length = Annotated[float, _AsLength()]
"""Any length or coordinate, mm."""
Size = Annotated[float, Field(gt=0), _AsLength()]
"""A length that must be more than nothing, mm."""
Distance = Annotated[float, Field(ge=0), _AsLength()]
"""A length that may be nothing but not negative, mm."""
