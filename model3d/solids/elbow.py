"""The elbow: two grooved legs and the body round the bend between them."""

from __future__ import annotations

import math

import cadquery as cq
from OCP.BRepPrimAPI import BRepPrimAPI_MakeRevol
from OCP.gp import gp_Ax1, gp_Dir, gp_Pnt
from OCP.TopoDS import TopoDS_Shape

from model3d.geometry.outline import Outline
from model3d.geometry.placement import Placement, turned_about_z
from model3d.parts.fittings import ElbowSpec
from model3d.solids.legs import leg_skin
from model3d.solids.outlines import ACROSS, obround_outline, wire
from model3d.solids.placing import location
from model3d.solids.skins import sewn, step
from model3d.solids.sound import SolidError


def elbow(spec: ElbowSpec) -> cq.Solid:
    """One elbow, mm: the long leg along -x from the datum, the bend toward +y, the short leg beyond it.

    Raises SolidError when the body is as thick as the bend is tight, or the legs' grooves do not fit.
    """
    if not 0.0 < spec.turn_deg <= 180.0:
        raise SolidError(f"elbow: a turn of {spec.turn_deg} degrees; it must lie above 0 and up to 180")
    if not spec.bend_radius_mm > spec.body.width_mm / 2.0:
        raise SolidError(
            f"elbow: a bend of {spec.bend_radius_mm} mm, no more than half its body, {spec.body.width_mm / 2.0} mm"
        )
    body, outside = obround_outline(spec.body), obround_outline(spec.leg.outside)
    shoulder = step(body, outside, 0.0)
    long_root, short_root = turned_about_z(180.0), bend_end(spec)
    return sewn(
        [
            _bent(body, spec),
            _bent(obround_outline(spec.leg.passage), spec),
            shoulder,
            *_placed([shoulder, *leg_skin(spec.leg, spec.short_leg_mm)], short_root),
            *_placed(leg_skin(spec.leg, spec.long_leg_mm), long_root),
        ],
        "elbow",
    )


def bend_end(spec: ElbowSpec) -> Placement:
    """The root of the short leg in the elbow's frame: x along the leg to its tip."""
    turn = math.radians(spec.turn_deg)
    r = spec.bend_radius_mm
    return turned_about_z(spec.turn_deg, (r * math.sin(turn), r * (1.0 - math.cos(turn)), 0.0))


def _bent(outline: Outline, spec: ElbowSpec) -> TopoDS_Shape:
    """The outline carried round the bend: cylinders and tori."""
    axis = gp_Ax1(gp_Pnt(0.0, spec.bend_radius_mm, 0.0), gp_Dir(0.0, 0.0, 1.0))
    return BRepPrimAPI_MakeRevol(wire(outline, ACROSS), axis, math.radians(spec.turn_deg)).Shape()


def _placed(faces: list[TopoDS_Shape], root: Placement) -> list[TopoDS_Shape]:
    """The faces moved to a root."""
    return [face.Moved(location(root).wrapped) for face in faces]
