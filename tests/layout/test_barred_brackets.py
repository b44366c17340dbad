"""Brackets over back boxes, chased pipes and low windows that no place keeps off them: each is an error with its place,
how near it comes and what is kept, by hand; what is offered has been tried, and does. Rule of the reference families.

Family (a)'s brackets are 40 wide, 140.4 high, with screws of 5 at 50 and 100, drilled 50 deep; 10 are kept clear.
"""

from __future__ import annotations

import itertools
import re
from dataclasses import replace
from pathlib import Path
from typing import Literal

import pytest

from model3d.build.checking import check_project
from model3d.build.project import load
from model3d.families.family import Family
from model3d.findings import Finding
from model3d.layout import lay_out
from model3d.rooms import CheckedPlan, Obstacle, Pipe, Window

from .rooms_by_hand import plan_of, ring_of, run_over
from .test_brackets import SQUARE, chased, keeps_the_rule, middle_piece, socket, wall_plan

NARROW = [(0.0, 0.0), (230.0, 0.0), (230.0, 3000.0), (0.0, 3000.0)]
SENSES: tuple[Literal[1, -1], ...] = (1, -1)


def barred(plan: CheckedPlan, family: Family) -> tuple[Finding, ...]:
    """The brackets that lie over something."""
    return tuple(f for f in lay_out(plan, family).findings if f.code == "bracket-barred")


def in_line(off_mm: float, up_mm: float, sense: Literal[1, -1] = 1) -> CheckedPlan:
    """A pipe of 22 chased along w1 from 900 to 2200, its axis so far off the wall and so high."""
    pipe = replace(chased(ring_of(SQUARE), along=(900.0, 2200.0), up=(up_mm, up_mm)), id="p")
    (ax, _, az), (bx, _, bz) = pipe.from_mm, pipe.to_mm
    return wall_plan(replace(pipe, from_mm=(ax, off_mm, az), to_mm=(bx, off_mm, bz)), sense=sense)


def narrow(*things: Obstacle, sense: int = 1) -> CheckedPlan:
    """A run past a wall of 230, where a piece of 128 has one bracket."""
    ring = ring_of(NARROW)
    return plan_of(ring, run_over(ring, 4 if sense > 0 else 2, 3, sense=sense), obstacles=things)


@pytest.mark.parametrize("sense", SENSES)
def test_a_pipe_level_with_the_screws(family_a: Family, sense: Literal[1, -1]) -> None:
    """A pipe from 89 to 111 up, its front 9 behind the surface, has the screws at 100 in it by 11 + 2.5; only the
    brackets that the spacing asks for over its 1300 and the clearances are errors: two of them.
    """
    found = barred(in_line(-20.0, 100.0, sense), family_a)
    assert len(found) == 2
    for finding in found:
        assert (finding.severity, finding.limit) == ("error", 10.0)
        assert finding.measured == pytest.approx(-13.5)
        assert finding.parts == ("r-2", "p")
        place = re.search(r"at (\d+) along the wall", finding.message)
        assert place is not None
        assert 870.0 < float(place[1]) < 2230.0
        assert finding.place_mm is not None
        assert finding.place_mm[0] == pytest.approx(float(place[1]), abs=0.5)
        assert re.fullmatch(r"piece r-2, bracket \d, wall w1", finding.where)
    assert all(b - a <= 600.0 + 1e-6 for a, b in _gaps(in_line(-20.0, 100.0, sense), family_a))


def _gaps(plan: CheckedPlan, family: Family) -> list[tuple[float, float]]:
    offsets = [b.from_near_mm for b in middle_piece(lay_out(plan, family)).brackets]
    return list(itertools.pairwise(offsets))


def test_the_pipe_moved_as_said(family_a: Family) -> None:
    """The screws at 100 are 11 + 2.5 + 10 = 23.5 clear of a pipe 25 higher, not of one 20 higher."""
    (remedy,) = {f.remedy for f in barred(in_line(-20.0, 100.0), family_a)}
    assert remedy == "Move p 25 mm higher."
    assert barred(in_line(-20.0, 125.0), family_a) == ()
    assert barred(in_line(-20.0, 120.0), family_a) != ()


def test_holes_that_end_before_a_deep_pipe(family_a: Family) -> None:
    """A pipe whose front is 49 behind the surface is met by holes of 50: no deeper than 49 - 10 = 39 will do, and a
    family that drills so has no finding. One whose front is 60 behind it bars nothing; one at 59.9 does.
    """
    found = barred(in_line(-60.0, 100.0), family_a)
    assert found[0].measured == pytest.approx(-1.0)
    assert found[0].remedy.startswith("Drill no deeper than 39 mm there; or ")
    holes = family_a.bracket.holes.model_copy(update={"drilled_mm": 39.0})
    shallow = family_a.model_copy(update={"bracket": family_a.bracket.model_copy(update={"holes": holes})})
    assert barred(in_line(-60.0, 100.0), shallow) == ()
    assert barred(in_line(-71.0, 100.0), family_a) == ()
    assert barred(in_line(-70.9, 100.0), family_a) != ()


