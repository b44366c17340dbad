"""Bowed walls and floor levels, as a plan gives them."""

from __future__ import annotations

import pytest

from model3d.rooms import Packers

from .plans import GOOD, faults_of, read

READ = """\
bows: [{wall: w2, readings: [[500, 3], [1 m, -2]]}]
floor_level: [{wall: w1, readings: [[0, 1000], [4000, 1006]]}]
packers: {step: 1, most: 6}
"""


def test_readings_are_taken_in_order_with_the_corners() -> None:
    """A bow has its corners at 0 unless they were read; between readings the face is straight."""
    plan = read(GOOD + READ)
    (bow,) = plan.bows
    assert bow.readings == ((0.0, 0.0), (500.0, 3.0), (1000.0, -2.0), (3000.0, 0.0))
    assert [bow.off_at_mm(a) for a in (250.0, 500.0, 750.0, 2000.0)] == pytest.approx([1.5, 3.0, 0.5, -1.0])
    given = read(GOOD + READ.replace("[500, 3]", "[0, 4], [500, 3]")).bows[0]
    assert given.readings[0] == (0.0, 4.0)
    assert plan.packers == Packers(step_mm=1.0, most_mm=6.0)
    assert read(GOOD).packers == Packers()


def test_the_floor_beyond_the_last_reading_is_level() -> None:
    """Between readings the floor is straight, beyond the last it is taken as level."""
    (level,) = read(GOOD + READ.replace("[4000, 1006]", "[2000, 1006]")).floor_levels
    assert [level.down_at_mm(a) for a in (0.0, 1000.0, 2000.0, 3500.0)] == pytest.approx([1000, 1003, 1006, 1006])


def test_a_reading_just_past_the_corner_is_of_the_corner() -> None:
    """A wall adjusted to a millimetre less than it was read keeps the reading at its end."""
    (level,) = read(GOOD + READ.replace("[4000, 1006]", "[4001, 1006]")).floor_levels
    assert level.readings[-1] == (4000.0, 1006.0)


@pytest.mark.parametrize(
    ("old", "new", "key", "words"),
    [
        ("wall: w2, readings", "wall: w9, readings", "bows[1].wall", "there is no wall 'w9'"),
        ("[1 m, -2]", "[4 m, -2]", "bows[1].readings[2]", "4000.0 is off wall w2, which is 3000.0 long"),
        ("[1 m, -2]", "[1 m, -51]", "bows[1].readings[2]", "-51 off the straight is no bow (at most 50)"),
        ("[1 m, -2]", "[500, -2]", "bows[1].readings[2]", "is read twice"),
        ("[[500, 3], [1 m, -2]]", "[]", "bows[1].readings", "must hold at least 1"),
        ("[4000, 1006]", "[4000, -6]", "floor_level[1].readings[2][2]", "must be more than 0"),
        (
            "floor_level: [{",
            "floor_level: [{wall: w1, readings: [[1, 1]]}, {",
            "floor_level[2].wall",
            "wall w1 is given twice",
        ),
        ("step: 1", "step: 0", "packers.step", "must be more than 0"),
    ],
)
def test_readings_that_cannot_be(old: str, new: str, key: str, words: str) -> None:
    """A reading off its wall, one place read twice, a wall given twice, and a figure of nothing are faults at their
    keys.
    """
    assert faults_of(GOOD + READ) == ()
    (fault,) = faults_of(GOOD + READ.replace(old, new))
    assert fault.key == key
    assert words in fault.message
