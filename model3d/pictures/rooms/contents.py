"""What is in the room as meshes: the run, the joinery, what is on the walls, furniture, and the room as it was."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from model3d.geometry.placement import Placement
from model3d.parts.room import CylinderSpec
from model3d.pictures.raytrace.surface import Rgb, Surface, TraceMesh
from model3d.pictures.rooms.finishes import enamel, look_surface
from model3d.pictures.rooms.shape_meshes import shape_mesh
from model3d.pictures.rooms.shell import Shown, part_mesh
from model3d.rooms import CheckedPlan, Door
from model3d.rooms.furniture import Furniture
from model3d.scene import Part, Scene
from model3d.scene.furniture import Element, furniture_elements
from model3d.scene.furniture.as_it_was import old_room
from model3d.scene.furniture.joinery import door_elements, panes, window_elements

SKIRTING_ROLES = frozenset({"piece", "dry-piece", "trim", "end-cap"})
END_ROLES = frozenset({"valve-end", "return-end", "turn-back-end", "cradle"})
FURNITURE = "furniture/"
"""What the origin ids of furniture begin with."""
WHITE: Rgb = (0.93, 0.93, 0.91)
GLASS = Surface(colour=(0.80, 0.88, 0.92), kind="glass")
_OBSTACLES: dict[str, Surface] = {
    "shelf": Surface(colour=(0.42, 0.27, 0.15), kind="wood"),
    "sill": Surface(colour=(0.82, 0.81, 0.77), kind="satin"),
    "box": Surface(colour=(0.72, 0.70, 0.66), kind="satin"),
}


def run_meshes(plan: CheckedPlan, scene: Scene, shown: Shown) -> Iterator[TraceMesh]:
    """What is seen of the runs and the dry pieces: faces, trims, caps, end fittings. Origin ids are the parts'."""
    skirting = enamel(plan.finish.skirting)
    for part in scene.parts:
        if part.wall in shown.unseen:
            continue
        if part.role in SKIRTING_ROLES:
            yield _part(part, skirting, smooth=True)
        elif part.role in END_ROLES:
            yield _part(
                part,
                Surface(colour=(0.55, 0.56, 0.57), kind="metal") if part.role == "cradle" else enamel(WHITE),
                smooth=True,
            )


def wall_things(plan: CheckedPlan, scene: Scene, shown: Shown) -> Iterator[TraceMesh]:
    """Casings, doors, windows, and the plan's obstacles, but for what hangs on walls that are cut or not seen."""
    gone = shown.cut | shown.unseen
    fixed = {f.id for f in plan.furniture if f.fixed}
    kinds = {o.id: getattr(o, "kind", "") for o in plan.room.obstacles}
    for part in scene.parts:
        if part.role == "casing" and part.wall not in gone:
            yield _part(part, enamel(WHITE))
        elif part.role == "obstacle" and part.obstacle not in fixed and not part.id.endswith("/back-box"):
            if part.wall in gone and (part.wall in shown.unseen or part.placement.origin_mm[2] > shown.stub_mm):
                continue
            plain = Surface(colour=(0.80, 0.79, 0.76), kind="satin")
            yield _part(
                part,
                _OBSTACLES.get(kinds.get(part.obstacle or "", ""), plain),
                smooth=isinstance(part.spec, CylinderSpec),
            )
    yield from _joinery(plan, gone)


def _joinery(plan: CheckedPlan, gone: frozenset[str]) -> Iterator[TraceMesh]:
    from model3d.scene.room_parts import wall_thickness_mm

    thick = wall_thickness_mm(plan.room)
    for opening in plan.room.openings:
        frame, name = plan.room.wall(opening.wall_id).frame, f"room/{opening.id}"
        if isinstance(opening, Door):
            for element in door_elements(opening, thick):
                if opening.wall_id not in gone or element.look.material == "wood":  # a threshold stays
                    yield element_mesh(element.within(frame), name)
        elif opening.wall_id not in gone:
            for element in window_elements(opening, thick):
                yield element_mesh(element.within(frame), name)
            for pane in panes(opening, thick):
                yield _glass(pane, frame, name)


def _glass(pane: Element, frame: Placement, name: str) -> TraceMesh:
    made = element_mesh(pane.within(frame), f"{name}/glass")
    return TraceMesh(vertices=made.vertices, triangles=made.triangles, surface=GLASS, origin_id=made.origin_id)


def furniture_meshes(plan: CheckedPlan, shown: Shown) -> Iterator[TraceMesh]:
    """The furniture, but for what stands against a wall that is not seen or hangs on one that is cut."""
    for piece in plan.furniture:
        if not is_left_out(piece, shown):
            for element in furniture_elements(piece):
                yield element_mesh(element, FURNITURE + piece.id)


def is_left_out(piece: Furniture, shown: Shown) -> bool:
    """Whether a picture leaves a piece out."""
    hung = piece.kind == "picture"
    return piece.id in shown.left_out or piece.wall_id in shown.unseen or (hung and piece.wall_id in shown.cut)


def before_meshes(plan: CheckedPlan, shown: Shown) -> Iterator[TraceMesh]:
    """The old skirting board and radiators, but for those on a wall that is not seen."""
    for wall, element in old_room(plan):
        if wall not in shown.unseen:
            yield element_mesh(element, f"before/{wall}")


def element_mesh(element: Element, name: str) -> TraceMesh:
    """One element where it stands in the room."""
    vertices, triangles = shape_mesh(element.shape)
    p = element.placement
    moved = vertices @ np.array([p.x_axis, p.y_axis, p.z_axis]) + np.array(p.origin_mm)
    return TraceMesh(
        vertices=moved, triangles=triangles, surface=look_surface(element.look), origin_id=name, smooth=True
    )


def _part(part: Part, surface: Surface, *, smooth: bool = False) -> TraceMesh:
    made = part_mesh(part).placed(part.placement)
    return TraceMesh(
        vertices=made.vertices_mm,
        triangles=made.triangles.astype(np.int32),
        surface=surface,
        origin_id=part.id,
        smooth=smooth,
    )
