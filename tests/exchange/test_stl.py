"""STL files: closed, true to size, placed."""

from __future__ import annotations

import math
from pathlib import Path

import cadquery as cq
import numpy as np
import pytest
import trimesh

from model3d.exchange.assembly import Node, placed_leaves
from model3d.exchange.stl import stl_bytes, write_stl
from model3d.geometry.placement import at, turned_about_z
from model3d.solids.mesh import TriangleMesh, solid_mesh

from .sample import AREAS_MM2, LEANING, VOLUMES_MM3, sample

DEFLECTION_MM, ANGLE_DEG = 0.02, 6.0


def _load(path: Path) -> trimesh.Trimesh:
    mesh = trimesh.load_mesh(path)
    assert isinstance(mesh, trimesh.Trimesh)
    return mesh


def test_each_shape_is_a_watertight_file_in_its_own_frame(tmp_path: Path) -> None:
    """Each distinct shape has one file, watertight, its closed form's volume and area but for the facets."""
    its = sample()
    files = write_stl(
        tmp_path / "stl é", its.root, its.shapes, its.names, deflection_mm=DEFLECTION_MM, angle_deg=ANGLE_DEG
    )
    assert sorted(path.name for path in (tmp_path / "stl é").iterdir()) == [
        "Bracket.stl",
        "Piece-1200-e.stl",
        "Rohr-O20-aussen.stl",
        "Valve-block.stl",
        "model.stl",
    ]
    for key, path in files.by_shape.items():
        mesh = _load(path)
        assert mesh.is_watertight
        assert mesh.volume == pytest.approx(VOLUMES_MM3[str(key)], rel=2e-3)
        assert mesh.area == pytest.approx(AREAS_MM2[str(key)], rel=2e-3)
        box = its.shapes[str(key)].BoundingBox()
        wanted = ((box.xmin, box.ymin, box.zmin), (box.xmax, box.ymax, box.zmax))
        assert mesh.bounds == pytest.approx(np.array(wanted), abs=DEFLECTION_MM)


def test_whole_file_holds_every_leaf_in_its_place(tmp_path: Path) -> None:
    """The whole file is the leaves in tree order, each closed, where their placements put them."""
    its = sample()
    files = write_stl(tmp_path, its.root, its.shapes, its.names, deflection_mm=DEFLECTION_MM, angle_deg=ANGLE_DEG)
    corners = np.asarray(trimesh.load_mesh(files.whole, process=False).triangles)
    first = 0
    for leaf in placed_leaves(its.root):
        own = _load(files.by_shape[leaf.shape_key])
        chunk = trimesh.Trimesh(**trimesh.triangles.to_kwargs(corners[first : first + len(own.faces)]))
        first += len(own.faces)
        assert chunk.is_watertight
        # Coordinates of 8 m are rounded to .0005 mm in the file: a 6 mm plate's volume to 1e-4.
        assert chunk.volume == pytest.approx(own.volume, rel=1e-4)
        assert chunk.center_mass == pytest.approx(np.array(leaf.placement.point(tuple(own.center_mass))), abs=2e-3)
    assert first == len(corners)


def test_box_is_exact(tmp_path: Path) -> None:
    """A box is 12 triangles with its exact volume and area, normals out along the axes."""
    root = Node(name="r", children=(Node(name="b", shape_key=1, placement=turned_about_z(90.0, (5.0, 0.0, 0.0))),))
    files = write_stl(
        tmp_path, root, {1: cq.Solid.makeBox(10.0, 20.0, 30.0)}, {1: "box"}, deflection_mm=1.0, angle_deg=20.0
    )
    mesh = _load(files.by_shape[1])
    assert (len(mesh.faces), len(mesh.vertices)) == (12, 8)
    assert (mesh.volume, mesh.area) == pytest.approx((6000.0, 2200.0))
    assert _load(files.whole).bounds == pytest.approx(np.array([[-15.0, 0.0, 0.0], [5.0, 10.0, 30.0]]), abs=1e-5)
    record = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
    raw = np.frombuffer(files.by_shape[1].read_bytes()[84:], dtype=record)
    outward = raw["corners"].mean(axis=1) - np.array([5.0, 10.0, 15.0])
    assert np.abs(raw["normal"]).max(axis=1) == pytest.approx(np.ones(12))
    assert (np.einsum("ij,ij->i", raw["normal"], outward) > 0.0).all()


