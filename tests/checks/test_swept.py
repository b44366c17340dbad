"""Drawers, cupboard doors and casements that take room which the run has: each found, alone, with figures done by hand,
and what is said of it frees the run. The geometry is that of a box and of a sector; the section's front stands 28 from
its wall.
"""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path

import pytest

from model3d.build.checking import check_project
from model3d.build.project import load
from model3d.checks import check_scene
from model3d.checks.engine import Memory
from model3d.exchange.tree import scene_tree, shape_names
from model3d.families.reading import find_family
from model3d.findings import Finding
from model3d.illustrations.subjects import plain
from model3d.pictures.staging.looks import ROOM_LOOKS
from model3d.rooms import CheckedPlan, Slab
from model3d.rooms.read_plan import plan_of
from model3d.scene import Scene
from model3d.scene.swept_parts import openers
from model3d.scene.values import SWEPT_ROLES
from tests.checks.small_rooms import scene_of
from tests.checks.test_scene_check import figure

FRONT_MM = 28.0  # of family (a)'s section from the wall: 6 + 22
RUN = "{id: A, start: {wall: w2, at: START}, end: {wall: w3, at: 1500}}"
MIRRORED_RUN = "{id: A, direction: against-walls, start: {wall: w4, at: START}, end: {wall: w3, at: 1500}}"


def room(*, openings: str = "", obstacles: str = "", furniture: str = "", start: float = 600.0) -> str:
    """A room 3000 by 2600 whose run goes up w2, from ``start`` on, and along half of w3."""
    return f"""\
version: 1
family: a-square
room: {{corners: [[0, 0], [3000, 0], [3000, 2600], [0, 2600]]}}
openings: [{openings}]
obstacles: [{obstacles}]
furniture: [{furniture}]
runs: [{RUN.replace("START", f"{start:g}")}]
"""


def mirrored(*, openings: str = "", obstacles: str = "", start: float = 600.0) -> str:
    """The same room seen in a mirror: its run goes up w4 against the walls' sense."""
    text = room(openings=openings, obstacles=obstacles)
    return text.replace(RUN.replace("START", "600"), MIRRORED_RUN.replace("START", f"{2600.0 - start:g}"))


@cache
def checked(text: str) -> CheckedPlan:
    """The plan of a text."""
    return plan_of(text, Path("plan.yaml"), find_family=find_family)


def found(text: str, memory: Memory) -> tuple[Finding, ...]:
    """What the check of everything in its place says."""
    return check_scene(scene_of(checked(text)), memory=memory)


def only(text: str, memory: Memory) -> Finding:
    """The one finding."""
    (finding,) = found(text, memory)
    return finding


def chest(to: float, opener: str, *, depth: float = 420.0, width: float = 900.0) -> str:
    """A chest on w1 whose left side, as one faces it, is ``to`` along the wall."""
    size = f"at: {to - width:g}, width: {width:g}, depth: {depth:g}, height: 700"
    return f"{{id: chest, kind: box, wall: w1, {size}, {opener}}}"


def drawer(to: float, *, out: float = 400.0, up: float = 60.0) -> str:
    """The chest with one drawer 40 high."""
    return chest(to, f"drawers: [{{up: {up:g}, height: 40, out: {out:g}}}]")


def door(to: float, opens: float, *, hinge: str = "left", up: float = 20.0) -> str:
    """The chest, 600 wide, with one door."""
    return chest(to, f"doors: [{{hinge: {hinge}, up: {up:g}, opens: {opens:g}}}]", width=600.0)


def window(opens: float, *, hinge: str = "left", sill: float = 100.0, swing: str = "in", width: float = 600.0) -> str:
    """A window on w1 whose left side is 100 from w2."""
    size = f"at: {2900.0 - width:g}, width: {width:g}, sill: {sill:g}, height: 2000"
    how = f"swing: {swing}, hinge: {hinge}, opens: {opens:g}"
    return f"{{id: french, kind: window, wall: w1, {size}, {how}}}"


