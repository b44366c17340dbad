"""What sashes, drawers and cupboard doors take as they open, placed: worked out by hand from the plan."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from model3d.families.reading import find_family
from model3d.geometry.placement import Vec3
from model3d.parts.room import BoxSpec, SectorSpec
from model3d.rooms.read_plan import plan_of
from model3d.scene import Part
from model3d.scene.room_parts import room_parts

TEXT = """\
version: 1
family: a-square
room: {corners: [[0, 0], [5000, 0], [5000, 4000], [0, 4000]]}
openings:
  - {id: plain, kind: window, wall: w2, at: 600, width: 1200}
  - {id: outward, kind: window, wall: w3, at: 3600, width: 800, swing: out, hinge: right}
  - {id: single, kind: window, wall: w3, at: 500, width: 700, sill: 250, height: 1900, swing: in, opens: 100}
  - {id: pair, kind: window, wall: w3, at: 2000, width: 1400, sill: 0, height: 2100, swing: in, hinge: both}
obstacles:
  - {id: chest, kind: box, wall: w1, at: 1000, off: 10, up: 100, width: 900, depth: 450, height: 700,
     drawers: [{up: 150, height: 200, out: 300, from: 100, to: 800}, {}],
     doors: [{hinge: right, to: 400}, {hinge: left, from: 400, opens: 110}]}
  - {id: square-on, kind: box, wall: w1, at: 3000, width: 500, depth: 900, height: 800, front: left,
     drawers: [{from: 100}]}
  - {id: other-way, kind: box, wall: w1, at: 4000, width: 500, depth: 900, height: 800, front: right,
     drawers: [{from: 100}]}
  - {id: island-unit, kind: box, floor: [2000, 2000], turn: 90, width: 600, depth: 400, height: 500,
     drawers: [{out: 350}]}
runs:
  - {id: A, start: {wall: w2, at: 500}, end: {wall: w2, at: 3500}}
"""


@pytest.fixture(scope="module")
def parts() -> dict[str, Part]:
    """The room's parts by id."""
    room = plan_of(TEXT, Path("plan.yaml"), find_family=find_family).room
    return {p.id.removeprefix("room/"): p for p in room_parts(room)}


def box_of(part: Part) -> tuple[Vec3, Vec3]:
    """The low and high corner of a box that stands square to the room."""
    assert isinstance(part.spec, BoxSpec)
    ends = [part.placement.point((0.0, 0.0, 0.0)), part.placement.point(part.spec.size_mm)]
    low, high = [min(axis) for axis in zip(*ends, strict=True)], [max(axis) for axis in zip(*ends, strict=True)]
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [
        ("chest/drawer-1", (1100, 460, 150), (1800, 760, 350)),
        ("chest/drawer-2", (1000, 460, 100), (1900, 910, 800)),
        ("square-on/drawer-1", (3500, 0, 0), (4000, 800, 800)),
        ("other-way/drawer-1", (3500, 100, 0), (4000, 900, 800)),
        ("island-unit/drawer-1", (1250, 2000, 0), (1600, 2600, 500)),
    ],
)
def test_drawers_slide_straight_out_of_their_front(parts: dict[str, Part], name: str, low: Vec3, high: Vec3) -> None:
    """A drawer takes as much room before its front as it pulls out: the front to the room, or the one to the left or
    right as one looks at the wall, counted from its right side; as deep and as large as what it is in when not said.
    """
    part = parts[name]
    assert part.role == "drawer-travel"
    found = box_of(part)
    assert found[0] == pytest.approx(low, abs=1e-9)
    assert found[1] == pytest.approx(high, abs=1e-9)


@pytest.mark.parametrize(
    ("name", "role", "hinge", "shut", "opened", "up"),
    [
        ("chest/door-1", "cupboard-swing", (1000, 460), (1400, 460), (1000, 860), (100, 800)),
        ("chest/door-2", "cupboard-swing", (1900, 460), (1400, 460),
         (1900 + 500 * math.sin(math.radians(20)), 460 + 500 * math.cos(math.radians(20))), (100, 800)),
        ("single/swing", "sash-swing", (3800, 4000), (4500, 4000),
         (3800 - 700 * math.sin(math.radians(10)), 4000 - 700 * math.cos(math.radians(10))), (250, 2150)),
        ("pair/swing-right", "sash-swing", (3000, 4000), (2300, 4000), (3000, 3300), (0, 2100)),
        ("pair/swing-left", "sash-swing", (1600, 4000), (2300, 4000), (1600, 3300), (0, 2100)),
    ],
)  # fmt: skip
def test_leaves_swing_about_their_hinges(
    parts: dict[str, Part],
    name: str,
    role: str,
    hinge: tuple[float, float],
    shut: tuple[float, float],
    opened: tuple[float, float],
    up: tuple[float, float],
) -> None:
    """A leaf sweeps from shut to as far as it opens, over its height; each sash of a pair is half as wide as it."""
    part = parts[name]
    assert part.role == role
    assert isinstance(part.spec, SectorSpec)
    spec = part.spec
    tips = []
    for angle in (spec.start_deg, spec.start_deg + spec.sweep_deg):
        turn = math.radians(angle)
        tips.append(part.placement.point((spec.radius_mm * math.cos(turn), spec.radius_mm * math.sin(turn), 0.0)))
    assert part.placement.origin_mm == pytest.approx((*hinge, up[0]), abs=1e-9)
    assert tips[0][:2] == pytest.approx(shut, abs=1e-9)
    assert tips[1][:2] == pytest.approx(opened, abs=1e-9)
    assert up[0] + spec.height_mm == pytest.approx(up[1])


def test_a_window_that_does_not_open_in_sweeps_nothing(parts: dict[str, Part]) -> None:
    """A fixed light and a window that opens out take no room in the room."""
    assert not [name for name in parts if name.startswith(("plain/swing", "outward/swing"))]
