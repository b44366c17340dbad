"""Mistakes planted in a small room: each is found, alone, in words that say what frees it; and what they say
does.
"""

from __future__ import annotations

import math
import re
from dataclasses import replace

import pytest

from model3d.checks import check_scene
from model3d.checks.engine import Memory
from model3d.checks.remedies import turned_over
from model3d.findings import Finding
from model3d.geometry.placement import Placement, turned_about_z
from model3d.layout import lay_out
from model3d.parts.fittings import OringSpec
from model3d.parts.profile import PieceSpec
from model3d.rooms import CheckedPlan
from model3d.scene import Scene, compose
from tests.checks.small_rooms import SQUARE, door, pipe, plan, scene_of, shelf, shifted, with_part
from tests.layout.every_joint import family_of

FRONT_MM = 28.0  # of family (a)'s section from the wall: 6 + 22


def found(checked: CheckedPlan, memory: Memory) -> tuple[Finding, ...]:
    """What the check says of a plan in family (a)."""
    return check_scene(scene_of(checked), memory=memory)


def only(findings: tuple[Finding, ...]) -> Finding:
    """The one finding."""
    (finding,) = findings
    return finding


def figure(text: str, pattern: str) -> float:
    """The number in a remedy."""
    match = re.search(pattern, text)
    assert match is not None, text
    return float(match[1])


def test_nothing_is_found_in_a_clean_room(memory: Memory) -> None:
    """A room that is right has no finding."""
    assert found(plan(), memory) == ()


def test_a_pipe_through_a_piece(memory: Memory) -> None:
    """A pipe in the way of a piece is one error that names both, the volume, the depth and the place; moved
    out as far as is said, it is free.
    """
    finding = only(found(plan(pipe(1500.0, 22.0)), memory))
    assert (finding.code, finding.severity) == ("obstacle-in-run", "error")
    assert finding.parts == ("r-1/piece", "room/riser")
    assert finding.where == "piece r-1, wall w1"
    assert finding.measured is not None
    assert finding.measured < math.pi * 7.5**2 * 140.0
    assert finding.place_mm is not None
    assert math.dist(finding.place_mm[:2], (1500.0, 22.0)) < 7.5
    assert 8.0 < finding.place_mm[2] < 148.0
    out = figure(finding.remedy, r"Move riser (\d+) mm further out from wall w1")
    assert found(plan(shifted(pipe(1500.0, 22.0), (0.0, out, 0.0))), memory) == ()


def test_a_pipe_that_all_but_touches(memory: Memory) -> None:
    """A pipe .1 mm in front of the piece is free; .1 mm into it is found, no deeper than that."""
    assert found(plan(pipe(1500.0, FRONT_MM + 7.5 + 0.1)), memory) == ()
    finding = only(found(plan(pipe(1500.0, FRONT_MM + 7.5 - 0.1)), memory))
    assert "0.10 mm deep" in finding.message


def test_a_run_kept_short_of_a_pipe(memory: Memory) -> None:
    """A run that ends where the remedy says is clear of the pipe; one that ends half the pipe's width later
    is not.
    """
    riser = pipe(1500.0, 22.0)
    short = figure(only(found(plan(riser), memory)).remedy, r"short of (\d+) mm or past \d+ mm")
    assert found(plan(riser, walls=1, end_at=short), memory) == ()
    assert found(plan(riser, walls=1, end_at=short + 10.0), memory) != ()


def test_a_shelf_low_over_the_run(memory: Memory) -> None:
    """A shelf that comes down into the run is found; raised as far as is said it is free, and it is not told
    to float off its wall.
    """
    low = shelf((1200.0, 0.0, 140.0), (1800.0, 220.0, 160.0))
    finding = only(found(plan(low), memory))
    assert finding.code == "obstacle-in-run"
    assert "further out" not in finding.remedy
    assert found(plan(shifted(low, (0.0, 0.0, figure(finding.remedy, r"Raise it (\d+) mm")))), memory) == ()


