"""The hose's centre line in plain numbers, against elliptic integrals and differences."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.special import ellipe

from model3d.parts.fittings import HoseSpec
from model3d.parts.hose_curve import HoseCurve, hose_curve, sag_for_mm, stretches_mm

TURNS = st.floats(-100.0, 100.0)
PLANS = st.floats(75.0, 140.0)
SLACKS = st.floats(0.0, 8.0)


def spec_of(turn_deg: float, plan_mm: float, slack_mm: float) -> HoseSpec:
    """A hose with R 40 whose plan line is ``plan_mm`` long."""
    return HoseSpec(
        length_mm=plan_mm + slack_mm,
        straight_mm=(plan_mm - 40.0 * math.radians(abs(turn_deg))) / 2.0,
        arc_radius_mm=40.0,
        turn_deg=turn_deg,
        outer_radius_mm=6.0,
        inner_radius_mm=4.2,
    )


def stretched(curve: HoseCurve, count: int = 1000) -> float:
    """Length of a fine chain along the curve."""
    points = [curve.point(curve.plan_length_mm * k / count) for k in range(count + 1)]
    return sum(math.dist(a, b) for a, b in pairwise(points))


@given(TURNS, PLANS, SLACKS)
def test_the_centre_line_is_as_long_as_the_hose(turn_deg: float, plan_mm: float, slack_mm: float) -> None:
    """The sag is such that the centre line in space is as long as the hose."""
    curve = hose_curve(spec_of(turn_deg, plan_mm, slack_mm))
    assert curve.length_mm == pytest.approx(plan_mm + slack_mm, abs=1e-9)
    assert stretched(curve) == pytest.approx(plan_mm + slack_mm, abs=1e-3)


@given(PLANS, st.floats(0.01, 10.0))
def test_the_sag_agrees_with_the_elliptic_integral(plan_mm: float, slack_mm: float) -> None:
    """A cosine's length is S (2 / pi) E(-k^2) with k = pi h / S, E the complete elliptic integral of the
    second kind."""
    sag = sag_for_mm(plan_mm, plan_mm + slack_mm)
    steepest = math.pi * sag / plan_mm
    assert plan_mm * 2.0 / math.pi * ellipe(-(steepest**2)) == pytest.approx(plan_mm + slack_mm, abs=1e-9)


def test_a_quarter_turn_at_60_is_94_248_long() -> None:
    """An arc of 90 degrees at R 60 is 94.248 mm long."""
    spec = replace(spec_of(90.0, 80.0, 0.0), arc_radius_mm=60.0, straight_mm=0.0, length_mm=30.0 * math.pi)
    curve = hose_curve(spec)
    assert curve.length_mm == pytest.approx(94.248, abs=5e-4)
    assert curve.end.origin_mm == pytest.approx((60.0, 60.0, 0.0))
    assert curve.end.x_axis == pytest.approx((0.0, 1.0, 0.0), abs=1e-12)


@given(TURNS, PLANS, SLACKS)
def test_seen_from_above_it_is_straight_arc_straight(turn_deg: float, plan_mm: float, slack_mm: float) -> None:
    """The end stands where straight, arc, straight lead, turned by the turn, to the left when positive,
    level."""
    spec = spec_of(turn_deg, plan_mm, slack_mm)
    end, turn, c = hose_curve(spec).end, math.radians(turn_deg), spec.straight_mm
    side = math.copysign(1.0, turn)
    x = c + 40.0 * math.sin(abs(turn)) + c * math.cos(turn)
    y = side * 40.0 * (1.0 - math.cos(turn)) + c * math.sin(turn)
    assert end.origin_mm == pytest.approx((x, y, 0.0), abs=2e-6)  # below a millionth the arc is taken as none
    assert end.x_axis == pytest.approx((math.cos(turn), math.sin(turn), 0.0), abs=3e-8)


@given(TURNS, PLANS, SLACKS, st.floats(0.02, 0.98))
def test_the_tangent_is_the_curves_direction(turn_deg: float, plan_mm: float, slack_mm: float, share: float) -> None:
    """The tangent agrees with the difference of two near points, and is of length 1."""
    curve = hose_curve(spec_of(turn_deg, plan_mm, slack_mm))
    s_mm, small = share * curve.plan_length_mm, 1e-4
    a, b = curve.point(s_mm - small), curve.point(s_mm + small)
    apart = math.dist(a, b)
    assert curve.tangent(s_mm) == pytest.approx(tuple((q - p) / apart for p, q in zip(a, b, strict=True)), abs=1e-5)
    assert math.hypot(*curve.tangent(s_mm)) == pytest.approx(1.0, abs=1e-12)


@settings(max_examples=30)
@given(TURNS, PLANS, st.floats(0.05, 8.0))
def test_no_place_is_bent_tighter_than_the_least_radius(turn_deg: float, plan_mm: float, slack_mm: float) -> None:
    """The least bend radius is reached and nowhere undercut: circles through three near points say so."""
    assume(turn_deg == 0.0 or abs(turn_deg) > 3.0)
    curve = hose_curve(spec_of(turn_deg, plan_mm, slack_mm))
    whole, small = curve.plan_length_mm, 0.02
    marks = curve.junctions_mm
    radii = []
    for k in range(101):
        s_mm = small + (whole - 2.0 * small) * k / 100.0
        if all(abs(s_mm - m) > 2.0 * small for m in marks[1:-1]):
            radii.append(bend_radius(curve, s_mm, small))
    assert min(radii) >= curve.least_bend_radius_mm * (1.0 - 1e-4)
    assert min(radii) <= curve.least_bend_radius_mm * 1.01


def bend_radius(curve: HoseCurve, s_mm: float, small_mm: float) -> float:
    """Radius of the circle through three near points of the curve."""
    a, b, c = (curve.point(s_mm + k * small_mm) for k in (-1, 0, 1))
    ab, bc, ca = math.dist(a, b), math.dist(b, c), math.dist(c, a)
    u = [q - p for p, q in zip(a, b, strict=True)]
    v = [q - p for p, q in zip(a, c, strict=True)]
    area = math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]) / 2.0
    return math.inf if area == 0.0 else ab * bc * ca / (4.0 * area)


def test_a_straight_hose_without_slack_is_not_bent() -> None:
    """In-line and without slack, a hose lies straight and level."""
    curve = hose_curve(spec_of(0.0, 80.0, 0.0))
    assert curve.sag_mm == 0.0
    assert curve.least_bend_radius_mm == math.inf
    assert curve.point(33.0) == pytest.approx((33.0, 0.0, 0.0))


def test_the_slack_hangs_down_alike_on_both_sides() -> None:
    """The slack hangs below the spigots, deepest in the middle, level at both ends, the same both ways."""
    curve = hose_curve(spec_of(90.0, 80.0, 4.0))
    assert curve.point(40.0)[2] == pytest.approx(-curve.sag_mm)
    assert curve.slope(0.0) == pytest.approx(0.0, abs=1e-12)
    for s_mm in (3.0, 11.0, 29.0):
        assert curve.point(s_mm)[2] == pytest.approx(curve.point(80.0 - s_mm)[2], abs=1e-9)
        assert curve.point(s_mm)[2] < 0.0


@given(TURNS, PLANS, st.floats(1.0, 9.0))
def test_stretches_cover_the_hose_without_gaps(turn_deg: float, plan_mm: float, spacing_mm: float) -> None:
    """The stretches lead from end to end, each beginning where the one before ends, no step longer than
    asked."""
    curve = hose_curve(spec_of(turn_deg, plan_mm, 2.0))
    stretches = stretches_mm(curve, spacing_mm)
    assert stretches[0][0] == 0.0
    assert stretches[-1][-1] == curve.plan_length_mm
    for before, after in pairwise(stretches):
        assert before[-1] == after[0]
    for stretch in stretches:
        assert all(0.0 < b - a <= spacing_mm + 1e-9 for a, b in pairwise(stretch))


def test_a_hose_that_does_not_reach_is_refused() -> None:
    """A hose shorter than its way, or with a straight below 0, is refused with its figures."""
    with pytest.raises(ValueError, match=r"79\.0 mm do not reach along 80\.000 mm"):
        hose_curve(replace(spec_of(45.0, 80.0, 0.0), length_mm=79.0))
    with pytest.raises(ValueError, match="below 0"):
        hose_curve(replace(spec_of(45.0, 80.0, 0.0), straight_mm=-0.5))


def test_over_its_tails_the_hose_lies_level() -> None:
    """Over the grip at each end the hose stays on its rigid tail; the slack hangs between, and the length is kept."""
    curve = hose_curve(replace(spec_of(90.0, 80.0, 4.0), grip_mm=8.0))
    assert [curve.point(s)[2] for s in (0.0, 4.0, 8.0, 72.0, 80.0)] == pytest.approx([0.0] * 5, abs=1e-12)
    assert curve.point(40.0)[2] == pytest.approx(-curve.sag_mm)
    assert stretched(curve, 4000) == pytest.approx(84.0, abs=1e-3)
    free = hose_curve(spec_of(90.0, 80.0, 4.0))
    assert free.point(8.0)[2] < -0.5  # without the grip it would have left the tail


def test_a_tail_longer_than_the_straight_is_refused() -> None:
    """A rigid tail cannot reach into the arc."""
    with pytest.raises(ValueError, match="tail"):
        hose_curve(replace(spec_of(90.0, 80.0, 4.0), grip_mm=9.0))
