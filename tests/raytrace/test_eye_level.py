"""A wall from within the room: the eye stands free, looks level, and sees the wall's run."""

import numpy as np
import pytest

from model3d.pictures.raytrace.cutaway import Block, distance_to_walls, inside
from model3d.pictures.raytrace.eye_level import MOST_FIELD_DEG, wall_view
from model3d.pictures.raytrace.sight import id_map
from model3d.pictures.raytrace.viewpoints import RoomPlan
from tests.raytrace.shapes import random_room, skirting, walls

SQUARE = ((0.0, 0.0), (4000.0, 0.0), (4000.0, 3000.0), (0.0, 3000.0))
PLAN = RoomPlan(outline=SQUARE, wall_height_mm=2400.0, runs=((*SQUARE, SQUARE[0]),))
SIZE = (320, 200)


@pytest.mark.parametrize("seed", [2, 6])
def test_every_wall_is_seen_from_a_free_place_in_the_room(seed: int) -> None:
    """The eye stands in the room, clear of the walls, looks level, and the wall's skirting is in the picture."""
    plan = random_room(seed)
    for wall in range(len(plan.outline)):
        point = wall_view(plan, wall, size_px=SIZE)
        view = point.view
        assert inside(view.eye_mm[:2], plan.outline)
        assert distance_to_walls(view.eye_mm[:2], plan.outline) > 200
        assert view.eye_mm[2] == view.target_mm[2]
        assert view.field_of_view_deg <= MOST_FIELD_DEG
        meshes = walls(plan) + skirting(plan)
        ours = [k for k, mesh in enumerate(meshes) if mesh.origin_id == f"run {wall}"]
        assert np.isin(id_map(meshes, view), ours).sum() > 0.004 * SIZE[0] * SIZE[1]


def test_the_foot_of_the_wall_stands_in_the_lower_part_of_the_picture() -> None:
    """The lens is shifted so that the floor before the wall is seen under it, and the wall above it."""
    view = wall_view(PLAN, 0, size_px=SIZE).view
    foot = view.project(np.array([[2000.0, 0.0, 0.0]]))[0]
    assert 0.55 * SIZE[1] < foot[1] < 0.95 * SIZE[1]
    assert view.shift <= 0.0


def test_an_eye_goes_round_what_would_hide_the_wall() -> None:
    """With a tall cabinet before one half of the room, the wall is still seen past it; with the cabinet against the
    wall itself, what it hides is said."""
    tall = Block(outline=((200.0, 1300.0), (1900.0, 1300.0), (1900.0, 1700.0), (200.0, 1700.0)), top_mm=2000.0)
    plan = RoomPlan(outline=SQUARE, wall_height_mm=2400.0, runs=PLAN.runs, blocks=(tall,))
    assert wall_view(plan, 0, size_px=SIZE).seen_share > 0.9
    against = Block(outline=((0.0, 50.0), (2000.0, 50.0), (2000.0, 500.0), (0.0, 500.0)), top_mm=2000.0)
    plan = RoomPlan(outline=SQUARE, wall_height_mm=2400.0, runs=PLAN.runs, blocks=(against,))
    assert wall_view(plan, 0, size_px=SIZE).seen_share < 0.75


def test_a_wall_that_is_not_there_and_a_room_without_a_place_are_refused() -> None:
    """A number past the room's walls, and a room filled up, are refused in words."""
    with pytest.raises(ValueError, match="none of the room's 4"):
        wall_view(PLAN, 4)
    full = Block(outline=SQUARE, top_mm=2000.0)
    with pytest.raises(ValueError, match="nowhere in the room"):
        wall_view(RoomPlan(outline=SQUARE, wall_height_mm=2400.0, runs=PLAN.runs, blocks=(full,)), 0)
