"""Viewpoints: the skirting is seen, the room fills the frame, the right walls are cut."""

import math

import numpy as np
import pytest

from model3d.pictures.raytrace.cutaway import (
    Block,
    crossing,
    cut_walls,
    distance_to_walls,
    hidden_by,
    inside,
    inward_normal,
    is_seen,
    stub_height,
    wall_direction,
    walls_to_cut,
)
from model3d.pictures.raytrace.framing import framed
from model3d.pictures.raytrace.sight import id_map
from model3d.pictures.raytrace.surface import TraceMesh
from model3d.pictures.raytrace.view import View
from model3d.pictures.raytrace.viewpoints import RoomPlan, corner_view, daylight, overview
from tests.raytrace.shapes import random_room, skirting, walls

SQUARE = ((0.0, 0.0), (4000.0, 0.0), (4000.0, 3000.0), (0.0, 3000.0))
PLAN = RoomPlan(outline=SQUARE, wall_height_mm=2400.0, runs=((*SQUARE, SQUARE[0]),))
SIZE = (320, 200)


def pixels(meshes: list[TraceMesh], view: View, names: set[str]) -> int:
    """Pixels that show a mesh of one of the names."""
    ids = id_map(meshes, view)
    wanted = [k for k, mesh in enumerate(meshes) if mesh.origin_id in names]
    return int(np.isin(ids, wanted).sum())


def facing_runs(plan: RoomPlan, view: View) -> set[str]:
    """Names of the skirting on walls whose room side faces the eye."""
    names = set()
    for wall, corner in enumerate(plan.outline):
        x, y = inward_normal(plan.outline, wall)
        if x * (view.eye_mm[0] - corner[0]) + y * (view.eye_mm[1] - corner[1]) > 0:
            names.add(f"run {wall}")
    return names


def shares(seed: int) -> tuple[float, float]:
    """Share of the facing skirting's own pixels still seen with the walls cut as told, and with none cut."""
    plan = random_room(seed)
    point = overview(plan, size_px=SIZE, step_deg=15.0)
    names = facing_runs(plan, point.view)
    alone = pixels([s for s in skirting(plan) if s.origin_id in names], point.view, names)
    cut = pixels(walls(plan, point.cut, point.stub_mm) + skirting(plan), point.view, names)
    whole = pixels(walls(plan) + skirting(plan), point.view, names)
    return cut / alone, whole / alone


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_the_overview_shows_the_skirting_that_faces_it(seed: int) -> None:
    """From above, at least four fifths of the skirting on the walls that face the eye is seen; with no wall cut,
    less is."""
    cut, whole = shares(seed)
    assert cut >= 0.8
    assert whole < cut - 0.1


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(50))
def test_the_overview_shows_the_skirting_in_any_room(seed: int) -> None:
    """In fifty random rooms, at least three quarters: a notch may hide its own corner."""
    assert shares(seed)[0] >= 0.75


@pytest.mark.parametrize("seed", [4, 5])
def test_a_corner_view_shows_its_corner_from_inside_the_room(seed: int) -> None:
    """The eye stands in the room, clear of the walls; the corner is in the middle of the picture, and at least nine
    tenths of the skirting that would be seen without walls is seen with them."""
    plan = random_room(seed)
    for corner in range(len(plan.outline)):
        point = corner_view(plan, corner, size_px=SIZE)
        assert inside(point.view.eye_mm[:2], plan.outline)
        assert distance_to_walls(point.view.eye_mm[:2], plan.outline) > 100
        at = point.view.project(np.array([[*plan.outline[corner], 80.0]]))[0]
        assert at[:2] == pytest.approx([160, 100], abs=12)
        names = {f"run {corner}", f"run {(corner - 1) % len(plan.outline)}"}
        seen = pixels(walls(plan) + skirting(plan), point.view, names)
        assert seen > 0.02 * SIZE[0] * SIZE[1]
        assert point.seen_share > 0.45


def test_the_walls_before_the_eye_are_cut_and_the_walls_behind_are_not() -> None:
    """Seen from the south-west, a square room loses its south and west walls."""
    assert cut_walls(SQUARE, 225.0) == (0, 3)
    assert cut_walls(SQUARE, 45.0) == (1, 2)
    assert cut_walls(SQUARE, 270.0) == (0,)


def test_a_wall_that_hides_nothing_new_stays_whole() -> None:
    """The return of a notch that faces away stays whole where the wall before it hides the same, and is cut where
    it hides the floor."""
    notched = ((0.0, 0.0), (5600.0, 0.0), (5600.0, 4200.0), (3000.0, 4200.0), (3000.0, 3000.0), (0.0, 3000.0))
    wanted = [(x, y, 0.0) for x in range(100, 5600, 200) for y in range(100, 4200, 200) if inside((x, y), notched)]
    from_south = (-6000.0, -15000.0, 15000.0)
    assert walls_to_cut(notched, from_south, 2400.0, 180.0, wanted) == (0, 5)
    from_west = (-15000.0, 2500.0, 12000.0)
    assert 3 in walls_to_cut(notched, from_west, 2400.0, 180.0, wanted)


def test_a_stub_is_a_little_over_the_skirting() -> None:
    """A cut wall stands ten millimetres over the skirting, and never over its own full height."""
    assert stub_height(150.0, 2400.0) == 160.0
    assert stub_height(150.0, 120.0) == 120.0


