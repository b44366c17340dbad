"""How the fittings go together at a piece's ends: what must not overlap does not, what must, does by its
known amount."""

from __future__ import annotations

import math

import cadquery as cq
import pytest

from model3d.geometry.placement import Placement, at
from model3d.parts.hose_curve import hose_curve
from model3d.solids.build import solid
from model3d.solids.elbow import bend_end
from model3d.solids.joining import cut, overlap_mm3
from model3d.solids.placing import located

from .square_edged import CLIP, ELBOW, piece_spec
from .square_fittings import (
    BRIDGE,
    COUPLER,
    COUPLER_BRIDGE,
    FAR_BACK,
    FAR_FRONT,
    GAP_MM,
    LENGTH_MM,
    NEAR_BACK,
    NEAR_FRONT,
    ORING,
    OVER,
    SPIGOT,
    WAYS_MM,
    elbow_in_near_end,
    hose_spec,
)

NOTHING_MM3 = 1e-6
SIDES = {"near front": NEAR_FRONT, "near back": NEAR_BACK, "far front": FAR_FRONT, "far back": FAR_BACK}


@pytest.fixture(scope="module")
def piece_solid() -> cq.Solid:
    """A piece, both of its ends in reach."""
    return solid(piece_spec(LENGTH_MM))


def clip_at(frame: Placement) -> cq.Solid:
    """The one clip shape, standing in a fitting's frame."""
    return located(solid(CLIP), frame)


def bridge_at(frame: Placement) -> cq.Solid:
    """The one bridge shape, standing in a fitting's frame."""
    return located(solid(BRIDGE), frame)


@pytest.mark.parametrize("side", SIDES)
def test_a_clip_fits_front_and_back_at_both_ends(piece_solid: cq.Solid, side: str) -> None:
    """The one clip, turned over, goes flush onto either end of a piece, facing front or back, without
    overlap."""
    placed = clip_at(SIDES[side])
    assert overlap_mm3(placed, piece_solid) == pytest.approx(0.0, abs=NOTHING_MM3)
    assert placed.distance(piece_solid) == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize("side", SIDES)
def test_a_clip_tapped_too_deep_overlaps_the_cut_face(piece_solid: cq.Solid, side: str) -> None:
    """A clip .05 mm past flush cuts into the piece: the check that finds no overlap can find one."""
    deep = clip_at(SIDES[side] @ at(0.05, 0.0, 0.0))
    assert overlap_mm3(deep, piece_solid) > 1.0


def test_a_tab_beside_its_guide_overlaps_the_piece(piece_solid: cq.Solid) -> None:
    """A tab has .2 mm of room up and down in its guide; a quarter of a millimetre off, it meets the guide."""
    assert overlap_mm3(clip_at(NEAR_FRONT @ at(0.0, 0.0, 0.19)), piece_solid) == pytest.approx(0.0, abs=NOTHING_MM3)
    assert overlap_mm3(clip_at(NEAR_FRONT @ at(0.0, 0.0, 0.25)), piece_solid) > 0.1


@pytest.mark.parametrize("frame", [NEAR_FRONT, NEAR_BACK], ids=["front", "back"])
def test_a_bridge_snaps_into_a_clip_that_faces_its_way(piece_solid: cq.Solid, frame: Placement) -> None:
    """A bridge whose nib stands toward the side that the clip faces goes in and overlaps neither clip nor
    piece."""
    placed = bridge_at(frame)
    assert overlap_mm3(placed, clip_at(frame)) == pytest.approx(0.0, abs=NOTHING_MM3)
    assert overlap_mm3(placed, piece_solid) == pytest.approx(0.0, abs=NOTHING_MM3)


@pytest.mark.parametrize("frame", [NEAR_FRONT, NEAR_BACK], ids=["front", "back"])
def test_a_nib_on_the_wrong_side_hits_the_clips_plate(frame: Placement) -> None:
    """A nib that meets a clip facing the wrong way stands in its plate: thickness of nib x its height x the
    plate's."""
    wrong = bridge_at(frame @ OVER)
    assert overlap_mm3(wrong, clip_at(frame)) == pytest.approx(3.0 * 16.0 * 1.5, rel=1e-6)


def test_the_catch_holds_behind_the_plate() -> None:
    """Drawn back by a millimetre, a snapped bridge's catch stands in the clip's plate: it clicks in and is
    held."""
    back = bridge_at(NEAR_BACK @ at(-1.0, 0.0, 0.0))
    shared = overlap_mm3(back, clip_at(NEAR_BACK))
    # What of the ramp (.6 high over 1.5) is within the plate (its last .7 mm) and beyond the slot (.3 clear), 16 high.
    assert shared == pytest.approx(16.0 * (0.3 + (0.6 * 0.8 / 1.5 - 0.3)) / 2.0 * 0.7, rel=1e-6)


@pytest.mark.parametrize("way_mm", WAYS_MM)
def test_an_elbows_short_leg_stands_clear_in_bore_clip_and_bridge(piece_solid: cq.Solid, way_mm: float) -> None:
    """An elbow with its short leg right in a clipped end overlaps neither piece nor clip nor the bridge round
    it."""
    placed = located(solid(ELBOW), elbow_in_near_end(way_mm))
    for other in (piece_solid, clip_at(NEAR_BACK), bridge_at(NEAR_BACK)):
        assert overlap_mm3(placed, other) == pytest.approx(0.0, abs=NOTHING_MM3)


def test_a_leg_clears_the_bore_by_the_figures(piece_solid: cq.Solid) -> None:
    """A leg 10.6 wide in a bore 11 wide stands .2 mm clear all round; .25 to one side it overlaps."""
    frame = elbow_in_near_end(WAYS_MM[1])
    placed = located(solid(ELBOW), frame)
    assert placed.distance(piece_solid) == pytest.approx(0.2, abs=1e-6)
    aside = located(solid(ELBOW), at(0.0, 0.25, 0.0) @ frame)
    assert overlap_mm3(aside, piece_solid) > 0.5


