"""The small map: what is on it, and where it may lie."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest

from model3d.pictures.paper import Box, Paper
from model3d.pictures.placing import CELL_PX, Worth
from model3d.pictures.plan_map import map_box, map_icon
from model3d.pictures.stage import Camera, PlanMap
from model3d.pictures.theme import THEME
from tests.pictures.pages import project_of, stages_of

PANEL = Box(left=0, top=100, width=1600, height=700)
PAPER = Paper(size=(1600, 1000)).only_inside(PANEL)
SQUARE = PlanMap(rings=(((0, 0), (4000, 0), (4000, 4000), (0, 4000)),), now=(((1000, 0), (3000, 0)),))
FREE = Worth(cells=np.zeros((700 // CELL_PX, 1600 // CELL_PX)), panel=PANEL)


def test_it_takes_a_free_corner() -> None:
    """It lies in a corner of the picture; in another one where that is taken; nowhere where all the edge is."""
    first = map_box(SQUARE, PANEL, FREE, PAPER)
    assert first is not None
    assert PANEL.holds(first)
    other = map_box(SQUARE, PANEL, FREE, PAPER.with_shapes([first]))
    assert other is not None
    assert other.right < first.left or first.right < other.left or other.bottom < first.top or first.bottom < other.top
    assert map_box(SQUARE, PANEL, FREE, PAPER.with_shapes([PANEL])) is None


def test_it_leaves_the_work_free() -> None:
    """Where the picture is full of what matters there is no map."""
    full = replace(FREE, cells=np.full_like(FREE.cells, 10.0))
    assert map_box(SQUARE, PANEL, full, PAPER) is None


@pytest.mark.parametrize(("eye", "above"), [((2000.0, 3000.0), True), ((2000.0, -3000.0), False)])
def test_the_eye_stands_where_the_viewer_does(eye: tuple[float, float], above: bool) -> None:
    """On the map y runs up: a viewer at larger y stands above the piece, inside the map, and looks at it."""
    box = map_box(SQUARE, PANEL, FREE, PAPER)
    assert box is not None
    camera = Camera(eye_mm=(*eye, 1500.0), target_mm=(2000.0, 0.0, 70.0))
    svg = "".join(map_icon(SQUARE, box, camera, THEME))
    circle = re.search(r'<circle cx="([0-9.]+)" cy="([0-9.]+)"', svg)
    assert circle is not None
    x, y = float(circle.group(1)), float(circle.group(2))
    assert box.holds(Box(left=x - 5, top=y - 5, width=10, height=10))
    assert x == pytest.approx(box.middle[0], abs=0.1)
    assert (y < box.bottom - 14) is above


def test_a_step_marks_its_piece_on_the_rooms_outline() -> None:
    """The outline has the room's corners; the piece that goes up lies on its wall between its cut faces; those before
    it are up.
    """
    project = project_of("bay")
    plan = stages_of(project).stage(4).plan_map
    assert plan is not None
    corners = [wall.start_mm for wall in project.plan.room.outer.walls]
    assert {tuple(np.round(p, 6)) for p in plan.rings[0]} == {tuple(np.round(p, 6)) for p in corners}
    piece = next(p for p in project.layout.pieces if p.mark == "A-3")
    ((start, end),) = plan.now
    assert float(np.linalg.norm(np.subtract(end, start))) == pytest.approx(piece.cut_length_mm)
    off = np.subtract([start, end], piece.wall.start_mm) @ np.array(piece.wall.normal)
    np.testing.assert_allclose(off, 0.0, atol=1e-9)
    assert len(plan.before) == 2