def test_cylinder_is_the_prism_of_its_facets() -> None:
    """A meshed cylinder is a regular prism of n sides: n r^2 sin(2 pi/n)/2 by its height, and its area."""
    radius, height = 10.0, 40.0
    body = cq.Solid.makeCylinder(radius, height).wrapped
    mesh = solid_mesh(body, "rod", deflection_mm=DEFLECTION_MM, angle_deg=ANGLE_DEG)
    on_rim = mesh.vertices_mm[np.isclose(mesh.vertices_mm[:, 2], 0.0)]
    sides = len(on_rim)
    assert np.hypot(on_rim[:, 0], on_rim[:, 1]) == pytest.approx(np.full(sides, radius))
    section = sides * radius**2 * math.sin(2.0 * math.pi / sides) / 2.0
    girth = 2.0 * sides * radius * math.sin(math.pi / sides)
    assert mesh.volume_mm3 == pytest.approx(section * height, rel=1e-9)
    built = trimesh.Trimesh(mesh.vertices_mm, mesh.triangles, process=False)
    assert built.area == pytest.approx(2.0 * section + girth * height, rel=1e-9)
    assert radius * (1.0 - math.cos(math.pi / sides)) <= DEFLECTION_MM
    assert 360.0 / sides <= ANGLE_DEG + 1e-9


@pytest.mark.parametrize(("deflection_mm", "angle_deg"), [(0.5, 30.0), (0.05, 10.0), (0.01, 3.0)])
def test_finer_limits_come_closer_to_the_ball(deflection_mm: float, angle_deg: float) -> None:
    """A meshed ball lies within its sphere, no facet's middle further inside than twice the deflection."""
    body = cq.Solid.makeSphere(25.0, cq.Vector(0, 0, 0), cq.Vector(0, 0, 1), -90, 90, 360).wrapped
    mesh = solid_mesh(body, "ball", deflection_mm=deflection_mm, angle_deg=angle_deg)
    assert np.linalg.norm(mesh.vertices_mm, axis=1) == pytest.approx(np.full(len(mesh.vertices_mm), 25.0))
    middles = np.linalg.norm(mesh.vertices_mm[mesh.triangles].mean(axis=1), axis=1)
    assert 25.0 - middles.min() <= 2.0 * deflection_mm
    assert 0.0 < 4.0 / 3.0 * math.pi * 25.0**3 - mesh.volume_mm3 <= 4.0 * math.pi * 25.0**2 * 2.0 * deflection_mm


def test_solids_are_left_without_a_mesh() -> None:
    """Meshing leaves the solid as it was, so that a coarse mesh first changes nothing in a fine one later."""
    body = cq.Solid.makeCylinder(10.0, 40.0)
    fine = solid_mesh(body.wrapped, "rod", deflection_mm=0.01, angle_deg=3.0)
    coarse = solid_mesh(body.wrapped, "rod", deflection_mm=1.0, angle_deg=30.0)
    again = solid_mesh(body.wrapped, "rod", deflection_mm=0.01, angle_deg=3.0)
    assert len(coarse.triangles) < len(fine.triangles)
    assert np.array_equal(fine.vertices_mm, again.vertices_mm)
    assert np.array_equal(fine.triangles, again.triangles)


