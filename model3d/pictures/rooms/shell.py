"""The room itself as meshes: floor, walls with paint inside and plaster outside, cut walls, ceiling."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache

import numpy as np
import numpy.typing as npt

from model3d.geometry.placement import at
from model3d.parts.kinds import Spec
from model3d.parts.room import SlabSpec, WallSpec
from model3d.pictures.raytrace.surface import Rgb, Surface, TraceMesh
from model3d.pictures.rooms.finishes import CUT, CUT_END, OUTSIDE, floor_surface, paint
from model3d.rooms import CheckedPlan
from model3d.scene import Part, Scene
from model3d.solids.build import solid
from model3d.solids.mesh import TriangleMesh, solid_mesh

DEFLECTION_MM, ANGLE_DEG = 0.15, 12.0
CEILING_MM = 30.0
CEILING_COLOUR: Rgb = (0.80, 0.79, 0.77)
_FLAT = 0.99


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """How much of a room a picture shows.

    ``cut`` are walls (ids) cut down to ``stub_mm``; ``unseen`` are walls that stand behind the eye: they shade, and
    are not seen. ``ceiling_glow`` (linear RGB) is the light a ceiling gives; None leaves the ceiling off. ``before``
    shows the room as it was.
    """

    cut: frozenset[str] = frozenset()
    stub_mm: float = 0.0
    unseen: frozenset[str] = frozenset()
    left_out: frozenset[str] = frozenset()
    ceiling_glow: Rgb | None = None
    before: bool = False


def part_mesh(part: Part) -> TriangleMesh:
    """The mesh of a part in its own frame; equal specs share one."""
    return _spec_mesh(part.spec)


@cache
def _spec_mesh(spec: Spec) -> TriangleMesh:
    return solid_mesh(solid(spec).wrapped, type(spec).__name__, deflection_mm=DEFLECTION_MM, angle_deg=ANGLE_DEG)


def shell_meshes(plan: CheckedPlan, scene: Scene, shown: Shown) -> Iterator[TraceMesh]:
    """Floor, walls and columns, and the ceiling where it is asked for."""
    colour = plan.before.walls if shown.before and plan.before.walls is not None else plan.finish.walls
    for part in scene.parts:
        if part.role == "floor":
            yield _mesh(part, floor_surface(plan.finish))
            if shown.ceiling_glow is not None and isinstance(part.spec, SlabSpec):
                yield _ceiling(part, part.spec, plan.room.height_mm, shown.ceiling_glow)
        elif part.role == "wall" and isinstance(part.spec, WallSpec):
            seen = part.wall not in shown.unseen
            for piece in _stubs(part, part.spec, shown.stub_mm) if part.wall in shown.cut else (part,):
                yield from _wall_meshes(piece, paint(colour), in_view=seen)
        elif part.role == "wall":
            top = (plan.room.height_mm,)
            yield replace(_mesh(part, replace(paint(colour), cap_colour=CUT)), caps_mm=top)


def _mesh(part: Part, surface: Surface) -> TraceMesh:
    made = part_mesh(part).placed(part.placement)
    return TraceMesh(
        vertices=made.vertices_mm, triangles=made.triangles.astype(np.int32), surface=surface, origin_id=part.id
    )


def _ceiling(floor: Part, spec: SlabSpec, height_mm: float, glow: Rgb) -> TraceMesh:
    part = replace(
        floor, id="room/ceiling", spec=replace(spec, thickness_mm=CEILING_MM), placement=at(0.0, 0.0, height_mm)
    )
    return _mesh(part, Surface(colour=CEILING_COLOUR, kind="matt", glow=glow))


def _stubs(part: Part, wall: WallSpec, stub_mm: float) -> Iterator[Part]:
    """A wall cut down: one stub between each two openings that reach down to it."""
    gaps = sorted((h.start_mm, h.end_mm) for h in wall.holes if h.bottom_mm < stub_mm)
    starts = [0.0, *(end for _, end in gaps)]
    ends = [*(start for start, _ in gaps), wall.length_mm]
    for number, (start, end) in enumerate(zip(starts, ends, strict=True)):
        spec = WallSpec(
            length_mm=end - start,
            height_mm=stub_mm,
            thickness_mm=wall.thickness_mm,
            back_start_mm=wall.back_start_mm if number == 0 else 0.0,
            back_end_mm=wall.back_end_mm - start if number == len(starts) - 1 else end - start,
            holes=(),
            face=wall.face_between(start, end),
        )
        yield replace(
            part, id=f"{part.id}/stub-{number + 1}", spec=spec, placement=part.placement @ at(start, 0.0, 0.0)
        )


def _wall_meshes(part: Part, inside: Surface, *, in_view: bool) -> Iterator[TraceMesh]:
    """A wall by its faces: paint on the room's side and in the reveals, plaster behind, the cut on top and ends."""
    wall = part.spec
    assert isinstance(wall, WallSpec)
    made = part_mesh(part)
    placed = made.placed(part.placement)
    faces = _faces(made, wall)
    looks = {
        "inside": inside,
        "outside": Surface(colour=OUTSIDE, kind="matt"),
        "cut": Surface(colour=CUT, kind="matt"),
        "end": Surface(colour=CUT_END, kind="matt"),
    }
    for name, chosen in faces.items():
        if chosen.any():
            yield TraceMesh(
                vertices=placed.vertices_mm,
                triangles=made.triangles[chosen].astype(np.int32),
                surface=looks[name],
                origin_id=part.id,
                in_view=in_view,
            )


def _faces(made: TriangleMesh, wall: WallSpec) -> dict[str, npt.NDArray[np.bool_]]:
    """Which triangles of a wall, in its own frame, are its room side, its back, its top, its mitred ends."""
    corners = made.vertices_mm[made.triangles]
    normal = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    normal /= np.maximum(np.linalg.norm(normal, axis=1, keepdims=True), 1e-12)
    middle = corners.mean(axis=1)
    back = (normal[:, 1] < -_FLAT) & (middle[:, 1] < -wall.thickness_mm + 1.0)
    top = (normal[:, 2] > _FLAT) & (middle[:, 2] > wall.height_mm - 1.0)
    in_hole = np.zeros(len(middle), np.bool_)
    for hole, _ in wall.cut_outs:
        in_hole |= (middle[:, 0] > hole.start_mm - 1.0) & (middle[:, 0] < hole.end_mm + 1.0)
    end = ~back & ~top & ~in_hole & (np.abs(normal[:, 1]) < _FLAT) & (np.abs(normal[:, 2]) < 0.5)
    return {"inside": ~(back | top | end), "outside": back, "cut": top, "end": end}
