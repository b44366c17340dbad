"""Pieces on walls that bow: packers, and lengths where they stand out.

Family (a) between internal corners: allowances of 51; a profile straight within 1.5 mm per m (EN 755-9, from memory).
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model3d.families.family import Family
from model3d.layout import Joint, Layout, Piece, lay_out
from model3d.layout.run import lay_run
from model3d.layout.surfaces_text import surfaces_text
from model3d.parts.fixings import TrimSpec
from model3d.rooms import CheckedPlan, DryPlan, Packers, WallBow
from model3d.scene import compose

from .random_rooms import rectilinear_points, skew_points
from .rooms_by_hand import plan_of, ring_of, run_over

RING = ring_of([(0.0, 0.0), (3600.0, 0.0), (3600.0, 3000.0), (0.0, 3000.0)])


def bowed(*readings: tuple[float, float], wall: str = "w1", length: float = 3600.0, sense: int = 1) -> CheckedPlan:
    """A run over w4, w1, w2 (or the other way), one wall of which bows."""
    ends = ((0.0, 0.0), *readings, (length, 0.0))
    first = 4 if sense > 0 else 2
    made = plan_of(RING, run_over(RING, first, 3, sense=sense))
    return replace(made, bows=(WallBow(wall_id=wall, readings=ends),))


def piece(layout: Layout, mark: str) -> Piece:
    """The piece of a mark."""
    return next(p for p in layout.pieces if p.mark == mark)


def test_a_wall_little_bowed_needs_no_packers(family_a: Family) -> None:
    """On a belly of 1.5 mm the piece follows the wall: no packers, and lengths as on a straight wall."""
    plan = bowed((1800.0, 1.5))
    layout = lay_out(plan, family_a)
    (held,) = layout.on_walls
    assert set(held.packers_mm) == {0.0}
    assert held.straight
    assert 0.0 < held.bend_mm <= 1.5
    assert layout.runs == lay_out(replace(plan, bows=()), family_a).runs
    assert not [f for f in layout.findings if f.code in ("wall-bowed", "piece-bent")]


@pytest.mark.parametrize("sense", [1, -1])
def test_a_belly_puts_the_piece_out_and_the_neighbours_short(family_a: Family, sense: int) -> None:
    """On a belly the wall's line of brackets stands as far out as its proudest bracket; at both square corners the
    pieces beyond are that much shorter, the piece itself as long as ever.
    """
    plan = bowed((1800.0, 9.0), sense=sense)
    layout = lay_out(plan, family_a)
    straight = lay_out(replace(plan, bows=()), family_a)
    (held,) = layout.on_walls
    wall = piece(layout, held.mark)
    proudest = max(plan.bows[0].off_at_mm(b.along_mm + x) for b in wall.brackets for x in (-20.0, 0.0, 20.0))
    assert held.stand_out_mm == pytest.approx(proudest)
    assert 0.0 < proudest <= 9.0
    for p, q in zip(layout.pieces, straight.pieces, strict=True):
        shorter = 0.0 if p.wall.id == "w1" else proudest
        assert p.cut_length_mm == pytest.approx(q.cut_length_mm - shorter, abs=0.02)
    assert [t.name for t in piece(layout, "r-1").end.terms][-1] == "stand-out"


def test_packers_bring_the_brackets_to_one_line(family_a: Family) -> None:
    """Each packer is the thickest in half millimetres that goes behind its bracket, which rests on the wall's proudest
    place behind its plate of 40; the piece is then straight.
    """
    plan = bowed((900.0, -4.0), (1800.0, 9.0), (2700.0, 1.0))
    layout = lay_out(plan, family_a)
    (held,) = layout.on_walls
    marks = piece(layout, held.mark).brackets
    for mark, pack in zip(marks, held.packers_mm, strict=True):
        assert pack >= 0.0
        assert pack / 0.5 == pytest.approx(round(pack / 0.5))
        behind = [plan.bows[0].off_at_mm(mark.along_mm + x) for x in range(-20, 21)]
        assert -1e-9 <= held.stand_out_mm - max(behind) - pack < 0.5
    assert held.straight
    assert min(held.packers_mm) == 0.0


def test_a_hollow_is_filled_and_lengths_stay(family_a: Family) -> None:
    """Behind a hollow of 9 packers fill what is missing; nothing stands out and nothing gets shorter."""
    plan = bowed((1800.0, -9.0))
    layout = lay_out(plan, family_a)
    (held,) = layout.on_walls
    assert held.stand_out_mm == 0.0
    assert max(held.packers_mm) > 5.0
    assert layout.runs == lay_out(replace(plan, bows=()), family_a).runs


@given(
    points=st.one_of(rectilinear_points(), skew_points()),
    outs=st.lists(st.floats(0.0, 15.0), min_size=30, max_size=30),
    sense=st.sampled_from([1, -1]),
)
@settings(max_examples=60)
def test_bores_meet_at_every_corner_however_far_pieces_stand_out(
    family_a: Family, points: list[tuple[float, float]], outs: list[float], sense: int
) -> None:
    """In any room and with walls' pieces standing out by any amount, the bores' lines of two neighbours meet where
    their fittings' tangent lengths from both cut faces end: stub and r tan(tau/2) for an elbow, stub, straight part
    and R tan(|tau|/2) for a link.
    """
    ring, count = ring_of(points), len(points)
    plan = plan_of(ring, run_over(ring, 1 if sense > 0 else count - 1, count - 1, sense=sense))
    run, _ = lay_run(family_a, plan, plan.runs[0], outs[: count - 1])
    pieces = {p.mark: p for p in run.pieces}
    for joint in run.joints:
        if joint.corner is None or abs(math.sin(math.radians(joint.turn_deg))) < 0.2:
            continue
        ahead = tangent(family_a, joint)
        a, b = bore(family_a, pieces[joint.earlier], far=True), bore(family_a, pieces[joint.later], far=False)
        one = (a[0][0] + ahead * a[1][0], a[0][1] + ahead * a[1][1])
        other = (b[0][0] - ahead * b[1][0], b[0][1] - ahead * b[1][1])
        assert math.dist(one, other) < 1e-6


def tangent(family: Family, joint: Joint) -> float:
    """From a cut face to where the bores' lines meet."""
    half = math.tan(math.radians(abs(joint.turn_deg)) / 2.0)
    if joint.kind == "elbow" and family.elbow is not None:
        return family.elbow.stub_mm + family.elbow.bend_radius_mm * half
    return family.link.stub_mm + joint.straight_mm + family.link.arc_radius_mm * half


