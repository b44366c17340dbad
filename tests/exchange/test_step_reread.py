"""STEP files, read back by the CAD kernel and by CadQuery, as another program would."""

from __future__ import annotations

from pathlib import Path

import cadquery as cq
import pytest

from model3d.exchange.assembly import Node, placed_leaves, shape_colours
from model3d.exchange.step import write_step
from model3d.geometry.placement import at

from .sample import NAMES, VOLUMES_MM3, sample
from .step_faults import step_faults
from .step_reread import read_leaves, solid_faults

STAMP = "2024-02-29T12:00:00"


def _written(path: Path, root: Node, shapes: dict[str, cq.Shape]) -> Path:
    write_step(path, root, shapes, NAMES, time_stamp=STAMP)
    return path


def test_solids_come_back(tmp_path: Path) -> None:
    """Every leaf comes back as one valid solid in its place, its volume within a millionth."""
    its = sample()
    path = _written(tmp_path / "süd ü.step", its.root, its.shapes)
    assert solid_faults(path, its.root, its.shapes) == []
    assert all(solid.isValid() for solid in cq.importers.importStep(str(path)).solids().vals())


def test_volumes_are_the_closed_forms(tmp_path: Path) -> None:
    """What is read back has the volume of its closed form, not only that of the solid handed over."""
    its = sample()
    solids = cq.importers.importStep(str(_written(tmp_path / "a.step", its.root, its.shapes))).solids().vals()
    wanted = sorted(VOLUMES_MM3[str(leaf.shape_key)] for leaf in placed_leaves(its.root))
    assert sorted(solid.Volume() for solid in solids) == pytest.approx(wanted, rel=1e-6)


def test_checker_finds_a_long_solid(tmp_path: Path) -> None:
    """A solid that was written .05 mm too long is found, at each place it stands."""
    its = sample()
    long = its.shapes | {"bracket": cq.Solid.makeBox(40.0, 6.0, 100.05)}
    faults = solid_faults(_written(tmp_path / "a.step", its.root, long), its.root, its.shapes)
    assert len(faults) == 3
    assert all("bracket 1" in fault for fault in faults)


def test_checker_finds_a_wrong_volume(tmp_path: Path) -> None:
    """A solid whose volume is two millionths off about the same centre is found."""
    its = sample()
    wider = its.shapes | {"bracket": cq.Solid.makeBox(40.0 * 1.000002, 6.0, 100.0, cq.Vector(-40e-6, 0.0, 0.0))}
    faults = solid_faults(_written(tmp_path / "a.step", its.root, wider), its.root, its.shapes)
    assert [fault.split(":")[0] for fault in faults] == [
        "volume of run 1/wall 1/bracket 1",
        "volume of run 1/wall 2/bracket 1",
        "volume of run 2/wall 1/bracket 1",
    ]


def test_checker_finds_a_moved_or_missing_solid(tmp_path: Path) -> None:
    """A leaf that stands .01 mm off, and one that is not there, are found."""
    its = sample()
    leaf = Node(name="1", shape_key="tube", placement=at(5.0, 0.0, 0.0))
    other = Node(name="2", shape_key="tube", placement=at(105.0, 0.0, 0.0))
    off = Node(name="2", shape_key="tube", placement=at(105.01, 0.0, 0.0))
    wanted = Node(name="r", children=(leaf, other))
    moved = _written(tmp_path / "a.step", Node(name="r", children=(leaf, off)), its.shapes)
    assert solid_faults(moved, wanted, its.shapes) == ["no solid where 2 is"]
    lost = _written(tmp_path / "b.step", Node(name="r", children=(leaf,)), its.shapes)
    assert solid_faults(lost, wanted, its.shapes) == ["1 solids for 2", "no solid where 2 is"]


def test_kernel_reads_names_and_colours(tmp_path: Path) -> None:
    """Another reader finds the names at every level, in any script, and the colour of each leaf."""
    its = sample()
    colours = shape_colours(its.root)
    got = read_leaves(_written(tmp_path / "a.step", its.root, its.shapes))
    leaves = list(placed_leaves(its.root))
    assert [read.path for read in got] == [(its.root.name, *leaf.path) for leaf in leaves]
    assert [read.product for read in got] == [NAMES[str(leaf.shape_key)] for leaf in leaves]
    for read, leaf in zip(got, leaves, strict=True):
        wanted = leaf.colour or colours.get(leaf.shape_key)
        assert (read.colour is None) == (wanted is None)
        assert read.colour is None or read.colour == pytest.approx(wanted, abs=1e-3)


@pytest.mark.parametrize(
    "name", ["a', b", "(a')", "'", "', '", "''", "a'' , b", "\\X2\\", "a\\", "x; /* y */ #1=", "😀 é", "水路"]
)
def test_kernel_reads_awkward_names(tmp_path: Path, name: str) -> None:
    """Quotes, backslashes and what looks like syntax come back as they were, in any script."""
    root = Node(name=f"{name}0", children=(Node(name=name, shape_key="tube"),))
    write_step(tmp_path / "a.step", root, sample().shapes, {"tube": name}, time_stamp=STAMP)
    (read,) = read_leaves(tmp_path / "a.step")
    assert (read.path, read.product) == ((f"{name}0", name), name)


def test_moved_solids_keep_their_place(tmp_path: Path) -> None:
    """A solid that was built and then moved stands where it was moved to, in the frame of its leaf."""
    moved = cq.Solid.makeBox(40.0, 6.0, 100.0).moved(cq.Location((3.0, 2.0, 1.0), (0.0, 0.0, 1.0), 30.0))
    root = Node(name="r", children=(Node(name="1", shape_key="bracket", placement=at(1000.0, 0.0, 0.0)),))
    path = _written(tmp_path / "a.step", root, {"bracket": moved})
    assert step_faults(path.read_text(encoding="ascii"), root, NAMES) == []
    assert solid_faults(path, root, {"bracket": moved}) == []
    (solid,) = cq.importers.importStep(str(path)).solids().vals()
    box, was = solid.BoundingBox(), moved.BoundingBox()
    assert (box.xmin, box.ymin, box.zmin) == pytest.approx((was.xmin + 1000.0, was.ymin, was.zmin), abs=1e-6)


def test_copies_of_a_solid_moved_apart_are_two_shapes(tmp_path: Path) -> None:
    """Two shapes made by moving one solid are two bodies, each where it was moved to."""
    plate = cq.Solid.makeBox(40.0, 6.0, 100.0)
    shapes = {"bracket": plate, "block": plate.moved(cq.Location((0.0, 50.0, 0.0)))}
    root = Node(name="r", children=tuple(Node(name=key, shape_key=key) for key in shapes))
    path = _written(tmp_path / "a.step", root, shapes)
    assert step_faults(path.read_text(encoding="ascii"), root, NAMES) == []
    assert solid_faults(path, root, shapes) == []