def test_plan_crossings_and_hiding() -> None:
    """Segments cross at the share of their length that geometry gives; a sheet hides what lies behind it and lower
    than the sight over its top."""
    assert crossing((0.0, 0.0), (10.0, 0.0), (4.0, -1.0), (4.0, 1.0)) == pytest.approx(0.4)
    assert crossing((0.0, 0.0), (10.0, 0.0), (4.0, 1.0), (4.0, 3.0)) is None
    eye = (10.0, 0.0, 10.0)
    assert hidden_by((0.0, 0.0, 0.0), eye, (4.0, -1.0), (4.0, 1.0), 0.0, 5.0)
    assert not hidden_by((0.0, 0.0, 0.0), eye, (4.0, -1.0), (4.0, 1.0), 0.0, 3.9)


def test_a_cabinet_hides_the_wall_behind_it_and_a_low_one_does_not() -> None:
    """A block in the sight hides a point; one under the sight does not; one whose top the sight falls through does."""
    eye, point = (2000.0, -4000.0, 1500.0), (2000.0, 2900.0, 120.0)
    heights = (0.0, 2400.0, 2400.0, 2400.0)

    def block(top: float) -> Block:
        return Block(outline=((1500.0, 2400.0), (2500.0, 2400.0), (2500.0, 2850.0), (1500.0, 2850.0)), top_mm=top)

    assert is_seen(point, eye, SQUARE, heights)
    assert not is_seen(point, eye, SQUARE, heights, (block(800.0),))
    assert is_seen(point, eye, SQUARE, heights, (block(60.0),))
    high = (2000.0, 2200.0, 9000.0)
    assert not is_seen((2000.0, 2600.0, 50.0), high, SQUARE, heights, (block(300.0),))


def test_furniture_turns_the_overview_to_the_side_that_shows_the_skirting() -> None:
    """With long cabinets along two walls, the overview looks at the other two."""
    low = (
        Block(outline=((200.0, 2500.0), (3800.0, 2500.0), (3800.0, 2980.0), (200.0, 2980.0)), top_mm=700.0),
        Block(outline=((20.0, 200.0), (500.0, 200.0), (500.0, 2800.0), (20.0, 2800.0)), top_mm=700.0),
    )
    plan = RoomPlan(outline=SQUARE, wall_height_mm=2400.0, runs=PLAN.runs, blocks=low)
    point = overview(plan, size_px=SIZE, step_deg=15.0)
    assert set(point.cut) == {2, 3}


def test_the_overview_fills_the_frame_and_holds_the_whole_room() -> None:
    """Every wall corner stands in the picture, and the room spans most of its width or height."""
    point = overview(PLAN, size_px=SIZE, step_deg=15.0)
    heights = PLAN.heights_mm(point.cut, point.stub_mm)
    corners = [(*c, z) for k, c in enumerate(SQUARE) for z in (0.0, max(heights[k], heights[k - 1]))]
    at = point.view.project(np.array(corners))
    assert (at[:, :2] > 0).all()
    assert (at[:, 0] < SIZE[0]).all()
    assert (at[:, 1] < SIZE[1]).all()
    assert max(np.ptp(at[:, 0]) / SIZE[0], np.ptp(at[:, 1]) / SIZE[1]) > 0.78
    rise = np.subtract(point.view.eye_mm, point.view.target_mm)
    assert math.degrees(math.asin(rise[2] / np.linalg.norm(rise))) == pytest.approx(37.0)
    assert point.view.field_of_view_deg == 26.0


def test_framed_points_touch_the_margin() -> None:
    """The tightest direction is filled to the margin exactly, the extent stands in the middle."""
    points = [(0.0, 0.0, 0.0), (1000.0, 0.0, 0.0), (1000.0, 200.0, 50.0), (300.0, 900.0, 400.0)]
    view = framed(points, toward_eye=(-0.4, -0.7, 0.6), field_of_view_deg=30.0, size_px=SIZE, least_margin=0.05)
    at = view.project(np.array(points))[:, :2]
    assert (at.min(axis=0) + at.max(axis=0)) / 2 == pytest.approx([160, 100], abs=0.5)
    assert (np.ptp(at, axis=0) / np.array(SIZE)).max() == pytest.approx(0.9, abs=0.003)


def test_the_sun_stands_over_the_viewer_s_shoulder() -> None:
    """Daylight comes from the viewer's side of what is seen, to the left or to the right as asked."""
    view = View(eye_mm=(0.0, -5000.0, 1500.0), target_mm=(0.0, 0.0, 1000.0))
    left, right = daylight(view).sun_from, daylight(view, from_left=False).sun_from
    assert max(left[1], right[1]) < 0
    assert left[0] < -0.2
    assert right[0] > 0.2


def test_what_the_room_does_not_have_is_refused() -> None:
    """A corner or wall number past the room's, a clockwise outline and a wall of no length are refused in words."""
    with pytest.raises(ValueError, match="none of the room's 4"):
        corner_view(PLAN, 4)
    with pytest.raises(ValueError, match="clockwise"):
        RoomPlan(outline=SQUARE[::-1], wall_height_mm=2400.0, runs=())
    with pytest.raises(ValueError, match="no length"):
        wall_direction(((0.0, 0.0), (0.0, 0.0), (1.0, 1.0)), 0)
    with pytest.raises(ValueError, match="nothing to frame"):
        framed([], toward_eye=(0.0, -1.0, 0.5), field_of_view_deg=30.0, size_px=SIZE)
