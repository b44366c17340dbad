"""Furniture as meshes: closed, seen from outside, of the volume that a formula gives, within the size asked."""

from __future__ import annotations

import math

import numpy as np
import pytest

from model3d.geometry.placement import Placement
from model3d.pictures.raytrace.normals import is_closed, welded
from model3d.pictures.rooms.contents import element_mesh
from model3d.pictures.rooms.shape_meshes import AROUND, Mesh, shape_mesh
from model3d.rooms import Door, Window
from model3d.rooms.furniture import Furniture, Radiator
from model3d.rooms.resolve_furniture import USUAL_SIZE_MM
from model3d.scene.furniture import Block, Cushion, Element, Leaf, Rod, Turned, furniture_elements
from model3d.scene.furniture.as_it_was import DEPTH_MM, OFF_WALL_MM, radiator_elements
from model3d.scene.furniture.joinery import casements, door_elements, panes, window_elements


def volume(mesh: Mesh) -> float:
    """Enclosed volume, by the divergence theorem."""
    vertices, triangles = mesh
    a, b, c = (vertices[triangles[:, k]] for k in range(3))
    return float(np.einsum("ij,ij->", a, np.cross(b, c))) / 6.0


def closed(mesh: Mesh) -> bool:
    """Whether every edge is met once each way, slivers of no area left aside."""
    vertices, triangles = mesh
    corners = welded(vertices, triangles)
    whole = (corners[:, 0] != corners[:, 1]) & (corners[:, 1] != corners[:, 2]) & (corners[:, 2] != corners[:, 0])
    return is_closed(corners[whole])


def box_of(elements: list[Element]) -> tuple[np.ndarray, np.ndarray]:
    """Low and high corner of the box round some elements."""
    points = np.concatenate([element_mesh(e, "").vertices for e in elements])
    return points.min(axis=0), points.max(axis=0)


@pytest.mark.parametrize("round_mm", [0.0, 5.0, 14.0])
def test_a_block_lacks_only_what_its_round_edges_take(round_mm: float) -> None:
    """A box of sides a, b, c rounded by r holds abc less r^2 (1 - pi/4) along its edges and 8 corner parts: inner box,
    slabs, quarter rods and a ball (Steiner's formula), within what facets lose."""
    a, b, c = 100.0, 60.0, 40.0
    mesh = shape_mesh(Block(size_mm=(a, b, c), round_mm=round_mm))
    i, j, k, r = a - 2 * round_mm, b - 2 * round_mm, c - 2 * round_mm, round_mm
    whole = i * j * k + 2 * r * (i * j + j * k + k * i) + math.pi * r**2 * (i + j + k) + 4 / 3 * math.pi * r**3
    assert closed(mesh)
    assert volume(mesh) == pytest.approx(whole, rel=0.016)
    assert mesh[0].min(axis=0) == pytest.approx([0, 0, 0], abs=1e-9)
    assert mesh[0].max(axis=0) == pytest.approx([a, b, c], abs=1e-9)


def test_a_tapered_block_is_smaller_at_its_top() -> None:
    """A block tapered by a fifth is four fifths as wide at its top, about the same middle."""
    vertices, _ = shape_mesh(Block(size_mm=(100.0, 60.0, 40.0), taper=0.2))
    top = vertices[vertices[:, 2] > 39.9]
    assert [top[:, 0].min(), top[:, 0].max()] == pytest.approx([10.0, 90.0])


def test_a_turned_body_and_a_rod_hold_what_formulas_give() -> None:
    """A cylinder and a frustum of facets, and a rod along a line."""
    facets = AROUND / (2 * math.pi) * math.sin(2 * math.pi / AROUND) * math.pi  # area of the facetted unit circle
    cone = shape_mesh(Turned(outline_mm=((0.0, 0.0), (30.0, 0.0), (20.0, 50.0), (0.0, 50.0))))
    assert closed(cone)
    assert volume(cone) == pytest.approx(facets / 3 * 50 * (30**2 + 30 * 20 + 20**2), rel=1e-6)
    rod = shape_mesh(Rod(points_mm=((0.0, 0.0, 0.0), (0.0, 0.0, 40.0), (0.0, 0.0, 100.0)), radius_mm=5.0))
    assert closed(rod)
    assert volume(rod) == pytest.approx(12 / 2 * math.sin(math.pi / 6) * 5**2 * 100, rel=1e-6)