def test_a_screw_too_short_is_not_offered(family_a: Family) -> None:
    """Holes of less than 30 hold nothing: before a pipe 39 deep they are not offered."""
    found = barred(in_line(-50.0, 100.0), family_a)
    assert found
    assert "Drill" not in found[0].remedy


@pytest.mark.parametrize("sense", SENSES)
def test_a_back_box_behind_the_only_bracket(family_a: Family, sense: int) -> None:
    """A box 70 wide behind the middle of a piece of 128: its bracket stands over it by 35 + 20 = 55. Moved 25 it leaves
    the bracket its 65, and 20 at the piece's end; moved 20 it does not.
    """
    box = socket(ring_of(NARROW), 115.0, 100.0)
    (finding,) = barred(narrow(box, sense=sense), family_a)
    assert finding.measured == pytest.approx(-55.0)
    assert finding.message.startswith("at 115 along the wall it stands over the back box of s by 55.0 mm")
    assert finding.remedy == "Move s 25 mm to the left, as you face the wall."
    assert barred(narrow(replace(box, along_mm=140.0), sense=sense), family_a) == ()
    assert barred(narrow(replace(box, along_mm=135.0), sense=sense), family_a) != ()


def test_a_box_with_something_beside_it_goes_the_other_way(family_a: Family) -> None:
    """What stands to the left of a box sends it to the right."""
    ring = ring_of(NARROW)
    beside = Pipe(
        id="riser", wall_id="w1", frame=ring.walls[0].frame, from_mm=(165.0, -20.0, 160.0),
        to_mm=(165.0, -20.0, 2000.0), diameter_mm=15.0,
    )  # fmt: skip
    box = replace(socket(ring, 115.0, 140.0), plate_width_mm=70.0)
    (finding,) = barred(narrow(box, beside), family_a)
    assert finding.remedy == "Move s 25 mm to the right, as you face the wall."


def test_what_can_be_kept_off_is_no_finding(family_a: Family) -> None:
    """The same box behind a long piece moves a bracket aside within the spacing rule: nothing is found."""
    at = middle_piece(lay_out(wall_plan(), family_a)).brackets[2].along_mm
    plan = wall_plan(socket(ring_of(SQUARE), at, 100.0))
    assert barred(plan, family_a) == ()
    piece = middle_piece(lay_out(plan, family_a))
    assert min(abs(b.along_mm - at) for b in piece.brackets) >= 65.0 - 1e-6
    keeps_the_rule(piece)


def window(width_mm: float, sill_mm: float) -> Window:
    """A window on w1 about 1800."""
    return Window(
        id="french", wall_id="w1", from_mm=1800.0 - width_mm / 2.0, to_mm=1800.0 + width_mm / 2.0, sill_mm=sill_mm,
        height_mm=2000.0, sill_depth_mm=0.0, sill_thickness_mm=20.0,
    )  # fmt: skip


def test_a_low_window_holds_no_bracket(family_a: Family) -> None:
    """Before a window with its sill at 112 there is no wall for the screws at 100 and their 12.5: a narrow one is
    passed by, a wide one is an error; over a sill at 113 the brackets stand as ever.
    """

    def laid(width_mm: float, sill_mm: float) -> CheckedPlan:
        plan = wall_plan()
        return replace(plan, room=replace(plan.room, openings=(window(width_mm, sill_mm),)))

    assert barred(laid(400.0, 112.0), family_a) == ()
    piece = middle_piece(lay_out(laid(400.0, 112.0), family_a))
    assert not any(1570.0 < b.along_mm < 2030.0 for b in piece.brackets)
    found = barred(laid(900.0, 112.0), family_a)
    assert len(found) == 1
    assert found[0].parts == ("r-2", "french")
    assert found[0].remedy.startswith("End the run before french")
    assert barred(laid(900.0, 113.0), family_a) == ()


def test_the_check_says_so(tmp_path: Path) -> None:
    """A chased pipe of a plan as written comes up in the whole check, and one out of the screws' reach does not."""
    text = """\
version: 1
family: a-square
room: {corners: [[0, 0], [1500, 0], [1500, 1200], [0, 1200]]}
obstacles: [{id: chase, kind: pipe, wall: w1, up: UP, off: -25, diameter: 15}]
runs: [{id: A, start: {wall: w1, at: 200}, end: {wall: w1, at: 1200}}]
"""
    plan = tmp_path / "plan.yaml"
    plan.write_text(text.replace("UP", "100"))
    found = [f for f in check_project(load(plan)) if f.severity != "note"]
    assert {f.code for f in found} == {"bracket-barred"}
    plan.write_text(text.replace("UP", "75"))
    assert [f for f in check_project(load(plan)) if f.severity != "note"] == []
