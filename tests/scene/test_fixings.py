"""Brackets, trims and end caps in place."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString

from model3d.geometry.placement import Vec3, dot, subtract
from model3d.layout import Joint, lay_out
from model3d.parts.fittings import ElbowSpec, HoseSpec
from model3d.parts.fixings import EndCapSpec, TrimSpec
from model3d.scene import Part, Scene
from tests.layout.every_joint import FAMILIES, EndFitting, every_joint_plan, family_of
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over
from tests.scene.scenes import (
    WAYS,
    Points,
    apart,
    by_role,
    cut_corner_points,
    cut_faces,
    end_face,
    laid,
    placed,
    whole_run,
)

MOST_APART_MM = {"a-square": 600.0, "b-moulded": 500.0, "c-low": 600.0}
OVERLAP_MM = {"a-square": 12.0, "b-moulded": 14.0, "c-low": 16.0}
CLEARANCE_MM = 2.0


def bracket_places(scene: Scene, mark: str) -> list[float]:
    """Middles of a piece's brackets from its first cut face along the wall, in order."""
    low, high = cut_faces(scene, mark)
    along = tuple((b - a) / math.dist(low, high) for a, b in zip(low, high, strict=True))
    way: Vec3 = (along[0], along[1], along[2])
    return sorted(dot(subtract(p.placement.origin_mm, low), way) for p in by_role(scene, "bracket") if p.piece == mark)


@settings(max_examples=40)
@given(points=cut_corner_points(), sense=st.sampled_from([1, -1]), name=st.sampled_from(FAMILIES))
def test_brackets_are_within_the_rules(points: Points, sense: int, name: str) -> None:
    """Brackets stand on their wall, no further apart than the family's greatest spacing, 50 to 150 mm from each end
    of the piece (100 to 150 after an elbow corner); two at least, one in the middle of a piece under 150.
    """
    plan, family = whole_run(points, sense), family_of(name)
    if lay_out(plan, family).refused:
        return
    layout, scene = placed(plan, family)
    for piece in layout.pieces:
        places = bracket_places(scene, piece.mark)
        if piece.cut_length_mm < 150.0:
            assert places == pytest.approx([piece.cut_length_mm / 2.0], abs=1e-5)
            continue
        assert len(places) >= 2
        assert max(b - a for a, b in pairwise(places)) <= MOST_APART_MM[name] + 1e-6
        ends = [places[0], piece.cut_length_mm - places[-1]]
        near, far = ends if piece.sense > 0 else reversed(ends)
        least = 100.0 if piece.start.joint == "elbow-short" else 50.0
        assert 50.0 - 1e-6 <= far <= 150.0 + 1e-6
        assert near <= 150.0 + 1e-6
        if piece.cut_length_mm >= least + 50.0 + family.bracket.width_mm:
            assert near >= least - 1e-6


@pytest.mark.parametrize(("name", "sense"), WAYS)
def test_brackets_stand_upright_on_their_wall(name: str, sense: int) -> None:
    """Every bracket stands on the floor line and the wall's surface, square to it."""
    _, _, scene = laid(name, sense)
    for part in by_role(scene, "bracket"):
        wall = scene.part(f"room/{part.wall}").placement
        on_wall = wall.inverse().point(part.placement.origin_mm)
        assert on_wall[1:] == pytest.approx((0.0, 0.0), abs=1e-9)
        assert (part.placement.x_axis, part.placement.z_axis) == (wall.x_axis, wall.z_axis)


@pytest.mark.parametrize("end_fitting", ["return", "turn-back"])
@pytest.mark.parametrize(("name", "sense"), WAYS)
def test_covers_lie_over_joints_and_free_ends_only(name: str, sense: int, end_fitting: EndFitting) -> None:
    """One trim over each elbow and link and none over a coupler; a cap over the run's far end, and over both ends of a
    dry piece.
    """
    _, layout, scene = laid(name, sense, end_fitting)
    joints = [j.mark for j in layout.runs[0].joints if j.kind != "coupler"]
    assert [p.joint for p in by_role(scene, "trim")] == joints
    caps = [(p.piece, p.end) for p in by_role(scene, "end-cap")]
    assert caps == [(layout.runs[0].pieces[-1].mark, "end"), ("D1", "start"), ("D1", "end")]


