"""Walls longer than a stock bar: where their joints go. Rule of the reference families; distances common
practice, no source.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from typing import Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model3d.families.family import Family
from model3d.layout import Layout, Piece, lay_out
from model3d.layout.in_the_wall import Span
from model3d.layout.splitting import SplitRules, bought_mm, divided
from model3d.rooms import CheckedPlan, Door, InLineRules, Obstacle, PipeTail, Ring, SocketOutlet

from .rooms_by_hand import plan_of, ring_of, run_over

STOCK = (2400.0, 3000.0, 5000.0)
GAP = 120.0
LEAST = 78.0


def long_room(length_mm: float) -> Ring:
    """A room whose wall w1 is long."""
    return ring_of([(0.0, 0.0), (length_mm, 0.0), (length_mm, 3000.0), (0.0, 3000.0)])


def long_plan(
    length_mm: float, *obstacles: Obstacle, sense: Literal[1, -1] = 1, **room: object
) -> CheckedPlan:
    """A run round three walls, the long one in the middle."""
    ring = long_room(length_mm)
    return plan_of(ring, run_over(ring, 4 if sense > 0 else 2, 3, sense=sense), obstacles=obstacles, **room)


def socket(ring: Ring, along_mm: float) -> SocketOutlet:
    """A socket-outlet on wall w1."""
    return SocketOutlet(
        id="s",
        wall_id="w1",
        frame=ring.walls[0].frame,
        along_mm=along_mm,
        up_mm=450.0,
        plate_width_mm=86.0,
        plate_height_mm=86.0,
        plate_proud_mm=9.0,
        box_width_mm=70.0,
        box_height_mm=70.0,
        box_depth_mm=35.0,
    )


def on_long_wall(layout: Layout) -> tuple[list[Piece], list[float]]:
    """The pieces on w1 and the middles of its joints."""
    return (
        [p for p in layout.pieces if p.wall.id == "w1"],
        [j.middle_mm for j in layout.runs[0].joints if j.corner is None],
    )


@pytest.mark.parametrize("sense", [1, -1])
def test_fewest_joints_then_least_stock(family_a: Family, sense: Literal[1, -1]) -> None:
    """A wall of 7200 takes one joint, and pieces of which one comes out of a 2400 bar, not two halves out
    of 5000 each.
    """
    layout = lay_out(long_plan(7200.0, sense=sense), family_a)
    pieces, joints = on_long_wall(layout)
    lengths = sorted(p.cut_length_mm for p in pieces)
    assert len(joints) == 1
    assert sum(lengths) == pytest.approx(7200.0 - 51.0 - 51.0 - 120.0)
    assert lengths[0] <= 2390.0 + 1e-6
    assert lengths[1] <= 4990.0 + 1e-6
    (note,) = [f for f in layout.findings if f.code == "split-for-stock"]
    assert f"at {joints[0]:.0f} from corner c1" in note.message
    assert (note.severity, note.limit) == ("note", 4990.0)


def test_even_pieces_where_stock_is_alike(family_a: Family) -> None:
    """Where no division buys less, the pieces are equal: 6022 of wall in halves of 2900, both out of 3000
    bars.
    """
    pieces, joints = on_long_wall(lay_out(long_plan(6022.0), family_a))
    assert [p.cut_length_mm for p in pieces] == pytest.approx([2900.0, 2900.0])
    assert joints == pytest.approx([3011.0])


def test_what_a_bar_gives(family_a: Family) -> None:
    """A bar of 5000 gives a piece of 4990 when 5 is trimmed off each end: a hair more, and the wall is
    divided.
    """
    one = on_long_wall(lay_out(long_plan(4990.0 + 102.0), family_a))
    two = on_long_wall(lay_out(long_plan(4990.1 + 102.0), family_a))
    assert (len(one[0]), len(two[0])) == (1, 2)
    untrimmed = long_plan(5000.0 + 102.0)
    untrimmed = replace(untrimmed, cutting=replace(untrimmed.cutting, end_trim_mm=0.0))
    assert len(on_long_wall(lay_out(untrimmed, family_a))[0]) == 1


@pytest.mark.parametrize("sense", [1, -1])
def test_joints_keep_off_a_socket(family_a: Family, sense: Literal[1, -1]) -> None:
    """Where the even place of a joint is near a socket-outlet, the joint stands 150 off its edge instead."""
    ring = long_room(6022.0)
    layout = lay_out(long_plan(6022.0, socket(ring, 3050.0), sense=sense), family_a)
    _, (joint,) = on_long_wall(layout)
    assert abs(joint - 3050.0) >= 43.0 + 150.0 - 1e-6
    assert [f.code for f in layout.findings] == ["split-for-stock"]


def test_joints_keep_off_corners_doors_and_pipes(family_a: Family) -> None:
    """A joint keeps off the wall's corners, a door's casing and a pipe tail by the distances that the plan
    states.
    """
    rules = InLineRules(off_corner_mm=2000.0, off_opening_mm=700.0, off_pipe_mm=400.0)
    ring = long_room(8000.0)
    door = Door(
        id="d",
        wall_id="w1",
        from_mm=7000.0,
        to_mm=7800.0,
        height_mm=2000.0,
        hinge="left",
        swing="in",
        opens_deg=90.0,
        leaf_thickness_mm=40.0,
        casing=None,
    )
    tail = PipeTail(
        id="t",
        wall_id="w1",
        frame=ring.walls[0].frame,
        along_mm=2300.0,
        off_mm=200.0,
        diameter_mm=15.0,
        height_mm=100.0,
    )
    plan = plan_of(ring, run_over(ring, 1, 1, end_at=6900.0), openings=(door,), obstacles=(tail,))
    free = on_long_wall(lay_out(plan, family_a))[1]
    kept = on_long_wall(lay_out(replace(plan, in_line=rules), family_a))[1]
    assert len(free) == len(kept) == 1
    assert 2000.0 - 1e-6 <= kept[0] <= 6000.0 + 1e-6
    assert abs(kept[0] - 2300.0) >= 407.5 - 1e-6
    assert kept[0] <= 7000.0 - 700.0 + 1e-6
    assert free != kept


def test_more_joints_rather_than_a_bad_place(family_a: Family) -> None:
    """Where one joint finds no place that keeps off everything, one more is taken before any is set near
    something.
    """
    ring = long_room(9900.0)
    layout = lay_out(long_plan(9900.0, socket(ring, 4950.0)), family_a)
    assert len(on_long_wall(lay_out(long_plan(9900.0), family_a))[1]) == 1
    assert len(on_long_wall(layout)[1]) == 2
    assert [f.code for f in layout.findings] == ["split-for-stock"]


def test_no_good_place_is_said(family_a: Family) -> None:
    """Where nothing keeps off, the joints are set all the same, and a warning names what they are near."""
    plan = long_plan(6022.0)
    plan = replace(plan, in_line=InLineRules(off_corner_mm=3500.0))
    layout = lay_out(plan, family_a)
    assert len(on_long_wall(layout)[1]) == 1
    (warning,) = [f for f in layout.findings if f.code == "joint-near"]
    assert warning.severity == "warning"
    assert "corner c1" in warning.message


@settings(max_examples=60)
@given(length=st.floats(5100.0, 15000.0))
def test_every_division_keeps_the_rules(family_a: Family, length: float) -> None:
    """Whatever the length: no piece longer than a bar gives or shorter than the least, joints off the
    corners, brackets off the joints, and no more joints than the stock asks for.
    """
    layout = lay_out(long_plan(length), family_a)
    pieces, joints = on_long_wall(layout)
    room = length - 102.0
    assert len(pieces) == len(joints) + 1
    assert sum(p.cut_length_mm for p in pieces) == pytest.approx(room - 120.0 * len(joints))
    assert all(LEAST - 1e-6 <= p.cut_length_mm <= 4990.0 + 1e-6 for p in pieces)
    assert all(300.0 - 1e-6 <= j <= length - 300.0 + 1e-6 for j in joints)
    assert (len(joints) - 1) * 120.0 + len(joints) * 4990.0 < room
    assert all(abs(b.along_mm - j) >= 60.0 + 50.0 - 1e-6 for p in pieces for b in p.brackets for j in joints)
    assert {f.code for f in layout.findings} <= {"split-for-stock"}


@settings(max_examples=60)
@given(lengths=st.lists(st.floats(100.0, 4990.0), min_size=1, max_size=4), kerf=st.floats(0.0, 5.0))
def test_least_stock_of_a_wall(lengths: list[float], kerf: float) -> None:
    """What a wall's pieces buy is the least over every way to put them into bars."""
    rules = SplitRules(stock_mm=STOCK, trim_mm=5.0, kerf_mm=kerf)

    def least(left: list[float]) -> float:
        if not left:
            return 0.0
        best = float("inf")
        for n in range(len(left)):
            for rest in combinations(range(1, len(left)), n):
                bar_of = [left[0], *(left[i] for i in rest)]
                need = sum(bar_of) + kerf * (len(bar_of) - 1) + 10.0
                bars = [s for s in STOCK if need <= s + 1e-6]
                if bars:
                    others = [x for i, x in enumerate(left) if i and i not in rest]
                    best = min(best, bars[0] + least(others))
        return best

    assert bought_mm(lengths, rules) == pytest.approx(least(lengths))