def bore(family: Family, p: Piece, *, far: bool) -> tuple[tuple[float, float], tuple[float, float]]:
    """Where the bores' line passes a cut face, and its direction along the run."""
    at = p.wall.frame.point((p.far_mm if far else p.near_mm, family.section.bore_u_mm, 0.0))
    return (at[0], at[1]), (p.sense * p.wall.direction[0], p.sense * p.wall.direction[1])


@pytest.mark.parametrize("sense", [1, -1])
def test_trims_stand_where_the_pieces_lines_meet(family_a: Family, sense: int) -> None:
    """Over a square corner beside a piece that stands out, the trim stands out with it, its legs as long as ever."""
    plan = bowed((1800.0, 9.0), sense=sense)
    layout = lay_out(plan, family_a)
    out = layout.on_walls[0].stand_out_mm
    for made, height in ((layout, out), (lay_out(replace(plan, bows=()), family_a), 0.0)):
        trims = {p.joint: p for p in compose(plan.room, made, family_a).fitted if p.role == "trim"}
        places = sorted(trims[j.mark].placement.origin_mm for j in made.runs[0].joints)
        assert places[0] == pytest.approx((0.0, height, 0.0), abs=1e-6)
        assert places[1] == pytest.approx((3600.0, height, 0.0), abs=1e-6)
        assert {t.spec.leg_mm for t in trims.values() if isinstance(t.spec, TrimSpec)} == {63.0}


def test_a_wall_past_din_18202_is_said_with_its_value(family_a: Family) -> None:
    """A belly of 12 over 3.6 m is past the 9 that row 6 lets pass: a finding with both figures and the place."""
    found = [f for f in lay_out(bowed((1800.0, 12.0)), family_a).findings if f.code == "wall-bowed"]
    assert [(f.measured, f.limit) for f in found] == [(12.0, 9.0)]
    assert found[0].place_mm == (1800.0, 0.0, 0.0)
    assert not [f for f in lay_out(bowed((1800.0, 9.0)), family_a).findings if f.code == "wall-bowed"]


def test_packers_too_thick_and_steps_too_coarse(family_a: Family) -> None:
    """More packers behind a bracket than are to be put there, and a piece that stays bent on coarse ones, are said."""
    deep = [f.code for f in lay_out(bowed((1800.0, -14.0)), family_a).findings]
    assert "packers-thick" in deep
    assert "packers-thick" not in [f.code for f in lay_out(bowed((1800.0, -8.0)), family_a).findings]
    coarse = replace(bowed((600.0, -3.0), (1800.0, -9.0)), packers=Packers(step_mm=9.0))
    found = [f for f in lay_out(coarse, family_a).findings if f.code == "piece-bent"]
    assert len(found) == 1
    assert found[0].measured is not None
    assert "piece-bent" not in [f.code for f in lay_out(bowed((600.0, -3.0), (1800.0, -9.0)), family_a).findings]


def test_a_run_that_passes_a_wall_twice(family_a: Family) -> None:
    """A run all round, from and to the same wall that bows, has packers for both of its pieces there."""
    run = run_over(RING, 1, 5, start_at=2200.0, end_at=1400.0)
    bow = WallBow(wall_id="w1", readings=((0.0, 0.0), (700.0, 8.0), (1400.0, 0.0), (2900.0, -8.0), (3600.0, 0.0)))
    layout = lay_out(replace(plan_of(RING, run), bows=(bow,)), family_a)
    assert [p.mark for p in layout.on_walls] == ["r-1", "r-5"]
    assert all(p.straight for p in layout.on_walls)


def test_a_dry_piece_on_a_bowed_wall(family_a: Family) -> None:
    """A dry piece stands out and is packed as a heated one is."""
    bow = WallBow(wall_id="w3", readings=((0.0, 0.0), (1800.0, 10.0), (3600.0, 0.0)))
    dry = (DryPlan(id="dry", wall=RING.walls[2], from_mm=500.0, to_mm=3100.0),)
    layout = lay_out(replace(plan_of(RING, dry=dry), bows=(bow,)), family_a)
    (held,) = layout.on_walls
    assert held.mark == "dry"
    assert held.stand_out_mm > 5.0
    assert layout.dry_pieces[0].wall.frame.origin_mm[1] == pytest.approx(3000.0 - held.stand_out_mm)


def test_packers_in_words(family_a: Family) -> None:
    """The packers are listed by piece in the order of its brackets; nothing is said without readings."""
    layout = lay_out(bowed((1800.0, 9.0)), family_a)
    (held,) = layout.on_walls
    assert f"  r-2  {'  '.join(f'{p:.1f}' for p in held.packers_mm)}" in surfaces_text(layout)
    assert surfaces_text(lay_out(plan_of(RING, run_over(RING, 4, 3)), family_a)) == ""
