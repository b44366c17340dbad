"""Links' hoses in every state. The bounds 18.9 to 22.0 mm of bend and 2.65 mm off the edge were computed
independently.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from model3d.families.family import Family
from model3d.layout import lay_out
from model3d.layout.allowances import hose_straight_mm
from model3d.rooms import CheckedPlan
from model3d.thermal import ThermalReport, growth_findings, thermal_report
from model3d.thermal.bent_hose import bent_hose
from model3d.thermal.faults import hose_past_crossing
from model3d.thermal.hoses import Ends, far_end_mm
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over
from tests.thermal.conftest import SQUARE

Report = Callable[..., ThermalReport]
STATES = (
    Ends(state="at rest"),
    Ends(state="engaging", out_mm=8.0, down_mm=5.0),
    Ends(state="one", earlier_mm=3.0),
    Ends(state="other", later_mm=3.0),
    Ends(state="both", earlier_mm=3.0, later_mm=3.0),
    Ends(state="frost", earlier_mm=-1.06, later_mm=-1.06),
)


def corner_plan(turn: int) -> CheckedPlan:
    """A run over the two walls at a square external (-1) or internal (1) corner, joined by a link there."""
    if turn > 0:
        ring = ring_of(SQUARE)
        return plan_of(ring, run_over(ring, 4, 2, end_at=3300.0, uses={"c1": "link"}))
    ring = ring_of([(0, 0), (4000, 0), (4000, -3000), (8000, -3000), (8000, 4000), (0, 4000)])
    return plan_of(ring, run_over(ring, 1, 2, end_at=2700.0))


def test_least_bend_of_five_corners(family_a: Family) -> None:
    """Over rest, engaging, hot at one or both ends and frost, the least bend radius of the five links is
    18.9 to 22.0 mm.
    """
    least = []
    for turn in (-90.0, -45.0, 45.0, 87.5, 0.0):
        straight = hose_straight_mm(family_a, turn)
        ends = [far_end_mm(family_a, turn, straight, s) for s in STATES]
        least.append(min(bent_hose(84.0, e, turn).least_radius_mm for e in ends))
    assert (min(least), max(least)) == pytest.approx((18.9, 22.0), abs=0.06)


def test_off_the_edge_of_an_external_corner(report_of: Report) -> None:
    """At a square external corner the hose passes the wall's edge by 2.65 mm or more, least while it
    engages.
    """
    (hose,) = report_of(corner_plan(-1)).hoses
    off = {s.state: s.off_edge.value for s in hose.states if s.off_edge is not None}
    assert len(off) == len(hose.states) == 6
    assert min(off, key=lambda k: off[k]) == "engaging"
    assert off["engaging"] == pytest.approx(2.65, abs=0.01)


def test_growth_comes_to_the_hose_from_both_sides(report_of: Report) -> None:
    """The earlier piece, held by its valve, brings its growth; the later one, which floats, may bring its
    whole growth too.
    """
    report = report_of(corner_plan(1))
    (hose,) = report.hoses
    apart = {s.state: s.apart.value for s in hose.states}
    grown = [g.hot.value for g in report.growths]
    assert apart["hot at the earlier piece"] < apart["at rest"]
    assert apart["hot at both"] < min(apart["hot at the earlier piece"], apart["hot at the later piece"])
    assert apart["at the frost set-back"] > apart["at rest"]
    assert grown[0] > 2.4
    assert report.findings == ()


def test_a_hose_too_short_is_found(report_of: Report, family_a: Family) -> None:
    """In line with 1.2 mm of slack, the frost set-back draws the ends further apart than 1 mm short of the
    hose.
    """
    ring = ring_of(SQUARE)
    plan = plan_of(ring, run_over(ring, 1, 1, joints={"w1": [(1800.0, "link")]}))
    plan = replace(plan, temperatures=replace(plan.temperatures, install_c=60.0, frost_c=-40.0))
    report = report_of(plan, install_c=60.0, frost_c=-40.0)
    (found,) = report.findings
    assert found.code == "hose-too-short"
    assert found.measured == max(s.apart.value for h in report.hoses for s in h.states)
    laid = lay_out(plan, family_a)
    assert growth_findings(plan, laid, family_a) == report.findings
    tight = family_a.model_copy(update={"link": family_a.link.model_copy(update={"slack_mm": 2.0})})
    mild = replace(plan, temperatures=replace(plan.temperatures, install_c=18.0, frost_c=5.0))
    found = thermal_report(mild, lay_out(mild, tight), tight).findings
    assert [f.code for f in found] == ["hose-too-short"]
    assert found[0].limit == 83.0
    assert found[0].measured is not None
    assert found[0].measured > 83.0
    assert thermal_report(mild, lay_out(mild, family_a), family_a).findings == ()


def test_a_hose_bent_too_tight_is_found(family_a: Family) -> None:
    """Two long hot pieces press an in-line hose together: past its least bend radius that is found with
    both figures.
    """
    ring = ring_of([(0.0, 0.0), (9000.0, 0.0), (9000.0, 3000.0), (0.0, 3000.0)])
    plan = plan_of(ring, run_over(ring, 1, 1, joints={"w1": [(4500.0, "link")]}))
    stiff = family_a.model_copy(update={"link": family_a.link.model_copy(update={"least_bend_radius_mm": 19.0})})
    assert [f.code for f in thermal_report(plan, lay_out(plan, family_a), family_a).findings] == []
    (finding,) = thermal_report(plan, lay_out(plan, stiff), stiff).findings
    assert (finding.code, finding.limit) == ("hose-bent-too-tight", 19.0)
    assert finding.measured is not None
    assert 15.0 < finding.measured < 19.0


def test_a_hose_on_the_edge_is_found(family_a: Family) -> None:
    """A thicker hose rubs on the wall's edge while it engages, and is found by how much."""
    plan = corner_plan(-1)
    layout = lay_out(plan, family_a)
    thick = family_a.model_copy(update={"link": family_a.link.model_copy(update={"outer_radius_mm": 9.0})})
    found = [f for f in thermal_report(plan, layout, thick).findings if f.code == "hose-on-edge"]
    assert [f.measured for f in found] == [pytest.approx(2.65 - 3.0, abs=0.01)]


def test_a_face_past_the_hoses_crossing(family_a: Family) -> None:
    """At a square external corner the hoses' lines cross 8.58 + 40 = 48.58 from either end: an end that comes 50 nearer
    stands 1.42 beyond the other's line; one that comes 40 nearer does not.
    """
    plan = corner_plan(-1)
    run = lay_out(plan, family_a).runs[0]
    joint = run.joints[0]
    place = (0.0, 0.0, 0.0)
    for nearer, beyond in ((40.0, None), (50.0, 1.42)):
        ends = [Ends(state="at rest", earlier_mm=nearer)]
        found = list(hose_past_crossing(family_a, joint, ends, place))
        assert [f.code for f in found] == ([] if beyond is None else ["hose-past-crossing"])
        if beyond is not None:
            assert found[0].measured == pytest.approx(-beyond, abs=0.01)
            assert "1.4 mm beyond the line of the other" in found[0].message
