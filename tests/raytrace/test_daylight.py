"""Daylight through openings, light that surfaces give off, and closed rooms, against closed forms."""

import math

import numpy as np
import pytest

from model3d.pictures.raytrace.gather import Lighting, ambient
from model3d.pictures.raytrace.patches import light_patches
from model3d.pictures.raytrace.portals import Points, portal_here
from model3d.pictures.raytrace.sky import sky_of
from model3d.pictures.raytrace.surface import Surface, TraceMesh
from model3d.pictures.raytrace.trace import trace
from model3d.pictures.raytrace.view import ENCLOSED_BOUNCES, Light, Portal, Settings, View
from model3d.pictures.raytrace.world import build_world
from tests.raytrace.shapes import BLACK, box, sheet

EVEN = Light(sun=(0.0, 0.0, 0.0), sky=(1.0, 1.0, 1.0), sky_gradient=0.0, ground_albedo=1.0, tinge=1.0, exposure=1.0)
OVER = Portal(corner_mm=(-500.0, -500.0, 1000.0), edges_mm=((1000.0, 0.0, 0.0), (0.0, 1000.0, 0.0)))
"""A square opening, one metre wide, one metre over the floor's origin; the sky is above it."""


def received(meshes: list[TraceMesh], portals: tuple[Portal, ...], x_mm: float, rays: int) -> float:
    """Light on the floor, ``x_mm`` off the origin, averaged over all sets of rays."""
    world, sky = build_world(meshes), sky_of(EVEN)
    patches = light_patches(world, sky, bounces=0, tinge=1.0, seed=1)
    lit = Lighting(world, sky, patches, 1, 1, tuple(portal_here(p, world) for p in portals))
    n = 256
    up = np.tile(np.array([0, 0, 1], np.float32), (n, 1))
    at = np.tile((np.array([x_mm, 0.0, 0.0]) - world.centre_mm).astype(np.float32), (n, 1))
    return float(ambient(lit, Points(at, up, up, np.arange(n, dtype=np.int32)), rays).received[:, 0].mean())


def lid() -> list[TraceMesh]:
    """A black floor, and a black lid with the square opening in it, closed round about."""
    sides = [
        box((-3000.0, -3000.0, 1000.0), (-500.0, 3000.0, 1005.0), BLACK),
        box((500.0, -3000.0, 1000.0), (3000.0, 3000.0, 1005.0), BLACK),
        box((-500.0, -3000.0, 1000.0), (500.0, -500.0, 1005.0), BLACK),
        box((-500.0, 500.0, 1000.0), (500.0, 3000.0, 1005.0), BLACK),
        box((-3005.0, -3000.0, 0.0), (-3000.0, 3000.0, 1005.0), BLACK),
        box((3000.0, -3000.0, 0.0), (3005.0, 3000.0, 1005.0), BLACK),
        box((-3000.0, -3005.0, 0.0), (3000.0, -3000.0, 1005.0), BLACK),
        box((-3000.0, 3000.0, 0.0), (3000.0, 3005.0, 1005.0), BLACK),
    ]
    return [*sides, sheet(((-3000, -3000, 0), (3000, -3000, 0), (3000, 3000, 0), (-3000, 3000, 0)), BLACK)]


def test_daylight_through_a_square_overhead_is_its_form_factor() -> None:
    """Under the middle of a square opening of half side a at height h, an even sky gives
    (4 / (pi/2)) * (X / sqrt(1 + X^2)) * atan(X / sqrt(1 + X^2)), X = a / h (form factor of a point to a rectangle over
    its corner, four times)."""
    side = 0.5 / math.sqrt(1.25)
    expected = 4 / (2 * math.pi) * 2 * side * math.atan(side)
    assert received(lid(), (OVER,), 0.0, 64) == pytest.approx(expected, rel=0.02)


@pytest.mark.parametrize("x_mm", [0.0, 900.0, 2000.0])
def test_an_opening_sampled_gives_the_light_that_rays_find_through_it(x_mm: float) -> None:
    """Rays sent to the opening and rays sent all round give the same light, within the spread of the latter."""
    meshes = lid()
    assert received(meshes, (OVER,), x_mm, 64) == pytest.approx(received(meshes, (), x_mm, 256), rel=0.04)


