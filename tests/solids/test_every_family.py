"""End fittings, fixings and trims of every reference family: sound, of their closed volume, and free of one another.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from model3d.families import specs
from model3d.families.family import Family
from model3d.geometry.placement import Placement, at
from model3d.parts.profile import PieceSpec
from model3d.solids.build import solid
from model3d.solids.joining import overlap_mm3
from model3d.solids.placing import located
from model3d.sources import read_typed

from .probing import shells

FAMILIES = sorted((Path(__file__).resolve().parents[2] / "profiles").glob("*.yaml"))
NOTHING_MM3 = 1e-6

every_family = pytest.mark.parametrize("path", FAMILIES, ids=[path.stem for path in FAMILIES])
both_hands = pytest.mark.parametrize("hand", [1, -1])


def family_at(path: Path) -> Family:
    """The family as written."""
    return read_typed(path, Family)


def clip_at_end(family: Family, hand: int, face: str) -> Placement:
    """The clip on the cut face at x = 0, facing front or back: turned, never mirrored."""
    side = 1.0 if face == "front" else -1.0
    section = family.section
    low, high = (w.centre[1] for w in section.waterways)
    return Placement(
        origin_mm=(0.0, section.bore_u_mm, section.floor_gap_mm + (low + high) / 2.0),
        x_axis=(float(hand), 0.0, 0.0),
        y_axis=(0.0, side, 0.0),
        z_axis=(0.0, 0.0, hand * side),
    )


@every_family
@both_hands
def test_end_fittings_are_sound_and_fit_piece_and_clip(path: Path, hand: int) -> None:
    """Each end fitting is one solid with one skin; at home it overlaps neither its piece nor the clip the family's
    table asks for.
    """
    family = family_at(path)
    section = family.section
    piece = solid(PieceSpec(length_mm=200.0, section=section.spec()))
    home = located(piece, at(0.0 if hand > 0 else -200.0, section.stand_off_mm, section.floor_gap_mm))
    clip = solid(specs.clip_spec(family))
    for kind, spec in (
        ("valve", specs.valve_end_spec(family, hand=hand, twin=False)),
        ("valve", specs.valve_end_spec(family, hand=hand, twin=True)),
        ("return", specs.return_end_spec(family, hand=hand)),
        ("turn-back", specs.turn_back_end_spec(family, hand=hand)),
    ):
        fitting = solid(spec)
        assert shells(fitting) == 1
        assert overlap_mm3(fitting, home) < NOTHING_MM3
        face = family.clip_faces[kind]
        assert overlap_mm3(fitting, located(clip, clip_at_end(family, hand, face))) < NOTHING_MM3
        other = "back" if face == "front" else "front"
        assert overlap_mm3(fitting, located(clip, clip_at_end(family, hand, other))) > 1.0


@every_family
@both_hands
def test_the_cradle_touches_its_valve(path: Path, hand: int) -> None:
    """The cradle has its closed volume, touches the valve's block and overlaps nothing of the valve end."""
    family = family_at(path)
    spec = specs.cradle_spec(family, hand=hand)
    cradle = solid(spec)
    assert cradle.Volume() == pytest.approx(spec.volume_mm3, rel=1e-6)
    for twin in (False, True):
        valve = solid(specs.valve_end_spec(family, hand=hand, twin=twin))
        assert overlap_mm3(cradle, valve) < NOTHING_MM3
        assert cradle.distance(valve) == pytest.approx(0.0, abs=1e-6)


@every_family
def test_a_piece_is_free_of_its_bracket_in_place_and_as_it_is_offered(path: Path) -> None:
    """In its final place, and by the press distance in front, low by the lift or raised, a piece overlaps no bracket;
    lower, it does.
    """
    family = family_at(path)
    section, spec = family.section, specs.bracket_spec(family)
    bracket = solid(spec)
    assert bracket.Volume() == pytest.approx(spec.volume_mm3, rel=1e-6)
    piece = solid(PieceSpec(length_mm=200.0, section=section.spec()))
    press, lift = family.bracket.press_mm, family.bracket.lift_mm

    def overlap(out_mm: float, up_mm: float) -> float:
        stands = at(-100.0, section.stand_off_mm + out_mm, section.floor_gap_mm + up_mm)
        return overlap_mm3(bracket, located(piece, stands))

    assert max(overlap(0.0, 0.0), overlap(press, 0.0), overlap(press, -lift)) < NOTHING_MM3
    assert overlap(0.0, -1.0) > 1.0


@every_family
@pytest.mark.parametrize("turn_deg", [90.0, -90.0, 45.0, -45.0, 0.0, 87.5])
def test_trims_and_caps_have_their_closed_volume(path: Path, turn_deg: float) -> None:
    """Every trim's and every end cap's volume is its closed form, within 1e-6."""
    family = family_at(path)
    for spec in (
        specs.trim_spec(family, turn_deg=turn_deg, leg_mm=90.0),
        specs.end_cap_spec(family, hand=1, length_mm=family.return_end.length_mm),
        specs.end_cap_spec(family, hand=-1, length_mm=family.end_cap.plate_mm),
    ):
        assert solid(spec).Volume() == pytest.approx(spec.volume_mm3, rel=1e-6)
