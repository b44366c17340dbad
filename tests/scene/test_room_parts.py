"""The room as placed bodies: floor, walls, openings, leaves and obstacles, from a plan as written."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from model3d.families.reading import find_family
from model3d.geometry.placement import Vec3, dot
from model3d.parts.room import BoxSpec, CasingSpec, CylinderSpec, SectorSpec, SlabSpec, WallSpec
from model3d.rooms.read_plan import plan_of
from model3d.scene import Part
from model3d.scene.room_parts import room_parts

TEXT = """\
version: 1
family: a-square
room:
  corners: [[0, 0], [5000, 0], [5000, 3000], [3000, 3000], [3000, 4000], [0, 4000]]
  height: 2400
  wall_thickness: 100
  islands:
    - {id: pillar, corners: [[1000, 1500], [1000, 1900], [1400, 1900], [1400, 1500]]}
openings:
  - {id: in-right, kind: door, wall: w1, at: 500, width: 800, height: 2000, hinge: right, swing: in, opens: 90,
     casing: {width: 60, depth: 15}}
  - {id: in-left, kind: door, wall: w1, at: 2500, width: 800, height: 2000, hinge: left, swing: in, opens: 120}
  - {id: out, kind: door, wall: w6, at: 500, width: 700, height: 2000, hinge: left, swing: out}
  - {id: window, kind: window, wall: w2, at: 600, width: 1200, sill: 900, height: 1100, sill_depth: 140}
obstacles:
  - {id: riser, kind: pipe, wall: w3, at: 400, off: 40, diameter: 22, from: 10, to: 2300}
  - {id: feed, kind: pipe, wall: w3, from: 600, to: 1600, up: 60, off: 30, diameter: 15}
  - {id: tail, kind: pipe-tail, wall: w3, at: 1800, off: 60, diameter: 15, height: 120}
  - {id: socket, kind: socket-outlet, wall: w6, at: 2500, up: 450}
  - {id: chest, kind: box, floor: [4000, 1500], turn: 30, width: 900, depth: 450, height: 800}
  - {id: shelf, kind: shelf, wall: w5, at: 200, width: 600, depth: 250, up: 500}
runs:
  - {id: A, start: {wall: w1, at: 3500}, end: {wall: w2, at: 2800}}
"""


@pytest.fixture(scope="module")
def parts() -> dict[str, Part]:
    """The room's parts by id."""
    room = plan_of(TEXT, Path("plan.yaml"), find_family=find_family).room
    found = list(room_parts(room))
    assert len({p.id for p in found}) == len(found)
    return {p.id.removeprefix("room/"): p for p in found}


def at(part: Part, local: Vec3) -> Vec3:
    """A point of a part in the room."""
    return part.placement.point(local)


def box_of(part: Part) -> tuple[Vec3, Vec3]:
    """A box's two far corners in the room."""
    assert isinstance(part.spec, BoxSpec)
    return at(part, (0.0, 0.0, 0.0)), at(part, part.spec.size_mm)


def test_floor_and_column(parts: dict[str, Part]) -> None:
    """The floor's top is at 0, it has the room's outline and a hole for the column, which stands to the ceiling."""
    floor, pillar = parts["floor"], parts["pillar"]
    assert isinstance(floor.spec, SlabSpec)
    assert floor.placement.origin_mm[2] + floor.spec.thickness_mm == 0.0
    assert floor.spec.volume_mm3 == pytest.approx((5000 * 3000 + 3000 * 1000 - 400 * 400) * floor.spec.thickness_mm)
    assert isinstance(pillar.spec, SlabSpec)
    assert (pillar.role, pillar.placement.origin_mm) == ("wall", (0.0, 0.0, 0.0))
    assert pillar.spec.volume_mm3 == pytest.approx(400 * 400 * 2400)


