"""Sections of the families against shapely: areas, walls, and how brackets and trims meet them."""

from __future__ import annotations

import pytest
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry

from model3d.families.family import Family
from model3d.families.reading import find_family
from model3d.sources import read_typed

from .outlines_by_hand import metal, polygon, stadium
from .variants import NAMES, plain


def family(name: str) -> Family:
    """A packaged family."""
    return read_typed(find_family(name), Family)


def placed(name: str, out_mm: float = 0.0, up_mm: float = 0.0) -> BaseGeometry:
    """The metal in place on the wall, moved out and up."""
    section = plain(name)["section"]
    return translate(metal(section), section["stand_off_mm"] + out_mm, section["floor_gap_mm"] + up_mm)


@pytest.mark.parametrize("name", NAMES)
def test_the_metal_area_is_what_fine_facets_give(name: str) -> None:
    """The closed form of the section's metal area agrees with a very finely faceted section to 1e-6."""
    spec = family(name).section.spec()
    shape = metal(plain(name)["section"])
    assert shape.geom_type == "Polygon"
    assert spec.metal_area_mm2 == pytest.approx(shape.area, rel=1e-6)
    assert spec.outline.area_mm2 == pytest.approx(polygon(plain(name)["section"]["outline"]).area, rel=1e-6)


@pytest.mark.parametrize("name", NAMES)
def test_the_metal_is_one_piece_with_walls_of_a_millimetre(name: str) -> None:
    """The section is one piece of metal, and still one when half a millimetre is taken off all round: no thinner
    wall."""
    thinned = metal(plain(name)["section"]).buffer(-0.499)
    assert thinned.geom_type == "Polygon"
    assert len(thinned.interiors) == len(plain(name)["section"]["chambers"]) + 2


@pytest.mark.parametrize("name", NAMES)
def test_a_reamed_mouth_stays_in_the_metal(name: str) -> None:
    """Reaming a waterway takes metal only: the mouth touches no hollow and not the outside."""
    section = plain(name)["section"]
    for way in section["waterways"]:
        ring = stadium(way, section["lead_in"]["radial_mm"]).difference(stadium(way))
        assert metal(section).buffer(1e-6).contains(ring)


@pytest.mark.parametrize("name", NAMES)
def test_piece_and_bracket_touch_where_they_must_and_overlap_nowhere(name: str) -> None:
    """In place the piece rests on the ramp and against the plate and overlaps nothing; drawn 1 mm out the latch holds
    it."""
    bracket = polygon(plain(name)["bracket"]["outline"])
    assert placed(name).intersection(bracket).area < 1e-6
    assert placed(name).intersection(bracket).length > 40.0
    assert placed(name, out_mm=1.0).intersection(bracket).area > 0.1


@pytest.mark.parametrize("name", NAMES)
def test_the_ramp_stays_under_the_way_of_the_piece(name: str) -> None:
    """On the raise the piece meets nothing but the ramp it stands on, on the press nothing but the latch."""
    data = plain(name)["bracket"]
    bracket, p, lift = polygon(data["outline"]), data["press_mm"], data["lift_mm"]
    middle = family(name).section.middle_v_mm
    for share in (0.0, 0.1, 0.25, 0.5, 0.75, 0.9, 1.0):
        raised = placed(name, out_mm=p, up_mm=-lift * (1.0 - share)).intersection(bracket)
        pressed = placed(name, out_mm=p * (1.0 - share)).intersection(bracket)
        assert raised.area < 1e-6
        assert all(part.bounds[1] > middle for part in getattr(pressed, "geoms", [pressed]) if part.area > 1e-6)


@pytest.mark.parametrize("name", NAMES)
def test_the_latch_reaches_as_far_as_the_family_says(name: str) -> None:
    """The part of the bracket above the middle of the piece reaches exactly the declared distance from the wall."""
    data = plain(name)["bracket"]
    upper = [u for u, v in polygon(data["outline"]).exterior.coords if v > family(name).section.middle_v_mm]
    assert max(upper) == pytest.approx(data["latch_reach_mm"], abs=1e-9)


@pytest.mark.parametrize("name", NAMES)
def test_the_trim_lies_on_the_face_and_stands_proud_of_it(name: str) -> None:
    """The trim overlaps neither piece nor bracket, lies along the face for most of its height, and is 2 mm thick."""
    trim = polygon(plain(name)["trim"]["outline"])
    face = placed(name)
    assert trim.intersection(face).area < 1e-3
    assert trim.intersection(face.buffer(1e-3)).area > 0.9e-3 * plain(name)["section"]["height_mm"]
    assert trim.intersection(polygon(plain(name)["bracket"]["outline"])).area == 0.0
    assert trim.buffer(-0.99).area > 0.0
    assert trim.bounds[2] == pytest.approx(face.bounds[2] + 2.0)


@pytest.mark.parametrize(("name", "arcs"), [("a-square", 2), ("b-moulded", 5), ("c-low", 2)])
def test_the_face_has_its_mouldings(name: str, arcs: int) -> None:
    """A square edge is eased, the moulded face has a torus bead and an ogee of two arcs tangent to each other."""
    edges = plain(name)["section"]["outline"]["edges"]
    assert sum("through" in edge for edge in edges) == arcs