def squeeze_mm3(bore_clear_mm: float) -> float:
    """What of an O-ring stands beyond a bore whose wall is ``bore_clear_mm`` from the ring's inside, by
    Pappus.

    The part of the section's circle beyond the wall: a circular segment, carried along the straights and
    round the ends.
    """
    r = ORING.section_mm / 2.0
    d = bore_clear_mm - r
    area = r**2 * math.acos(d / r) - d * math.sqrt(r**2 - d**2)
    centroid = 2.0 * (r**2 - d**2) ** 1.5 / (3.0 * area)
    return area * (2.0 * ORING.inside.straight_mm + 2.0 * math.pi * (ORING.inside.radius_mm + r + centroid))


@pytest.mark.parametrize("from_tip_mm", [6.0, 14.0])
def test_an_o_ring_overlaps_the_bore_by_its_squeeze_only(piece_solid: cq.Solid, from_tip_mm: float) -> None:
    """In a bore 1.30 mm outside its groove's floor, a 1.78 ring as moulded overlaps the metal by what is
    squeezed, no more."""
    ring = located(solid(ORING), at(24.0 - from_tip_mm, 11.0, 110.0))
    assert overlap_mm3(ring, piece_solid) == pytest.approx(squeeze_mm3(1.30), rel=1e-5)


@pytest.mark.parametrize("from_tip_mm", [6.0, 14.0])
def test_an_o_ring_lies_in_its_groove_without_overlap(from_tip_mm: float) -> None:
    """A ring lies on its groove's floor between its walls and overlaps no metal of the leg."""
    on_long = at(from_tip_mm - ELBOW.long_leg_mm, 0.0, 0.0)
    on_short = bend_end(ELBOW) @ at(ELBOW.short_leg_mm - from_tip_mm, 0.0, 0.0)
    for place in (on_long, on_short):
        ring = located(solid(ORING), place)
        assert overlap_mm3(ring, solid(ELBOW)) == pytest.approx(0.0, abs=NOTHING_MM3)


def test_a_spigot_and_its_bridge_snap_into_a_front_clip(piece_solid: cq.Solid) -> None:
    """A link's spigots and their bridge stand in a far end with a front clip; nothing overlaps, and the
    screws face up."""
    clip, tie = clip_at(FAR_FRONT), bridge_at(FAR_FRONT)
    assert overlap_mm3(tie, clip) == pytest.approx(0.0, abs=NOTHING_MM3)
    for way_mm in WAYS_MM:
        upright = Placement(
            origin_mm=(LENGTH_MM, 11.0, 75.0 + way_mm), x_axis=(-1.0, 0.0, 0.0), y_axis=(0.0, -1.0, 0.0)
        )
        placed = located(solid(SPIGOT), upright)
        assert placed.BoundingBox(1e-4).zmax == pytest.approx(75.0 + way_mm + 13.8, abs=1e-3)
        for other in (piece_solid, clip, tie):
            assert overlap_mm3(placed, other) == pytest.approx(0.0, abs=NOTHING_MM3)


@pytest.mark.parametrize("turn_deg", [-90.0, 45.0])
def test_a_hose_meets_both_shoulders_and_overlaps_its_tails_alone(turn_deg: float) -> None:
    """A hose ends on the shoulders of both spigots; what it overlaps is the tail inside it, no more than its
    sag there."""
    spec = hose_spec(turn_deg)
    placed, curve = solid(spec), hose_curve(spec)
    first = Placement(origin_mm=(-SPIGOT.stub_mm, 0.0, 0.0), x_axis=(-1.0, 0.0, 0.0), y_axis=(0.0, -1.0, 0.0))
    second = curve.end @ at(SPIGOT.stub_mm, 0.0, 0.0)
    sag_at_tip = -curve.point(SPIGOT.tail_length_mm)[2]
    most = sag_at_tip * 2.0 * SPIGOT.tail_radius_mm * SPIGOT.tail_length_mm
    for frame in (first, second):
        spigot = located(solid(SPIGOT), frame)
        assert placed.distance(spigot) == pytest.approx(0.0, abs=1e-6)
        assert 0.0 < overlap_mm3(placed, spigot) < most
        tail = located(cq.Solid.makeBox(20.0, 40.0, 40.0), frame @ at(-SPIGOT.stub_mm - 20.0, -20.0, -20.0))
        leg = cut(spigot, [tail], "leg")
        assert overlap_mm3(placed, leg) == pytest.approx(0.0, abs=1e-3)


def test_a_coupler_ties_two_clipped_pieces_across_its_gap(piece_solid: cq.Solid) -> None:
    """Two pieces a gap apart, front clips on both, take couplers and their bridge without overlap."""
    middle = Placement(origin_mm=(LENGTH_MM + GAP_MM / 2.0, 11.0, 75.0))
    later = located(piece_solid, at(LENGTH_MM + GAP_MM, 0.0, 0.0))
    clips = [clip_at(FAR_FRONT), clip_at(at(LENGTH_MM + GAP_MM, 0.0, 0.0) @ NEAR_FRONT)]
    tie = located(solid(COUPLER_BRIDGE), middle)
    tubes = [located(solid(COUPLER), middle @ at(0.0, 0.0, way_mm)) for way_mm in WAYS_MM]
    placed = [piece_solid, later, *clips, tie, *tubes]
    for k, one in enumerate(placed):
        for other in placed[k + 1 :]:
            assert overlap_mm3(one, other) == pytest.approx(0.0, abs=NOTHING_MM3)