def test_many_pieces_are_counted_well_enough() -> None:
    """More than four pieces are counted first-fit: never less than the lengths, and as by hand where each
    fills a bar.
    """
    rules = SplitRules(stock_mm=STOCK, kerf_mm=3.0)
    assert bought_mm([5000.0] * 6, rules) == 30000.0
    assert bought_mm([2990.0, 2990.0, 2990.0, 2990.0, 2000.0], rules) == 4 * 3000.0 + 2400.0


@pytest.mark.parametrize(
    ("last_mm", "joints"), [(4990.0, 0), (4990.1, 1), (10100.0, 1), (10101.0, 2), (25000.0, 4)]
)
def test_fewest_joints(last_mm: float, joints: int) -> None:
    """As many joints as bars of 4990 and gaps of 120 ask for: 4990 + 120 + 4990 = 10100 takes one, a
    millimetre more two.
    """
    rules = SplitRules(stock_mm=STOCK, trim_mm=5.0)
    assert len(divided(0.0, last_mm, GAP, LEAST, rules).middles_mm) == joints


def test_a_barred_stretch_is_seen() -> None:
    """A joint set where it must not stand is said to be near that, and to nothing else."""
    bars = (
        Span(low_mm=-10.0, high_mm=6000.0, what="everything", part="x"),
        Span(low_mm=7000.0, high_mm=8000.0, what="beyond"),
    )
    division = divided(0.0, 5500.0, GAP, LEAST, SplitRules(stock_mm=STOCK, keep_off=bars))
    assert [s.what for s in division.near] == ["everything"]
