"""The four states of a long leg against its window, by pencil from the fittings' own lengths."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from model3d.families.family import Family
from model3d.layout import lay_out
from model3d.rooms import CheckedPlan
from model3d.thermal import ThermalReport, thermal_report
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over
from tests.thermal.conftest import SQUARE

Report = Callable[..., ThermalReport]


def test_the_four_states(report_of: Report, three_walls: CheckedPlan) -> None:
    """In a 3498 mm piece: cold 34.0, hot 37.0, coldest 32.9, pushed home 52.0; window 14 + 3 + 2 = 19 to
    54 - 2 = 52.
    """
    leg = report_of(three_walls).long_legs[1]
    assert (leg.joint, leg.piece) == ("r-J2", "r-2")
    assert (leg.least.value, leg.most.value) == (19.0, 52.0)
    assert [s.value for s in leg.states] == pytest.approx([34.0, 37.03, 32.94, 52.0], abs=0.005)
    assert leg.least.formula == "14 + 3 + 2"
    assert leg.hot.formula == "34 + 3.03"
    assert leg.frost.formula == "34 - 1.06"
    assert leg.outside == ()


@pytest.mark.parametrize(("wall_mm", "flow_c", "outside"), [(12000.0, 80.0, []), (13700.0, 80.0, ["insertion hot"])])
def test_growth_past_the_window(family_a: Family, wall_mm: float, flow_c: float, outside: list[str]) -> None:
    """A leg is out of its window when the growth passes the 18 mm between working and pushed home, and not
    before.
    """
    family = family_a.model_copy(update={"stock_lengths_mm": (15000.0,)})
    ring = ring_of([(0.0, 0.0), (wall_mm, 0.0), (wall_mm, 3000.0), (0.0, 3000.0)])
    plan = plan_of(ring, run_over(ring, 4, 3))
    plan = replace(plan, temperatures=replace(plan.temperatures, flow_c=flow_c))
    report = thermal_report(plan, lay_out(plan, family), family)
    leg = report.long_legs[1]
    growth = 23.4e-6 * (wall_mm - 102.0) * (flow_c - 18.0)
    assert leg.hot.value == pytest.approx(34.0 + growth)
    assert (growth > 18.0) == bool(outside)
    assert [s.name for s in leg.outside] == outside
    found = [f for f in report.findings if f.code == "long-leg-outside-window"]
    assert [(f.parts, f.measured, f.limit) for f in found] == [(("r-J2", "r-2"), leg.hot.value, 52.0)] * len(outside)


def test_drawn_out_by_frost(family_a: Family) -> None:
    """Fitted warm and left to freeze, a leg drawn to less than 19 mm is out of its window."""
    family = family_a.model_copy(update={"stock_lengths_mm": (20000.0,)})
    ring = ring_of([(0.0, 0.0), (15000.0, 0.0), (15000.0, 3000.0), (0.0, 3000.0)])
    plan = plan_of(ring, run_over(ring, 4, 3))
    plan = replace(plan, temperatures=replace(plan.temperatures, install_c=40.0, frost_c=-5.0))
    leg = thermal_report(plan, lay_out(plan, family), family).long_legs[1]
    assert leg.frost.value == pytest.approx(34.0 - 23.4e-6 * 14898 * 45)
    assert [s.name for s in leg.outside] == ["insertion at the frost set-back"]


def test_a_floating_piece_is_checked_for_its_whole_growth(report_of: Report) -> None:
    """Between a link and a long leg a piece floats: the leg is checked for the whole growth, and the
    figure says so.
    """
    ring = ring_of(SQUARE)
    leg = report_of(plan_of(ring, run_over(ring, 4, 3, uses={"c1": "link"}))).long_legs[0]
    assert leg.hot.value > 36.9
    assert "the whole growth, though half is expected" in leg.hot.rule


def test_every_elbow_has_a_leg(report_of: Report, three_walls: CheckedPlan) -> None:
    """Each elbow corner's leg is reported once, and found by its joint and by its piece."""
    report = report_of(three_walls)
    assert [leg.joint for leg in report.long_legs] == ["r-J1", "r-J2"]
    figures = report.figures_of("r-2")
    assert {"growth at the flow temperature", "insertion hot"} <= {f.name for f in figures}
    assert report.figures_of("r-J2") == report.long_legs[1].figures


def test_what_the_hands_do(report_of: Report, three_walls: CheckedPlan) -> None:
    """The slide of 26 asks 26 - 17 + 7.5 = 16.5 of push-home; 20 - 2 = 18 is there, leaving 1.5; drawn out
    to 42, pressed to 34.
    """
    work = {f.name: (f.formula, f.value) for f in report_of(three_walls).long_legs[1].work}
    assert work == {
        "push home at least by": ("26 - 17 + 7.5", 16.5),
        "push home by": ("20 - 2", 18.0),
        "elbows off the far wall": ("17 + 18 - 7.5 - 26", 1.5),
        "draw out to": ("34 + 8", 42.0),
        "drawn by the press": ("8", 8.0),
    }
    first = report_of(three_walls).long_legs[0]
    assert first.to_far_wall_mm == 27.5


def test_elbows_that_hit_the_far_wall(family_a: Family, three_walls: CheckedPlan) -> None:
    """With a stub of 12 no push-home makes the room: every corner after a slide is an error with the
    shortfall.
    """
    layout = lay_out(three_walls, family_a)
    elbow = family_a.elbow
    assert elbow is not None
    short = family_a.model_copy(update={"elbow": elbow.model_copy(update={"stub_mm": 12.0, "short_leg_mm": 36.0})})
    found = [f for f in thermal_report(three_walls, layout, short).findings if f.code == "elbow-cannot-slide"]
    assert [(f.parts, f.measured) for f in found] == [(("r-J2", "r-2"), 17.0 + 10.0 - 7.5 - 26.0)]
