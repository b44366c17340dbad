"""Faults of meaning: each planted alone in a sound plan, and many at once."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model3d.families.reading import find_family as packaged_family
from model3d.rooms.read_plan import plan_of
from model3d.sources import FaultyFile

from .plans import FILE, GOOD, faults_of, read, with_room
from .planted import PLANTED

MANY = {"joint off the run", "runs overlap"}


def test_the_sound_plan_has_no_fault() -> None:
    """The plan that faults are planted in is sound before."""
    assert faults_of(GOOD) == ()


@pytest.mark.parametrize("name", PLANTED)
def test_a_planted_fault_is_found_with_its_line_and_key(name: str) -> None:
    """A fault of meaning gives a message with its line and key."""
    old, new, line, key, said = PLANTED[name]
    assert old in GOOD
    found = faults_of(GOOD.replace(old, new, 1))
    (fault,) = [f for f in found if f.key == key][:1] if name in MANY else found
    assert fault.key == key
    assert said in fault.message
    assert line is None or fault.line == line


TOGETHER = [
    "opening off its wall",
    "window too tall",
    "duplicate id",
    "obstacle off its wall",
    "pipe ends swapped",
    "plate in the floor",
    "box outside",
    "return above flow",
    "too cold",
    "family unknown",
    "run end off its wall",
    "run from a missing wall",
    "dry piece off its wall",
    "island the wrong way",
]


@given(st.sets(st.sampled_from(TOGETHER), min_size=2))
def test_no_fault_of_meaning_hides_another(names: set[str]) -> None:
    """Any number of faults of meaning give a message each, at the line and key it would have alone."""
    text = GOOD
    for name in names:
        text = text.replace(PLANTED[name][0], PLANTED[name][1], 1)
    found = {(f.line, f.key) for f in faults_of(text)}
    assert found >= {(PLANTED[name][2], PLANTED[name][3]) for name in names}


TEN = """\
version: 1
family: b-round
room:
  corners: [[0, 0], [4000, 0], [4000, 3000], [2000, -500]]
  height: 2.4 mtr
  colour: red
openings:
  - {id: door, kind: door, wall: w1, at: 3500, width: 800}
  - {id: door, kind: window, wall: w2, at: 300, width: -900}
water: {flow: 40, return: 45}
runs:
  - {id: A, start: w1, end: w7}
  - {id: B, start: w2, end: w2, return_fixed: maybe}
