"""Openings and obstacles in numbers, the temperatures and the finish."""

from __future__ import annotations

from pathlib import Path

import pytest

from model3d.rooms import Obstacle, Pipe, PipeTail, SocketOutlet

from .plans import GOOD, read

PLAN = read(GOOD)
THINGS = {o.id: o for o in PLAN.room.obstacles}


def box_in_room(thing: Obstacle) -> tuple[list[float], list[float]]:
    """The box round a thing whose frame is square to the room, in the room frame."""
    ends = [thing.frame.point(thing.low_mm), thing.frame.point(thing.high_mm)]
    return [min(axis) for axis in zip(*ends, strict=True)], [max(axis) for axis in zip(*ends, strict=True)]


# Worked out by hand from the plan: wall w3 goes from (4000, 3000) to (1500, 3000), w4 up to (1500, 5000), w5 to
# (0, 5000), w6 down to (0, 0); the room is on the left.
BOXES = {
    "riser": ([3589, 2959, 0], [3611, 2981, 2400]),
    "feed": ([3100, 2952.5, 52.5], [3900, 2967.5, 67.5]),
    "tail": ([52.5, 4892.5, 0], [67.5, 4907.5, 120]),
    "socket": ([-35, 3457, 407], [9, 3543, 493]),
    "duct": ([1475, 3200, 300], [1500, 4800, 340]),
    "plinth": ([10, 1700, 0], [110, 2000, 80]),
    "shelf": ([700, 4750, 500], [1300, 5000, 520]),
}


@pytest.mark.parametrize("name", BOXES)
def test_an_obstacle_stands_where_the_plan_says(name: str) -> None:
    """An obstacle on a wall is placed along it from its first corner, off it into the room, and up from the floor."""
    low, high = box_in_room(THINGS[name])
    assert low == pytest.approx(BOXES[name][0], abs=1e-9)
    assert high == pytest.approx(BOXES[name][1], abs=1e-9)


def test_a_box_on_the_floor_is_turned_about_its_first_corner() -> None:
    """A box on the floor stands at its first corner, turned anticlockwise seen from above."""
    chest = THINGS["chest"]
    assert chest.wall_id is None
    assert chest.frame.point(chest.low_mm) == (3000.0, 2000.0, 0.0)
    along = chest.frame.point((600.0, 0.0, 0.0))
    assert along == pytest.approx((3000.0 + 600.0 * 3**0.5 / 2, 2300.0, 0.0), abs=1e-9)
    assert chest.high_mm == (600.0, 300.0, 500.0)


def test_pipes_stand_up_or_go_along_the_wall() -> None:
    """A pipe with ``at`` stands up from floor to ceiling when no end is given; one with ``up`` goes along its wall."""
    riser, feed, tail = THINGS["riser"], THINGS["feed"], THINGS["tail"]
    assert isinstance(riser, Pipe)
    assert isinstance(feed, Pipe)
    assert isinstance(tail, PipeTail)
    assert (riser.from_mm, riser.to_mm) == ((400.0, 30.0, 0.0), (400.0, 30.0, 2400.0))
    assert (feed.from_mm, feed.to_mm) == ((100.0, 40.0, 60.0), (900.0, 40.0, 60.0))
    whole = read(GOOD.replace(", from: 100, to: 900", "")).room.obstacles[1]
    assert isinstance(whole, Pipe)
    assert (whole.from_mm[0], whole.to_mm[0]) == (0.0, 2500.0)


def test_a_socket_outlet_has_a_plate_and_a_back_box() -> None:
    """A socket-outlet's plate stands proud of the wall and its box is sunk into it, both round one middle."""
    socket = THINGS["socket"]
    assert isinstance(socket, SocketOutlet)
    assert (socket.along_mm, socket.up_mm) == (1500.0, 450.0)
    assert (socket.plate_proud_mm, socket.box_depth_mm) == (9.0, 35.0)
    small = read(GOOD.replace("up: 450", "up: 450, box: {depth: 47}")).room.obstacles[3]
    assert isinstance(small, SocketOutlet)
    assert (small.box_width_mm, small.box_depth_mm) == (70.0, 47.0)


@pytest.mark.parametrize(("hinge", "at_mm"), [("left", 1400.0), ("right", 600.0)])
def test_a_door_hangs_on_the_side_the_plan_says(hinge: str, at_mm: float) -> None:
    """A door's hinges are left or right as you face the wall, whose first corner is then on the right."""
    door = read(GOOD.replace("height: 2000,", f"height: 2000, hinge: {hinge},")).room.doors[0]
    assert door.hinge_mm == at_mm
    assert (door.from_mm, door.to_mm, door.kept_clear_mm) == (600.0, 1400.0, (540.0, 1460.0))
    assert (door.swing, door.opens_deg, door.width_mm) == ("in", 90.0, 800.0)


def test_a_window_keeps_its_figures() -> None:
    """A window has its place along the wall, its sill and its height."""
    (window,) = PLAN.room.windows
    assert (window.from_mm, window.to_mm, window.sill_mm, window.height_mm) == (900.0, 2100.0, 900.0, 1200.0)


def test_temperatures_and_finish_are_carried_over() -> None:
    """Temperatures are in degrees Celsius, colours in parts of red, green and blue."""
    t = PLAN.temperatures
    assert (t.flow_c, t.return_c, t.mean_c, t.install_c, t.frost_c) == (60.0, 50.0, 55.0, 20.0, 3.0)
    plan = read(GOOD + 'finish: {floor: "#204060", skirting: anthracite}\n')
    assert plan.finish.floor == (32 / 255, 64 / 255, 96 / 255)
    assert plan.finish.skirting == (0x38 / 255, 0x3C / 255, 0x40 / 255)


def test_a_plan_is_named_by_itself_or_by_its_file() -> None:
    """A plan's name is the one it gives, or that of its file; its family's file is what the finder says."""
    assert PLAN.name == "plan"
    assert read(GOOD + "name: Front room\n").name == "Front room"
    assert PLAN.family_path == Path("a-square.yaml")