def test_a_door_leaf_over_the_run(memory: Memory) -> None:
    """A leaf that swings over the run is one error for the whole run; a stop at the angle said frees it, and
    three degrees past the stop's margin it does not.
    """
    finding = only(found(plan(door()), memory))
    assert (finding.code, finding.severity) == ("door-leaf-on-run", "error")
    assert "hall door" in finding.message
    stop = figure(finding.remedy, r"Stop the door at (\d+) degrees")
    assert 90.0 < stop < 100.0
    assert found(plan(door(opens_deg=stop)), memory) == ()
    assert found(plan(door(opens_deg=stop + 5.0)), memory) != ()


def test_a_door_hung_on_the_other_side_or_opening_out(memory: Memory) -> None:
    """Another side or way is only offered where it frees the run."""
    remedy = only(found(plan(door()), memory)).remedy
    assert "hang it on its right side" in remedy
    assert found(plan(door(hinge="right")), memory) == ()
    assert "let it open out of the room" in remedy
    assert found(plan(door(swing="out")), memory) == ()


def test_a_room_measured_wrong_by_12_mm(memory: Memory) -> None:
    """A run laid out for a wall 12 mm longer than it is stands in the next wall, and the finding says by how
    much.
    """
    family = family_of("a-square")
    taken = plan(points=[(x + (12.0 if x > 0 else 0.0), y) for x, y in SQUARE])
    scene = compose(plan().room, lay_out(taken, family), family)
    finding = only(check_scene(scene, memory=memory))
    assert finding.code == "room-in-run"
    assert "room/w2" in finding.parts
    assert figure(finding.remedy, r"wall w2 stands (\d+\.\d) mm too near") == pytest.approx(12.0, abs=0.05)


def test_a_piece_cut_25_mm_long(memory: Memory) -> None:
    """A piece cut longer than the stub beyond its end runs into the elbows there: one finding for the joint,
    that asks for the piece's cut length.
    """
    scene = scene_of(plan())
    part = scene.part("r-1/piece")
    assert isinstance(part.spec, PieceSpec)
    longer = replace(part, spec=replace(part.spec, length_mm=part.spec.length_mm + 25.0))
    finding = only(check_scene(with_part(scene, longer), memory=memory))
    assert finding.code == "clash"
    assert {"r-1/piece", "r-J1/elbow-lower", "r-J1/elbow-upper"} <= set(finding.parts)
    assert "Check the cut length of r-1" in finding.remedy


@pytest.mark.parametrize("clip", ["r-1/clip-start", "r-2/clip-start", "r-2/clip-end"])
def test_a_clip_that_faces_the_wrong_way(clip: str, memory: Memory) -> None:
    """A clip turned over does not take the nib: it is found wherever it is, and the remedy is to turn it over
    to the face that fits.
    """
    scene = scene_of(plan())
    right = scene.part(clip)
    findings = check_scene(with_part(scene, turned_over(right)), memory=memory)
    assert findings
    assert all(f.code == "clash" and clip in f.parts for f in findings)
    assert findings[0].remedy == f"Turn the clip over: it must face {right.face}."
    assert check_scene(with_part(scene, turned_over(turned_over(right))), memory=memory) == ()


def test_a_nib_against_the_wrong_face(memory: Memory) -> None:
    """An elbow's bridge turned over meets the clip with its nib on the side that has no slot."""
    scene = scene_of(plan())
    bridge = scene.part("r-J1/bridge")
    over = Placement(y_axis=(0.0, -1.0, 0.0), z_axis=(0.0, 0.0, -1.0))
    findings = check_scene(
        with_part(scene, replace(bridge, placement=bridge.placement @ over)), memory=memory
    )
    assert any({"r-J1/bridge", "r-2/clip-start"} <= set(f.parts) for f in findings)


