"""Room to work and clearances: what stands too near is found with the figures by hand, its nearest neighbour is not, in
a room and in its mirror image; and what the finding offers leaves nothing to say.

Family (a) by hand, mm: front of the piece 6 + 22 = 28 from the wall, top 8 + 140 = 148 above the floor. Crown of a
link's upper screw 8 + 110 + 19.6 / 2 + 4 = 131.8. Valve head on the axis of the waterways, 17 from the wall, radius 14:
its front at 31, from 52 to 92 beyond the first cut face, which stands 95 from the corner.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

import pytest

from model3d.checks import Surroundings, check_scene
from model3d.checks.engine import Memory
from model3d.checks.free_rooms import free_rooms
from model3d.findings import Finding
from model3d.geometry.placement import Placement, Vec3
from model3d.layout import lay_out
from model3d.rooms import CheckedPlan, Door, Obstacle, Pipe, PipeTail, Slab
from model3d.scene import Scene, compose
from model3d.steps import plan_steps
from tests.checks.small_rooms import SQUARE, door, pipe, shelf, shifted, wall_of
from tests.layout.every_joint import FAMILIES, family_of
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over

WIDE, DEEP = 3000.0, 2600.0
FRONT, TOP, CROWN, HEAD_FRONT = 28.0, 148.0, 131.8, 31.0
LINK_AT = 1500.0


def plan(*things: Door | Obstacle, link_at: float | None = None, mirrored: bool = False) -> CheckedPlan:
    """A run from the start of w1 round c2 to 1400 along w2, in-line link or none; or its mirror image."""
    ring = ring_of(SQUARE)
    joints: dict[str, list[tuple[float, str]]] = {}
    if link_at is not None:
        joints = {"w1": [(WIDE - link_at if mirrored else link_at, "link")]}
    if mirrored:
        run = run_over(ring, 1, 2, sense=-1, end_at=DEEP - 1400.0, joints=joints)
        things = tuple(mirror(t) for t in things)
    else:
        run = run_over(ring, 1, 2, end_at=1400.0, joints=joints)
    return plan_of(
        ring,
        run,
        openings=tuple(t for t in things if isinstance(t, Door)),
        obstacles=tuple(t for t in things if not isinstance(t, Door)),
    )


def mirror(thing: Door | Obstacle) -> Door | Obstacle:
    """A pipe or board of w1 or w2 where the mirror image of the room has it: on w1 or w4."""
    assert isinstance(thing, Pipe | Slab)
    number = {"w1": 1, "w2": 4}[str(thing.wall_id)]
    long = WIDE if number == 1 else DEEP
    there = replace(thing, wall_id=f"w{number}", frame=wall_of(number).frame)
    if isinstance(there, Pipe):
        (ax, ay, az), (bx, by, bz) = there.from_mm, there.to_mm
        return replace(there, from_mm=(long - ax, ay, az), to_mm=(long - bx, by, bz))
    (ax, ay, az), (bx, by, bz) = there.low_mm, there.high_mm
    return replace(there, low_mm=(long - bx, ay, az), high_mm=(long - ax, by, bz))


def around(
    checked: CheckedPlan, memory: Memory, *, scene: Scene | None = None, name: str = "a-square"
) -> Surroundings:
    """The surroundings of a plan, in family (a) unless said."""
    family = family_of(name)
    layout = lay_out(checked, family)
    placed = compose(checked.room, layout, family) if scene is None else scene
    steps = plan_steps(layout, placed, family)
    return Surroundings(layout=layout, scene=placed, steps=steps, family=family, memory=memory)


def found(checked: CheckedPlan, memory: Memory) -> tuple[Finding, ...]:
    """What is said of a plan where nothing overlaps."""
    there = around(checked, memory)
    assert check_scene(there.scene, memory=memory) == ()
    return there.findings()


def only(findings: Sequence[Finding]) -> Finding:
    """The one finding."""
    (finding,) = findings
    return finding


def figure(text: str, pattern: str) -> float:
    """The number in a remedy."""
    match = re.search(pattern, text)
    assert match is not None, text
    return float(match[1])


def screw_shelf(above_mm: float) -> Slab:
    """A board 40 mm deep, so that hands still reach past it, above the link at 1500."""
    low = CROWN + above_mm
    return shelf((1300.0, 0.0, low), (1700.0, 40.0, low + 20.0))


def cabinet(front_mm: float) -> Slab:
    """A board on edge before the valve head, in front of all of it."""
    return shelf((0.0, HEAD_FRONT + front_mm, 0.0), (60.0, 400.0, 900.0))


def box_over_click(above_mm: float) -> Slab:
    """A box over the end of r-2 that goes onto the elbows: it begins 51 from the corner."""
    return shelf((60.0, 60.0, TOP + above_mm), (140.0, 120.0, TOP + above_mm + 300.0), wall=2)


def near_pipe(gap_mm: float) -> Pipe:
    """A pipe of 15 before the middle of r-1."""
    return pipe(1450.0, FRONT + gap_mm + 7.5)


CASES = [
    pytest.param(screw_shelf(60.0), LINK_AT, "screw-access", 60.0, 150.0, id="shelf 60 above a link"),
    pytest.param(screw_shelf(149.0), LINK_AT, "screw-access", 149.0, 150.0, id="shelf 1 too low"),
    pytest.param(cabinet(18.0), None, "valve-head-room", 18.0, 25.0, id="cabinet before the valve head"),
    pytest.param(cabinet(24.0), None, "valve-head-room", 24.0, 25.0, id="cabinet 1 too near"),
    pytest.param(box_over_click(60.0), None, "hand-room", 60.0, 120.0, id="box over a click"),
    pytest.param(box_over_click(119.0), None, "hand-room", 119.0, 120.0, id="box 1 too low"),
    pytest.param(near_pipe(4.0), None, "tight", 4.0, 5.0, id="pipe 1 too near"),
    pytest.param(near_pipe(0.5), None, "tight", 0.5, 5.0, id="pipe all but touching"),
]
FREE = [
    pytest.param(screw_shelf(151.0), LINK_AT, id="shelf high enough"),
    pytest.param(screw_shelf(60.0), None, id="no link under the shelf"),
    pytest.param(cabinet(26.0), None, id="cabinet far enough"),
    pytest.param(box_over_click(121.0), None, id="box high enough"),
    pytest.param(near_pipe(6.0), None, id="pipe far enough"),
    pytest.param(near_pipe(5.0), None, id="pipe just at its clearance"),
]


@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize(("thing", "link_at", "code", "measured", "limit"), CASES)
def test_what_is_too_near_is_found(
    thing: Obstacle, link_at: float | None, code: str, measured: float, limit: float, mirrored: bool, memory: Memory
) -> None:
    """One warning with what is there and what is asked, to a hundredth; the same in the mirror image."""
    finding = only(found(plan(thing, link_at=link_at, mirrored=mirrored), memory))
    assert (finding.code, finding.severity, finding.limit) == (code, "warning", limit)
    assert finding.measured == pytest.approx(measured, abs=0.01)
    assert f"room/{thing.id}" in finding.parts
    assert finding.remedy


@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize(("thing", "link_at"), FREE)
def test_what_is_far_enough_is_not_found(
    thing: Obstacle, link_at: float | None, mirrored: bool, memory: Memory
) -> None:
    """A millimetre past what is asked, or just at it, there is nothing to say."""
    assert found(plan(thing, link_at=link_at, mirrored=mirrored), memory) == ()


@pytest.mark.parametrize(
    ("thing", "link_at", "pattern", "way"),
    [
        (screw_shelf(60.0), LINK_AT, r"[Rr]aise it (\d+) mm", (0.0, 0.0, 1.0)),
        (cabinet(18.0), None, r"[Mm]ove shelf (\d+) mm further out", (0.0, 1.0, 0.0)),
        (box_over_click(60.0), None, r"[Rr]aise it (\d+) mm", (0.0, 0.0, 1.0)),
        (near_pipe(4.0), None, r"[Mm]ove riser (\d+) mm further out", (0.0, 1.0, 0.0)),
    ],
)
def test_a_thing_moved_as_said(
    thing: Pipe | Slab, link_at: float | None, pattern: str, way: Vec3, memory: Memory
) -> None:
    """What a remedy offers leaves nothing to say, and asks for no more than 3 mm over what is needed."""
    finding = only(found(plan(thing, link_at=link_at), memory))
    by = figure(finding.remedy, pattern)
    moved = shifted(thing, (way[0] * by, way[1] * by, way[2] * by))
    assert found(plan(moved, link_at=link_at), memory) == ()
    short = shifted(thing, (way[0] * (by - 4.0), way[1] * (by - 4.0), way[2] * (by - 4.0)))
    assert found(plan(short, link_at=link_at), memory) != ()


@pytest.mark.parametrize("words", ["short of", "past"])
def test_a_link_put_elsewhere_as_said(words: str, memory: Memory) -> None:
    """A link under a shelf may go where its screws are free: there it is."""
    low = screw_shelf(60.0)
    finding = only(found(plan(low, link_at=LINK_AT), memory))
    there = figure(finding.remedy, rf"put link r-J1 .*?{words} (\d+) mm")
    assert found(plan(low, link_at=there), memory) == ()
    back = 10.0 if words == "short of" else -10.0
    assert found(plan(low, link_at=there + back), memory) != ()


def test_a_deep_shelf_takes_hands_as_well_as_screwdrivers(memory: Memory) -> None:
    """A shelf 60 above the link and 220 deep leaves hands TOP to its underside, 43.8: two warnings."""
    low = CROWN + 60.0
    findings = found(plan(shelf((1300.0, 0.0, low), (1700.0, 220.0, low + 20.0)), link_at=LINK_AT), memory)
    assert {f.code: f.measured for f in findings} == {
        "screw-access": pytest.approx(60.0, abs=0.01),
        "hand-room": pytest.approx(low - TOP, abs=0.01),
    }
    hands = next(f for f in findings if f.code == "hand-room")
    assert "leave it off until r-1 and r-2 are up" in hands.remedy


def test_a_pipe_before_a_bracket_is_pressed_beside(memory: Memory) -> None:
    """A latch snaps as well when the hand presses a hand's breadth beside it: a pipe before a bracket takes no room, a
    board as wide as three hands does.
    """
    family = family_of("a-square")
    piece = lay_out(plan(), family).runs[0].pieces[0]
    at = piece.brackets[1].along_mm
    assert found(plan(pipe(at, FRONT + 6.0 + 7.5)), memory) == ()
    board = shelf((at - 160.0, FRONT + 60.0, 0.0), (at + 160.0, FRONT + 80.0, 100.0))
    finding = only(found(plan(board), memory))
    assert (finding.code, finding.limit) == ("hand-room", 100.0)
    assert finding.measured == pytest.approx(60.0, abs=0.01)


def test_two_that_touch(memory: Memory) -> None:
    """Contact of two that are not meant to touch is said as such."""
    finding = only(found(plan(near_pipe(0.0)), memory))
    assert (finding.code, finding.measured) == ("tight", 0.0)
    assert "riser touches Piece r-1" in finding.message


@pytest.mark.parametrize(("gap_mm", "tight"), [(2.0, True), (4.0, False)])
def test_a_leaf_that_passes_close(gap_mm: float, tight: bool, memory: Memory) -> None:
    """The tip of a leaf of 760 hung 140 from the wall of the run comes to 140 + 760 cos(angle) from it."""
    opens = math.degrees(math.acos((FRONT + gap_mm - 140.0) / 760.0))
    findings = found(plan(door(opens_deg=opens)), memory)
    assert [f.code for f in findings] == (["tight"] if tight else [])
    for finding in findings:
        assert finding.measured == pytest.approx(gap_mm, abs=0.02)
        stop = figure(finding.remedy, r"[Ss]top the door at (\d+) degrees")
        assert found(plan(door(opens_deg=stop)), memory) == ()


def test_the_pipe_that_a_tail_is_joined_to(memory: Memory) -> None:
    """The pipe out of the floor under the valve's tail, 22 beyond the cut face, is meant to meet it; one 3 mm beside
    it is not.
    """

    def tail(along_mm: float, high_mm: float) -> PipeTail:
        frame = wall_of(1).frame
        return PipeTail(
            id="tail", wall_id="w1", frame=frame, along_mm=along_mm, off_mm=17.0, diameter_mm=15.0, height_mm=high_mm
        )

    assert found(plan(tail(95.0 - 22.0, 5.0)), memory) == ()
    finding = only(found(plan(tail(95.0 - 22.0 - 18.0, 10.0)), memory))
    assert finding.code == "tight"
    assert finding.measured == pytest.approx(3.0, abs=0.01)


@pytest.mark.parametrize("hinge", ["left", "right"])
@pytest.mark.parametrize("name", FAMILIES)
def test_a_run_that_begins_beside_a_door(name: str, hinge: Literal["left", "right"], memory: Memory) -> None:
    """The room that a family's valve end takes keeps it clear of the leaf of a door without a casing beside it; 1 mm
    nearer it is not clear of the leaf, by the clearance of 3 and what the family has to spare.
    """
    family = family_of(name)
    leaf = replace(door(hinge=hinge, opens_deg=90.0), wall_id="w1", from_mm=700.0, to_mm=1500.0)
    head = family.valve_end.block.end_mm + family.valve_end.neck.length_mm + family.valve_end.head.length_mm
    spare = family.valve_end.length_mm - head - 3.0
    assert spare >= 0.0
    for nearer, codes in ((0.0, []), (spare + 1.0, ["tight"])):
        ring = ring_of(SQUARE)
        run = run_over(ring, 1, 2, start_at=1500.0 - nearer, end_at=1400.0)
        there = around(plan_of(ring, run, openings=(leaf,)), memory, name=name)
        assert [f.code for f in there.findings()] == codes


def test_a_run_that_ends_at_what_is_built_in(memory: Memory) -> None:
    """A run may end at a cupboard as at a casing: its end cap stands as near as the layout puts it, and may touch."""
    for gap_mm in (0.0, 0.5):
        cupboard = shelf((1400.0 + gap_mm, 0.0, 0.0), (2000.0, 300.0, 2000.0), wall=2)
        assert found(plan(cupboard), memory) == ()


def test_what_lies_in_the_wall(memory: Memory) -> None:
    """A bracket lies on its wall and on what lies in it: that is no contact to speak of."""
    piece = lay_out(plan(), family_of("a-square")).runs[0].pieces[0]
    at = piece.brackets[1].along_mm
    assert found(plan(shelf((at - 40.0, -45.0, 40.0), (at + 40.0, 0.0, 90.0))), memory) == ()


@pytest.mark.parametrize(("gap_mm", "tight"), [(4.0, True), (6.0, False)])
def test_two_runs_side_by_side(gap_mm: float, tight: bool, memory: Memory) -> None:
    """Heated parts of two runs stand 5 mm apart at least."""
    there = around(plan(), memory)
    piece = there.scene.part("r-1/piece")
    out = Placement(origin_mm=(0.0, 22.0 + gap_mm, 0.0))
    other = replace(piece, id="q-1/piece", run="q", piece="q-1", placement=piece.placement @ out)
    scene = Scene(parts=(*there.scene.parts, other))
    findings = [f for f in around(plan(), memory, scene=scene).findings() if f.code == "tight"]
    assert len(findings) == tight
    assert all("further from the other" in f.remedy for f in findings)


def test_an_error_is_not_said_again(memory: Memory) -> None:
    """What stands in a run is an error; that it also takes room there is not said."""
    checked = plan(pipe(1450.0, 22.0))
    there = around(checked, memory)
    standing = check_scene(there.scene, memory=memory)
    assert [f.code for f in standing] == ["obstacle-in-run"]
    assert there.findings() != ()
    assert there.findings(standing) == ()


def test_an_error_is_moved_clear_of_the_clearance_too(memory: Memory) -> None:
    """A pipe in a run moved out as far as is said keeps its clearance as well."""
    there = around(plan(pipe(1450.0, 22.0)), memory)
    standing = only(check_scene(there.scene, memory=memory, asks=there.leaves))
    out = figure(standing.remedy, r"Move riser (\d+) mm further out")
    assert found(plan(pipe(1450.0, 22.0 + out)), memory) == ()


@pytest.mark.parametrize("name", FAMILIES)
def test_rooms_stand_where_they_serve(name: str) -> None:
    """A screwdriver's room begins at the crown of its screw and goes up or out of the wall, as the family has it; of
    screws one above the other the upper alone is asked for, of those to the front all.
    """
    family = family_of(name)
    checked = plan(link_at=LINK_AT)
    layout = lay_out(checked, family)
    scene = compose(checked.room, layout, family)
    rooms = free_rooms(layout, scene, plan_steps(layout, scene, family), family)
    links = sum(j.kind == "link" for j in layout.runs[0].joints)
    bars = [r for r in rooms if r.code == "screw-access"]
    assert len(bars) == links * (2 if family.link.screw_access == "above" else 4)
    for room in bars:
        bar, spec = room.places[0].placement, family.link
        x, y, z = room.serves.placement.inverse().point(bar.origin_mm)
        assert (x, y) == pytest.approx((spec.screw.x_mm, 0.0))
        assert z == pytest.approx(family.leg.height_mm / 2.0 + spec.screw.height_mm)
        out = wall_of(int(str(room.serves.wall)[1:])).normal
        assert bar.z_axis == pytest.approx((0.0, 0.0, 1.0) if spec.screw_access == "above" else (*out, 0.0))


@pytest.mark.parametrize("name", FAMILIES)
def test_a_piece_up_already_asks_for_no_hands(name: str) -> None:
    """Hands are asked for where pieces go up: those of the second piece alone when the first is up, where its elbows or
    links are made; screws and the valve are reached as before.
    """
    family = family_of(name)
    checked = plan()
    layout = lay_out(checked, family)
    scene = compose(checked.room, layout, family)
    steps = plan_steps(layout, scene, family)
    later = [s for s in steps if "r-1" not in s.pieces]
    all_of, rest = (free_rooms(layout, scene, s, family) for s in (steps, later))
    assert {r.serves.piece for r in rest if r.code == "hand-room"} == {"r-2"}
    assert {r.serves.piece for r in all_of if r.code == "hand-room"} == {"r-1", "r-2"}
    assert [r for r in rest if r.code != "hand-room"] == [r for r in all_of if r.code != "hand-room"]
