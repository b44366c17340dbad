"""Laws of the layout over random rooms, rectilinear and skew, and both senses of a run."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from model3d.families.family import Family
from model3d.layout import Layout, Piece, lay_out
from model3d.rooms import CheckedPlan

from .random_rooms import rectilinear_points, skew_points
from .rooms_by_hand import plan_of, ring_of, run_over

Points = list[tuple[float, float]]
rooms = st.one_of(rectilinear_points(), skew_points())
senses = st.sampled_from([1, -1])


def whole_run(points: Points, sense: int, *, end_fitting: str = "return") -> CheckedPlan:
    """A run round all walls but the last."""
    ring = ring_of(points)
    return plan_of(
        ring, run_over(ring, 1 if sense > 0 else len(points) - 1, len(points) - 1, sense=sense, end_fitting=end_fitting)
    )


def facts(piece: Piece) -> tuple[object, ...]:
    """What a fitter cuts to and looks at."""
    numbers = (
        piece.cut_length_mm,
        piece.start.allowance_mm,
        piece.end.allowance_mm,
        *(b.from_near_mm for b in piece.brackets),
    )
    return (piece.start.joint, piece.start.clip, piece.end.joint, piece.end.clip, *(round(n, 5) for n in numbers))


def span_sums(layout: Layout, plan: CheckedPlan) -> list[tuple[float, float]]:
    """For each wall: its length between the run's ends, and allowances + cut lengths + gaps of its pieces."""
    sums = []
    for run, laid in zip(plan.runs, layout.runs, strict=True):
        for span in run.spans:
            pieces = [p for p in laid.pieces if p.wall.id == span.wall.id]
            inner = sum(p.end.allowance_mm + q.start.allowance_mm for p, q in pairwise(pieces))
            total = pieces[0].start.allowance_mm + inner + pieces[-1].end.allowance_mm
            total += sum(p.cut_length_mm + p.growth_gap_mm for p in pieces)
            sums.append((span.length_mm, total))
    return sums


@given(points=rooms, sense=senses)
def test_lengths_and_allowances_make_the_wall(family_a: Family, points: Points, sense: int) -> None:
    """Cut lengths + allowances + growth gaps equal the wall between the run's ends, whatever the room."""
    plan = whole_run(points, sense)
    for wall_mm, sum_mm in span_sums(lay_out(plan, family_a), plan):
        assert math.isclose(wall_mm, sum_mm, abs_tol=1e-6)


@given(points=rooms, sense=senses)
def test_mirrored_room(family_a: Family, points: Points, sense: int) -> None:
    """A mirrored room gives the mirrored layout: the same pieces in the same order, the run in the other sense."""
    mirrored = [(-x, y) for x, y in [points[0], *reversed(points[1:])]]
    here, there = whole_run(points, sense), ring_of(mirrored)
    count = len(points)
    first_wall = here.runs[0].spans[0].wall.id
    number = int(first_wall[1:])
    mirrored_number = count + 1 - number
    other = plan_of(there, run_over(there, mirrored_number, count - 1, sense=-sense))
    a, b = lay_out(here, family_a), lay_out(other, family_a)
    assert [facts(p) for p in a.pieces] == [facts(p) for p in b.pieces]
    assert sorted(f.code for f in a.findings) == sorted(f.code for f in b.findings)


@given(points=rooms, sense=senses, turn_deg=st.floats(-180, 180), dx=st.floats(-1e4, 1e4))
def test_turned_and_moved_room(family_a: Family, points: Points, sense: int, turn_deg: float, dx: float) -> None:
    """Turning and moving the room leaves every length, joint and clip face as it was."""
    c, s = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    moved = [(c * x - s * y + dx, s * x + c * y - dx) for x, y in points]
    a, b = lay_out(whole_run(points, sense), family_a), lay_out(whole_run(moved, sense), family_a)
    for p, q in zip(a.pieces, b.pieces, strict=True):
        assert facts(p)[:4] == facts(q)[:4]
        assert math.isclose(p.cut_length_mm, q.cut_length_mm, abs_tol=1e-5)


@given(points=rooms)
def test_reversal(family_a: Family, points: Points) -> None:
    """Run the other way, each corner keeps its joint, and an elbow's long and short sides change places."""
    swap = {"elbow-long": "elbow-short", "elbow-short": "elbow-long", "link": "link"}
    there, back = (lay_out(whole_run(points, sense), family_a).runs[0] for sense in (1, -1))
    assert {(j.corner.id, j.kind) for j in there.joints if j.corner} == {
        (j.corner.id, j.kind) for j in back.joints if j.corner
    }
    sides: list[dict[str, tuple[str, str]]] = []
    for run in (there, back):
        by_mark = {p.mark: p for p in run.pieces}
        sides.append(
            {
                j.corner.id: (by_mark[j.earlier].end.joint, by_mark[j.later].start.joint)
                for j in run.joints
                if j.corner is not None
            }
        )
    for corner, (before, after) in sides[0].items():
        assert sides[1][corner] == (swap[after], swap[before])


@given(points=rooms, sense=senses)
def test_nothing_too_short_or_too_sharp_without_a_finding(family_a: Family, points: Points, sense: int) -> None:
    """No piece shorter than its fittings need, no corner too acute or too sharp, passes without a finding that names
    it.
    """
    layout = lay_out(whole_run(points, sense), family_a)
    named = {(f.code, part) for f in layout.findings for part in f.parts}
    for piece in layout.pieces:
        if piece.cut_length_mm < piece.start.most_insertion_mm + piece.end.most_insertion_mm + 2.0:
            assert {("piece-too-short", piece.mark), ("no-room-for-piece", piece.mark)} & named
    for joint in layout.runs[0].joints:
        if joint.kind != "link" or joint.corner is None:
            continue
        turn = math.radians(joint.turn_deg)
        too_short = (80.0 - 40.0 * abs(turn)) / 2 < 6.5
        cuts_apex = joint.turn_deg < 0 and 40.0 - 23.0 / math.cos(turn / 2) < 6.0
        if too_short or cuts_apex:
            assert {("corner-too-acute", joint.corner.id), ("corner-too-sharp", joint.corner.id)} & named
        else:
            assert ("corner-too-sharp", joint.corner.id) not in named


def test_a_wrong_sum_is_seen(family_a: Family) -> None:
    """The wall law fails for a layout whose one cut length is a hundredth of a millimetre off."""
    plan = whole_run([(0.0, 0.0), (3000.0, 0.0), (3000.0, 2000.0), (0.0, 2000.0)], 1)
    layout = lay_out(plan, family_a)
    run = layout.runs[0]
    bad = replace(run.pieces[1], cut_length_mm=run.pieces[1].cut_length_mm + 0.01)
    spoilt = replace(layout, runs=(replace(run, pieces=(run.pieces[0], bad, *run.pieces[2:])),))
    assert any(abs(a - b) > 1e-6 for a, b in span_sums(spoilt, plan))
