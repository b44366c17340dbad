"""Level runs over a floor that is not level.

Family (a): floor gap 8, holes 50 and 100 above the floor.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from model3d.families.family import Family
from model3d.layout import Layout, lay_out
from model3d.layout.surfaces_text import surfaces_text
from model3d.layout.values import PieceOverFloor
from model3d.rooms import DryPlan, FloorLevel

from .rooms_by_hand import plan_of, ring_of, run_over

RING = ring_of([(0.0, 0.0), (3600.0, 0.0), (3600.0, 3000.0), (0.0, 3000.0)])


def over(family: Family, **levels: tuple[tuple[float, float], ...]) -> Layout:
    """A run over w4, w1, w2 and a dry piece on w3, the floor read at some walls."""
    dry = (DryPlan(id="dry", wall=RING.walls[2], from_mm=500.0, to_mm=2500.0),)
    plan = plan_of(RING, run_over(RING, 4, 3), dry=dry)
    read = tuple(FloorLevel(wall_id=w, readings=r) for w, r in levels.items())
    return lay_out(replace(plan, floor_levels=read), family)


def of(layout: Layout, mark: str) -> PieceOverFloor:
    """What is under a piece."""
    return next(p for p in layout.over_floor if p.mark == mark)


LEVEL = ((0.0, 1000.0), (3000.0, 1000.0))


def test_a_level_floor_keeps_the_gap(family_a: Family) -> None:
    """Over a level floor every piece keeps its gap of 8, and holes 100 and 50 above it are 900 and 950 below a line
    at 1000.
    """
    layout = over(family_a, w4=LEVEL, w1=LEVEL, w2=LEVEL)
    assert [p.mark for p in layout.over_floor] == ["r-1", "r-2", "r-3"]
    for piece in layout.over_floor:
        assert (piece.least_gap_mm, piece.most_gap_mm, piece.holes_down_mm) == (8.0, 8.0, (900.0, 950.0))
    assert not [f for f in layout.findings if f.code.startswith("floor")]


def test_the_highest_floor_sets_the_run(family_a: Family) -> None:
    """Where the floor falls by 10 along a wall of 3600, the run keeps its height: gaps grow from 8 with the fall, and
    brackets everywhere have one height below the line.
    """
    fall = ((0.0, 1000.0), (3600.0, 1010.0))
    low = ((0.0, 1010.0), (3000.0, 1010.0))
    layout = over(family_a, w4=LEVEL, w1=fall, w2=low)
    piece = of(layout, "r-2")
    assert piece.near_gap_mm == pytest.approx(8.0 + 51.0 / 360.0)
    assert piece.far_gap_mm == pytest.approx(8.0 + 3549.0 / 360.0)
    assert of(layout, "r-3").least_gap_mm == 18.0
    assert {p.holes_down_mm for p in layout.over_floor} == {(900.0, 950.0)}
    assert {f.parts for f in layout.findings if f.code == "floor-gap"} == {("r-2",), ("r-3",)}


def test_a_hump_between_the_ends_counts(family_a: Family) -> None:
    """A hump of 6 in the middle of a wall lifts the whole run by 6: the gap is 8 there and 14 at the ends."""
    layout = over(family_a, w1=((0.0, 1000.0), (1800.0, 994.0), (3600.0, 1000.0)))
    piece = of(layout, "r-2")
    assert piece.least_gap_mm == pytest.approx(8.0)
    assert piece.near_gap_mm == pytest.approx(14.0 - 51.0 / 300.0)
    assert piece.holes_down_mm == (894.0, 944.0)


def test_each_run_and_dry_piece_is_level_by_itself(family_a: Family) -> None:
    """A dry piece over a floor 30 lower keeps its own gap of 8."""
    layout = over(family_a, w4=LEVEL, w1=LEVEL, w2=LEVEL, w3=((0.0, 1030.0),))
    assert of(layout, "dry").near_gap_mm == 8.0
    assert of(layout, "dry").holes_down_mm == (930.0, 980.0)


def test_a_floor_past_din_18202_is_said(family_a: Family) -> None:
    """A hollow of 8 in the middle of 2 m is past the 6 of row 3; one of 6 is not."""
    for dip, said in ((8.0, True), (6.0, False)):
        layout = over(family_a, w1=((0.0, 1000.0), (1000.0, 1000.0 + dip), (2000.0, 1000.0)))
        found = [f for f in layout.findings if f.code == "floor-uneven"]
        assert bool(found) == said
        if said:
            assert (found[0].measured, found[0].limit) == (8.0, 6.0)


def test_walls_whose_floor_was_not_read_are_said(family_a: Family) -> None:
    """Where only some walls of a run were read, the others are named."""
    (finding,) = [f for f in over(family_a, w1=LEVEL).findings if f.code == "floor-not-read"]
    assert finding.parts == ("r-1", "r-3")
    assert "w4, w2" in finding.message
    assert not over(family_a).over_floor


def test_in_words(family_a: Family) -> None:
    """Gaps and drilling heights are listed by piece."""
    assert "r-2  gap 8.0 at the near end, 8.0 at the far end" in surfaces_text(over(family_a, w1=LEVEL))
    assert "holes 900.0 and 950.0 below the level line" in surfaces_text(over(family_a, w1=LEVEL))
