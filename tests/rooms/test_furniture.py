"""Furniture, viewpoints and the room as it was, read from a plan: where each stands, and what is wrong with it."""

from __future__ import annotations

import pytest

from model3d.rooms import Slab
from model3d.rooms.resolve_furniture import OFF_WALL_MM, USUAL_SIZE_MM
from tests.rooms.plans import GOOD, faults_of, read

FURNISHED = (
    GOOD
    + """\
furniture:
  - {id: sofa, kind: sofa, wall: w5, at: 100, width: 1300, colour: slate}
  - {id: desk, kind: desk, middle: [2000, 2000], turn: 90, width: 1200, depth: 600}
  - {id: wardrobe, kind: cabinet, wall: w2, at: 2200, width: 700, depth: 500, height: 2000, fixed: true}
  - {id: view-of-hills, kind: picture, wall: w6, at: 500, up: 1400}
viewpoints:
  - {id: from-door, eye: [500, 500, 1500], target: [3000, 2000, 1000], field: 70}
  - {id: far-corner, corner: c4, distance: 1500, turn: -20}
  - {id: high, above: 200}
before:
  skirting_height: 120
  walls: pale-blue
  radiators: [{wall: w2, at: 1000, width: 900}]
"""
)
PLAN = read(FURNISHED)
PIECES = {f.id: f for f in PLAN.furniture}


def test_a_piece_at_a_wall_stands_off_it_with_its_back_to_it() -> None:
    """The sofa's back corner is 100 along wall w5, and clear of the wall; its front faces the room."""
    sofa = PIECES["sofa"]
    assert sofa.frame.point((0.0, 0.0, 0.0)) == pytest.approx((1400.0, 5000.0 - OFF_WALL_MM, 0.0))
    assert sofa.frame.vector((0.0, 1.0, 0.0)) == pytest.approx((0.0, -1.0, 0.0))
    assert (sofa.width_mm, sofa.depth_mm, sofa.height_mm) == (1300.0, *USUAL_SIZE_MM["sofa"][1:])


def test_a_piece_on_the_floor_turns_about_its_middle() -> None:
    """Turned by a quarter, the desk's front faces -x and its middle stays."""
    desk = PIECES["desk"]
    assert desk.frame.point((600.0, 300.0, 0.0)) == pytest.approx((2000.0, 2000.0, 0.0))
    assert desk.frame.vector((0.0, 1.0, 0.0)) == pytest.approx((-1.0, 0.0, 0.0), abs=1e-12)
    assert sorted(desk.outline_mm) == [
        pytest.approx(p) for p in [(1700.0, 1400.0), (1700.0, 2600.0), (2300.0, 1400.0), (2300.0, 2600.0)]
    ]


def test_what_is_built_in_is_an_obstacle_and_the_rest_is_not() -> None:
    """A fixed piece is in the run's way like any other box on its wall; a sofa can be moved."""
    obstacles = {o.id: o for o in PLAN.room.obstacles}
    wardrobe = obstacles["wardrobe"]
    assert isinstance(wardrobe, Slab)
    assert wardrobe.wall_id == "w2"
    assert wardrobe.frame.point(wardrobe.low_mm) == pytest.approx((4000.0, 2200.0, 0.0))
    assert wardrobe.high_mm == (700.0, 500.0, 2000.0)
    assert not {"sofa", "desk", "view-of-hills"} & set(obstacles)


def test_viewpoints_and_the_room_before_are_read_as_written() -> None:
    """Eye, field, corner, turn and direction from above; the old skirting, walls and radiators."""
    views = {v.id: v for v in PLAN.viewpoints}
    assert views["from-door"].eye_mm == (500.0, 500.0, 1500.0)
    assert views["from-door"].field_deg == 70.0
    assert (views["far-corner"].corner_id, views["far-corner"].turn_deg) == ("c4", -20.0)
    assert views["high"].above_deg == 200.0
    assert PLAN.before.skirting_height_mm == 120.0
    assert PLAN.before.walls is not None
    assert [(r.wall_id, r.along_mm, r.width_mm) for r in PLAN.before.radiators] == [("w2", 1000.0, 900.0)]


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("wall: w5, at: 100, width", "width", "either against a wall"),
        ("wall: w5, at: 100, width", "wall: w5, width", "'at' is missing"),
        ("wall: w5, at: 100, width", "wall: w5, at: 1000, width", "is off wall w5"),
        ("kind: sofa,", "kind: settee,", "kind"),
        ("middle: [2000, 2000]", "middle: [3000, 4000]", "stands outside the room"),
        ("middle: [2000, 2000]", "middle: [2000, 2000], off: 20", "'off' is for a piece against a wall"),
        ("kind: desk, middle: [2000, 2000], turn: 90", "kind: picture, middle: [2000, 2000]", "hangs on a wall"),
        ("up: 1400", "up: 2200", "the walls are 2400 high"),
        ("wall: w6, at: 500, up", "wall: w66, at: 500, up", "there is no wall 'w66'"),
        ("target: [3000, 2000, 1000], ", "", "given together"),
        ("corner: c4,", "corner: c44,", "there is no corner 'c44'"),
        ("above: 200", "above: 200, wall: w1", "given by one of"),
        ("above: 200", "above: 200, turn: 10", "'turn' is for a viewpoint of a corner"),
        ("wall: w2, at: 1000, width: 900", "wall: w2, at: 2500, width: 900", "the radiator"),
        ("wall: w2, at: 1000, width: 900", "wall: w22, at: 1000", "there is no wall 'w22'"),
        ("id: high", "id: sofa", "is given twice"),
    ],
)
def test_what_cannot_stand_so_is_a_fault_with_its_reason(old: str, new: str, said: str) -> None:
    """Each mistake in furniture, viewpoints and radiators is refused, and nothing else with it."""
    assert FURNISHED.count(old) == 1
    found = faults_of(FURNISHED.replace(old, new))
    assert len(found) == 1
    assert said in str(found[0])
