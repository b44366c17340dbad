"""Pieces cut otherwise than laid out: where they stand, whether their joints hold, and the least change.

Family (a): a long leg's insertion of 34 may be 19 to 52; pushed home by 18 the elbows stand 1.5 off the far wall; a
hose of 84 keeps 1 in hand.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from model3d.as_cut import Change, CutLayout, cut_text, with_cuts
from model3d.families.family import Family
from model3d.layout import Layout, Piece, lay_out
from model3d.rooms import CheckedPlan, DryPlan
from model3d.rooms.cuts import CutMade
from model3d.scene import compose
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over

RING = ring_of([(0.0, 0.0), (3600.0, 0.0), (3600.0, 3000.0), (0.0, 3000.0)])
LINK = {"w1": [(1500.0, "link")]}
COUPLER = {"w1": [(1500.0, "coupler")]}


def plan(
    cuts: dict[str, float], *, fitted: tuple[str, ...] = (), joints: dict[str, list[tuple[float, str]]] | None = None
) -> CheckedPlan:
    """A run over three walls; its second piece r-2 is the first on wall w1, between internal corners."""
    dry = (DryPlan(id="dry", wall=RING.walls[2], from_mm=500.0, to_mm=2500.0),)
    made = plan_of(RING, run_over(RING, 4, 3, end_at=2000.0, joints=joints), dry=dry)
    return replace(made, as_cut=tuple(CutMade(mark=m, length_mm=v) for m, v in cuts.items()), fitted=fitted)


def cut(family: Family, made: CheckedPlan) -> CutLayout:
    """The plan's layout with its cuts."""
    return with_cuts(made, lay_out(made, family), family)


def piece(layout: Layout, mark: str) -> Piece:
    """The piece of a mark."""
    return next(p for p in layout.pieces if p.mark == mark)


def planned_mm(family: Family, mark: str) -> float:
    """The length of a piece as laid out."""
    return piece(lay_out(plan({}), family), mark).cut_length_mm


def test_without_cuts_the_layout_is_as_it_was(family_a: Family) -> None:
    """A plan that gives no lengths as cut and nothing fitted keeps its layout."""
    made = plan({})
    layout = lay_out(made, family_a)
    assert with_cuts(made, layout, family_a) == CutLayout(layout=layout, pieces=())


@pytest.mark.parametrize("off_mm", [-8.0, 1.4])
def test_a_piece_between_corners_that_still_does(family_a: Family, off_mm: float) -> None:
    """A piece held at its near end sends the whole difference to its far end; within the window its joints hold."""
    made = cut(family_a, plan({"r-2": 3498.0 + off_mm}))
    (found,) = made.pieces
    assert found.seals
    assert found.change is None
    assert [e.out_mm for e in found.ends] == [0.0, pytest.approx(off_mm)]
    cold = next(f for f in found.ends[1].figures if f.name == "insertion cold")
    assert cold.value == pytest.approx(34.0 + off_mm)
    laid = piece(made.layout, "r-2")
    assert (laid.cut_length_mm, laid.planned_mm) == (3498.0 + off_mm, pytest.approx(3498.0))
    assert abs(laid.far_mm - laid.near_mm) == pytest.approx(laid.cut_length_mm)
    assert laid.end.insertion_mm == pytest.approx(34.0 + off_mm)
    (finding,) = [f for f in made.layout.findings if f.code.startswith("as-cut")]
    assert (finding.severity, finding.measured) == ("note", 3498.0 + off_mm)


def test_the_elbows_are_worked_to_the_piece_as_cut(family_a: Family) -> None:
    """In a piece 8 mm short the long leg stands 26 deep, is pushed home by 26 to 52 and drawn out to 34."""
    run = cut(family_a, plan({"r-2": 3490.0})).layout.runs[0]
    work = run.joints[1].elbow
    assert work is not None
    got = (work.insertion_mm, work.push_home_mm, work.draw_out_to_mm, work.press_draws_mm)
    assert got == pytest.approx((26.0, 26.0, 34.0, 8.0))


def test_the_elbows_stay_where_the_next_piece_holds_them(family_a: Family) -> None:
    """The elbows at the far end of a piece 8 mm short stand where they stood: the later piece's clip holds them."""
    here, there = (cut(family_a, plan(cuts)).layout for cuts in ({}, {"r-2": 3490.0}))
    room = plan({}).room
    before, after = (
        {p.id: p.placement.origin_mm for p in compose(room, made, family_a).fitted if p.joint == "r-J2"}
        for made in (here, there)
    )
    assert before.keys() == after.keys()
    for part, place in before.items():
        assert math.dist(place, after[part]) < 1e-6, part