def beside_the_piece(x_mm: float, out_mm: float = 400.0) -> Scene:
    """The clean room, and what a drawer takes that stands beside the middle of A-1 as far as ``x_mm``."""
    box = f"{{id: chest, kind: box, floor: [{x_mm - 900.0}, 600], width: 900, depth: 400, height: 700, DRAWER}}"
    text = room(obstacles=box.replace("DRAWER", f"drawers: [{{up: 60, height: 40, out: {out_mm:g}}}]"))
    (thing,) = checked(text).room.obstacles
    assert isinstance(thing, Slab)
    return Scene(parts=(*scene_of(checked(room())).parts, *openers(thing)))


def test_a_drawer_that_reaches_the_front_by_1_mm(memory: Memory) -> None:
    """A drawer 40 high that slides 400 along the piece's flat front, 1 mm in it, shares 1 x 400 x 40 = 16000 mm3 with
    it; .1 mm clear of the front it is not found.
    """
    (finding,) = check_scene(beside_the_piece(3000.0 - FRONT_MM + 1.0), memory=memory)
    assert (finding.code, finding.severity) == ("drawer-on-run", "error")
    assert finding.parts == ("A-1/piece", "room/chest/drawer-1")
    assert finding.where == "piece A-1, wall w2"
    assert finding.message.startswith("drawer 1 of chest, pulled out, stands over Piece A-1")
    assert finding.measured == pytest.approx(16000.0, rel=1e-6)
    assert "1.00 mm deep" in finding.message
    assert check_scene(beside_the_piece(3000.0 - FRONT_MM - 0.1), memory=memory) == ()


def test_a_drawer_over_the_run_or_under_it(memory: Memory) -> None:
    """A drawer from 60 up is in the run's way; one over all that the run has there is not."""
    assert only(room(obstacles=drawer(2980.0)), memory).code == "drawer-on-run"
    assert found(room(obstacles=drawer(2980.0, up=300.0)), memory) == ()


def test_the_chest_moved_along_its_wall(memory: Memory) -> None:
    """The remedy moves the chest along its wall; so moved it is free, and 3 mm less are too few: 2 are spare."""
    finding = only(room(obstacles=drawer(2980.0)), memory)
    by = figure(finding.remedy, r"ove chest (\d+) mm to the right along wall w1")
    assert by >= 2980.0 - (3000.0 - FRONT_MM) + 2.0
    assert found(room(obstacles=drawer(2980.0 - by)), memory) == ()
    assert found(room(obstacles=drawer(2980.0 - by + 3.5)), memory) != ()


def test_a_chest_that_has_no_room_is_not_moved(memory: Memory) -> None:
    """Where something else stands beside the chest, it is not told to go there."""
    beside = "{id: stove, kind: box, wall: w1, at: 1600, width: 475, depth: 500, height: 700}"
    finding = only(room(obstacles=f"{drawer(2980.0)}, {beside}"), memory)
    assert "move chest" not in finding.remedy.lower()


def test_a_drawer_pulled_out_less(memory: Memory) -> None:
    """A drawer that would meet the valve end, which begins at 700, is stopped 2 mm before it; past that it is found
    again. Where it would come out less than half way that is not offered.
    """
    finding = only(room(obstacles=drawer(2980.0), start=700.0), memory)
    out = figure(finding.remedy, r"Pull drawer 1 of chest out no further than (\d+) mm")
    assert 700.0 - 420.0 - 2.0 <= out < 400.0
    assert found(room(obstacles=drawer(2980.0, out=out), start=700.0), memory) == ()
    assert found(room(obstacles=drawer(2980.0, out=out + 3.5), start=700.0), memory) != ()
    far = only(room(obstacles=drawer(2980.0, out=700.0), start=700.0), memory)
    assert "no further than" not in far.remedy