@pytest.mark.parametrize(("more_mm", "wrong"), [(0.0, False), (0.015, False), (0.2, True)])
def test_an_oring_squeezed_too_far(more_mm: float, wrong: bool, memory: Memory) -> None:
    """An O-ring may be squeezed as far as it is meant to be; one that its bore squeezes further is found,
    though the two are meant to press.
    """
    scene = scene_of(plan())
    ring = next(p for p in scene.fitted if p.role == "o-ring" and p.joint == "r-J1")
    assert isinstance(ring.spec, OringSpec)
    thick = replace(ring, spec=replace(ring.spec, section_mm=ring.spec.section_mm + more_mm))
    findings = check_scene(with_part(scene, thick), memory=memory)
    pressed = [f for f in findings if set(f.parts[:2]) & {ring.id} and ring.presses_on[0] in f.parts]
    assert bool(pressed) == wrong
    if wrong:
        assert "squeezed by 0.48 mm" in pressed[0].remedy


def test_an_oring_pushed_sideways_into_its_bore(memory: Memory) -> None:
    """An O-ring that sits .2 mm off its leg presses into one side of its bore deeper than it is meant to."""
    scene = scene_of(plan())
    ring = next(p for p in scene.fitted if p.role == "o-ring" and p.joint == "r-J1")
    off = replace(ring, placement=ring.placement.moved((0.0, 0.0, 0.2)))
    assert any(
        ring.id in f.parts and ring.presses_on[0] in f.parts
        for f in check_scene(with_part(scene, off), memory=memory)
    )


@pytest.mark.parametrize(("by_mm", "wrong"), [(0.015, False), (0.05, True)])
def test_a_clip_pressed_into_its_piece(by_mm: float, wrong: bool, memory: Memory) -> None:
    """Contact is no clash: a clip flush on its cut face is free, and so within contact; five hundredths into
    the metal it is found.
    """
    scene = scene_of(plan())
    clip = scene.part("r-1/clip-start")
    pressed = replace(clip, placement=clip.placement @ Placement(origin_mm=(by_mm, 0.0, 0.0)))
    assert (
        any(
            {"r-1/piece", clip.id} <= set(f.parts)
            for f in check_scene(with_part(scene, pressed), memory=memory)
        )
        == wrong
    )


@pytest.mark.parametrize(
    ("turn_deg", "away"), [(37.0, (1.0e4, -3.0e3, 0.0)), (-152.3, (-6.0e4, 2.0e4, 500.0))]
)
def test_findings_do_not_depend_on_where_the_room_stands(
    turn_deg: float, away: tuple[float, float, float]
) -> None:
    """Turning and moving the whole room leaves the findings, their volumes and depths, and turns and moves
    their places.
    """
    scene = scene_of(plan(pipe(1500.0, 22.0)))
    pose = turned_about_z(turn_deg, away)
    there = Scene(parts=tuple(replace(p, placement=pose @ p.placement) for p in scene.parts))
    a, b = only(check_scene(scene)), only(check_scene(there))
    assert (a.code, a.parts, a.message, a.remedy) == (b.code, b.parts, b.message, b.remedy)
    assert b.measured == pytest.approx(a.measured, rel=1e-6)
    assert b.place_mm is not None
    x, y, z = pose.inverse().point(b.place_mm)
    assert math.dist((x, y), (1500.0, 22.0)) < 7.5
    assert 8.0 < z < 148.0


def test_a_memory_is_not_worked_out_again(memory: Memory) -> None:
    """With the memory of an earlier check nothing is worked out anew, and one part moved only brings in its
    own pairs.
    """
    scene = scene_of(plan())
    check_scene(scene, memory=memory)
    before = len(memory.verdicts)
    assert check_scene(scene, memory=memory) == ()
    assert len(memory.verdicts) == before
    trim = next(p for p in scene.fitted if p.role == "trim")
    moved = with_part(scene, replace(trim, placement=trim.placement.moved((0.0, 0.0, 0.123))))
    check_scene(moved, memory=memory)
    near = sum(1 for p in scene.parts if p.id != trim.id)
    assert 0 < len(memory.verdicts) - before < near