@pytest.mark.parametrize(
    ("off_mm", "change"),
    [
        (5.0, Change(kind="cut-off", mark="r-2", by_mm=3.5, length_mm=3499.5)),  # 18 - 16.5: the elbows clear the wall
        (
            -18.0,
            Change(kind="new-piece", mark="r-2", by_mm=4.06, length_mm=3484.06),
        ),  # 34 - 1.06 (frost) - 19 short at most
    ],
)
def test_too_long_and_too_short(family_a: Family, off_mm: float, change: Change) -> None:
    """A piece too long is cut again by what is too much; one too short is cut anew, as long as it must be; to a
    tenth.
    """
    made = cut(family_a, plan({"r-2": 3498.0 + off_mm}))
    (found,) = made.pieces
    assert not found.seals
    assert found.change is not None
    assert (found.change.kind, found.change.mark) == (change.kind, change.mark)
    assert found.change.by_mm == pytest.approx(change.by_mm, abs=0.11)
    assert found.change.length_mm == pytest.approx(change.length_mm, abs=0.11)
    (finding,) = [f for f in made.layout.findings if f.code == "as-cut-wrong"]
    assert f"{found.change.length_mm:.1f} mm" in finding.remedy


@pytest.mark.parametrize(
    ("cuts", "joints"),
    [
        ({"r-2": 3503.0}, None),
        ({"r-2": 3480.0}, None),
        ({"r-2": 1420.0}, LINK),
        ({"r-2": 1365.0}, LINK),
        ({"r-3": 2005.0}, LINK),
        ({"r-2": 1480.0}, COUPLER),
        ({"r-2": 1430.0}, COUPLER),
    ],
)
def test_the_change_makes_it_right_and_less_does_not(
    family_a: Family, cuts: dict[str, float], joints: dict[str, list[tuple[float, str]]] | None
) -> None:
    """With the length that the change gives, everything holds; with half a millimetre less of it, it does not."""
    made = plan(cuts, joints=joints)
    found = next(p for p in cut(family_a, made).pieces if not p.seals)
    change = found.change
    assert change is not None
    right = cut(family_a, plan({**cuts, change.mark: change.length_mm}, joints=joints))
    assert all(p.seals for p in right.pieces)
    back = 0.5 if change.kind == "cut-off" else -0.5
    less = cut(family_a, plan({**cuts, change.mark: change.length_mm + back}, joints=joints))
    assert not all(p.seals for p in less.pieces)


def test_a_link_takes_what_its_slack_allows(family_a: Family) -> None:
    """At an in-line link of 80 between its ends a piece may be 2 mm short, engaging and at the frost set-back; the
    next one, which floats, comes half way for more.
    """
    made = cut(family_a, plan({"r-2": 1384.0}, joints=LINK))
    (found,) = made.pieces
    assert found.seals
    assert found.ends[1].out_mm == pytest.approx(-5.0)
    assert piece(made.layout, "r-3").near_out_mm > 0.0


def test_a_piece_between_a_link_and_long_legs_floats(family_a: Family) -> None:
    """A piece held nowhere shares the difference between its ends."""
    (found,) = cut(family_a, plan({"r-3": 1990.0}, joints=LINK)).pieces
    assert [e.out_mm for e in found.ends] == pytest.approx([0.5, 0.5])


def test_coupled_pieces_are_one(family_a: Family) -> None:
    """Of coupled pieces the far end takes what either is off; the other one, not cut yet, is cut to make up for it."""
    made = cut(family_a, plan({"r-2": 1430.0}, joints=COUPLER))
    (found,) = made.pieces
    assert found.ends[1].joint == "elbow-long"
    assert found.ends[1].out_mm == pytest.approx(-17.0)
    assert found.change is not None
    assert (found.change.kind, found.change.mark) == ("cut-other", "r-3")
    joint = made.layout.runs[0].joints[1]
    assert joint.middle_mm == pytest.approx(1500.0 - 17.0)


def test_a_piece_that_is_up_is_not_cut_again(family_a: Family) -> None:
    """Where a piece too long is up already, the next one is cut shorter instead."""
    made = cut(family_a, plan({"r-2": 1460.0}, joints=COUPLER, fitted=("r-1", "r-2")))
    (found,) = made.pieces
    assert found.change is not None
    assert (found.change.kind, found.change.mark) == ("cut-other", "r-3")
    assert found.change.by_mm < 0.0


def test_the_growth_gap_at_a_return(family_a: Family) -> None:
    """The last piece may be a saw's half millimetre long; 2 mm more than its growth gap leaves are too much."""
    planned = piece(lay_out(plan({}), family_a), "r-3").cut_length_mm
    assert cut(family_a, plan({"r-3": planned + 0.4})).pieces[0].seals
    found = cut(family_a, plan({"r-3": planned + 2.0})).pieces[0]
    assert not found.seals
    assert found.change is not None
    assert found.change.kind == "cut-off"
    assert found.change.by_mm == pytest.approx(1.5, abs=0.11)


def test_a_piece_too_short_for_its_fittings(family_a: Family) -> None:
    """A piece cut shorter than the insertions at its ends is said to be so."""
    (found,) = cut(family_a, plan({"r-2": 70.0})).pieces
    assert any("need 78.0 mm" in fault for fault in found.faults)


