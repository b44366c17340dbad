"""Light against closed forms: even furnace, wall beside a floor, sun's shadow and its soft edge, bounce."""

import math

import numpy as np
import pytest

from model3d.pictures.raytrace.gather import Lighting, ambient, sunlight
from model3d.pictures.raytrace.patches import light_patches
from model3d.pictures.raytrace.portals import Points
from model3d.pictures.raytrace.sky import sky_of
from model3d.pictures.raytrace.surface import TraceMesh
from model3d.pictures.raytrace.trace import trace
from model3d.pictures.raytrace.view import Light, Settings, View
from model3d.pictures.raytrace.world import build_world
from tests.raytrace.shapes import BLACK, GREY, WHITE, ball, box, sheet

FURNACE = Light(sun=(0.0, 0.0, 0.0), sky=(0.5, 0.5, 0.5), sky_gradient=0.0, ground_albedo=1.0, tinge=1.0, exposure=1.0)


def lighting(meshes: list[TraceMesh], light: Light, bounces: int = 3) -> Lighting:
    """The light of some meshes, ready to be gathered."""
    world, sky = build_world(meshes), sky_of(light)
    patches = light_patches(world, sky, bounces=bounces, tinge=light.tinge, seed=1)
    return Lighting(world, sky, patches, 1, 1)


def level(lit: Lighting, places: list[tuple[float, float, float]]) -> Points:
    """Points that face up."""
    up = np.tile(np.array([0, 0, 1], np.float32), (len(places), 1))
    at = (np.array(places) - lit.world.centre_mm).astype(np.float32)
    return Points(at, up, up, np.arange(len(places), dtype=np.int32) % 256)


def test_a_white_ball_in_an_even_furnace_cannot_be_told_from_its_surroundings() -> None:
    """A surface that sends on all it receives, under light that is even all round, is as bright as that light."""
    view = View(eye_mm=(0.0, -3000.0, 0.0), target_mm=(0.0, 0.0, 0.0), size_px=(60, 60))
    picture = trace([ball(400.0)], view, Settings(light=FURNACE))
    middle = picture[25:35, 25:35].astype(float)
    expected = 255 * (1.055 * 0.5 ** (1 / 2.4) - 0.055)
    assert middle.mean() == pytest.approx(expected, abs=0.6)
    assert np.ptp(middle) <= 1


def test_inside_a_closed_white_box_the_light_is_even() -> None:
    """Every wall of an enclosure that reflects all light is lit alike: nothing is gained or lost at a bounce."""
    room = box((0.0, 0.0, 0.0), (2000.0, 1500.0, 1000.0), WHITE)
    view = View(eye_mm=(300.0, 300.0, 500.0), target_mm=(2000.0, 1500.0, 400.0), field_of_view_deg=70, size_px=(60, 40))
    picture = trace([room], view, Settings(light=FURNACE))
    assert np.ptp(picture) <= 1
    grey = trace([box((0.0, 0.0, 0.0), (2000.0, 1500.0, 1000.0), GREY)], view, Settings(light=FURNACE))
    assert grey.max() < picture.min() - 60, "a grey enclosure must lose light at each bounce"


def test_an_open_white_box_under_an_even_sky_keeps_its_light_in_every_corner() -> None:
    """In an open-topped white box under an even sky, light is the sky's at every depth once bounces are counted."""
    sides = [
        sheet(((0, 0, 0), (1000, 0, 0), (1000, 1000, 0), (0, 1000, 0)), WHITE),
        sheet(((0, 0, 0), (0, 1000, 0), (0, 1000, 800), (0, 0, 800)), WHITE),
        sheet(((1000, 1000, 0), (1000, 0, 0), (1000, 0, 800), (1000, 1000, 800)), WHITE),
        sheet(((0, 1000, 0), (1000, 1000, 0), (1000, 1000, 800), (0, 1000, 800)), WHITE),
        sheet(((1000, 0, 0), (0, 0, 0), (0, 0, 800), (1000, 0, 800)), WHITE),
    ]
    places = [(500.0, 500.0, 1.0), (40.0, 40.0, 1.0)]
    lit = lighting(sides, FURNACE, bounces=8)
    assert ambient(lit, level(lit, places), 256).received == pytest.approx(0.5, abs=0.01)
    dark = lighting(sides, FURNACE, bounces=0)
    assert ambient(dark, level(dark, places), 256).received[1, 0] < 0.3


@pytest.mark.parametrize("distance_mm", [100.0, 400.0, 1500.0])
def test_beside_a_long_black_wall_the_floor_loses_the_closed_form_share(distance_mm: float) -> None:
    """A long wall of height h takes (1 - d / sqrt(d^2 + h^2)) / 2 of an even sky from the floor at distance d
    (form factor of an infinite strip, Lambert's law)."""
    wall = box((-30000.0, -10.0, 0.0), (30000.0, 0.0, 1000.0), BLACK)
    lit = lighting([wall], FURNACE)
    received = ambient(lit, level(lit, [(0.0, distance_mm, 0.0)]), 512).received[0, 0]
    share = (1 - distance_mm / math.hypot(distance_mm, 1000.0)) / 2
    assert received == pytest.approx(0.5 * (1 - share), rel=0.012)


def test_a_shadow_ends_where_the_sun_s_slope_says() -> None:
    """Behind a wall of height h the sun at elevation e leaves a shadow h / tan e long, its soft edge as wide as the
    sun's disc subtends."""
    elevation, width = 40.0, 2.0
    sun_from = (0.0, math.cos(math.radians(elevation)), math.sin(math.radians(elevation)))
    wall = box((-5000.0, -10.0, 0.0), (5000.0, 0.0, 1000.0), GREY)
    lit = lighting([wall], Light(sun_from=sun_from, sun_width_deg=width))

    def share(angle: float) -> float:
        beyond = 10.0 + 1000.0 / math.tan(math.radians(angle)) - 10.0
        found = sunlight(lit, level(lit, [(0.0, -10.0 - beyond, 0.0)]), 256)
        return float(found[0])

    assert share(elevation + width * 0.6) == 0.0
    assert share(elevation - width * 0.6) == 1.0
    assert share(elevation) == pytest.approx(0.5, abs=0.08)
    assert 0.05 < share(elevation + width * 0.3) < share(elevation) < share(elevation - width * 0.3) < 0.95


def test_a_red_wall_tints_the_floor_beside_it() -> None:
    """One bounce carries a wall's colour to a white floor; without a tinge it carries its lightness alone."""
    red = box((-2000.0, -10.0, 0.0), (2000.0, 0.0, 2000.0), GREY)
    red = TraceMesh(vertices=red.vertices, triangles=red.triangles, surface=type(GREY)(colour=(0.8, 0.05, 0.05)))

    def redness(tinge: float) -> float:
        light = Light(sun=(0.0, 0.0, 0.0), sky=(0.5, 0.5, 0.5), tinge=tinge)
        lit = lighting([red], light)
        rgb = ambient(lit, level(lit, [(0.0, 100.0, 0.0)]), 256).received[0]
        return float(rgb[0] / rgb[1])

    assert redness(1.0) > 1.1
    assert redness(0.0) == pytest.approx(1.0, abs=1e-3)