@pytest.mark.parametrize(("name", "sense"), WAYS)
def test_trims_reach_over_both_pieces(name: str, sense: int) -> None:
    """A trim lies with its datum on the corner, or on an in-line joint's middle, turns as the corner does, and reaches
    over both pieces by the family's overlap.
    """
    _, layout, scene = laid(name, sense)
    by_mark = {p.mark: p for p in layout.pieces}
    for joint in layout.runs[0].joints:
        if joint.kind == "coupler":
            continue
        trim = trim_of(scene, joint)
        assert isinstance(trim.spec, TrimSpec)
        assert trim.spec.turn_deg == pytest.approx(joint.turn_deg, abs=1e-6)
        if joint.corner is not None:
            assert trim.placement.origin_mm == pytest.approx((*joint.corner.at_mm, 0.0), abs=1e-9)
        for mark, end in ((joint.earlier, "end"), (joint.later, "start")):
            face, _ = end_face(scene, by_mark[mark], end)
            on_floor = (face[0], face[1])
            off = math.dist(on_floor, trim.placement.origin_mm[:2])
            along = math.sqrt(off**2 - family_of(name).section.stand_off_mm ** 2)
            assert trim.spec.leg_mm - along == pytest.approx(OVERLAP_MM[name], abs=1e-5)


def trim_of(scene: Scene, joint: Joint) -> Part:
    """The trim over a joint."""
    (trim,) = [p for p in by_role(scene, "trim") if p.joint == joint.mark]
    return trim


def gap_under(scene: Scene, joint: Joint, trim: Part) -> float:
    """How far a joint's hoses, or elbows' bends, stand clear of the inner face of the trim over it, in plan.

    Distance of two lines by shapely: the fitting's middle line, a point a degree, and the trim's inner face; less
    half the fitting's thickness. Less than nothing where they cross.
    """
    face = inner_face(trim)
    least = math.inf
    for part in (p for p in by_role(scene, "hose", "elbow") if p.joint == joint.mark):
        points, radius = middle_line(part)
        line = LineString([trim.placement.inverse().point(point)[:2] for point in points])
        least = min(least, line.distance(face) - radius)
    return least


def inner_face(trim: Part) -> LineString:
    """The inner face of a trim's panels in plan, in the trim's frame: its outline's start carried along the walls."""
    spec = trim.spec
    assert isinstance(spec, TrimSpec)
    turn, inner, leg = math.radians(spec.turn_deg), spec.outline.start[0], spec.leg_mm
    last = (leg * math.cos(turn) - inner * math.sin(turn), leg * math.sin(turn) + inner * math.cos(turn))
    half = turn / 2.0
    bends = [(-inner * math.tan(half), inner)]
    if spec.slant_mm > 0.0:  # where the slanted panel, so far out on the bisector, meets the panels along the walls
        x = (inner * math.cos(half) - inner - spec.slant_mm) / math.sin(half)
        bends = [
            (x, inner),
            (-x * math.cos(turn) - inner * math.sin(turn), -x * math.sin(turn) + inner * math.cos(turn)),
        ]
    return LineString([(-leg, inner), *bends, last])


def middle_line(part: Part) -> tuple[list[Vec3], float]:
    """The middle line of a hose or an elbow's bend, room frame, and half its thickness."""
    spec = part.spec
    if isinstance(spec, ElbowSpec):
        straight, r, radius = 0.0, spec.bend_radius_mm, spec.body.width_mm / 2.0
    else:
        assert isinstance(spec, HoseSpec)
        straight, r, radius = spec.straight_mm, spec.arc_radius_mm, spec.outer_radius_mm
    turn = math.radians(spec.turn_deg)
    side, angles = math.copysign(1.0, turn), [abs(turn) * i / 90.0 for i in range(91)]
    arc = [(straight + r * math.sin(a), side * r * (1.0 - math.cos(a)), 0.0) for a in angles]
    end = (arc[-1][0] + straight * math.cos(turn), arc[-1][1] + straight * math.sin(turn), 0.0)
    return [part.placement.point(p) for p in [(0.0, 0.0, 0.0), *arc, end]], radius


def corner_scene(name: str, turn_deg: float, sense: int) -> tuple[Joint, Scene]:
    """A run round one internal corner of a big room."""
    turn = math.radians(turn_deg)
    away = (4000.0 + 3000.0 * math.cos(turn), 3000.0 * math.sin(turn))
    ring = ring_of([(0.0, 0.0), (4000.0, 0.0), away, (away[0] - 9000.0, away[1] + 3000.0), (-5000.0, 3000.0)])
    run = run_over(ring, 1 if sense > 0 else 2, 2, sense=sense)
    layout, scene = placed(plan_of(ring, run), family_of(name))
    return layout.runs[0].joints[0], scene


@pytest.mark.parametrize("sense", [1, -1])
@pytest.mark.parametrize("turn_deg", [20.0, 45.0, 60.0, 70.0, 80.0, 87.5, 90.0, 91.5])
@pytest.mark.parametrize("name", FAMILIES)
def test_trims_clear_what_they_cover(name: str, turn_deg: float, sense: int) -> None:
    """At an internal corner of any turn the trim leaves its family's clearance round the hoses or elbows under it."""
    joint, scene = corner_scene(name, turn_deg, sense)
    assert gap_under(scene, joint, trim_of(scene, joint)) >= CLEARANCE_MM - 0.01


