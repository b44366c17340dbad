"""Surfaces, meshes, views and settings refuse what cannot be drawn."""

import numpy as np
import pytest

from model3d.pictures.raytrace.sight import id_map
from model3d.pictures.raytrace.surface import Surface, TraceMesh
from model3d.pictures.raytrace.view import Settings, View
from tests.raytrace.shapes import GREY, box

AHEAD = View(eye_mm=(0.0, -1000.0, 0.0), target_mm=(0.0, 0.0, 0.0), size_px=(40, 30))


def test_a_surface_of_an_unknown_kind_is_refused() -> None:
    """A surface kind must be one that the painter knows; the message lists them."""
    with pytest.raises(ValueError, match="none of matt, satin"):
        Surface(colour=(0.5, 0.5, 0.5), kind="velvet")


def test_a_colour_beyond_one_is_refused() -> None:
    """Colours are linear RGB from 0 to 1; 8-bit numbers are refused."""
    with pytest.raises(ValueError, match="within 0 to 1"):
        Surface(colour=(200, 180, 90))


@pytest.mark.parametrize(
    ("vertices", "triangles", "words"),
    [
        ([[0, 0, 0], [1, 0, 0]], [[0, 1, 2]], "beyond the 2 vertices"),
        ([[0, 0], [1, 0], [0, 1]], [[0, 1, 2]], "must both be"),
        ([[0, 0, 0], [1, 0, 0], [0, float("nan"), 0]], [[0, 1, 2]], "finite"),
    ],
)
def test_a_mesh_that_does_not_fit_together_is_refused(vertices: list, triangles: list, words: str) -> None:
    """Triangles must name vertices there are; vertices are three finite numbers."""
    with pytest.raises(ValueError, match=words):
        TraceMesh(vertices=np.array(vertices), triangles=np.array(triangles), surface=GREY)


def test_a_view_without_a_direction_is_refused() -> None:
    """The eye must not stand on the target, nor the upright lie along the sight."""
    with pytest.raises(ValueError, match="stands on the target"):
        View(eye_mm=(1.0, 2.0, 3.0), target_mm=(1.0, 2.0, 3.0))
    with pytest.raises(ValueError, match="along the line of sight"):
        View(eye_mm=(0.0, 0.0, 100.0), target_mm=(0.0, 0.0, 0.0))


def test_settings_of_no_work_are_refused() -> None:
    """At least one ray of each kind must be asked for."""
    with pytest.raises(ValueError, match="sun_rays is 0"):
        Settings(sun_rays=0)


def test_a_scene_with_nothing_in_view_is_refused() -> None:
    """A picture needs at least one triangle that the camera may see."""
    unseen = box((-10.0, -10.0, -10.0), (10.0, 10.0, 10.0), in_view=False)
    with pytest.raises(ValueError, match="no triangle to see"):
        id_map([unseen], AHEAD)


def test_projection_puts_the_target_in_the_middle_and_up_up() -> None:
    """The target falls on the picture's middle; a point above it falls higher up by the lens's own proportion."""
    x, y, depth = AHEAD.project(np.array([[0.0, 0.0, 0.0], [0.0, 0.0, 100.0]])).T
    assert x == pytest.approx([20.0, 20.0])
    assert y[0] == pytest.approx(15.0)
    assert y[1] == pytest.approx(15.0 - 0.1 * 20.0 / np.tan(np.radians(13.0)))
    assert depth == pytest.approx([1000.0, 1000.0])