def test_the_run_kept_off_a_drawer(memory: Memory) -> None:
    """Where the run may stand instead is said as well, and is true: past the drawer's 420 + 400, and 3 clear of it."""
    finding = only(room(obstacles=drawer(2980.0)), memory)
    past = figure(finding.remedy, r"keep the run on wall w2 short of \d+ mm or past (\d+) mm")
    assert past == pytest.approx(823.0, abs=1.0)
    assert found(room(obstacles=drawer(2980.0), start=past), memory) == ()


def test_a_cupboard_door_that_opens_too_far(memory: Memory) -> None:
    """A door 600 wide, hung 72 before the front's plane, meets it with its tip at 90 + asin(72 / 600) = 96.9 degrees:
    at 96 it is clear, at 98 it is found, and the stop is three degrees and less than one short of the first touch.
    """
    touch = 90.0 + math.degrees(math.asin((100.0 - FRONT_MM) / 600.0))
    assert found(room(obstacles=door(2900.0, 96.0)), memory) == ()
    finding = only(room(obstacles=door(2900.0, 98.0)), memory)
    assert (finding.code, finding.parts[1]) == ("cupboard-door-on-run", "room/chest/door-1")
    stop = figure(finding.remedy, r"Stop door 1 of chest at (\d+) degrees")
    assert stop == math.floor(touch - 3.0)
    assert found(room(obstacles=door(2900.0, stop)), memory) == ()


def test_a_cupboard_door_hung_on_its_other_side(memory: Memory) -> None:
    """Hung on the right it swings the other way, and is free; so is one whose lower edge stands over the run."""
    assert "hang it on its right side, as you face it" in only(room(obstacles=door(2900.0, 120.0)), memory).remedy
    assert found(room(obstacles=door(2900.0, 120.0, hinge="right")), memory) == ()
    assert found(room(obstacles=door(2900.0, 120.0, up=149.0)), memory) == ()


def test_a_drawer_at_the_side_of_a_box(memory: Memory) -> None:
    """A box on w3 with its drawers to the right, as one looks at the wall, pulls them out along w3 over the run's end;
    with its drawers to the room it does not.
    """
    size = "at: 1600, width: 660, depth: 500, height: 800"
    box = f"{{id: side, kind: box, wall: w3, {size}, front: FRONT, drawers: [{{up: 60}}]}}"
    finding = only(room(obstacles=box.replace("FRONT", "right")), memory)
    assert finding.code == "drawer-on-run"
    assert finding.where.endswith("wall w3")
    assert found(room(obstacles=box.replace("FRONT", "room")), memory) == ()


def test_what_is_built_in_has_drawers_too(memory: Memory) -> None:
    """A built-in cabinet's drawer is found like a box's, with the same figure."""
    cabinet = "{id: chest, kind: cabinet, fixed: true, wall: w1, at: 2080, width: 900, depth: 420, height: 700, DRAWER}"
    text = room(furniture=cabinet.replace("DRAWER", "drawers: [{up: 60, height: 40, out: 400}]"))
    assert only(text, memory).measured == pytest.approx(only(room(obstacles=drawer(2980.0)), memory).measured, rel=1e-9)


def test_a_casement_that_opens_too_far(memory: Memory) -> None:
    """A sash 600 wide and 72 before the plane of the piece's front meets it at 96.9 degrees, from its sill at 100 up;
    the stop that is said frees the run, and so does hanging it on the right.
    """
    touch = 90.0 + math.degrees(math.asin((100.0 - FRONT_MM) / 600.0))
    assert found(room(openings=window(96.0), start=300.0), memory) == ()
    finding = only(room(openings=window(98.0), start=300.0), memory)
    assert (finding.code, finding.parts) == ("sash-on-run", ("A-1/piece", "room/french/swing"))
    assert finding.message.startswith("the sash of french swings over Piece A-1")
    stop = figure(finding.remedy, r"Stop the sash at (\d+) degrees")
    assert stop == math.floor(touch - 3.0)
    assert found(room(openings=window(stop), start=300.0), memory) == ()
    assert "hang it on its right side, as you face the wall; or let it open out of the room" in finding.remedy
    assert found(room(openings=window(98.0, hinge="right"), start=300.0), memory) == ()