@pytest.mark.parametrize(("name", "sense"), WAYS)
def test_trims_over_every_joint_clear_it(name: str, sense: int) -> None:
    """So it does at external corners and in line."""
    _, layout, scene = laid(name, sense)
    for joint in layout.runs[0].joints:
        if joint.kind != "coupler":
            assert gap_under(scene, joint, trim_of(scene, joint)) >= CLEARANCE_MM - 0.01


@pytest.mark.parametrize(
    ("name", "turn_deg", "slanted"),
    [
        ("a-square", 45.0, False), ("a-square", 87.5, True), ("a-square", 90.0, False),
        ("b-moulded", 45.0, False), ("b-moulded", 87.5, True), ("b-moulded", 90.0, False),
        ("c-low", 30.0, False), ("c-low", 87.5, True), ("c-low", 90.0, True),
    ],
)  # fmt: skip
def test_a_link_near_a_right_angle_takes_a_slanted_trim(name: str, turn_deg: float, slanted: bool) -> None:
    """The trim over a link at an internal corner near 90 degrees is slanted; over an elbow, or in a bay, it is not."""
    joint, scene = corner_scene(name, turn_deg, 1)
    spec = trim_of(scene, joint).spec
    assert isinstance(spec, TrimSpec)
    assert (spec.slant_mm > 0.0) == slanted


@pytest.mark.parametrize(("name", "turn_deg"), [("a-square", 87.5), ("b-moulded", 87.5), ("c-low", 90.0)])
def test_a_plain_trim_there_would_lie_on_the_hose(name: str, turn_deg: float) -> None:
    """Where the trim is slanted, a plain one overlaps the hose."""
    joint, scene = corner_scene(name, turn_deg, 1)
    trim = trim_of(scene, joint)
    assert isinstance(trim.spec, TrimSpec)
    assert gap_under(scene, joint, replace(trim, spec=replace(trim.spec, slant_mm=0.0))) < 0.0


@pytest.mark.parametrize(("name", "sense"), WAYS)
def test_caps_close_the_free_ends(name: str, sense: int) -> None:
    """A cap has its datum on the cut face it serves, lies over the piece on the hand where the piece is, and reaches
    out as far as the end fitting.
    """
    family, layout, scene = laid(name, sense)
    last = layout.runs[0].pieces[-1]
    for piece, end, reach in (
        (last, "end", family.return_end.length_mm),
        (layout.dry_pieces[0], "start", family.end_cap.plate_mm),
        (layout.dry_pieces[0], "end", family.end_cap.plate_mm),
    ):
        cap = scene.part(f"{piece.mark}/end-cap-{end}")
        face, into = end_face(scene, piece, end)
        assert isinstance(cap.spec, EndCapSpec)
        assert cap.spec.hand * dot(cap.placement.x_axis, into) == pytest.approx(1.0, abs=1e-12)
        flat = (cap.placement.origin_mm[0], cap.placement.origin_mm[1], face[2])
        assert apart(flat, face) == pytest.approx(family.section.stand_off_mm, abs=1e-6)
        assert cap.spec.length_mm == reach


@pytest.mark.parametrize(("name", "sense"), WAYS)
def test_end_fittings_stand_beyond_their_pieces(name: str, sense: int) -> None:
    """Valve end, cradle and return end stand on the wall at the cut face, on the hand where the piece is."""
    _, layout, scene = laid(name, sense)
    run = layout.runs[0]
    for mark, role, end, piece in (
        (run.pieces[0].mark, "valve-end", "start", run.pieces[0]),
        (run.pieces[0].mark, "cradle", "start", run.pieces[0]),
        (run.pieces[-1].mark, "return-end", "end", run.pieces[-1]),
    ):
        part = scene.part(f"{mark}/{role}")
        spec = part.spec if role == "cradle" else part.spec.block
        _, into = end_face(scene, piece, end)
        assert spec.hand * dot(part.placement.x_axis, into) == pytest.approx(1.0, abs=1e-12)
        assert scene.part(f"room/{part.wall}").placement.inverse().point(part.placement.origin_mm)[1:] == pytest.approx(
            (0.0, 0.0), abs=1e-9
        )


def test_a_refused_layout_is_not_placed() -> None:
    """A layout that cannot be made is refused by name, not placed half."""
    ring = ring_of([(0.0, 0.0), (4000.0, 0.0), (200.0, 900.0)])
    plan = plan_of(ring, run_over(ring, 1, 2))
    assert lay_out(plan, family_of("a-square")).refused
    with pytest.raises(ValueError, match="corner c2"):
        placed(plan, family_of("a-square"))
    assert not lay_out(every_joint_plan(1), family_of("a-square")).refused