def test_a_cushion_fills_its_box_the_more_the_squarer_it_is() -> None:
    """Between the ellipsoid (pi/6 of the box) and the box."""
    size = (400.0, 300.0, 120.0)
    shares = [volume(shape_mesh(Cushion(size_mm=size, square=s))) / math.prod(size) for s in (0.05, 0.5, 0.9)]
    assert shares == sorted(shares)
    assert shares[0] == pytest.approx(math.pi / 6, abs=0.05)
    assert 0.85 < shares[2] < 1.0
    assert closed(shape_mesh(Cushion(size_mm=size)))


def test_a_leaf_is_as_long_as_it_is_said_and_bends_down() -> None:
    """Along its rib it measures its length; it starts at the datum, rises, and droops toward its tip."""
    vertices, _ = shape_mesh(Leaf(length_mm=300.0, width_mm=100.0))
    rib = vertices.reshape(-1, 5, 3)[:, 2]
    steps = np.diff(rib, axis=0)
    assert np.linalg.norm(steps, axis=1).sum() == pytest.approx(300.0)
    assert rib[0] == pytest.approx([0.0, 0.0, 0.0])
    assert steps[0][2] > 0 > steps[-1][2]
    across = np.ptp(vertices.reshape(-1, 5, 3)[:, :, 1], axis=1).max()
    assert 85.0 < across < 100.0


@pytest.mark.parametrize("kind", USUAL_SIZE_MM)
def test_every_kind_of_furniture_fills_the_size_it_is_given(kind: str) -> None:
    """Each kind stands on the floor within its box, a cushion's softness to spare, and fills most of it; made larger,
    it grows."""
    width, depth, height = USUAL_SIZE_MM[kind]
    for factor in (1.0, 1.2):
        size = (factor * width, factor * depth, height)
        piece = Furniture(
            id="x", kind=kind, wall_id=None, frame=Placement(), width_mm=size[0], depth_mm=size[1], height_mm=height
        )
        low, high = box_of(list(furniture_elements(piece)))
        assert low[2] == pytest.approx(0.0, abs=1.0)
        on_top = 300.0 if kind in ("cabinet", "desk", "table", "low-table") else 60.0  # a vase, a lamp, a bowl
        assert (low > [-40.0, -60.0, -1.0]).all()
        spare = np.array([40.0, 60.0, on_top + 125.0 * (kind == "desk")])
        assert (high < np.array(size) + spare).all()
        assert (high - low > 0.55 * np.array(size)).all()


def test_a_door_and_a_window_fill_their_openings() -> None:
    """Leaf and frame reach from side to side of the opening and do not go past it, but for the handle and the sill."""
    door = Door(
        id="d",
        wall_id="w",
        from_mm=500.0,
        to_mm=1300.0,
        height_mm=2000.0,
        hinge="left",
        swing="in",
        opens_deg=90.0,
        leaf_thickness_mm=40.0,
        casing=None,
    )
    low, high = box_of(list(door_elements(door, 100.0)))
    assert [low[0], high[0]] == pytest.approx([500.0, 1300.0], abs=2.0)
    assert high[2] == pytest.approx(2000.0, abs=6.0)
    handles = [e for e in door_elements(door, 100.0) if isinstance(e.shape, Rod)]
    assert [h.shape.points_mm[0][0] for h in handles if isinstance(h.shape, Rod)] == pytest.approx([562.0])
    window = Window(
        id="w",
        wall_id="w",
        from_mm=300.0,
        to_mm=1500.0,
        sill_mm=900.0,
        height_mm=1200.0,
        sill_depth_mm=0.0,
        sill_thickness_mm=20.0,
    )
    assert len(casements(window)) == 2
    low, high = box_of([*window_elements(window, 100.0), *panes(window, 100.0)])
    assert [low[0], high[0]] == pytest.approx([275.0, 1525.0], abs=1.0)
    assert high[2] == pytest.approx(2100.0, abs=1.0)
    assert low[1] == pytest.approx(-100.0, abs=1.0)


def test_a_radiator_is_as_large_as_it_is_said_and_its_pipes_reach_the_floor() -> None:
    """Panels fill width and height; it stands off the wall; its tails come from the floor beside it."""
    low, high = box_of(
        list(radiator_elements(Radiator(wall_id="w", along_mm=400, width_mm=900, height_mm=600, up_mm=150)))
    )
    assert low[2] == pytest.approx(0.0, abs=1e-6)
    assert high[2] == pytest.approx(750.0, abs=3.0)
    assert high[1] == pytest.approx(OFF_WALL_MM + DEPTH_MM + 7.0, abs=12.0)
    assert low[0] < 400.0 < 1300.0 < high[0]