def test_walls(parts: dict[str, Part]) -> None:
    """Each wall's surface runs from its first corner to its last, the room in front, its back mitred with its
    neighbours': 100 longer at an internal corner, 100 shorter at an external one.
    """
    corners = [(0, 0), (5000, 0), (5000, 3000), (3000, 3000), (3000, 4000), (0, 4000)]
    ends = {
        "w1": (-100, 100),
        "w2": (-100, 100),
        "w3": (-100, -100),
        "w4": (100, 100),
        "w5": (-100, 100),
        "w6": (-100, 100),
    }
    for i, (name, (before, after)) in enumerate(ends.items()):
        wall, spec = parts[name], parts[name].spec
        assert isinstance(spec, WallSpec)
        assert at(wall, (0.0, 0.0, 0.0)) == pytest.approx((*corners[i], 0.0))
        assert at(wall, (spec.length_mm, 0.0, 0.0)) == pytest.approx((*corners[(i + 1) % 6], 0.0))
        assert (spec.back_start_mm, spec.back_end_mm - spec.length_mm) == pytest.approx((before, after))
        assert (spec.height_mm, spec.thickness_mm) == (2400.0, 100.0)


def test_openings_are_cut(parts: dict[str, Part]) -> None:
    """A door is cut from the floor up, a window from its sill, a back box into the wall; all where they are."""
    holes = {
        name: [(h.start_mm, h.end_mm, h.bottom_mm, h.top_mm) for h in spec.holes]
        for name in ("w1", "w2", "w3", "w6")
        if isinstance(spec := parts[name].spec, WallSpec)
    }
    assert holes == {
        "w1": [(500.0, 1300.0, 0.0, 2000.0), (2500.0, 3300.0, 0.0, 2000.0)],
        "w2": [(600.0, 1800.0, 900.0, 2000.0)],
        "w3": [],
        "w6": [(500.0, 1200.0, 0.0, 2000.0)],
    }
    spec = parts["w6"].spec
    assert isinstance(spec, WallSpec)
    (start, end, bottom, top, depth) = spec.recesses[0]
    assert ((start + end) / 2, (bottom + top) / 2) == (2500.0, 450.0)
    assert 0.0 < depth < 100.0


@pytest.mark.parametrize(
    ("door", "hinge", "shut", "open_"),
    [
        ("in-right", (500.0, 0.0), (1300.0, 0.0), (500.0, 800.0)),
        ("in-left", (3300.0, 0.0), (2500.0, 0.0), (3300.0 + 400.0, 800.0 * math.sin(math.radians(60.0)))),
    ],
)
def test_leaves_sweep_into_the_room(
    parts: dict[str, Part], door: str, hinge: tuple[float, float], shut: tuple[float, float], open_: tuple[float, float]
) -> None:
    """A leaf that opens in sweeps from shut, about its hinges, to as far as it opens: on the right as one faces the
    wall is its first corner's side.
    """
    swing = parts[f"{door}/swing"]
    spec = swing.spec
    assert isinstance(spec, SectorSpec)
    ways = []
    for angle in (spec.start_deg, spec.start_deg + spec.sweep_deg):
        turn = math.radians(angle)
        ways.append(at(swing, (spec.radius_mm * math.cos(turn), spec.radius_mm * math.sin(turn), 0.0)))
    assert swing.placement.origin_mm[:2] == pytest.approx(hinge)
    assert ways[0][:2] == pytest.approx(shut, abs=1e-9)
    assert ways[1][:2] == pytest.approx(open_, abs=1e-9)
    low, high = box_of(parts[f"{door}/leaf"])
    assert sorted((low[0], high[0])) == pytest.approx(sorted((hinge[0], shut[0])))
    assert max(low[1], high[1]) == pytest.approx(0.0)