def test_a_casement_clashes_only_where_the_heights_meet(memory: Memory) -> None:
    """Over a sill at 148.1 the sash is clear of a section that ends at 148; over one at 147.9 it is not. One that opens
    out, and one that does not open, take no room.
    """
    assert found(room(openings=window(98.0, sill=148.1), start=300.0), memory) == ()
    assert only(room(openings=window(98.0, sill=147.9), start=300.0), memory).code == "sash-on-run"
    assert found(room(openings=window(98.0, swing="out"), start=300.0), memory) == ()


def test_one_sash_of_a_pair(memory: Memory) -> None:
    """Of a pair the sash next to the run is found, by its side; it cannot be hung on its other side."""
    finding = only(room(openings=window(110.0, hinge="both", width=1200.0), start=300.0), memory)
    assert finding.parts[1] == "room/french/swing-left"
    assert "the left sash of french" in finding.message
    assert "hang it" not in finding.remedy
    assert found(room(openings=window(90.0, hinge="both", width=1200.0), start=300.0), memory) == ()


def test_a_mirrored_room_has_the_same_findings(memory: Memory) -> None:
    """Seen in a mirror everything is found with the same figures, left and right exchanged."""
    here = room(obstacles=drawer(2980.0), openings="")
    box = "{id: chest, kind: box, wall: w1, at: 20, width: 900, depth: 420, height: 700, OPENER}"
    there = mirrored(obstacles=box.replace("OPENER", "drawers: [{up: 60, height: 40, out: 400}]"))
    a, b = only(here, memory), only(there, memory)
    assert (a.code, a.parts) == (b.code, b.parts)
    assert a.measured == pytest.approx(b.measured, rel=1e-6)
    assert b.remedy.startswith(a.remedy.split(";")[0].replace("right", "left"))
    swung = "{id: french, kind: window, wall: w1, at: 100, width: 600, sill: 100, height: 2000, swing: in, HINGE}"
    c = only(room(openings=window(98.0), start=300.0), memory)
    d = only(mirrored(openings=swung.replace("HINGE", "hinge: right, opens: 98"), start=300.0), memory)
    assert (c.code, c.parts) == (d.code, d.parts)
    assert c.measured == pytest.approx(d.measured, rel=1e-6)
    assert d.remedy.split(";")[:2] == [s.replace("right side", "left side") for s in c.remedy.split(";")[:2]]


def test_what_is_swept_stops_no_fitting(tmp_path: Path) -> None:
    """While anything is fitted drawers and doors are shut: the whole check says no more than the check of everything in
    its place.
    """
    plan = tmp_path / "plan.yaml"
    plan.write_text(room(obstacles=drawer(2980.0), openings=window(90.0, width=500.0)))
    found_there = [f for f in check_project(load(plan)) if f.severity != "note"]
    assert [f.code for f in found_there] == ["drawer-on-run"]


def test_what_is_swept_is_no_body() -> None:
    """Room that something takes as it opens is in no file, picture or line drawing."""
    plan = checked(room(obstacles=door(2900.0, 90.0), openings=window(90.0, width=500.0)))
    scene = scene_of(plan)
    swept = [p for p in scene.parts if p.role in SWEPT_ROLES]
    assert {p.role for p in swept} == {"cupboard-swing", "sash-swing"}
    named = {leaf.name for leaf in scene_tree(scene, "room", plan.finish).children[0].children}
    assert not named & {p.name for p in swept}
    assert not {p.spec for p in swept} & set(shape_names(scene))
    assert not SWEPT_ROLES & (set(ROOM_LOOKS) | plain._ROOM)
