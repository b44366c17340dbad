"""Lengths with units written out."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model3d.sources import length_mm

# 1 in = 25.4 mm, 1 ft = 12 in: international yard and pound agreement, 1959 (from memory).
SAID = {
    "3200 mm": 3200.0,
    "320 cm": 3200.0,
    "3.2 m": 3200.0,
    "3.2m": 3200.0,
    " 1.005 m ": 1005.0,
    "3 m 20 cm": 3200.0,
    "1 in": 25.4,
    "6 1/2 in": 165.1,
    "6-1/2 in": 165.1,
    "1/2 in": 12.7,
    "10 ft": 3048.0,
    "10 ft 6 in": 3200.4,
    "10' 6\"": 3200.4,
    "10'6\"": 3200.4,
    "10'-6\"": 3200.4,
    "10′ 6 1/4″": 3206.75,
    "10 FT 6 IN": 3200.4,
    "1 foot 1 inch": 330.2,
    "-10 ft 6 in": -3200.4,
    "-0.5 m": -500.0,
    "+2 m": 2000.0,
}


@pytest.mark.parametrize(("text", "expected"), SAID.items())
def test_a_length_with_its_unit_is_read_to_millimetres(text: str, expected: float) -> None:
    """A length takes mm, cm, m, ft and in, fractions of an inch, and the larger unit before the smaller."""
    assert length_mm(text) == expected


BAD = {
    "3 mtr": "unknown unit 'mtr'",
    "3 M": "unknown unit 'M'",
    "3 furlongs": "unknown unit 'furlongs'",
    "3 fot": "did you mean 'foot'",
    "3200": "without a unit",
    "012": "without a unit",
    "wide": "is not a length",
    "3,2 m": "is not a length",
    "3 m 5": "is not a length",
    "m": "is not a length",
    "--3 m": "is not a length",
    "3 m -20 cm": "is not a length",
    "": "empty",
    "1/0 in": "divides by nought",
    "6 in 10 ft": "does not follow",
    "10 ft 13 in": "does not follow",
    "10.5 ft 3 in": "does not follow",
    "1 m 1 m": "does not follow",
    "1 ft 10 cm": "mixes metric and imperial",
    "1e3 mm": "unknown unit 'e'",
    "nan mm": "is not a length",
}


@pytest.mark.parametrize(("text", "said"), BAD.items())
def test_what_is_no_length_is_refused_with_its_reason(text: str, said: str) -> None:
    """A bad unit or a text that is no length is refused, and the message says why."""
    with pytest.raises(ValueError, match=r".") as caught:
        length_mm(text)
    assert said in str(caught.value)


TENTHS = st.integers(min_value=-(10**7), max_value=10**7)


@given(TENTHS, st.sampled_from([("mm", 1), ("cm", 10), ("m", 1000)]))
def test_metric_lengths_survive_the_way_out_and_back(tenths: int, unit: tuple[str, int]) -> None:
    """A length of whole tenths of a millimetre, written in any metric unit, is read back as itself."""
    name, size = unit
    digits = {1: 1, 10: 2, 1000: 4}[size]
    whole, part = divmod(abs(tenths), 10**digits)
    text = f"{'-' if tenths < 0 else ''}{whole}.{part:0{digits}d} {name}"
    assert length_mm(text) == tenths / 10


@given(
    feet=st.integers(min_value=0, max_value=3000),
    inches=st.integers(min_value=0, max_value=11),
    sixteenths=st.integers(min_value=0, max_value=15),
    marks=st.sampled_from([(" ft", " in"), ("'", '"'), ("′", "″")]),
)
def test_feet_and_inches_survive_the_way_out_and_back(
    feet: int, inches: int, sixteenths: int, marks: tuple[str, str]
) -> None:
    """Feet, inches and sixteenths mean 304.8, 25.4 and 25.4/16 mm, summed without rounding on the way."""
    text = f"{feet}{marks[0]} {inches} {sixteenths}/16{marks[1]}"
    exact = Fraction(254, 10) * (12 * feet + inches + Fraction(sixteenths, 16))
    assert length_mm(text) == float(exact)
