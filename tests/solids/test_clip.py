"""The joint clip: volume, and eyes, tabs and slots where its spec has them."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model3d.geometry.outline import Obround
from model3d.parts.fittings import ClipSpec
from model3d.solids.clip import clip
from model3d.solids.sound import SolidError

from .probing import extent, metal_at, shells
from .square_edged import CLIP


@settings(max_examples=12)
@given(st.floats(0.8, 3.0), st.floats(1.0, 4.0), st.floats(3.0, 9.0), st.floats(6.0, 15.0))
def test_volume_is_plate_less_eyes_and_slots_with_tabs(
    thickness_mm: float, radius_mm: float, half_height_mm: float, tab_mm: float
) -> None:
    """A clip's metal is its rounded plate less eyes and slots, and its bevelled tabs."""
    spec = replace(
        CLIP,
        thickness_mm=thickness_mm,
        corner_radius_mm=radius_mm,
        tab_half_height_mm=half_height_mm,
        tab_length_mm=tab_mm,
    )
    assert clip(spec).Volume() == pytest.approx(spec.volume_mm3, rel=1e-9)


def test_two_tabs_and_two_slots_are_counted() -> None:
    """Each tab height and each nib height has its own tab and slot."""
    spec = replace(CLIP, tab_heights_mm=(-14.0, 14.0), nib=replace(CLIP.nib, heights_mm=(-12.0, 12.0)))
    assert clip(spec).Volume() == pytest.approx(spec.volume_mm3, rel=1e-9)


def test_the_plate_lies_on_the_cut_face_and_the_tab_reaches_into_the_piece() -> None:
    """The plate lies outside the cut face, x from -thickness to 0; the tab reaches its length into the piece
    on +y."""
    least, greatest = extent(clip(CLIP))
    assert least == pytest.approx((-1.5, -9.3, -49.0), abs=1e-3)
    assert greatest == pytest.approx((12.0, 9.35, 49.0), abs=1e-3)


def test_tabs_and_slots_stand_on_one_side_only() -> None:
    """Turned over, a clip differs: tab and slot are on +y, plain plate on -y."""
    solid = clip(CLIP)
    assert metal_at(solid, (6.0, 8.0, 0.0))
    assert not metal_at(solid, (6.0, -8.0, 0.0))
    assert not metal_at(solid, (-0.75, 4.0, 0.0))
    assert metal_at(solid, (-0.75, -4.0, 0.0))


@pytest.mark.parametrize("height_mm", [-35.0, 35.0])
def test_an_eye_stands_round_each_bore(height_mm: float) -> None:
    """Each waterway is free through the plate within the eye."""
    solid = clip(CLIP)
    assert not metal_at(solid, (-0.75, 6.39, height_mm))
    assert metal_at(solid, (-0.75, 6.41, height_mm))
    assert not metal_at(solid, (-0.75, 0.0, height_mm + 10.89))
    assert metal_at(solid, (-0.75, 0.0, height_mm + 10.91))


def test_the_slot_is_wider_than_the_nib_by_its_clearance() -> None:
    """The nib slot stands the clearance outside the nib all round."""
    solid = clip(CLIP)
    for y_mm, metal in ((2.29, True), (2.31, False), (5.89, False), (5.91, True)):
        assert metal_at(solid, (-0.75, y_mm, 0.0)) is metal
    for z_mm, metal in ((8.29, False), (8.31, True), (-8.29, False), (-8.31, True)):
        assert metal_at(solid, (-0.75, 4.0, z_mm)) is metal


def test_a_clip_is_the_same_upside_down() -> None:
    """Turned upside down about y with x, a clip fills the same room: its moment about z = 0 is nil."""
    assert clip(CLIP).Center().z == pytest.approx(0.0, abs=1e-9)


def test_a_clip_is_plain_planes_and_cylinders_in_one_skin() -> None:
    """A clip is bounded by planes and cylinders, with no hollow inside."""
    solid = clip(CLIP)
    assert {face.geomType() for face in solid.Faces()} == {"PLANE", "CYLINDER"}
    assert shells(solid) == 1


@pytest.mark.parametrize(
    ("spec", "message"),
    [
        (replace(CLIP, eye=Obround(width_mm=19.0, height_mm=30.0)), "not valid"),
        (replace(CLIP, pitch_mm=30.0), "not valid"),
        (replace(CLIP, corner_radius_mm=9.4), "corner radius"),
        (replace(CLIP, tab_length_mm=0.5), "no room for its bevel"),
        (replace(CLIP, tab_heights_mm=(60.0,)), "one solid expected, 2 found"),
        (replace(CLIP, thickness_mm=0.0), "clip"),
    ],
)
def test_a_clip_that_cannot_be_is_refused(spec: ClipSpec, message: str) -> None:
    """Eyes through the edge or into the slot, a corner too round, a tab too short or off the plate, no
    thickness: refused."""
    with pytest.raises(SolidError, match=message):
        clip(spec)
