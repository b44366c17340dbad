"""Growth and what holds each piece. Alpha of EN AW-6060/6063 23.4e-6 /K (23.0 to 23.5, 20 to 100 C: alloy
data sheets).
"""

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


def test_growth_term_by_term(report_of: Report, three_walls: CheckedPlan) -> None:
    """A 3498 mm piece at 55/45 installed at 18 grows 2.62 mm at the mean, 3.03 at the flow temperature,
    and shrinks 1.06 at frost 5.
    """
    growth = report_of(three_walls).growths[1]
    assert growth.marks == ("r-2",)
    assert growth.mean.value == pytest.approx(2.62, abs=0.005)
    assert growth.hot.value == pytest.approx(3.03, abs=0.005)
    assert growth.frost.value == pytest.approx(-1.06, abs=0.005)
    assert growth.hot.formula == "23.4e-6 x 3498 x (55 - 18)"
    assert growth.hot.rule == "dL = alpha L (T - T_install), EN AW-6060"


@pytest.mark.parametrize(("install_c", "flow_c", "growth_mm"), [(20.0, 70.0, 3.51), (20.0, 75.0, 3.86)])
def test_three_metres(family_a: Family, install_c: float, flow_c: float, growth_mm: float) -> None:
    """Three metres of EN AW-6060 grow 3.51 mm over 50 K and 3.86 mm from 20 to 75 C (alpha L dT, alloy
    data sheets).
    """
    ring = ring_of([(0.0, 0.0), (3155.0, 0.0), (3155.0, 3000.0), (0.0, 3000.0)])
    run = replace(run_over(ring, 1, 1, cut_lengths={"w1": [(1, 3000.0)]}))
    plan = plan_of(ring, run)
    plan = replace(plan, temperatures=replace(plan.temperatures, flow_c=flow_c, install_c=install_c))
    (growth,) = thermal_report(plan, lay_out(plan, family_a), family_a).growths
    assert growth.length.value == 3000.0
    assert growth.hot.value == pytest.approx(growth_mm, abs=0.005)


def test_what_holds_each_piece(report_of: Report, three_walls: CheckedPlan) -> None:
    """The valve end and a short-leg end are held; a long-leg end and a free return end are not."""
    holds = [(g.near.held, g.far.held) for g in report_of(three_walls).growths]
    assert holds == [(True, False), (True, False), (True, False)]


def test_a_piece_between_links_floats(report_of: Report) -> None:
    """A piece held nowhere may send its whole growth to either end, and is expected to send half to each."""
    ring = ring_of(SQUARE)
    plan = plan_of(ring, run_over(ring, 4, 3, uses={"c1": "link", "c2": "link"}))
    growth = report_of(plan).growths[1]
    assert growth.hold == "none"
    assert growth.floats
    assert growth.taken_mm("near", growth.hot) == growth.taken_mm("far", growth.hot) == growth.hot.value > 2.9
    assert growth.expected is not None
    assert growth.expected.value == growth.hot.value / 2
    assert growth.expected in growth.figures
    assert report_of(plan).growths[0].expected is None


def test_held_at_both_ends(report_of: Report, family_a: Family) -> None:
    """A piece between a valve end and a fixed return is an error, with the force E A alpha dT that shows
    why.
    """
    ring = ring_of(SQUARE)
    free = plan_of(ring, run_over(ring, 1, 1))
    fixed = replace(free, runs=(replace(free.runs[0], return_fixed=True),))
    assert report_of(free).findings == ()
    report = report_of(fixed)
    (finding,) = report.findings
    assert (finding.code, finding.severity, finding.parts) == ("held-at-both-ends", "error", ("r-1",))
    (growth,) = report.growths
    area = family_a.section.spec().metal_area_mm2
    assert growth.force is not None
    assert growth.force.value == pytest.approx(69500 * area * 23.4e-6 * 37 / 1000)
    assert f"{growth.force.value:.0f} kN" in finding.message
    assert finding.measured == pytest.approx(23.4e-6 * growth.length.value * 37)


def test_a_short_leg_and_a_fixed_return_hold_a_piece_twice(report_of: Report, three_walls: CheckedPlan) -> None:
    """With the return's pipework fixed, the piece after an elbow corner is held at both ends; the others
    are not.
    """
    run = three_walls.runs[0]
    fixed = replace(three_walls, runs=(replace(run, return_fixed=True),))
    assert [(f.code, f.parts) for f in report_of(fixed).findings] == [("held-at-both-ends", ("r-3",))]
    linked = replace(
        fixed, runs=(replace(fixed.runs[0], corners=(run.corners[0], replace(run.corners[1], use="link"))),)
    )
    assert report_of(linked).findings == ()


def test_coupled_pieces_grow_as_one(report_of: Report) -> None:
    """Pieces that couplers join move as one: held where the first is, grown over the whole, couplers' gaps
    included.
    """
    ring = ring_of(SQUARE)
    plan = plan_of(ring, run_over(ring, 4, 2, joints={"w1": [(1800.0, "coupler")]}))
    growth = report_of(plan).growths[1]
    assert growth.marks == ("r-2", "r-3")
    assert (growth.near.held, growth.far.held) == (True, False)
    assert growth.length.value == pytest.approx(3600.0 - 51.0 - 88.0, abs=3.5)
    assert growth.hot.value == pytest.approx(23.4e-6 * growth.length.value * 37)


def test_winter_and_summer_installs(report_of: Report, three_walls: CheckedPlan) -> None:
    """Fitted in a frosty shell at -5 everything only grows; fitted at 35 the frost set-back shrinks it
    most.
    """
    winter, summer = (report_of(three_walls, install_c=c) for c in (-5.0, 35.0))
    assert winter.growths[1].frost.value == pytest.approx(23.4e-6 * 3498 * 10)
    assert winter.growths[1].hot.value == pytest.approx(23.4e-6 * 3498 * 60)
    assert summer.growths[1].frost.value == pytest.approx(-23.4e-6 * 3498 * 30)
    assert summer.growths[1].hot.value == pytest.approx(23.4e-6 * 3498 * 20)


def test_a_growth_gap_taken_up(report_of: Report) -> None:
    """A cut length of one's own that fills a free end's growth gap is a warning with both figures; a
    shorter one is not.
    """
    ring = ring_of(SQUARE)
    room = 3600.0 - 95.0 - 60.0
    tight, free = (plan_of(ring, run_over(ring, 1, 1, cut_lengths={"w1": [(1, room - x)]})) for x in (0.0, 3.2))
    (found,) = report_of(tight).findings
    assert (found.code, found.severity, found.measured) == (
        "growth-gap-too-small",
        "warning",
        pytest.approx(0.0),
    )
    assert found.limit == pytest.approx(23.4e-6 * room * 37)
    assert report_of(free).findings == ()
