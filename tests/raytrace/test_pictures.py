"""Pixels: what is where, repeatable bytes, smooth edges, caps, panes, shadows on the ground."""

import math
from dataclasses import replace

import numpy as np
import pytest

from model3d.pictures.raytrace.sight import id_map
from model3d.pictures.raytrace.surface import Surface, TraceMesh
from model3d.pictures.raytrace.trace import trace, trace_png
from model3d.pictures.raytrace.view import Light, Settings, View
from tests.raytrace.shapes import GREY, WHITE, ball, box, sheet

QUICK = Settings(samples_per_pixel=4, ambient_rays=8, sun_rays=2, bounces=1, reflection_rays=1, denoise=2)


def hull(points: np.ndarray) -> list[tuple[float, float]]:
    """Convex hull of plane points, in order (monotone chain)."""
    ordered = sorted(map(tuple, points))

    def half(row: list) -> list:
        kept: list = []
        for p in row:
            while len(kept) > 1 and (
                (kept[-1][0] - kept[-2][0]) * (p[1] - kept[-2][1]) <= (kept[-1][1] - kept[-2][1]) * (p[0] - kept[-2][0])
            ):
                kept.pop()
            kept.append(p)
        return kept[:-1]

    return half(ordered) + half(ordered[::-1])


def inside_by(shape: list[tuple[float, float]], x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """Least signed distance of points from the hull's edges: positive within."""
    least = np.full(x.shape, np.inf)
    for (ax, ay), (bx, by) in zip(shape, shape[1:] + shape[:1], strict=True):
        size = math.hypot(bx - ax, by - ay)
        least = np.minimum(least, ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / size)
    return least


def test_the_id_map_of_a_box_is_the_hull_of_its_projected_corners() -> None:
    """Every pixel whose centre lies within the projected outline shows the box, and none beyond it."""
    low, high = (-300.0, -200.0, 0.0), (500.0, 250.0, 400.0)
    view = View(eye_mm=(1900.0, -2400.0, 1700.0), target_mm=(60.0, 30.0, 180.0), size_px=(160, 120))
    ids = id_map([box(low, high)], view)
    corners = np.array([[x, y, z] for x in (low[0], high[0]) for y in (low[1], high[1]) for z in (low[2], high[2])])
    shape = hull(view.project(corners)[:, :2])
    x, y = np.meshgrid(np.arange(160) + 0.5, np.arange(120) + 0.5)
    within = inside_by(shape, x, y)
    assert (ids[within > 0.01] == 0).all()
    assert (ids[within < -0.01] == -1).all()
    assert (within > 0).sum() > 3000


def test_the_nearer_of_two_boxes_is_shown() -> None:
    """The id map gives the number of the mesh in front; the one behind shows only past its edge."""
    near = box((-100.0, -600.0, -100.0), (100.0, -500.0, 100.0))
    far = box((-300.0, 0.0, -300.0), (300.0, 100.0, 300.0))
    view = View(eye_mm=(0.0, -3000.0, 0.0), target_mm=(0.0, 0.0, 0.0), size_px=(80, 80))
    ids = id_map([far, near], view)
    assert ids[40, 40] == 1
    assert ids[40, 27] == 0
    assert ids[0, 0] == -1


def scene() -> list[TraceMesh]:
    """Boards, a satin box and a ball that looks out of it at the foot."""
    boards = box((-1500.0, -1500.0, -20.0), (1500.0, 1500.0, 0.0), Surface(colour=(0.5, 0.35, 0.2), kind="wood-floor"))
    satin = box((-300.0, -300.0, 0.0), (300.0, 300.0, 500.0), Surface(colour=(0.9, 0.9, 0.9), kind="satin"))
    return [boards, satin, ball(250.0, Surface(colour=(0.2, 0.4, 0.4), kind="fabric"))]


DOWN = View(eye_mm=(2600.0, -3900.0, 3000.0), target_mm=(0.0, 0.0, 100.0), size_px=(120, 80))


def test_the_same_input_gives_the_same_bytes_whatever_the_threads() -> None:
    """Pictures repeat to the byte, and do not depend on how the work was shared out."""
    first = trace_png(scene(), DOWN, QUICK)
    assert first[:8] == b"\x89PNG\r\n\x1a\n"
    assert trace_png(scene(), DOWN, QUICK) == first
    assert trace_png(scene(), DOWN, replace(QUICK, threads=1)) == first
    assert trace_png(scene(), DOWN, replace(QUICK, seed=2)) != first


def test_edges_are_smoothed_by_samples() -> None:
    """Between a white sheet and the dark behind it, a slanting edge has values between the two; with one sample a
    pixel it has next to none."""
    light = Light(sun=(0.0, 0.0, 0.0), sky_gradient=0.0, background=(0.0, 0.0, 0.0), exposure=1.0)
    slant = sheet(((-500, 0, -500), (500, 0, -300), (500, 0, 500), (-500, 0, 300)), WHITE)
    view = View(eye_mm=(0.0, -3000.0, 0.0), target_mm=(0.0, 0.0, 0.0), size_px=(80, 80))

    def between(samples: int) -> int:
        picture = trace([slant], view, replace(QUICK, light=light, samples_per_pixel=samples))[:, 30:50, 1]
        return int(((picture > 40) & (picture < 0.8 * picture.max())).sum())

    assert between(1) == 0
    assert between(8) > 15


def test_the_cut_top_of_a_wall_is_dark_and_its_side_is_not() -> None:
    """The upward faces at a mesh's cap height take the cap colour; other faces keep the surface's own."""
    wall = box((-600.0, -80.0, 0.0), (600.0, 80.0, 300.0), Surface(colour=(0.7, 0.7, 0.7)), caps_mm=(300.0,))
    view = View(eye_mm=(0.0, -2500.0, 2500.0), target_mm=(0.0, 0.0, 200.0), size_px=(80, 80))
    x, y, _ = view.project(np.array([[0.0, 0.0, 300.0], [0.0, -80.0, 120.0]])).T
    picture = trace([wall], view, QUICK)
    top, side = (picture[int(b), int(a)].mean() for a, b in zip(x, y, strict=True))
    assert top < 90 < 130 < side


def test_a_pane_is_looked_through_and_tinted() -> None:
    """The id map sees what is behind a pane; the picture shows it tinted, and daylight where nothing stands behind."""
    pane = box((-400.0, -10.0, -400.0), (400.0, 0.0, 400.0), Surface(colour=(0.4, 0.55, 0.65), kind="glass"), "pane")
    behind = box((-400.0, 300.0, -400.0), (0.0, 400.0, 400.0), Surface(colour=(0.6, 0.6, 0.6)), "behind")
    view = View(eye_mm=(0.0, -3000.0, 0.0), target_mm=(0.0, 0.0, 0.0), size_px=(80, 80))
    ids = id_map([pane, behind], view)
    assert ids[40, 30] == 1
    assert ids[40, 50] == -1
    through = trace([pane, behind], view, QUICK).astype(int)
    bare = trace([behind], view, QUICK).astype(int)
    assert through[40, 30, 2] - through[40, 30, 0] > bare[40, 30, 2] - bare[40, 30, 0] + 5
    assert through[40, 50, 2] - through[40, 50, 0] > 15


def test_a_pane_lets_light_through_and_a_wall_does_not() -> None:
    """Glass throws no shadow; the same box of any other kind does."""
    ground = box((-1500.0, -1500.0, -20.0), (1500.0, 1500.0, 0.0), WHITE)
    view = View(eye_mm=(0.0, -3000.0, 3500.0), target_mm=(0.0, 0.0, 0.0), size_px=(60, 60))
    light = Light(sun_from=(0.0, 0.0, 1.0), exposure=0.6)

    def under(kind: str) -> float:
        plate = box((-500.0, -500.0, 900.0), (500.0, 500.0, 910.0), Surface(colour=(0.7, 0.7, 0.7), kind=kind))
        plate = replace(plate, in_view=False)
        return float(trace([ground, plate], view, replace(QUICK, light=light))[30, 30].mean())

    assert under("glass") > under("matt") + 30


def test_the_ground_takes_a_shadow_and_fades_to_the_background() -> None:
    """Beside a box, away from the sun, the ground is darker than the background; far off and on the lit side it is
    the background."""
    light = Light(sun_from=(-1.0, 0.0, 1.0), background=(0.6, 0.6, 0.6))
    view = View(eye_mm=(0.0, -9000.0, 9000.0), target_mm=(0.0, 0.0, 0.0), size_px=(120, 80))
    cube = box((-400.0, -400.0, 0.0), (400.0, 400.0, 800.0))
    picture = trace([cube], view, replace(QUICK, light=light)).mean(axis=2)
    x, y, _ = view.project(np.array([[700.0, 0.0, 0.0], [-1400.0, 0.0, 0.0], [2600.0, 0.0, 0.0]])).T
    shadow, lit, far = (picture[int(b), int(a)] for a, b in zip(x, y, strict=True))
    assert shadow < lit - 25
    assert far == pytest.approx(lit, abs=6)


def test_no_pixel_of_a_light_scene_is_black() -> None:
    """Where surfaces touch and where triangles meet, no pixel falls out as black."""
    picture = trace(scene()[:2], DOWN, QUICK)
    assert picture.min() > 25


def test_a_mesh_inside_out_looks_the_same() -> None:
    """The winding of a closed mesh does not matter: light is worked out on its outside."""
    cube = box((-300.0, -300.0, 0.0), (300.0, 300.0, 500.0))
    turned = TraceMesh(vertices=cube.vertices, triangles=cube.triangles[:, ::-1], surface=cube.surface)
    plain, other = (trace([m], DOWN, QUICK).astype(int) for m in (cube, turned))
    assert np.abs(plain - other).mean() < 1.5


def test_boards_differ_from_one_another_and_keep_the_floor_s_colour() -> None:
    """A wooden floor shows lighter and darker boards about the surface's own colour."""
    wood = Surface(colour=(0.5, 0.35, 0.2), kind="wood-floor")
    view = View(eye_mm=(0.0, -10.0, 9000.0), target_mm=(0.0, 0.0, 0.0), size_px=(100, 80))
    boards = box((-3000.0, -3000.0, -20.0), (3000.0, 3000.0, 0.0), wood)
    plain = box((-3000.0, -3000.0, -20.0), (3000.0, 3000.0, 0.0), replace(wood, kind="matt"))
    wooden, flat = (trace([m], view, QUICK).astype(float) for m in (boards, plain))
    assert wooden[..., 1].std() > 2 * flat[..., 1].std() + 3
    assert wooden.mean(axis=(0, 1)) == pytest.approx(flat.mean(axis=(0, 1)), abs=16)


def test_a_dull_grey_has_no_bands() -> None:
    """A slow gradient is dithered: neighbouring bytes mix instead of meeting along lines."""
    picture = trace([GREY_CUBE], FAR, QUICK)[:, :, 1].astype(int)
    column = picture[:, 3]
    flips = int((np.diff(column) != 0).sum())
    assert np.ptp(column) <= 12
    assert flips > 3 * np.ptp(column)


GREY_CUBE = box((-50.0, -50.0, 0.0), (50.0, 50.0, 50.0), GREY)
FAR = View(eye_mm=(0.0, -9000.0, 4000.0), target_mm=(0.0, 0.0, 0.0), size_px=(80, 200))
