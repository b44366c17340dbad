"""Family (a)'s worked example, by hand: every allowance and length term by term.

Values by pencil from the tangent-length formulas; alpha 23.4e-6 /K for EN AW-6060 (alloy data sheets).
"""

from __future__ import annotations

import pytest

from model3d.families.family import Family
from model3d.layout import lay_out
from model3d.layout.allowances import Situation, allowance_terms, hose_straight_mm, slide_mm
from model3d.layout.spans import growth_mm

from .rooms_by_hand import plan_of, ring_of, run_over

SQUARE = [(0.0, 0.0), (3600.0, 0.0), (3600.0, 3000.0), (0.0, 3000.0)]


@pytest.mark.parametrize(
    ("fitting", "turn_deg", "straight_mm", "allowance_mm"),
    [
        ("elbow", 90.0, None, 51.00),
        ("link", -90.0, 8.58, 51.58),
        ("link", -45.0, 24.29, 53.82),
        ("link", 45.0, 24.29, 67.90),
        ("link", 87.5, 9.46, 84.02),
        ("link", 0.0, 40.0, 60.00),
    ],
)
def test_allowances(
    family_a: Family, fitting: str, turn_deg: float, straight_mm: float | None, allowance_mm: float
) -> None:
    """An allowance is the tangent length of the fitting's arc, its straight part and its stub."""
    terms = allowance_terms(family_a, fitting, Situation(turn_deg=turn_deg))  # type: ignore[arg-type]
    assert sum(t.value_mm for t in terms) == pytest.approx(allowance_mm, abs=0.005)
    if straight_mm is not None:
        assert hose_straight_mm(family_a, turn_deg) == pytest.approx(straight_mm, abs=0.005)


def test_wall_between_two_internal_corners(family_a: Family) -> None:
    """A 3600 wall between two internal corners takes a piece of 3600 - 51 - 51 = 3498."""
    plan = plan_of(ring_of(SQUARE), run_over(ring_of(SQUARE), 4, 3))
    piece = lay_out(plan, family_a).pieces[1]
    assert piece.wall.id == "w1"
    assert piece.cut_length_mm == pytest.approx(3498.0, abs=1e-9)
    assert (piece.start.allowance_mm, piece.end.allowance_mm) == pytest.approx((51.0, 51.0))
    assert piece.start.insertion_mm == 24.0
    assert (piece.end.insertion_mm, piece.end.most_insertion_mm) == (34.0, 52.0)


def test_growth_of_that_piece(family_a: Family) -> None:
    """It grows 2.62 mm at the mean water temperature, 3.03 at flow temperature, and shrinks 1.06 at the frost set-
    back.
    """
    rises = {50.0 - 18.0: 2.62, 55.0 - 18.0: 3.03, 5.0 - 18.0: -1.06}
    for rise_k, growth in rises.items():
        assert growth_mm(family_a, 3498.0, rise_k) == pytest.approx(growth, abs=0.005)


def test_elbow_work(family_a: Family) -> None:
    """The elbows are pushed home by 18 (to 52), drawn out to 42, and drawn by the press through 8 to 34."""
    ring = ring_of(SQUARE)
    joint = lay_out(plan_of(ring, run_over(ring, 4, 3)), family_a).runs[0].joints[0]
    assert joint.kind == "elbow"
    assert joint.elbow is not None
    work = joint.elbow
    assert (work.insertion_mm, work.push_home_mm, work.draw_out_to_mm, work.press_draws_mm) == (34.0, 18.0, 42.0, 8.0)


def test_slide(family_a: Family) -> None:
    """The slide is the depth of engagement and 2 mm: 26."""
    assert slide_mm(family_a, "elbow-short") == slide_mm(family_a, "link") == 26.0


@pytest.mark.parametrize("length_mm", [76.0, 80.0])
def test_shortest_piece(family_a: Family, length_mm: float) -> None:
    """Between elbows no piece is shorter than 52 + 24 + 2 = 78; a shorter one is an error that carries both figures."""
    ring = ring_of([(0.0, 0.0), (length_mm + 102.0, 0.0), (length_mm + 102.0, 3000.0), (0.0, 3000.0)])
    found = [f for f in lay_out(plan_of(ring, run_over(ring, 4, 3)), family_a).findings if f.code == "piece-too-short"]
    assert len(found) == (1 if length_mm < 78.0 else 0)
    if found:
        assert (found[0].measured, found[0].limit) == (pytest.approx(length_mm), 78.0)


def test_growth_gap_only_at_a_free_end(family_a: Family) -> None:
    """The return's piece is cut short by its own growth at flow temperature; a piece before an elbow or a link is
    not.
    """
    ring = ring_of(SQUARE)
    pieces = lay_out(plan_of(ring, run_over(ring, 4, 3, end_at=2000.0)), family_a).pieces
    assert [p.growth_gap_mm > 0 for p in pieces] == [False, False, True]
    last = pieces[-1]
    room = 2000.0 - 51.0 - 60.0
    assert last.cut_length_mm + last.growth_gap_mm == pytest.approx(room, abs=1e-9)
    assert last.growth_gap_mm == pytest.approx(growth_mm(family_a, last.cut_length_mm, 37.0), rel=1e-9)


def test_slide_room_beyond_the_return(family_a: Family) -> None:
    """Where a wall stands beyond the return end of a piece that slides, 24 + 2 + 2 is kept free; where nothing does,
    nothing is.
    """
    ring = ring_of(SQUARE)
    barred = lay_out(plan_of(ring, run_over(ring, 4, 2)), family_a).pieces[-1]
    free = lay_out(plan_of(ring, run_over(ring, 4, 2, end_at=2000.0)), family_a).pieces[-1]
    alone = lay_out(plan_of(ring, run_over(ring, 1, 1)), family_a).pieces[-1]
    assert [p.end.allowance_mm for p in (barred, free, alone)] == pytest.approx([88.0, 60.0, 60.0])