def test_a_leaf_that_opens_out_sweeps_nothing_here(parts: dict[str, Part]) -> None:
    """A door that opens out has a leaf in its doorway and no swing in the room; a casing only where it has one."""
    assert "out/leaf" in parts
    assert "out/swing" not in parts
    assert [name for name in parts if name.endswith("/casing")] == ["in-right/casing"]
    casing = parts["in-right/casing"].spec
    assert isinstance(casing, CasingSpec)
    assert (casing.width_mm, casing.height_mm, casing.board_mm, casing.depth_mm) == (800.0, 2000.0, 60.0, 15.0)
    assert at(parts["in-right/casing"], (0.0, 0.0, 0.0)) == pytest.approx((500.0, 0.0, 0.0))


def test_a_window_is_filled(parts: dict[str, Part]) -> None:
    """Frame and glass stand within the wall's thickness and the window's hole, the sill's top at the sill's height."""
    wall = parts["w2"].placement.inverse()
    frame, sill = parts["window/frame"], parts["window/sill"]
    assert isinstance(frame.spec, CasingSpec)
    board = frame.spec.board_mm
    low = wall.point(at(frame, (-board, 0.0, -board)))
    high = wall.point(at(frame, (frame.spec.width_mm + board, frame.spec.depth_mm, frame.spec.height_mm + board)))
    assert (low[0], low[2]) == pytest.approx((600.0, 900.0))
    assert (high[0], high[2]) == pytest.approx((1800.0, 2000.0))
    assert -100.0 <= low[1] < high[1] <= 0.0
    glass = [wall.point(p) for p in box_of(parts["window/glass"])]
    assert low[1] < glass[0][1] < glass[1][1] < high[1]
    board_low, board_high = (wall.point(p) for p in box_of(sill))
    assert board_high == pytest.approx((1800.0, 140.0, 900.0))
    assert board_low[:2] == pytest.approx((600.0, 0.0))


def test_pipes(parts: dict[str, Part]) -> None:
    """Pipes stand where they are asked for, along their axis: upright, along the wall, and up out of the floor."""
    wall = parts["w3"].placement.inverse()
    for name, start, end, radius in (
        ("riser", (400.0, 40.0, 10.0), (400.0, 40.0, 2300.0), 11.0),
        ("feed", (600.0, 30.0, 60.0), (1600.0, 30.0, 60.0), 7.5),
        ("tail", (1800.0, 60.0, 0.0), (1800.0, 60.0, 120.0), 7.5),
    ):
        spec = parts[name].spec
        assert isinstance(spec, CylinderSpec)
        assert spec.radius_mm == radius
        assert wall.point(at(parts[name], (0.0, 0.0, 0.0))) == pytest.approx(start, abs=1e-9)
        assert wall.point(at(parts[name], (0.0, 0.0, spec.length_mm))) == pytest.approx(end, abs=1e-9)


def test_socket_box_and_shelf(parts: dict[str, Part]) -> None:
    """A socket's plate stands proud of the wall and its back box behind it; a shelf's top is where it is asked for; a
    box on the floor is turned about its place.
    """
    wall = parts["w6"].placement.inverse()
    plate, back = ([wall.point(p) for p in box_of(parts[f"socket/{name}"])] for name in ("plate", "back-box"))
    assert plate[0][1] == pytest.approx(0.0)
    assert 0.0 < plate[1][1] < 20.0
    assert back[1][1] == pytest.approx(0.0)
    assert back[0][1] < -20.0
    for low, high in (plate, back):
        assert ((low[0] + high[0]) / 2, (low[2] + high[2]) / 2) == pytest.approx((2500.0, 450.0))
    low, high = (parts["w5"].placement.inverse().point(p) for p in box_of(parts["shelf"]))
    assert (low[0], low[1], high[0], high[1]) == pytest.approx((200.0, 0.0, 800.0, 250.0))
    assert high[2] > low[2] >= 450.0
    chest = parts["chest"]
    assert isinstance(chest.spec, BoxSpec)
    assert chest.spec.size_mm == (900.0, 450.0, 800.0)
    assert dot(
        chest.placement.x_axis, (math.cos(math.radians(30.0)), math.sin(math.radians(30.0)), 0.0)
    ) == pytest.approx(1.0)
    assert chest.placement.origin_mm[2] == 0.0
