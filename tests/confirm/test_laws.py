"""Laws of placed solids, measured along each wall of random rooms, rectilinear and skew, 3 to 30 corners,
both senses of a run.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model3d.confirm.measure import measure
from model3d.confirm.project import measure_scene, wall_lines
from model3d.confirm.values import Measured, PlacedBody, WallLine
from model3d.confirm.volumes import volume_mm3
from model3d.families.family import Family
from model3d.geometry.placement import Placement, turned_about_z
from model3d.layout import Layout, Piece, lay_out
from model3d.rooms import CheckedPlan
from model3d.scene.piece_parts import piece_parts
from model3d.solids.build import solid
from model3d.solids.placing import located
from tests.confirm.spoilt import project
from tests.layout.every_joint import FAMILIES, family_of
from tests.layout.random_rooms import rectilinear_points, skew_points
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over

Points = list[tuple[float, float]]
CLOSE_MM = 2e-6  # a piece's length is rounded to a millionth of a millimetre before it is built
rooms = st.one_of(rectilinear_points(), skew_points())
senses = st.sampled_from([1, -1])
names = st.sampled_from(FAMILIES)


@cache
def family(name: str) -> Family:
    """A reference family, read once."""
    return family_of(name)


def whole_run(points: Points, sense: int) -> CheckedPlan:
    """A run round all walls but the last."""
    ring, count = ring_of(points), len(points)
    return plan_of(ring, run_over(ring, 1 if sense > 0 else count - 1, count - 1, sense=sense))


def buildable(name: str, piece: Piece) -> bool:
    """Whether there is a piece to build: longer than its two reamed mouths."""
    return piece.cut_length_mm > 2 * family(name).section.lead_in.length_mm + 1.0


def pieces_measured(name: str, plan: CheckedPlan, layout: Layout) -> Measured:
    """The pieces alone, built, placed and measured."""
    bodies = []
    for piece in layout.pieces:
        if buildable(name, piece):
            part = next(iter(piece_parts(family(name), piece)))
            bodies.append(
                PlacedBody(
                    id=part.id,
                    role=part.role,
                    solid=solid(part.spec),
                    placement=part.placement,
                    wall=part.wall,
                    piece=part.piece,
                    joint=None,
                )
            )
    return measure(bodies, wall_lines(plan.room))


def law(name: str, points: Points, sense: int) -> None:
    """On every wall: measured lengths, the allowances and the growth gaps make the wall's own length; and
    each cut face next to a corner stands its allowance from it.
    """
    plan = whole_run(points, sense)
    layout = lay_out(plan, family(name))
    measured = pieces_measured(name, plan, layout)
    assert measured.unfound == ()
    seen = {c.piece: c for c in measured.cut_faces}
    for span in plan.runs[0].spans:
        pieces = [p for p in layout.pieces if p.wall.id == span.wall.id]
        if not all(p.mark in seen for p in pieces):
            continue
        lengths = sum(seen[p.mark].length_mm for p in pieces)
        allowances = sum(p.start.allowance_mm + p.end.allowance_mm for p in pieces)
        gaps = sum(p.growth_gap_mm for p in pieces)
        wall_mm = math.dist(span.wall.first_corner.at_mm, span.wall.last_corner.at_mm)
        assert lengths + allowances + gaps == pytest.approx(wall_mm, abs=CLOSE_MM * (1 + len(pieces)))
        first, last = (pieces[0], pieces[-1]) if sense > 0 else (pieces[-1], pieces[0])
        near = first.start if sense > 0 else first.end
        far = last.end if sense > 0 else last.start
        room = (first.growth_gap_mm if sense < 0 else 0.0, last.growth_gap_mm if sense > 0 else 0.0)
        assert seen[first.mark].to_first_mm == pytest.approx(near.allowance_mm + room[0], abs=CLOSE_MM)
        assert seen[last.mark].to_last_mm == pytest.approx(far.allowance_mm + room[1], abs=CLOSE_MM)


@settings(max_examples=12)
@given(name=names, points=rooms, sense=senses)
def test_solids_make_the_wall(name: str, points: Points, sense: int) -> None:
    """Measured on placed solids, lengths + allowances + gaps equal each wall, whatever the room."""
    law(name, points, sense)


@pytest.mark.slow
@settings(max_examples=300)
@given(name=names, points=rooms, sense=senses)
def test_solids_make_the_wall_in_many_rooms(name: str, points: Points, sense: int) -> None:
    """The same in many more rooms."""
    law(name, points, sense)


def test_a_solid_that_breaks_the_law_is_seen() -> None:
    """The law fails for a room in which one solid is a hundredth of a millimetre longer than its piece."""
    plan = whole_run([(0.0, 0.0), (3000.0, 0.0), (3000.0, 2000.0), (0.0, 2000.0)], 1)
    layout = lay_out(plan, family("a-square"))
    run = layout.runs[0]
    longer = replace(run.pieces[1], cut_length_mm=run.pieces[1].cut_length_mm + 0.01)
    spoilt = replace(layout, runs=(replace(run, pieces=(run.pieces[0], longer, *run.pieces[2:])),))
    seen = {c.piece: c for c in pieces_measured("a-square", plan, spoilt).cut_faces}
    right = {c.piece: c for c in pieces_measured("a-square", plan, layout).cut_faces}
    off = seen[longer.mark].length_mm - right[longer.mark].length_mm
    assert off == pytest.approx(0.01, abs=1e-5)


@settings(max_examples=8)
@given(turn_deg=st.floats(-180, 180), x=st.floats(-6e4, 6e4), y=st.floats(-6e4, 6e4))
def test_measures_do_not_depend_on_where_the_room_stands(turn_deg: float, x: float, y: float) -> None:
    """Turned and moved as a whole, corners and solids, a room measures the same."""
    plan, _, _, scene = project()
    pose = turned_about_z(turn_deg, (x, y, 0.0))
    there = replace(scene, parts=tuple(replace(p, placement=pose @ p.placement) for p in scene.parts))

    def moved(at_mm: tuple[float, float]) -> tuple[float, float]:
        found = pose.point((*at_mm, 0.0))
        return (found[0], found[1])

    walls = [
        WallLine(id=w.id, first_mm=moved(w.first_mm), last_mm=moved(w.last_mm)) for w in wall_lines(plan.room)
    ]
    bodies = [
        PlacedBody(
            id=p.id,
            role=p.role,
            solid=solid(p.spec),
            placement=p.placement,
            wall=p.wall,
            piece=p.piece,
            joint=p.joint,
        )
        for p in there.fitted
    ]
    here, away = measure_scene(plan.room, scene), measure(bodies, walls)
    assert [c.piece for c in here.cut_faces] == [c.piece for c in away.cut_faces]
    for a, b in zip(here.cut_faces, away.cut_faces, strict=True):
        assert (b.to_first_mm, b.to_last_mm, b.length_mm) == pytest.approx(
            (a.to_first_mm, a.to_last_mm, a.length_mm), abs=1e-6
        )
    assert sorted(i.depth_mm for i in here.insertions) == pytest.approx(
        sorted(i.depth_mm for i in away.insertions), abs=1e-6
    )
    assert sorted(g.gap_mm for g in here.gaps) == pytest.approx(sorted(g.gap_mm for g in away.gaps), abs=1e-6)


@pytest.mark.parametrize("name", FAMILIES)
def test_volumes_do_not_depend_on_where_a_part_stands(name: str) -> None:
    """Every kind of part holds the same volume where it stands, and 60 m off and askew, as in its own frame."""
    scene = project(name)[3]
    far = Placement(
        origin_mm=(6.0e4, -4.1e4, 8.0e3),
        x_axis=(0.36, 0.48, -0.8),
        y_axis=(-0.8, 0.6, 0.0),
        z_axis=(0.48, 0.64, 0.6),
    )
    for part in {p.role: p for p in scene.parts}.values():
        own = volume_mm3(solid(part.spec))
        for place in (part.placement, far):
            assert volume_mm3(located(solid(part.spec), place)) == pytest.approx(own, rel=1e-6), part.role
