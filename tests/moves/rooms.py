"""A small room for each family, with its steps; thin rods planted in it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cache

from model3d.families.family import Family
from model3d.geometry.placement import Placement, at
from model3d.layout import Layout, Piece
from model3d.moves import Shapes, steps_as_moved
from model3d.moves.sites import sites
from model3d.moves.ways import Site
from model3d.parts.room import CylinderSpec
from model3d.scene import Part, Scene
from model3d.steps import Step
from tests.layout.every_joint import FAMILIES, family_of
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over
from tests.steps.planned import planned

ROD_MM = 1.5
ELBOW_FAMILIES = tuple(name for name in FAMILIES if family_of(name).elbow is not None)


@dataclass(frozen=True)
class Fitting:
    """A room laid out, with its steps and the meshes kept for its family."""

    family: Family
    layout: Layout
    scene: Scene
    steps: tuple[Step, ...]
    shapes: Shapes

    def sites(self) -> list[Site]:
        """Every step with what stands before it."""
        return sites(self.layout, self.scene, self.steps, self.shapes)

    def as_moved(self) -> tuple[Step, ...]:
        """The steps by approaches that are free."""
        return steps_as_moved(self.layout, self.scene, self.steps, self.family, shapes=self.shapes)

    def site(self, mark: str) -> Site:
        """The step that puts a piece up."""
        return next(s for s in self.sites() if mark in s.marks)

    def piece(self, mark: str) -> Piece:
        """A piece by its mark."""
        return next(p for p in self.layout.pieces if p.mark == mark)

    def beside(self, *things: Part) -> Fitting:
        """The same with more things in the room."""
        return replace(self, scene=Scene(parts=(*things, *self.scene.parts)))


@cache
def shapes_of(name: str) -> Shapes:
    """Meshes of a family's parts, kept for all tests."""
    return Shapes(family=family_of(name))


@cache
def three_walls(name: str, sense: int = 1) -> Fitting:
    """A run over three walls of a room 2400 by 2000: r-1 with the valve, r-2 between two corners, r-3 with the return
    end and room beyond it.
    """
    ring = ring_of([(0.0, 0.0), (2400.0, 0.0), (2400.0, 2000.0), (0.0, 2000.0)])
    start, end = (500.0, 1900.0) if sense > 0 else (1900.0, 500.0)
    run = run_over(ring, 1 if sense > 0 else 3, 3, sense=sense, start_at=start, end_at=end)
    family, layout, scene, steps = planned(plan_of(ring, run), family_of(name))
    return Fitting(family=family, layout=layout, scene=scene, steps=steps, shapes=shapes_of(name))


def rod(
    piece: Piece, along_mm: float, out_mm: float, *, low_mm: float = 0.0, high_mm: float = 400.0, name: str = "rod"
) -> Part:
    """An upright rod 3 mm thick: so far along the run from a piece's near cut face, so far out from its wall."""
    x, y = piece.wall.point_mm(piece.near_mm + piece.sense * along_mm, out_mm)
    return _obstacle(name, high_mm - low_mm, at(x, y, low_mm))


def lying_rod(piece: Piece, along_mm: float, out_mm: float, up_mm: float, length_mm: float) -> Part:
    """A rod 3 mm thick that points out from the wall, from so far out."""
    x, y = piece.wall.point_mm(piece.near_mm + piece.sense * along_mm, out_mm)
    n = piece.wall.normal
    frame = Placement(
        origin_mm=(x, y, up_mm), x_axis=(n[1], -n[0], 0.0), y_axis=(0.0, 0.0, 1.0), z_axis=(-n[0], -n[1], 0.0)
    )
    turned = Placement(origin_mm=(x, y, up_mm), x_axis=frame.x_axis, y_axis=(0.0, 0.0, -1.0), z_axis=(n[0], n[1], 0.0))
    return _obstacle("lying-rod", length_mm, turned)


def _obstacle(name: str, length_mm: float, placement: Placement) -> Part:
    spec = CylinderSpec(radius_mm=ROD_MM, length_mm=length_mm)
    return Part(id=f"room/{name}", name=name, role="obstacle", spec=spec, placement=placement, obstacle=name)


def without(site: Site, gone: Iterable[Part]) -> Site:
    """The step with some parts not standing."""
    ids = {p.id for p in gone}
    return replace(site, standing=tuple(p for p in site.standing if p.id not in ids))
