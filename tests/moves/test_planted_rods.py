"""Rods 3 mm thick planted in the way: met on their earliest leg, in that step and no other; half a millimetre clear
they are not.
"""

from __future__ import annotations

from math import hypot

import pytest

from model3d.findings import Finding
from model3d.moves import check_moves
from model3d.moves.values import Stop
from model3d.scene import Part
from tests.layout.every_joint import FAMILIES
from tests.moves.rooms import ELBOW_FAMILIES, ROD_MM, Fitting, rod, three_walls

CLEAR_MM = 0.5


def findings_with(fitting: Fitting, thing: Part) -> tuple[tuple[Finding, ...], list[Stop]]:
    """What a check of all steps finds with a thing in the room, and the first stop of every step's preferred way."""
    room = fitting.beside(thing)
    verdicts, findings = check_moves(room.layout, room.scene, room.steps, room.family, shapes=room.shapes)
    return findings, [s for v in verdicts for s in v.stops]


def offered_front_mm(fitting: Fitting) -> float:
    """The front of a piece that is offered, from the wall."""
    return fitting.family.section.front_u_mm + fitting.family.bracket.press_mm


@pytest.mark.parametrize("family", ["a-square", *(pytest.param(f, marks=pytest.mark.slow) for f in FAMILIES[1:])])
def test_a_rod_in_the_way_of_an_offer(family: str) -> None:
    """A rod that stands half a millimetre into the place where the last piece is offered, clear of where it ends, is
    met on the offer of that piece, after as far as plane geometry says; half a millimetre clear of it, the piece comes
    along the wall.
    """
    fitting = three_walls(family)
    piece, high = fitting.piece("r-3"), 100.0
    along = sum(b.from_near_mm for b in piece.brackets[1:3]) / 2.0
    out = offered_front_mm(fitting) + ROD_MM - CLEAR_MM
    findings, stops = findings_with(fitting, rod(piece, along, out, high_mm=high))
    (stop,) = stops
    assert (stop.leg, stop.mover, stop.standing, stop.lasting) == ("offer", "r-3/piece", "room/rod", False)
    assert stop.done_mm == pytest.approx(done_mm(fitting, out, high), abs=0.3)
    (found,) = findings
    assert (found.code, found.parts) == ("move-blocked", ("r-3/piece", "room/rod"))
    assert f"after {stop.done_mm:.1f} mm" in found.message
    assert stop.depth_mm == pytest.approx(CLEAR_MM, abs=0.1)
    assert findings_with(fitting, rod(piece, along, out + 2.0 * CLEAR_MM, high_mm=high)) == ((), [])


def done_mm(fitting: Fitting, rod_out_mm: float, rod_high_mm: float) -> float:
    """How far the preferred offer goes until it meets an upright rod in front of where it ends: straight from the room
    with its back, from above with its underside.
    """
    section, bracket = fitting.family.section, fitting.family.bracket
    approach = fitting.site("r-3").step.approach
    assert approach is not None
    if approach.name == "straight":
        return approach.from_mm[1] + section.stand_off_mm - (rod_out_mm + ROD_MM)
    assert approach.name == "above"
    out, up = approach.from_mm[1] - bracket.press_mm, approach.from_mm[2] + bracket.lift_mm
    share = 1.0 - (rod_high_mm - section.floor_gap_mm + bracket.lift_mm) / up
    return share * hypot(out, up)


@pytest.mark.parametrize("family", ELBOW_FAMILIES)
@pytest.mark.parametrize("sense", [1, pytest.param(-1, marks=pytest.mark.slow)])
def test_a_rod_before_a_waiting_elbow(family: str, sense: int) -> None:
    """A low rod before an elbow's waiting leg, clear of the offered piece and of where it ends, is met midway in the
    slide onto that leg, after the slide's length less where the rod stands; half a millimetre further out it is not.
    """
    fitting, mark = three_walls(family, sense), "r-2"
    piece, section = fitting.piece(mark), fitting.family.section
    slide = next(leg for leg in fitting.site(mark).step.legs if leg.name == "slide")
    along, low = 10.0, section.floor_gap_mm + section.waterways[0].centre[1] - 20.0
    findings, stops = findings_with(fitting, rod(piece, along, section.front_u_mm + ROD_MM + 2.0, high_mm=low))
    (stop,) = stops
    assert (stop.leg, stop.mover, stop.standing, stop.lasting) == ("slide", f"{mark}/piece", "room/rod", False)
    assert stop.done_mm == pytest.approx(slide.length_mm - along - ROD_MM, abs=0.15)
    assert [f.parts for f in findings] == [(f"{mark}/piece", "room/rod")]
    x, y = piece.wall.point_mm(piece.near_mm + piece.sense * (along + ROD_MM), section.front_u_mm + ROD_MM + 2.0)
    assert hypot(stop.place_mm[0] - x, stop.place_mm[1] - y) < ROD_MM + 1.0
    clear = rod(piece, along, offered_front_mm(fitting) + ROD_MM + CLEAR_MM, high_mm=low)
    assert findings_with(fitting, clear) == ((), [])
    near = rod(piece, along, offered_front_mm(fitting) + ROD_MM - CLEAR_MM, high_mm=low)
    assert [s.leg for s in findings_with(fitting, near)[1]] == ["slide"]
