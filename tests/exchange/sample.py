"""A small assembly to write and read back: run / wall / piece, turned and moved at every level."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache

import cadquery as cq

from model3d.exchange.assembly import Node
from model3d.geometry.placement import Placement, at, turned_about_z

ALUMINIUM = (0.74, 0.75, 0.77)
BRASS = (0.71, 0.55, 0.26)
MARKED = (0.9, 0.35, 0.1)

NAMES = {
    "piece": "Piece 1200 é",
    "bracket": "Bracket",
    "tube": "Rohr Ø20 'außen' \\ 水路",
    "block": "Valve block",
}
# Closed forms: the piece a box with a bore through it, the bracket a box, the tube a ring, the block a box
# with a closed ball-shaped chamber in it.
VOLUMES_MM3 = {
    "piece": 1200.0 * 22.0 * 140.0 - math.pi * 36.0 * 1200.0,
    "bracket": 40.0 * 6.0 * 100.0,
    "tube": math.pi * (100.0 - 64.0) * 80.0,
    "block": 50.0 * 40.0 * 60.0 - 4.0 / 3.0 * math.pi * 1000.0,
}
AREAS_MM2 = {
    "piece": 2.0 * (1200.0 * 22.0 + 1200.0 * 140.0 + 22.0 * 140.0)
    - 2.0 * math.pi * 36.0
    + 2.0 * math.pi * 6.0 * 1200.0,
    "bracket": 2.0 * (40.0 * 6.0 + 40.0 * 100.0 + 6.0 * 100.0),
    "tube": 2.0 * math.pi * (100.0 - 64.0) + 2.0 * math.pi * (10.0 + 8.0) * 80.0,
    "block": 2.0 * (50.0 * 40.0 + 50.0 * 60.0 + 40.0 * 60.0) + 4.0 * math.pi * 100.0,
}


@dataclass(frozen=True)
class Sample:
    """The tree, its solids and their names."""

    root: Node
    shapes: dict[str, cq.Shape]
    names: dict[str, str]


@cache
def _solids() -> tuple[tuple[str, cq.Shape], ...]:
    bore = cq.Solid.makeCylinder(6.0, 1200.0, cq.Vector(0.0, 11.0, 70.0), cq.Vector(1.0, 0.0, 0.0))
    chamber = cq.Solid.makeSphere(10.0, cq.Vector(25.0, 20.0, 30.0), cq.Vector(0, 0, 1), -90, 90, 360)
    return (
        ("piece", cq.Solid.makeBox(1200.0, 22.0, 140.0).cut(bore)),
        ("bracket", cq.Solid.makeBox(40.0, 6.0, 100.0)),
        ("tube", cq.Solid.makeCylinder(10.0, 80.0).cut(cq.Solid.makeCylinder(8.0, 80.0))),
        ("block", cq.Solid.makeBox(50.0, 40.0, 60.0).cut(chamber)),
    )


LYING = Placement(x_axis=(0.0, 1.0, 0.0), y_axis=(0.0, 0.0, 1.0), z_axis=(1.0, 0.0, 0.0))
LEANING = Placement(
    origin_mm=(-31.25, 1e4 / 3.0, 0.1),
    x_axis=(2.0 / 3.0, 2.0 / 3.0, 1.0 / 3.0),
    y_axis=(-2.0 / 3.0, 1.0 / 3.0, 2.0 / 3.0),
    z_axis=(1.0 / 3.0, -2.0 / 3.0, 2.0 / 3.0),
)


def _wall(name: str, turn_deg: float, x_mm: float, y_mm: float, *, marked: bool) -> Node:
    return Node(
        name=name,
        placement=turned_about_z(turn_deg, (x_mm, y_mm, 0.0)),
        children=(
            Node(name="piece 1", shape_key="piece", placement=at(51.0, 6.0, 8.0), colour=ALUMINIUM),
            Node(
                name="Stück 2",
                shape_key="piece",
                placement=turned_about_z(180.0, (2500.0, 28.0, 8.0)),
                colour=MARKED if marked else ALUMINIUM,
            ),
            Node(name="bracket 1", shape_key="bracket", placement=at(151.0, 0.0, 8.0)),
            Node(name="tube", shape_key="tube", placement=at(1251.5, 17.0, 48.0) @ LYING, colour=BRASS),
        ),
    )


def sample() -> Sample:
    """Two runs of two walls and one wall, one of them leaning, 13 leaves of 4 shapes."""
    root = Node(
        name="Room: 'Süd', 50 % \\ 南",
        children=(
            Node(
                name="run 1",
                placement=at(0.0, 0.0, 2.0),
                children=(
                    _wall("wall 1", 0.0, 0.0, 0.0, marked=False),
                    _wall("wall 2", 92.5, 4000.0, 0.0, marked=True),
                ),
            ),
            Node(
                name="run 2",
                placement=LEANING,
                children=(
                    _wall("wall 1", -135.0, 7000.25, 5000.0, marked=True),
                    Node(name="valve end", shape_key="block", placement=at(-95.0, 0.0, 0.0)),
                ),
            ),
        ),
    )
    return Sample(root=root, shapes=dict(_solids()), names=NAMES)
