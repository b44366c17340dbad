"""What is seen, measured on id maps by rays."""

from __future__ import annotations

from dataclasses import replace

import manifold3d as m3
import numpy as np
import pytest

from model3d.pictures.sight import NOTHING, RayScene, only, pixel_rays, sighting
from model3d.pictures.solids import PlacedMesh, placed
from model3d.pictures.stage import Actor, Camera, Mesh
from model3d.pictures.views import project

CAMERA = Camera(eye_mm=(0, -4000, 0), target_mm=(0, 0, 0), field_deg=28)
SIZE = (400, 400)


def block(name: str, size: tuple[float, float, float], middle: tuple[float, float, float]) -> PlacedMesh:
    """A box about a point."""
    made = m3.Manifold.cube(size, True).translate(middle).to_mesh64()
    mesh = Mesh(
        vertices_mm=np.asarray(made.vert_properties)[:, :3].copy(), triangles=np.asarray(made.tri_verts, dtype=np.int64)
    )
    return placed([Actor(id=name, mesh_key="it", look="new")], {"it": mesh})[0]


BOARD = block("board", (800, 2, 400), (0, 0, 0))


@pytest.mark.parametrize(
    ("cover", "share"),
    [
        (block("cover", (400, 2, 800), (200, -10, 0)), 0.5),
        (block("cover", (1600, 2, 1600), (0, -10, 0)), 0.0),
        (block("cover", (1600, 2, 1600), (0, 10, 0)), 1.0),
        (block("cover", (100, 2, 800), (0, -10, 0)), 0.875),
    ],
)
def test_share_of_a_half_hidden_board(cover: PlacedMesh, share: float) -> None:
    """The seen share of a board behind a cover is the share of its face that the cover leaves free."""
    seen = sighting(RayScene([BOARD, cover]), only([BOARD], {"board"}), CAMERA, SIZE)
    assert seen.share == pytest.approx(share, abs=0.01)
    assert sum(seen.hiders.values()) == pytest.approx(1 - share, abs=0.01)
    assert set(seen.hiders) <= {"cover"}


def test_an_id_map_agrees_with_projection() -> None:
    """A board's pixels are those between its projected corners, and nothing is seen beside it."""
    ids = RayScene([BOARD]).id_map(CAMERA, SIZE)
    corners = project(CAMERA, np.array([[-400, -1, 200], [400, -1, -200]]), *SIZE)
    rows, columns = np.nonzero(ids == 0)
    assert (columns.min(), columns.max()) == (round(corners[0, 0]), round(corners[1, 0]) - 1)
    assert (rows.min(), rows.max()) == (round(corners[0, 1]), round(corners[1, 1]) - 1)
    assert (ids == NOTHING).sum() == SIZE[0] * SIZE[1] - len(rows)


def test_rays_go_through_pixel_middles() -> None:
    """A pixel's ray, followed, projects back to the pixel's middle."""
    rays = pixel_rays(CAMERA, (30, 20))
    back = project(CAMERA, np.array(CAMERA.eye_mm) + 900 * rays, 30, 20)[:, :2]
    expected = np.stack(np.meshgrid(np.arange(30) + 0.5, np.arange(20) + 0.5), axis=-1).reshape(-1, 2)
    np.testing.assert_allclose(back, expected, atol=1e-9)


def test_an_unknown_subject_is_refused() -> None:
    """A share of nothing is no number."""
    with pytest.raises(ValueError, match="nothing of lost"):
        only([BOARD], {"lost"})


def test_a_ghost_hides_nothing() -> None:
    """What is drawn see-through before a board takes nothing of its share; the same block as a part takes half."""
    cover = block("cover", (400, 2, 800), (200, -10, 0))
    ghost = replace(cover, look="ghost")
    shares = [
        sighting(RayScene([BOARD, before]), only([BOARD], {"board"}), CAMERA, SIZE).share for before in (cover, ghost)
    ]
    assert shares == pytest.approx([0.5, 1.0], abs=0.02)
