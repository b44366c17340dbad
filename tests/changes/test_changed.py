"""What differs between two layouts and their steps."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings

from model3d.changes import Changes, Stand, changed, changes_data, changes_text
from model3d.families.family import Family
from model3d.layout import lay_out
from model3d.rooms import CheckedPlan, DryPlan
from model3d.scene import compose
from model3d.steps import plan_steps
from tests.layout.random_rooms import rectilinear_points
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over

Points = list[tuple[float, float]]


def room(width: float = 3600.0, depth: float = 3000.0) -> Points:
    """A rectangle."""
    return [(0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth)]


def plan(points: Points, *, end_at: float | None = 2000.0, **run: Any) -> CheckedPlan:
    """A run over three walls from w4 on, and a dry piece on w3."""
    ring = ring_of(points)
    dry = (DryPlan(id="dry", wall=ring.walls[2], from_mm=500.0, to_mm=2500.0),)
    return plan_of(ring, run_over(ring, 4, 3, end_at=end_at, **run), dry=dry)


def stand(family: Family, made: CheckedPlan) -> Stand:
    """The plan's layout and steps."""
    layout = lay_out(made, family)
    steps = () if layout.refused else plan_steps(layout, compose(made.room, layout, family), family)
    return Stand(layout=layout, steps=steps)


def between(family: Family, old: CheckedPlan, new: CheckedPlan) -> Changes:
    """What differs between two plans."""
    return changed(stand(family, old), stand(family, new))


def test_nothing_differs_from_itself(family_a: Family) -> None:
    """A layout compared with itself, or moved within the room's frame, has no changes."""
    here = plan(room())
    assert between(family_a, here, here).none
    assert changes_text(between(family_a, here, here)) == "Nothing differs."
    moved = plan([(x + 500.0, y - 300.0) for x, y in room()])
    assert between(family_a, here, moved).none


@settings(max_examples=10)
@given(points=rectilinear_points())
def test_any_layout_is_like_itself(family_a: Family, points: Points) -> None:
    """Whatever the room, nothing differs from itself, and all is gone from what is nothing."""
    ring = ring_of(points)
    laid = Stand(layout=lay_out(plan_of(ring, run_over(ring, 1, len(points) - 1)), family_a))
    assert changed(laid, laid).none
    bare = Stand(layout=replace(laid.layout, runs=(), findings=()))
    found = changed(laid, bare)
    assert {p.mark for p in found.pieces} == {p.mark for p in laid.layout.pieces}
    assert {p.kind for p in found.pieces} == {"removed"}


def test_a_longer_wall(family_a: Family) -> None:
    """A wall 120 longer makes its one piece 120 longer, and nothing else to cut."""
    found = between(family_a, plan(room()), plan(room(width=3720.0)))
    assert found.recut == ("r-2",)
    (piece,) = [p for p in found.pieces if p.mark == "r-2"]
    (length,) = [f for f in piece.fields if f.name == "cut length"]
    assert (length.old, length.new) == ("3498.0 mm", "3618.0 mm")
    assert "r-2 (wall w1): cut length 3498.0 mm -> 3618.0 mm" in changes_text(found)
    assert not found.joints


def test_a_difference_too_small_to_see(family_a: Family) -> None:
    """A wall two hundredths of a millimetre longer changes nothing that is shown."""
    assert between(family_a, plan(room(width=3600.01)), plan(room(width=3600.03))).none


def test_a_joint_more_shifts_the_marks(family_a: Family) -> None:
    """With an in-line link on the second wall, the last piece keeps its length and gets another mark; its step is the
    same one.
    """
    found = between(family_a, plan(room()), plan(room(), joints={"w1": [(1500.0, "link")]}))
    assert ("r-3", "r-4") in [(r.old, r.new) for r in found.marks]
    assert found.recut == ("r-2", "r-3")
    assert {(p.mark, p.kind) for p in found.pieces} == {("r-2", "changed"), ("r-3", "added")}
    assert [s.title for s in found.steps if s.kind == "added"] != []
    assert not [s for s in found.steps if s.kind == "removed"]
    assert "r-3 is now r-4, the same" in changes_text(found)


def test_a_link_for_an_elbow(family_a: Family) -> None:
    """Another joint at a corner changes the joint, the clips and the lengths on both sides of it."""
    found = between(family_a, plan(room()), plan(room(), uses={"c2": "link"}))
    (joint,) = found.joints
    assert joint.mark == "r-J2"
    assert ("kind", "elbow", "link") in [(f.name, f.old, f.new) for f in joint.fields]
    ends = {p.mark: {f.name for f in p.fields} for p in found.pieces}
    assert "far end" in ends["r-2"]
    assert "near end" in ends["r-3"]
    assert {s.kind for s in found.steps} == {"changed"}
    assert any("link" in t.lower() for s in found.steps for t in s.come)


def test_what_is_no_more(family_a: Family) -> None:
    """A dry piece taken out is no more, with its step."""
    here = plan(room())
    found = between(family_a, here, replace(here, dry_pieces=()))
    assert [(p.mark, p.kind) for p in found.pieces] == [("dry", "removed")]
    assert {s.kind for s in found.steps} == {"removed"}
    assert found.recut == ()


def test_findings_come_and_go(family_a: Family) -> None:
    """Findings of the new layout alone are new, of the old one alone gone."""
    skew: Points = [(0.0, 0.0), (3600.0, 0.0), (3900.0, 3000.0), (0.0, 3000.0)]
    found = between(family_a, plan(room()), plan(skew))
    assert any("link-for-elbow" in f for f in found.new_findings)
    back = between(family_a, plan(skew), plan(room()))
    assert back.gone_findings == found.new_findings


@pytest.mark.parametrize("name", ["cut_length_mm", "near_mm", "far_mm"])
def test_a_planted_difference_is_seen(family_a: Family, name: str) -> None:
    """One figure of one piece changed by two tenths is found, and named as that piece's."""
    here = stand(family_a, plan(room()))
    run = here.layout.runs[0]
    piece = run.pieces[1]
    spoilt = replace(piece, **{name: getattr(piece, name) + 0.2})
    there = replace(
        here, layout=replace(here.layout, runs=(replace(run, pieces=(run.pieces[0], spoilt, *run.pieces[2:])),))
    )
    found = changed(here, there)
    assert [p.mark for p in found.pieces] == [piece.mark]
    assert len(found.pieces[0].fields) == 1


def test_as_data(family_a: Family) -> None:
    """The data has every change and the marks to cut anew."""
    found = between(family_a, plan(room()), plan(room(width=3720.0)))
    data = changes_data(found)
    assert data["recut"] == ["r-2"]
    assert [p["mark"] for p in data["pieces"]] == [p.mark for p in found.pieces]