def test_files_are_equal_byte_for_byte(tmp_path: Path) -> None:
    """The same assembly gives the same files."""
    its = sample()
    files = [
        write_stl(tmp_path / name, its.root, its.shapes, its.names, deflection_mm=0.1, angle_deg=15.0)
        for name in ("a", "b")
    ]
    assert files[0].whole.read_bytes() == files[1].whole.read_bytes()


def _box_mesh() -> TriangleMesh:
    return solid_mesh(cq.Solid.makeBox(1.0, 2.0, 3.0).wrapped, "box", deflection_mm=1.0, angle_deg=20.0)


def test_open_meshes_are_counted() -> None:
    """A closed mesh has no open edges; one triangle taken away opens three, one turned over opens six."""
    whole = _box_mesh()
    lost = TriangleMesh(vertices_mm=whole.vertices_mm, triangles=whole.triangles[1:])
    turned = whole.triangles.copy()
    turned[0] = turned[0][::-1]
    assert whole.open_edges() == 0
    assert lost.open_edges() == 3
    assert TriangleMesh(vertices_mm=whole.vertices_mm, triangles=turned).open_edges() == 6


def test_watertight_check_finds_a_hole(tmp_path: Path) -> None:
    """The outside check used here calls a file with one triangle missing open."""
    whole = _box_mesh()
    lost = TriangleMesh(vertices_mm=whole.vertices_mm, triangles=whole.triangles[1:])
    (tmp_path / "a.stl").write_bytes(stl_bytes([lost]))
    assert not _load(tmp_path / "a.stl").is_watertight


def test_placed_mesh_turns_and_moves() -> None:
    """A placed mesh keeps its volume and stands where the placement puts each point."""
    mesh = _box_mesh()
    placed = mesh.placed(LEANING)
    assert placed.volume_mm3 == pytest.approx(6.0)
    assert placed.vertices_mm[3] == pytest.approx(LEANING.point(tuple(mesh.vertices_mm[3])))
    assert mesh.placed(at(1e4, 0.0, 0.0)).volume_mm3 == pytest.approx(6.0, rel=1e-6)


def _shell() -> cq.Shape:
    """A box without its lid, passed off as a solid."""
    faces = cq.Solid.makeBox(1.0, 2.0, 3.0).Faces()[1:]
    return cq.Solid.makeSolid(cq.Shell.makeShell(faces))


@pytest.mark.parametrize(
    ("shape", "deflection_mm", "angle_deg", "message"),
    [
        (_shell(), 1.0, 20.0, "mesh of 'odd' is not closed"),
        (cq.Shape.cast(cq.Solid.makeBox(1.0, 1.0, 1.0).wrapped.Reversed()), 1.0, 20.0, "inside out"),
        (cq.Solid.makeBox(1.0, 1.0, 1.0), 0.0, 20.0, "positive"),
        (cq.Solid.makeBox(1.0, 1.0, 1.0), 1.0, -1.0, "positive"),
    ],
)
def test_bad_solids_and_limits_are_refused(
    shape: cq.Shape, deflection_mm: float, angle_deg: float, message: str
) -> None:
    """An open solid, one turned inside out, and limits that are not positive are refused by name."""
    with pytest.raises(ValueError, match=message):
        solid_mesh(shape.wrapped, "odd", deflection_mm=deflection_mm, angle_deg=angle_deg)


def test_shape_called_model_does_not_take_the_whole_file(tmp_path: Path) -> None:
    """A shape whose name is that of the whole file gets another; no file is written twice."""
    root = Node(
        name="r", children=(Node(name="1", shape_key=1), Node(name="2", shape_key=1, placement=at(9.0, 0.0, 0.0)))
    )
    box = cq.Solid.makeBox(1.0, 2.0, 3.0)
    files = write_stl(tmp_path, root, {1: box}, {1: "Model"}, deflection_mm=1.0, angle_deg=20.0)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["Model-2.stl", "model.stl"]
    assert (len(_load(files.whole).faces), len(_load(files.by_shape[1]).faces)) == (24, 12)
