"""The tracer's parts: even draws, normals, smoothing, patterns, tone."""

import numpy as np
import pytest

from model3d.pictures.raytrace.denoise import Guide, smooth
from model3d.pictures.raytrace.normals import corner_normals, is_closed, is_inside_out, welded
from model3d.pictures.raytrace.patches import light_patches
from model3d.pictures.raytrace.sampling import cosine_sets, frames, ranks, sobol, turned
from model3d.pictures.raytrace.shade import gentle
from model3d.pictures.raytrace.sky import sky_of
from model3d.pictures.raytrace.surface import Boards
from model3d.pictures.raytrace.texture import wood_floor
from model3d.pictures.raytrace.view import Light
from model3d.pictures.raytrace.work import each
from model3d.pictures.raytrace.world import build_world
from tests.raytrace.shapes import ball, box, sheet


def strata(points: np.ndarray, rows: int, columns: int) -> int:
    """How many of the cells of a square grid hold a point."""
    cells = (points * [rows, columns]).astype(int)
    return len({tuple(c) for c in cells})


@pytest.mark.parametrize("block", [0, 1, 5, 30])
def test_every_block_of_the_draw_is_even(block: int) -> None:
    """Sixteen points in a row fill each of 16 cells once, however the square is cut (a (0, 4, 2)-net)."""
    points = sobol(512, 7)[block * 16 : block * 16 + 16]
    assert [strata(points, r, 16 // r) for r in (1, 2, 4, 8, 16)] == [16] * 5
    drawn = np.random.default_rng(1).random((16, 2))
    assert strata(drawn, 4, 4) < 16


def test_every_sixteen_square_block_of_pixels_has_each_rank_once() -> None:
    """Neighbouring points use different sets of directions, all of them in each block."""
    x, y = np.meshgrid(np.arange(32), np.arange(48))
    found = ranks(x, y)
    assert sorted(found[16:32, :16].reshape(-1)) == list(range(256))


def test_directions_are_cosine_weighted_about_the_normal() -> None:
    """Directions are of unit length, above the surface, and their mean height is two thirds (cosine weighting)."""
    sets = cosine_sets(64, 1)
    normal = np.array([[0.6, 0.0, -0.8]], np.float32)
    found = turned(sets[9], frames(normal))[:, 0]
    assert np.linalg.norm(found, axis=1) == pytest.approx(1.0, abs=1e-5)
    assert (found @ normal[0]).min() > 0
    assert (sets.reshape(-1, 3)[:, 2]).mean() == pytest.approx(2 / 3, abs=1e-3)


def test_closed_open_and_inverted_meshes_are_told_apart() -> None:
    """A box is closed and right side out; with a face missing it is open; with its triangles turned, inside out."""
    cube = box((0.0, 0.0, 0.0), (10.0, 20.0, 30.0))
    assert is_closed(welded(cube.vertices, cube.triangles))
    assert not is_closed(welded(cube.vertices, cube.triangles[1:]))
    assert not is_inside_out(cube.vertices, cube.triangles)
    assert is_inside_out(cube.vertices, cube.triangles[:, ::-1])


def test_corner_normals_are_round_on_a_ball_and_sharp_on_a_box() -> None:
    """Smooth normals follow the ball's radius within a degree or two; a box's corners keep their faces' normals."""
    globe = ball(100.0)
    kept = np.linalg.norm(np.cross(*np.diff(globe.vertices[globe.triangles], axis=1).transpose(1, 0, 2)), axis=1) > 1e-6
    normals = corner_normals(globe.vertices, globe.triangles[kept])
    radial = globe.vertices[globe.triangles[kept]] / 100.0
    assert np.einsum("ijk,ijk->ij", normals, radial).min() > np.cos(np.radians(2))
    cube = box((0.0, 0.0, 0.0), (10.0, 20.0, 30.0))
    assert np.abs(corner_normals(cube.vertices, cube.triangles)).max(axis=2) == pytest.approx(1.0)


def test_smoothing_takes_the_noise_and_leaves_the_edges() -> None:
    """Noise within one surface falls to under a third; light on either side of a surface's edge does not mix."""
    draw = np.random.default_rng(3)
    truth = np.full((40, 40, 3), 0.4, np.float32)
    truth[:, 20:] = 0.8
    noisy = truth + draw.normal(0, 0.1, (40, 40, 1)).astype(np.float32)
    mesh = np.zeros((40, 40), np.int32)
    mesh[:, 20:] = 1
    y, x = np.indices((40, 40), dtype=np.float32)
    place = np.stack([x, y, np.zeros_like(x)], axis=-1)
    normal = np.broadcast_to(np.array([0, 0, 1], np.float32), (40, 40, 3))
    guide = Guide(mesh=mesh, place=place, normal=normal, step_mm=np.ones((40, 40), np.float32))
    found = smooth(noisy, np.full((40, 40), 0.01, np.float32), guide, 4)
    assert np.abs(found - truth).std() < np.abs(noisy - truth).std() / 3
    assert found[:, 19].mean() == pytest.approx(0.4, abs=0.03)
    assert found[:, 20].mean() == pytest.approx(0.8, abs=0.03)
    blind = Guide(mesh=mesh * 0, place=place, normal=normal, step_mm=np.ones((40, 40), np.float32))
    mixed = smooth(noisy, np.full((40, 40), 1.0, np.float32), blind, 4)
    assert mixed[:, 19].mean() > 0.5, "without the mesh's edge the two sides must mix"


def test_smoothing_keeps_a_shadow_that_is_no_noise() -> None:
    """A step of light on one surface stays where the expected noise is small."""
    light = np.full((30, 30, 3), 0.2, np.float32)
    light[:, 15:] = 0.9
    y, x = np.indices((30, 30), dtype=np.float32)
    normal = np.broadcast_to(np.array([0, 0, 1], np.float32), (30, 30, 3))
    place = np.stack([x, y, 0 * x], axis=-1)
    guide = Guide(mesh=np.zeros((30, 30), np.int32), place=place, normal=normal, step_mm=np.ones_like(x))
    kept = smooth(light, np.full((30, 30), 1e-4, np.float32), guide, 4)
    assert kept[:, 14].mean() == pytest.approx(0.2, abs=0.02)


def test_boards_are_patterned_close_to_and_plain_from_afar() -> None:
    """Grain finer than a pixel is blended out instead of glittering: the spread within one board falls with size."""
    x = np.linspace(0, 900, 4000, dtype=np.float32)
    place = np.stack([x, 90 + 30 * np.sin(x), 0 * x], axis=-1)

    def spread(pixel: float) -> float:
        size = np.zeros((len(x), 2, 3), np.float32)
        size[:, 0, 0] = size[:, 1, 1] = pixel
        return float(wood_floor(place, size, Boards(length_mm=9000.0))[:, 0].std())

    assert spread(0.2) > 1.3 * spread(40.0)


def test_the_tone_map_keeps_order_and_never_clips() -> None:
    """Up to .6 tones are as they are; above, they rise ever more slowly, below one; a bright colour keeps its order
    of channels."""
    ramp = np.repeat(np.linspace(0, 3, 300, dtype=np.float32)[:, None], 3, axis=1)
    found = gentle(ramp)
    assert (np.diff(found[:, 0]) > 0).all()
    assert found[:60, 0] == pytest.approx(ramp[:60, 0], abs=1e-6)
    assert found.max() < 1
    orange = gentle(np.array([[2.0, 1.0, 0.4]], np.float32))[0]
    assert orange[0] > orange[1] > orange[2]


def test_an_error_in_a_piece_of_work_is_raised() -> None:
    """What goes wrong in a thread is not lost."""

    def fail(number: int) -> None:
        if number == 3:
            raise ArithmeticError("piece 3")

    with pytest.raises(ArithmeticError, match="piece 3"):
        each(fail, range(5), 2)


def test_a_sheet_without_thickness_is_open() -> None:
    """A sheet has a rim, so it is lit from both sides."""
    leaf = sheet(((0, 0, 0), (1, 0, 0), (1, 1, 0), (0, 1, 0)))
    assert not is_closed(welded(leaf.vertices, leaf.triangles))


@pytest.mark.parametrize("size_mm", [400.0, 600_000.0])
def test_a_scene_of_any_size_is_cut_into_a_bearable_number_of_patches(size_mm: float) -> None:
    """A box of 400 mm or of 600 m is lit through at most some hundred thousand patches."""
    block = box((0.0, 0.0, 0.0), (size_mm, size_mm, size_mm / 4))
    patches = light_patches(build_world([block]), sky_of(Light()), bounces=1, tinge=1.0, seed=1)
    assert 6 <= patches.cells.patches < 250_000
    assert patches.sent[:-1].min() > 0