def test_a_dry_piece(family_a: Family) -> None:
    """A dry piece longer than its growth gap leaves is wrong; a shorter one only leaves a gap."""
    planned = piece(lay_out(plan({}), family_a), "dry")
    short, long = (
        cut(family_a, plan({"dry": planned.cut_length_mm + off})).pieces[0]
        for off in (-5.0, planned.growth_gap_mm + 1.0)
    )
    assert short.seals
    assert short.ends[1].out_mm == pytest.approx(-5.0)
    assert not long.seals
    assert long.faults == ("it is 1.0 mm longer than the place it has to grow in",)
    assert long.change is not None
    assert (long.change.kind, long.change.by_mm) == ("cut-off", pytest.approx(1.0, abs=0.11))
    assert cut(family_a, plan({"dry": long.change.length_mm})).pieces[0].seals


def test_each_piece_answers_for_itself(family_a: Family) -> None:
    """Of two pieces cut wrong, the one whose joints hold is not blamed for the other's elbows, and the change of the
    other is what it would be alone.
    """
    alone = cut(family_a, plan({"r-2": 3510.0})).pieces[0]
    both = cut(family_a, plan({"r-2": 3510.0, "r-1": planned_mm(family_a, "r-1") - 8.0}))
    of = {p.mark: p for p in both.pieces}
    assert of["r-1"].seals
    assert not of["r-2"].seals
    assert of["r-2"].change == alone.change
    assert both.said == {("elbow-cannot-slide", ("r-J2", "r-2"))}


def test_two_pieces_wrong_each_by_itself(family_a: Family) -> None:
    """Where two pieces are each too long, each is to be cut by what it is too long itself."""
    long = {"r-1": planned_mm(family_a, "r-1") + 40.0, "r-2": 3510.0}
    changes = [p.change for p in cut(family_a, plan(long)).pieces]
    alone = [cut(family_a, plan({mark: length})).pieces[0].change for mark, length in long.items()]
    assert changes == alone
    assert all(c is not None and c.kind == "cut-off" for c in changes)


def test_one_mistake_is_said_once(family_a: Family) -> None:
    """Of two pieces too long for the hoses between them, the one that takes the least change has the error; the other
    one waits for it, and with that change both hold.
    """
    long = {"r-2": planned_mm_of_linked(family_a, "r-2") + 4.0, "r-3": planned_mm_of_linked(family_a, "r-3") + 8.0}
    made = cut(family_a, plan(long, joints=LINK))
    (wrong,) = [p for p in made.pieces if not p.seals]
    (other,) = [p for p in made.pieces if p.seals]
    assert other.waits_for == wrong.mark
    assert [f.code for f in made.layout.findings if f.code.startswith("as-cut")].count("as-cut-wrong") == 1
    note = next(f for f in made.layout.findings if f.code == "as-cut")
    assert f"its joints hold once {wrong.mark} is changed, hot and cold" in note.message
    assert wrong.change is not None
    mended = cut(family_a, plan({**long, wrong.change.mark: wrong.change.length_mm}, joints=LINK))
    assert all(p.seals and p.waits_for is None for p in mended.pieces)


def planned_mm_of_linked(family: Family, mark: str) -> float:
    """The length as laid out of a piece of the run with an in-line link."""
    return piece(lay_out(plan({}, joints=LINK), family), mark).cut_length_mm


def test_fitted_pieces_are_marked(family_a: Family) -> None:
    """Pieces that are up are marked so in the layout; one that is up before its elder is said."""
    made = cut(family_a, plan({}, fitted=("r-1", "r-3")))
    assert [p.mark for p in made.layout.pieces if p.fitted] == ["r-1", "r-3"]
    (finding,) = [f for f in made.layout.findings if f.code == "fitted-out-of-order"]
    assert finding.parts == ("r-3", "r-2")
    assert not [f for f in cut(family_a, plan({}, fitted=("r-1", "r-2"))).layout.findings if "fitted" in f.code]


def test_marks_that_no_piece_has(family_a: Family) -> None:
    """A mark of a run that has fewer pieces is an error that lists those there are."""
    found = [
        f for f in cut(family_a, plan({"r-9": 500.0}, fitted=("r-8",))).layout.findings if f.code == "unknown-mark"
    ]
    assert [f.parts for f in found] == [("r-9",), ("r-8",)]
    assert "r-1, r-2, r-3, dry" in found[0].message


def test_in_words(family_a: Family) -> None:
    """The text gives each end, what is in its joint hot and cold, what is wrong, and the change."""
    text = cut_text(cut(family_a, plan({"r-2": 3503.0})).pieces)
    for words in (
        "cut to 3503.0 mm, laid out 3498.0 mm (5.0 mm longer): does not do",
        "toward the return, long legs: overlap 5.0 mm at joint r-J2",
        "toward the valve, short legs: in its place",
        "insertion cold = 54 - 20 + 5 = 39.00 mm",
        "WRONG: pushed right home, its elbows stand 3.5 mm into the far wall",
        "mm off r-2, to 3499.",
    ):
        assert words in text
