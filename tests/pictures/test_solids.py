"""Meshes cut open and their sharp edges."""

from __future__ import annotations

from dataclasses import replace

import manifold3d as m3
import numpy as np
import pytest

from model3d.geometry.placement import Placement
from model3d.pictures.cutaway import cut_open, notched, opened
from model3d.pictures.solids import PlacedMesh, cut_away, moved, placed, sharp_edges
from model3d.pictures.stage import Actor, Cut, Look, Mesh, Notch
from model3d.pictures.theme import THEME


def mesh_of(solid: m3.Manifold) -> Mesh:
    """Triangles of a closed solid, each on vertices of its own."""
    made = solid.to_mesh64()
    corners = np.asarray(made.vert_properties)[:, :3][np.asarray(made.tri_verts, dtype=np.int64)]
    return Mesh(vertices_mm=corners.reshape(-1, 3), triangles=np.arange(corners.size // 3).reshape(-1, 3))


def standing(solid: m3.Manifold, look: Look = "new", facing: tuple[float, float, float] | None = None) -> PlacedMesh:
    """A solid as it stands, called 'it'."""
    actor = Actor(id="it", mesh_key="it", look=look, facing=facing)
    return placed([actor], {"it": mesh_of(solid)})[0]


def volume(solid: PlacedMesh) -> float:
    """Enclosed volume by the divergence theorem."""
    a, b, c = (solid.vertices_mm[solid.triangles[:, k]] for k in range(3))
    return float(np.einsum("ij,ij->", a, np.cross(b, c))) / 6


def test_a_cut_leaves_what_is_below() -> None:
    """Cutting a 100 mm cube by a slanted plane through its middle leaves half its volume, closed by a flat face."""
    half = cut_away(standing(m3.Manifold.cube((100, 100, 100))), (50, 50, 50), (1, 2, 3))
    assert half is not None
    assert volume(half) == pytest.approx(500_000)
    a, b, c = (half.vertices_mm[half.triangles[half.cut][:, k]] for k in range(3))
    across = np.cross(b - a, c - a)
    bare = np.linalg.norm(across.sum(axis=0)) / 2
    assert np.allclose(across / np.linalg.norm(across, axis=1, keepdims=True), np.array([1, 2, 3]) / 14**0.5)
    whole = m3.Manifold.cube((100, 100, 100)).split_by_plane([1, 2, 3], 300 / 14**0.5)[0]
    assert bare == pytest.approx((whole.surface_area() * 2 - 60_000) / 2, rel=1e-6)


def test_a_plane_beside_cuts_nothing() -> None:
    """A plane that passes a solid by leaves the same object, or nothing of it."""
    cube = standing(m3.Manifold.cube((10, 10, 10)))
    assert cut_away(cube, (0, 0, 20), (0, 0, 1)) is cube
    assert cut_away(cube, (0, 0, -5), (0, 0, 1)) is None


def test_an_open_mesh_is_refused() -> None:
    """A mesh that is not closed cannot be cut; the message names the actor."""
    cube = mesh_of(m3.Manifold.cube((10, 10, 10)))
    torn = Mesh(vertices_mm=cube.vertices_mm, triangles=cube.triangles[1:])
    solid = placed([Actor(id="torn", mesh_key="it", look="new")], {"it": torn})[0]
    with pytest.raises(ValueError, match="torn cannot be cut"):
        cut_away(solid, (5, 5, 5), (0, 0, 1))


def test_sharp_edges_of_a_cylinder() -> None:
    """A cylinder of 48 sides shows its two rims and no line on its round face; a cube shows its twelve edges."""
    cylinder = mesh_of(m3.Manifold.cylinder(50, 20, 20, 48))
    lines = sharp_edges(cylinder.vertices_mm, cylinder.triangles)
    assert len(lines) == 96
    assert set(np.round(lines[:, :, 2].ravel(), 6)) == {0.0, 50.0}
    cube = mesh_of(m3.Manifold.cube((1, 1, 1)))
    assert len(sharp_edges(cube.vertices_mm, cube.triangles)) == 12


def test_placing_turns_and_moves() -> None:
    """A point of the part's frame comes to where its placement says."""
    place = Placement(origin_mm=(10, 20, 30), x_axis=(0, 1, 0), y_axis=(-1, 0, 0))
    points = np.array([[1.0, 2.0, 3.0], [0.0, 0.0, 0.0]])
    assert [tuple(row) for row in moved(points, place)] == [place.point((1, 2, 3)), (10, 20, 30)]


@pytest.mark.parametrize(("facing", "height"), [((0, 1, 0), THEME.stub_mm), ((0, -1, 0), THEME.wall_mm)])
def test_a_near_wall_is_a_stub(facing: tuple[float, float, float], height: float) -> None:
    """A wall with its back to the viewer is cut to a stub, one that faces the viewer to the view height."""
    wall = standing(m3.Manifold.cube((1000, 100, 2400)), "room-wall", facing)
    (left,) = opened([wall], (0.2, -1, 0.6), THEME)
    assert left.vertices_mm[:, 2].max() == pytest.approx(height)


def test_a_wall_in_the_way_is_a_stub_and_a_fixture_goes() -> None:
    """What is named as in the way is cut down, or left out when it is a fixture."""
    wall = standing(m3.Manifold.cube((1000, 100, 2400)), "room-wall", (0, -1, 0))
    (left,) = opened([wall], (0, -1, 0.6), THEME, {"it"})
    assert left.vertices_mm[:, 2].max() == pytest.approx(THEME.stub_mm)
    assert opened([standing(m3.Manifold.cube((9, 9, 9)), "room-fixture")], (0, -1, 0.6), THEME, {"it"}) == ()


@pytest.mark.parametrize(
    ("look", "share"), [("new", 0.5), ("fitted", 0.5), ("clip-back", 1.0), ("fitting", 1.0), ("room-wall", 1.0)]
)
def test_a_cut_opens_bodies_only(look: Look, share: float) -> None:
    """A joint is cut open through the pieces; clips, fittings and the room stay whole unless they are named."""
    cube = standing(m3.Manifold.cube((100, 100, 100)), look)
    (left,) = cut_open([cube], Cut(at_mm=(50, 50, 50), normal=(0, 1, 0)))
    assert volume(left) == pytest.approx(1e6 * share)
    (named,) = cut_open([cube], Cut(at_mm=(50, 50, 50), normal=(0, 1, 0), actor_ids=("it",)))
    assert volume(named) == pytest.approx(5e5)


def test_a_notch_opens_one_end() -> None:
    """A window 30 mm deep into the front half of a bar leaves all but that quarter of its end; others stay whole."""
    bar = standing(m3.Manifold.cube((100, 20, 20)))
    notch = Notch(from_mm=(70, 0, 0), along=(1, 0, 0), at_mm=(0, 10, 0), normal=(0, 1, 0), actor_ids=("it",))
    parts = notched([bar], notch)
    assert sum(volume(part) for part in parts) == pytest.approx(100 * 400 - 30 * 10 * 20)
    assert {part.id for part in parts} == {"it"}
    assert notched([bar], replace(notch, actor_ids=("other",))) == (bar,)