"""
EXPECTED = [
    (2, "family", "there is no family 'b-round'"),
    (4, "room.corners[3]", "the room crosses itself: walls w1 and w3 meet"),
    (5, "room.height", "unknown unit 'mtr'"),
    (6, "room.colour", "unknown key 'colour'"),
    (8, "openings[door].at", "off wall w1"),
    (9, "openings[door].id", "given twice (first on line 8)"),
    (9, "openings[door].width", "must be more than 0, not -900"),
    (10, "water.flow", "goes out at 40 cannot come back at 45"),
    (12, "runs[A].end", "there is no wall 'w7'"),
    (13, "runs[B].return_fixed", "must be true or false, not the text 'maybe'"),
]


def test_faults_of_form_and_of_meaning_are_reported_together() -> None:
    """One plan with an unknown key, a wrong type, a bad unit, a duplicate id, an unknown family, a room that
    crosses itself, an opening off its wall, a run on a missing wall, an impossible temperature and a negative
    size gives a message for each, with its line and key, and no other.
    """
    found = faults_of(TEN)
    assert [(f.line, f.key) for f in found] == [(line, key) for line, key, _ in EXPECTED]
    for fault, (_, _, said) in zip(found, EXPECTED, strict=True):
        assert said in fault.message


def test_the_packaged_families_are_found_and_others_are_not() -> None:
    """A packaged family is found by its name; a name that is none is a fault of the plan, with the nearest one."""
    text = with_room("{corners: [[0, 0], [900, 0], [0, 900]]}")
    assert plan_of(text, FILE, find_family=packaged_family).family_path.name == "a-square.yaml"
    with pytest.raises(FaultyFile) as caught:
        plan_of(text.replace("a-square", "a-sqare"), FILE, find_family=packaged_family)
    (fault,) = caught.value.faults
    assert (fault.line, fault.key) == (2, "family")
    assert "did you mean 'a-square'?" in fault.message


def test_a_yaml_syntax_error_stands_alone() -> None:
    """A file that is not YAML is one fault, whatever else is wrong with it."""
    (fault,) = faults_of(TEN.replace("height: 2.4 mtr", "height: [2.4"))
    assert fault.message.startswith("YAML syntax")


SHAPES = {
    "{corners: [[0, 0], [1, 1]]}": (3, "room.corners", "at least 3 corners are needed, not 2"),
    "{corners: [[0, 0], [0, 900], [900, 900]]}": (3, "room.corners", "list them in reverse"),
    "{corners: [[0, 0], [900, 0], [900, 0], [0, 900]]}": (3, "room.corners[3]", "corner c3 stands on corner c2"),
    "{corners: [[0, 0], [900, 0], [500, 0], [0, 900]]}": (3, "room.corners[2]", "crosses itself"),
    "{corners: [[0, 0], [900, 0], [900, 900], [0, 0], [0, 900]]}": (3, "room.corners[3]", "crosses itself"),
    "{corners: [{id: c2, at: [0, 0]}, [900, 0], [0, 900]]}": (3, "room.corners[c2].id", "has no id of its own"),
    "{corners: [{id: A, at: [0, 0]}, {id: A, at: [9, 0]}, [0, 9]]}": (3, "room.corners[A].id", "given twice"),
    "{walls: [{length: 9, turn: 90}, {length: 9}]}": (3, "room.walls", "at least 3 walls are needed"),
    "{walls: [{length: 9, turn: 90}, {length: 9}, {}]}": (3, "room.walls[2].turn", "'turn' is missing"),
    "{walls: [{length: 9, turn: 90}, {turn: 90}, {}]}": (3, "room.walls[2].length", "'length' is missing"),
    "{walls: [{length: 9, turn: -90}, {length: 9, turn: -90}, {length: 9, turn: -90}, {}]}": (
        3,
        "room.walls",
        "the turns go clockwise",
    ),
    "{walls: [{length: 9, turn: -90}, {length: 9, turn: -90}, {length: 9, turn: -90}, {turn: -90}]}": (
        3,
        "room.walls",
        "the turns go clockwise",
    ),
    "{height: 5}": (3, "room", "a room needs 'corners', or 'walls'"),
    "{corners: [[0, 0], [9, 0], [0, 9]], walls: []}": (3, "room.walls", "not by both"),
    "{islands: 5, corners: [[0, 0], [9, 0], [0, 9]]}": (3, "room.islands", "must be a list, not 5"),
}


@pytest.mark.parametrize("room", SHAPES)
def test_a_room_that_is_none_is_refused(room: str) -> None:
    """A room needs three corners or walls that go round it once, anticlockwise, without crossing itself."""
    (fault,) = faults_of(with_room(room))
    assert (fault.line, fault.key) == SHAPES[room][:2]
    assert SHAPES[room][2] in fault.message


def test_islands_do_not_overlap() -> None:
    """Two islands that overlap, or stand one in the other, are a fault of the later one."""
    small = "{id: inner, corners: [[2600, 1100], [2600, 1200], [2700, 1200], [2700, 1100]]}"
    across = "{id: other, corners: [[2700, 1200], [2700, 1600], [3100, 1600], [3100, 1200]]}"
    first = "{id: column, corners: [[2500, 1000], [2500, 1400], [2900, 1400], [2900, 1000]]}"
    for later in (small, across):
        room = f"{{corners: [[0, 0], [9000, 0], [9000, 9000], [0, 9000]], islands: [{first}, {later}]}}"
        (fault,) = faults_of(with_room(room))
        assert "overlaps the island 'column'" in fault.message


CROWDS = {
    "a bad unit in a corner": ("[4000, 3000]", "[4 mtr, 3000]", "room.corners[3][1]"),
    "a corner that is none": ("[4000, 3000]", "x", "room.corners[3]"),
    "a room that is none": (
        "corners: [[0, 0], [4000, 0], [4000, 3000], [1500, 3000], [1500, 5000], [0, 5000]]",
        "corners: 5",
        "room.corners",
    ),
    "a faulty island": ("[2900, 1000]]", "[2900, y]]", "room.islands[column].corners[4][2]"),
    "a faulty direction": ("direction: against-walls", "direction: against", "runs[B].direction"),
    "a faulty opening": ("width: 800, height: 2000", "width: big, height: 2000", "openings[door].width"),
    "a faulty pipe": ("at: 400, off", "at: x, off", "obstacles[riser].at"),
    "a faulty temperature": ("flow: 60", "flow: warm", "water.flow"),
    "a faulty height": ("  islands", "  height: low\n  islands", "room.height"),
}


@pytest.mark.parametrize("name", CROWDS)
def test_one_fault_of_form_brings_no_others(name: str) -> None:
    """What was dropped for a fault of form is not missed by the checks of meaning: one mistake, one message."""
    old, new, key = CROWDS[name]
    assert old in GOOD
    (fault,) = faults_of(GOOD.replace(old, new, 1))
    assert fault.key == key


def test_in_a_broken_room_walls_are_still_known_by_name_and_length() -> None:
    """A fault in one corner does not hide an opening off another wall, nor a run on a wall that is not there."""
    text = GOOD.replace("[1500, 5000]", "[1500, 5 mtr]").replace("at: 600, width: 800", "at: 3600, width: 800")
    found = faults_of(text.replace("start: w6, end: w5", "start: w6, end: w55"))
    assert [f.key for f in found] == ["room.corners[5][2]", "openings[door].at", "runs[B].end"]


def test_a_faulty_plan_raises_all_its_faults_in_order() -> None:
    """A faulty plan is refused with its faults in the order of their lines, each in one line of text."""
    with pytest.raises(FaultyFile) as caught:
        read(TEN)
    lines = str(caught.value).split("\n")
    assert len(lines) == len(EXPECTED)
    assert lines[0].startswith("plan.yaml:2:9: family: ")
