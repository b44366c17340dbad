"""An explanation can be done again with a pencil, and says what it cannot know."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from model3d.as_cut import with_cuts
from model3d.build.project import load
from model3d.families.family import Family
from model3d.layout import Layout, lay_out
from model3d.rooms import CheckedPlan, DryPlan
from model3d.rooms.cuts import CutMade
from model3d.why import UnknownMark, explain, explanation_data, explanation_text
from tests.layout.random_rooms import rectilinear_points, skew_points
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over

from .pencil import printed_sums, wrong_sums

SQUARE = [(0.0, 0.0), (3600.0, 0.0), (3600.0, 3000.0), (0.0, 3000.0)]
GALLERY = sorted((Path(__file__).parents[2] / "gallery").glob("*/plan.yaml"))


def marks(layout: Layout) -> list[str]:
    """Every mark of a layout."""
    return (
        [r.id for r in layout.runs]
        + [p.mark for p in layout.pieces]
        + [j.mark for run in layout.runs for j in run.joints]
    )


def square_plan() -> CheckedPlan:
    """A run over three walls with an in-line link, and a dry piece."""
    ring = ring_of(SQUARE)
    run = run_over(ring, 4, 3, end_at=2000.0, joints={"w1": [(1500.0, "link")]})
    return plan_of(ring, run, dry=(DryPlan(id="dry", wall=ring.walls[2], from_mm=500.0, to_mm=2500.0),))


def test_cut_length_term_by_term(family_a: Family) -> None:
    """A 3600 wall between two internal corners: 31 + 20 = 51 at each end, and 3600 - 51 - 51 = 3498."""
    ring = ring_of(SQUARE)
    plan = plan_of(ring, run_over(ring, 4, 3))
    found = explain(plan, lay_out(plan, family_a), family_a, "r-2")
    assert found.result.formula == "3600 - 51 - 51"
    assert found.result.value == pytest.approx(3498.0)
    assert [(f.formula, f.value) for f in found.figures[1:4]] == [
        ("(17 + 14) tan(90/2)", pytest.approx(31.0)),
        ("20", 20.0),
        ("31 + 20", pytest.approx(51.0)),
    ]
    assert found.figure("growth at the flow temperature").value == pytest.approx(3.03, abs=0.005)


def test_every_sum_of_a_plan_can_be_done_again(family_a: Family) -> None:
    """Every figure of every piece, dry piece and joint is what its own sum gives."""
    plan = square_plan()
    layout = lay_out(plan, family_a)
    assert "dry" in marks(layout)
    for mark in marks(layout):
        assert wrong_sums(explanation_text(explain(plan, layout, family_a, mark))) == [], mark


@pytest.mark.parametrize("path", GALLERY, ids=[p.parent.name for p in GALLERY])
def test_every_printed_sum_of_the_gallery(path: Path) -> None:
    """Every sum that ``why`` prints of any run, piece, dry piece or joint of the gallery, done again from the printed
    numbers, gives the printed result as nearly as the printed decimals allow.
    """
    project, count = load(path), 0
    for mark in marks(project.layout):
        text = explanation_text(explain(project.plan, project.layout, project.family, mark))
        assert wrong_sums(text) == [], mark
        count += len(printed_sums(text))
    assert count > 40 * len(project.layout.pieces)


def test_what_a_sheet_prints_is_explained(family_a: Family) -> None:
    """Of a piece: cut length, allowances, where it stands, each bracket's place and mark, screws, growth, insertions,
    output, content, mass, velocity, pressure drop; of a run: output, flow, pressure drop.
    """
    plan = square_plan()
    layout = lay_out(plan, family_a)
    names = {f.name for f in explain(plan, layout, family_a, "r-3").figures}
    assert {
        "cut length",
        "near allowance",
        "far allowance",
        "near cut face",
        "far cut face",
        "bracket 1, place",
        "bracket 1, mark",
        "screw 1 above the floor",
        "growth at the flow temperature",
        "insertion hot",
        "insertion pushed home",
        "push home by",
        "draw out to",
        "output of r-3, logarithmic mean",
        "water in r-3",
        "mass of r-3, filled",
        "velocity, r-3, bore",
        "pressure drop of r-3",
    } <= names
    whole = {f.name for f in explain(plan, layout, family_a, "r").figures}
    assert {"output of run r, arithmetic mean", "flow", "valve", "pressure drop of the run", "water in run r"} <= whole
    joint = {f.name for f in explain(plan, layout, family_a, "r-J1").figures}
    assert {"turn", "squeeze", "gland fill", "elbow, long leg, O-ring 2 past the mouth"} <= joint


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("= 3600 - 51 - 51 = 3498.00 mm", "= 3600 - 51 - 51 = 3498.10 mm", "gives 3498, not 3498.1"),
        ("= (17 + 14) tan(90/2) = 31.00 mm", "= as measured = 31.00 mm", "no sum: as measured"),
        ("= (17 + 14) tan(90/2) = 31.00 mm", "= (17 + 13) tan(90/2) = 31.00 mm", "gives 30, not 31"),
    ],
)
def test_a_wrong_sum_is_seen(family_a: Family, old: str, new: str, says: str) -> None:
    """A figure a tenth of a millimetre off its sum, a sum that is mere words, and one with a wrong term are found."""
    ring = ring_of(SQUARE)
    plan = plan_of(ring, run_over(ring, 4, 3))
    text = explanation_text(explain(plan, lay_out(plan, family_a), family_a, "r-2"))
    assert wrong_sums(text) == []
    assert old in text
    assert any(says in w for w in wrong_sums(text.replace(old, new)))


A_NARROW_STEP = [(0.0, 0.0), (600.0, 0.0), (600.0, 1603.0), (300.0, 1603.0), (300.0, 1500.0), (0.0, 1500.0)]


@settings(max_examples=12)
@example(points=A_NARROW_STEP, sense=1)  # leaves a piece of less than half a millimetre
@given(points=st.one_of(rectilinear_points(), skew_points()), sense=st.sampled_from([1, -1]))
def test_sums_of_any_room(family_a: Family, points: list[tuple[float, float]], sense: int) -> None:
    """In any room, run either way, every piece's sums give its cut length, and every joint's its allowance."""
    ring, count = ring_of(points), len(points)
    plan = plan_of(ring, run_over(ring, 1 if sense > 0 else count - 1, count - 1, sense=sense))
    layout = lay_out(plan, family_a)
    for piece in layout.pieces:
        found = explain(plan, layout, family_a, piece.mark)
        assert found.result.value == piece.cut_length_mm
        assert wrong_sums(explanation_text(found)) == []
        assert "given in the plan" not in explanation_text(found)
    for joint in layout.runs[0].joints:
        assert wrong_sums(explanation_text(explain(plan, layout, family_a, joint.mark))) == []


def test_a_length_of_ones_own_is_said(family_a: Family) -> None:
    """A cut length given in the plan is explained as such, with what the sums would say and the difference."""
    ring = ring_of(SQUARE)
    plan = plan_of(ring, run_over(ring, 4, 3, cut_lengths={"w1": [(1, 3490.0)]}))
    found = explain(plan, lay_out(plan, family_a), family_a, "r-2")
    assert found.result.rule == "given in the plan"
    assert found.figure("cut length by the sums").value == pytest.approx(3498.0)
    assert "8 mm shorter than the sums say" in explanation_text(found)


@pytest.mark.parametrize("mark", ["r-2", "r-4", "dry"])
def test_a_piece_as_cut(family_a: Family, mark: str) -> None:
    """A piece cut otherwise is explained as laid out, with the length it was cut to and how far it is off; the sums
    hold.
    """
    plan = square_plan()
    laid = lay_out(plan, family_a)
    planned = next(p for p in laid.pieces if p.mark == mark).cut_length_mm
    plan = replace(plan, as_cut=(CutMade(mark=mark, length_mm=planned - 3.0),))
    layout = with_cuts(plan, laid, family_a).layout
    found = explain(plan, layout, family_a, mark)
    assert found.result.rule == "as cut, given in the plan"
    assert found.figure("cut length by the sums").value == pytest.approx(planned)
    assert "3 mm shorter than the sums say" in explanation_text(found)
    assert wrong_sums(explanation_text(found)) == []


def test_text_and_data(family_a: Family) -> None:
    """The text has every sum and its rule once; in feet and inches it keeps the millimetres beside; data has the same
    lines.
    """
    plan = square_plan()
    layout = lay_out(plan, family_a)
    found = explain(plan, layout, family_a, "r-2")
    text, imperial = explanation_text(found), explanation_text(found, "ft-in")
    assert "(e + r) tan(tau/2) = (17 + 14) tan(90/2) = 31.00 mm" in text
    assert "stub of the elbow = s = 20.00 mm" in text
    assert "= 1 7/32 in (31.00 mm)" in imperial
    assert max(len(line) for line in imperial.splitlines()) <= 140
    lines = [line for section in explanation_data(found)["sections"] for line in section["lines"]]
    assert [line["value"] for line in lines] == [f.value for f in found.figures]


def test_an_unknown_mark(family_a: Family) -> None:
    """A mark that is not there is refused with the nearest one and the list."""
    plan = square_plan()
    with pytest.raises(UnknownMark, match="no mark 'r-22'; did you mean 'r-2'"):
        explain(plan, lay_out(plan, family_a), family_a, "r-22")


def test_a_refused_layout_is_explained_without_growth(family_a: Family) -> None:
    """Where the layout cannot be made, the sums of its pieces still stand."""
    ring = ring_of([(0.0, 0.0), (3000.0, 0.0), (300.0, 700.0)])
    plan = plan_of(ring, run_over(ring, 1, 2))
    layout = lay_out(plan, family_a)
    assert layout.refused
    found = explain(plan, layout, family_a, "r-1")
    assert wrong_sums(explanation_text(found)) == []
    assert "Warm and cold" not in [s.title for s in found.sections]
