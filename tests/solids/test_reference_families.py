"""Every reference family's fittings build to their closed forms and go together without overlap."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import cadquery as cq
import pytest

from model3d.families.family import Family
from model3d.families.reading import find_family, known_families, read_family
from model3d.families.specs import (
    bridge_spec,
    clip_spec,
    coupler_bridge_spec,
    coupler_spec,
    elbow_spec,
    hose_spec,
    oring_spec,
    spigot_spec,
)
from model3d.geometry.placement import Placement, at
from model3d.layout.allowances import hose_straight_mm
from model3d.parts.fittings import BridgeSpec, ClipSpec, CouplerSpec, ElbowSpec, HoseSpec, OringSpec, SpigotSpec
from model3d.parts.profile import PieceSpec
from model3d.solids.build import solid
from model3d.solids.joining import overlap_mm3
from model3d.solids.measure import volume_mm3
from model3d.solids.placing import located

from .square_fittings import OVER

LENGTH_MM = 160.0
NOTHING_MM3 = 1e-6
FAMILIES = known_families()

Fitting = PieceSpec | ClipSpec | ElbowSpec | BridgeSpec | OringSpec | SpigotSpec | HoseSpec | CouplerSpec


@cache
def family_of(name: str) -> Family:
    """The packaged family of that name."""
    return read_family(find_family(name))


def fittings_of(family: Family) -> list[Fitting]:
    """One spec of every kind of fitting the family has, hoses for in-line, bay and both right angles."""
    found: list[Fitting] = [
        PieceSpec(length_mm=LENGTH_MM, section=family.section.spec()),
        PieceSpec(length_mm=LENGTH_MM, section=family.section.spec(heated=False)),
        clip_spec(family),
        bridge_spec(family),
        coupler_bridge_spec(family),
        oring_spec(family),
        spigot_spec(family),
        coupler_spec(family),
    ]
    found += [hose_spec(family, turn, hose_straight_mm(family, turn)) for turn in (0.0, 45.0, -45.0, 90.0, -90.0)]
    if family.elbow is not None:
        found += [elbow_spec(family, turn) for turn in (90.0 - family.elbow.play_deg, 90.0)]
    return found


@dataclass(frozen=True)
class Ends:
    """How a fitting's frame stands at the ends of a piece, facing front; back is the same turned over."""

    near: Placement
    far: Placement


def ends_of(family: Family) -> Ends:
    """Frames at both ends of a piece ``LENGTH_MM`` long, in its own frame."""
    lower, upper = (way.centre for way in family.section.waterways)
    near = at(0.0, lower[0], (lower[1] + upper[1]) / 2.0)
    about = Placement(x_axis=(-1.0, 0.0, 0.0), z_axis=(0.0, 0.0, -1.0))
    return Ends(near=near, far=at(LENGTH_MM, 0.0, 0.0) @ near @ about)


def piece_of(family: Family) -> cq.Solid:
    """A piece with both ends in reach."""
    return solid(PieceSpec(length_mm=LENGTH_MM, section=family.section.spec()))


@pytest.mark.parametrize("name", FAMILIES)
def test_every_fitting_keeps_its_closed_form(name: str) -> None:
    """Each kind of fitting of each reference family is one sound solid whose volume is its closed form."""
    for spec in fittings_of(family_of(name)):
        within = 1e-4 if isinstance(spec, HoseSpec) else 1e-6
        assert volume_mm3(solid(spec)) == pytest.approx(spec.volume_mm3, rel=within), spec


@pytest.mark.parametrize("name", FAMILIES)
def test_clips_and_bridges_go_in_front_and_back_at_both_ends(name: str) -> None:
    """At either end, front or back, clip, bridge and piece do not overlap; the nib on the wrong side hits the plate."""
    family = family_of(name)
    piece, clip, tie = piece_of(family), solid(clip_spec(family)), solid(bridge_spec(family))
    ends = ends_of(family)
    for front in (ends.near, ends.far):
        for frame in (front, front @ OVER):
            plate, right = located(clip, frame), located(tie, frame)
            assert overlap_mm3(plate, piece) == pytest.approx(0.0, abs=NOTHING_MM3)
            assert overlap_mm3(right, plate) == pytest.approx(0.0, abs=NOTHING_MM3)
            assert overlap_mm3(right, piece) == pytest.approx(0.0, abs=NOTHING_MM3)
            assert overlap_mm3(located(tie, frame @ OVER), plate) > 10.0


@pytest.mark.parametrize("name", FAMILIES)
def test_spigots_stand_clear_in_bore_clip_and_bridge(name: str) -> None:
    """A link's spigots, right in, overlap neither piece, clip nor bridge, whichever way their screws face."""
    family = family_of(name)
    half, (near, insertion) = family.section.pitch_mm / 2.0, (ends_of(family).near, family.link.insertion_mm)
    others = [piece_of(family), *(located(solid(s), near) for s in (clip_spec(family), bridge_spec(family)))]
    spec = spigot_spec(family)
    to_front = Placement(y_axis=(0.0, 0.0, -1.0), z_axis=(0.0, 1.0, 0.0))
    turned = Placement() if family.link.screw_access == "above" else to_front
    for way in (-half, half):
        placed = located(solid(spec), near @ at(0.0, 0.0, way) @ turned)
        assert placed.BoundingBox(1e-4).xmax == pytest.approx(insertion, abs=1e-3)
        for other in others:
            assert overlap_mm3(placed, other) == pytest.approx(0.0, abs=NOTHING_MM3)


@pytest.mark.parametrize("name", FAMILIES)
def test_o_rings_are_squeezed_by_the_bore_alone(name: str) -> None:
    """In the plain bore an O-ring as moulded overlaps the metal, in its groove nothing."""
    family = family_of(name)
    bore = family.section.waterways[1].centre
    for from_tip in family.oring.from_tip_mm:
        place = at(family.link.insertion_mm - from_tip, bore[0], bore[1])
        ring = located(solid(oring_spec(family)), place)
        leg = located(solid(spigot_spec(family)), at(0.0, bore[0], bore[1]))
        squeezed = overlap_mm3(ring, piece_of(family))
        assert 0.02 < squeezed / ring.Volume() < 0.30
        assert overlap_mm3(ring, leg) == pytest.approx(0.0, abs=NOTHING_MM3)


@pytest.mark.parametrize("name", FAMILIES)
def test_couplers_tie_two_clipped_pieces(name: str) -> None:
    """Two front-clipped pieces a gap apart take couplers and their bridge, and nothing overlaps."""
    family = family_of(name)
    gap, half, ends = family.coupler.gap_mm, family.section.pitch_mm / 2.0, ends_of(family)
    later = at(LENGTH_MM + gap, 0.0, 0.0)
    middle = at(LENGTH_MM + gap / 2.0, 0.0, 0.0) @ ends.near
    placed = [
        piece_of(family),
        located(piece_of(family), later),
        located(solid(clip_spec(family)), ends.far),
        located(solid(clip_spec(family)), later @ ends.near),
        located(solid(coupler_bridge_spec(family)), middle),
        *(located(solid(coupler_spec(family)), middle @ at(0.0, 0.0, way)) for way in (-half, half)),
    ]
    for k, one in enumerate(placed):
        for other in placed[k + 1 :]:
            assert overlap_mm3(one, other) == pytest.approx(0.0, abs=NOTHING_MM3)
