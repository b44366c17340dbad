"""O-rings of the families against figures of ISO 3601 read in a copy."""

from __future__ import annotations

import math

import pytest

from model3d.families.family import Family
from model3d.families.iso3601 import RING_SIZES, lead_in_least_mm, ring_size
from model3d.families.reading import find_family
from model3d.sources import read_typed

# ISO 3601-1 sections and tolerances; ISO 3601-2 static radial groove depth and width, the squeeze and fill they give,
# and the least lead-in at 15 and at 20 degrees. Read in a copy.
ISO_3601 = (
    (1.78, 0.08, 1.30, 2.40, 0.270, 0.798, 2.5, 2.0),
    (2.62, 0.09, 2.00, 3.60, 0.237, 0.749, 3.5, 2.5),
    (3.53, 0.10, 2.70, 4.80, 0.235, 0.755, 4.5, 3.5),
)


@pytest.mark.parametrize(("row", "size"), list(zip(ISO_3601, RING_SIZES, strict=True)))
def test_sizes_are_those_of_the_standard(row: tuple[float, ...], size: object) -> None:
    """Sections, tolerances, grooves and lead-ins are those of ISO 3601-1 and -2."""
    section, tolerance, depth, width, _, _, at_15, at_20 = row
    found = ring_size(section)
    assert found is not None
    assert found == size
    assert (found.section_mm, found.tolerance_mm) == (section, tolerance)
    assert (found.groove_depth_mm, found.groove_width_mm) == (depth, width)
    assert [lead_in_least_mm(found, angle) for angle in (15.0, 15.01, 20.0, 20.01)] == [at_15, at_20, at_20, None]


@pytest.mark.parametrize("row", ISO_3601)
def test_squeeze_and_fill_of_the_standard_grooves(row: tuple[float, ...]) -> None:
    """Squeeze is (section - depth) / section, fill the ring's circle over the groove: the standard's own figures."""
    section, _, depth, width, squeeze, fill, _, _ = row
    assert (section - depth) / section == pytest.approx(squeeze, abs=5e-4)
    assert math.pi * section**2 / 4.0 / (depth * width) == pytest.approx(fill, abs=5e-4)


@pytest.mark.parametrize(("name", "row"), list(zip(("a-square", "b-moulded", "c-low"), ISO_3601, strict=True)))
def test_the_families_use_three_different_standard_rings(name: str, row: tuple[float, ...]) -> None:
    """Each packaged family has a standard ring in a standard groove, with at least the standard's lead-in."""
    family = read_typed(find_family(name), Family)
    oring, mouth = family.oring, family.section.lead_in
    assert (oring.section_mm, oring.section_tolerance_mm, oring.gland_depth_mm, oring.groove_width_mm) == row[:4]
    assert math.degrees(math.atan2(mouth.radial_mm, mouth.length_mm)) < 15.0
    assert mouth.length_mm >= row[6]


def test_a_section_between_two_sizes_asks_for_the_larger_lead_in() -> None:
    """A section between two of the standard is held to the next larger; past the largest there is no figure."""
    assert ring_size(2.0) == RING_SIZES[1]
    assert ring_size(1.5) == RING_SIZES[0]
    assert ring_size(3.6) is None