def test_a_closed_opening_gives_nothing() -> None:
    """What stands before an opening takes its light away."""
    shut = box((-600.0, -600.0, 900.0), (600.0, 600.0, 905.0), BLACK)
    assert received([*lid(), shut], (OVER,), 0.0, 64) == pytest.approx(0.0, abs=0.004)
    assert received(lid(), (OVER,), 0.0, 64) > 0.2


def test_a_portal_without_area_is_refused() -> None:
    """Two edges along one line span no opening."""
    world = build_world(lid())
    with pytest.raises(ValueError, match="no area"):
        portal_here(Portal(corner_mm=(0.0, 0.0, 0.0), edges_mm=((1.0, 0.0, 0.0), (2.0, 0.0, 0.0))), world)


def test_a_closed_box_that_glows_is_as_bright_as_its_bounces_sum_up_to() -> None:
    """Walls that send on half of what they receive and give off g are, after many bounces, at g / (1 - 1/2); one that
    gives off nothing is dark."""
    view = View(eye_mm=(300.0, 300.0, 500.0), target_mm=(2000.0, 1500.0, 400.0), field_of_view_deg=70, size_px=(40, 30))
    light = Light(sun=(0.0, 0.0, 0.0), sky=(5.0, 5.0, 5.0), tinge=1.0, exposure=1.0, enclosed=True, ground_albedo=1.0)

    def inside(glow: float) -> np.ndarray:
        surface = Surface(colour=(0.5, 0.5, 0.5), glow=(glow, glow, glow))
        x, y, z = 2000.0, 1500.0, 1000.0
        low, high = ((0, 0, 0), (x, 0, 0), (x, y, 0), (0, y, 0)), ((0, 0, z), (0, y, z), (x, y, z), (x, 0, z))
        sides = [
            sheet(((*a, 0), (*b, 0), (*b, z), (*a, z)), surface)
            for a, b in (((x, 0), (0, 0)), ((x, y), (x, 0)), ((0, y), (x, y)), ((0, 0), (0, y)))
        ]
        return trace([sheet(low, surface), sheet(high, surface), *sides], view, Settings(light=light))

    expected = 255 * (1.055 * 0.4 ** (1 / 2.4) - 0.055)
    assert inside(0.2).astype(float).mean() == pytest.approx(expected, rel=0.01)
    assert inside(0.0).max() <= 1
    assert 0.5**ENCLOSED_BOUNCES < 0.01


def test_a_shifted_lens_keeps_uprights_upright_and_moves_the_picture() -> None:
    """With a shift, a point stands lower in the picture by that share of its height, uprights keep one x."""
    plain = View(eye_mm=(0.0, 0.0, 1200.0), target_mm=(0.0, 1000.0, 1200.0), field_of_view_deg=60.0)
    moved = View(eye_mm=(0.0, 0.0, 1200.0), target_mm=(0.0, 1000.0, 1200.0), field_of_view_deg=60.0, shift=-0.2)
    edge = np.array([[700.0, 3000.0, 0.0], [700.0, 3000.0, 2400.0]])
    before, after = plain.project(edge), moved.project(edge)
    assert after[:, 1] - before[:, 1] == pytest.approx([-200.0, -200.0])
    assert after[0, 0] == pytest.approx(after[1, 0])
    with pytest.raises(ValueError, match="shift"):
        View(eye_mm=(0.0, 0.0, 0.0), target_mm=(1.0, 0.0, 0.0), shift=1.5)


def test_the_traced_picture_is_shifted_as_the_projection_says() -> None:
    """A board's edge stands in the traced picture at the row that the projection gives."""
    board = box((-3000.0, 2000.0, 0.0), (3000.0, 2010.0, 700.0), BLACK)
    view = View(
        eye_mm=(0.0, 0.0, 1200.0),
        target_mm=(0.0, 1000.0, 1200.0),
        field_of_view_deg=60.0,
        size_px=(120, 100),
        shift=-0.2,
    )
    light = Light(ground_mm=-5000.0)
    column = trace([board], view, Settings(light=light, samples_per_pixel=1))[:, 60].astype(float).mean(axis=1)
    row = view.project(np.array([[0.0, 2000.0, 700.0]]))[0, 1]
    assert abs(int(np.argmax(column < 60)) - row) < 2.0
