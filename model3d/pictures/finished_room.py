"""The finished room as a customer sees it: from above with the near walls cut down, ray-traced, no OpenGL."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from model3d.families.family import Family
from model3d.geometry.placement import at
from model3d.layout import Layout
from model3d.parts.room import WallSpec
from model3d.pictures.raytrace.surface import Boards, Rgb, Surface, TraceMesh
from model3d.pictures.raytrace.trace import trace_png
from model3d.pictures.raytrace.view import Settings
from model3d.pictures.raytrace.viewpoints import RoomPlan, Viewpoint, corner_view, daylight, overview
from model3d.rooms import CheckedPlan
from model3d.scene import Part, Scene
from model3d.solids.build import solid
from model3d.solids.mesh import solid_mesh

DEFLECTION_MM, ANGLE_DEG = 0.15, 12.0
UNSEEN = frozenset(
    {"door-swing", "clip", "o-ring", "bridge", "spigot", "hose", "elbow", "coupler", "bracket"}
)  # behind the faces
WOOD_FLOOR = Boards(length_mm=1900.0, width_mm=180.0)
SURFACES: dict[str, Surface] = {
    "casing": Surface(colour=(0.82, 0.81, 0.77), kind="satin"),
    "sill": Surface(colour=(0.82, 0.81, 0.77), kind="satin"),
    "window-frame": Surface(colour=(0.80, 0.80, 0.78), kind="satin"),
    "glass": Surface(colour=(0.35, 0.48, 0.56), kind="glass"),
    "door-leaf": Surface(colour=(0.62, 0.50, 0.36), kind="wood"),
    "valve-end": Surface(colour=(0.80, 0.80, 0.78), kind="satin"),
    "return-end": Surface(colour=(0.80, 0.80, 0.78), kind="satin"),
    "turn-back-end": Surface(colour=(0.80, 0.80, 0.78), kind="satin"),
    "cradle": Surface(colour=(0.35, 0.36, 0.38), kind="metal"),
    "obstacle": Surface(colour=(0.60, 0.42, 0.28), kind="satin"),
}


def room_picture(
    plan: CheckedPlan,
    layout: Layout,
    scene: Scene,
    family: Family,
    *,
    size_px: tuple[int, int] = (1600, 1000),
    settings: Settings | None = None,
) -> bytes:
    """The whole room from above as PNG."""
    return _picture(plan, scene, overview(room_plan(plan, layout, family), size_px=size_px), settings)


def corner_picture(
    plan: CheckedPlan,
    layout: Layout,
    scene: Scene,
    family: Family,
    corner: int,
    *,
    size_px: tuple[int, int] = (1600, 1000),
    settings: Settings | None = None,
) -> bytes:
    """A close view of the outer ring's corner of that number (from 0) as PNG.

    Raises ValueError when there is no place to look from.
    """
    return _picture(plan, scene, corner_view(room_plan(plan, layout, family), corner, size_px=size_px), settings)


def room_plan(plan: CheckedPlan, layout: Layout, family: Family) -> RoomPlan:
    """What a viewpoint is chosen from."""
    runs = tuple(
        tuple(p.wall.point_mm(s, family.section.front_u_mm) for p in run.pieces for s in (p.near_mm, p.far_mm))
        for run in layout.runs
    )
    return RoomPlan(
        outline=tuple(c.at_mm for c in plan.room.outer.corners),
        wall_height_mm=plan.room.height_mm,
        runs=runs,
        skirting_top_mm=family.section.floor_gap_mm + family.section.height_mm,
        wall_thickness_mm=plan.room.wall_thickness_mm,
    )


def _picture(plan: CheckedPlan, scene: Scene, viewpoint: Viewpoint, settings: Settings | None) -> bytes:
    cut = {plan.room.outer.walls[i].id for i in viewpoint.cut}
    parts = [kept for part in scene.parts for kept in _as_cut(part, cut, viewpoint.stub_mm)]
    meshes = [_mesh(part, plan, viewpoint.stub_mm if part.wall in cut else plan.room.height_mm) for part in parts]
    chosen = settings or Settings()
    return trace_png(meshes, viewpoint.view, replace(chosen, light=daylight(viewpoint.view)))


def _as_cut(part: Part, cut: set[str], stub_mm: float) -> tuple[Part, ...]:
    """The part as it stands once the walls named are cut down: walls lower, what hung on them above gone."""
    if part.role in UNSEEN:
        return ()
    if part.wall not in cut:
        return (part,)
    if isinstance(part.spec, WallSpec):
        return _stubs(part, part.spec, stub_mm)
    on_wall = part.role in ("casing", "sill", "window-frame", "glass", "door-leaf")
    high = part.role == "obstacle" and part.placement.origin_mm[2] > stub_mm
    return () if on_wall or high else (part,)


def _stubs(part: Part, wall: WallSpec, stub_mm: float) -> tuple[Part, ...]:
    """A wall cut down: one stub between each two openings that reach down to it."""
    gaps = sorted((h.start_mm, h.end_mm) for h in wall.holes if h.bottom_mm < stub_mm)
    starts = [0.0, *(end for _, end in gaps)]
    ends = [*(start for start, _ in gaps), wall.length_mm]
    found = []
    for number, (start, end) in enumerate(zip(starts, ends, strict=True)):
        spec = WallSpec(
            length_mm=end - start,
            height_mm=stub_mm,
            thickness_mm=wall.thickness_mm,
            back_start_mm=wall.back_start_mm if number == 0 else 0.0,
            back_end_mm=wall.back_end_mm - start if number == len(starts) - 1 else end - start,
            holes=(),
        )
        placement = part.placement @ at(start, 0.0, 0.0)
        found.append(replace(part, id=f"{part.id}/stub-{number + 1}", spec=spec, placement=placement))
    return tuple(found)


def _mesh(part: Part, plan: CheckedPlan, wall_top_mm: float) -> TraceMesh:
    made = solid_mesh(solid(part.spec).wrapped, part.id, deflection_mm=DEFLECTION_MM, angle_deg=ANGLE_DEG).placed(
        part.placement
    )
    surface = _surface(part, plan)
    caps = (wall_top_mm,) if part.role == "wall" else ()
    return TraceMesh(
        vertices=made.vertices_mm,
        triangles=made.triangles.astype(np.int32),
        surface=surface,
        origin_id=part.id,
        smooth=part.role in ("valve-end", "return-end", "turn-back-end", "piece", "trim", "end-cap", "dry-piece"),
        caps_mm=caps,
    )


def _surface(part: Part, plan: CheckedPlan) -> Surface:
    finish = plan.finish
    if part.role == "floor":
        return Surface(colour=linear(finish.floor), kind="wood-floor", boards=WOOD_FLOOR)
    if part.role == "wall":
        return Surface(colour=linear(finish.walls), kind="matt")
    return SURFACES.get(part.role) or Surface(colour=linear(finish.skirting), kind="satin")


def linear(colour: Rgb) -> Rgb:
    """sRGB (0 to 1) as linear light (IEC 61966-2-1)."""
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in colour)
    return (r, g, b)
