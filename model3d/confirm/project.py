"""Do the solids confirm the arithmetic?"""

from __future__ import annotations

from collections.abc import Callable

import cadquery as cq

from model3d.confirm.compare import Closeness, compare
from model3d.confirm.measure import measure
from model3d.confirm.values import Measured, PlacedBody, WallLine
from model3d.confirm.volumes import volume_findings
from model3d.findings import Finding
from model3d.layout import Layout
from model3d.parts.kinds import Spec
from model3d.rooms import Room
from model3d.scene import Part, Scene
from model3d.solids.build import solid

CLOSE = Closeness()


def confirm_project(
    room: Room,
    layout: Layout,
    scene: Scene,
    *,
    closeness: Closeness = CLOSE,
    solid_of: Callable[[Spec], cq.Solid] = solid,
) -> tuple[Finding, ...]:
    """What the solids of a scene, measured where they stand, do not confirm of its layout; nothing when they
    confirm it all.

    Every piece's cut faces from the corners, the insertion of every leg, the gap at every joint, within
    ``closeness.length_mm``; every volume that has a closed form within ``closeness.volume_share``.
    """
    found = compare(measure_scene(room, scene, solid_of=solid_of), layout, closeness)
    return found + volume_findings(scene.parts, solid_of, volume_share=closeness.volume_share)


def measure_scene(room: Room, scene: Scene, *, solid_of: Callable[[Spec], cq.Solid] = solid) -> Measured:
    """The solids of a scene measured from the corners of its room."""
    return measure((_body(p, solid_of(p.spec)) for p in scene.fitted), wall_lines(room))


def wall_lines(room: Room) -> tuple[WallLine, ...]:
    """Every wall of every ring by its two corners."""
    return tuple(
        WallLine(id=w.id, first_mm=w.first_corner.at_mm, last_mm=w.last_corner.at_mm) for w in room.walls
    )


def _body(part: Part, body: cq.Solid) -> PlacedBody:
    return PlacedBody(
        id=part.id,
        role=part.role,
        solid=body,
        placement=part.placement,
        wall=part.wall,
        piece=part.piece,
        joint=part.joint,
    )
