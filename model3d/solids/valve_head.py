"""The round head of a thermostatic valve (EN 215) and the neck it is screwed to."""

from __future__ import annotations

import math

import cadquery as cq

from model3d.geometry.outline import Outline, Segment, polygon
from model3d.geometry.placement import Placement
from model3d.parts.ends import ValveEndSpec
from model3d.solids.end_block import beyond
from model3d.solids.joining import cut
from model3d.solids.simple_bodies import rod, turned
from model3d.solids.sound import SolidError
from model3d.solids.tail import hexagon

_FLUTES = 16
_FLUTE = 0.12  # a flute's radius over the head's
_DOME, _SHOULDER = 1.8, 0.22  # radii of the domed end and of the shoulder round it, over the head's
_SUNK_MM = 2.0


def neck_parts(spec: ValveEndSpec) -> list[cq.Solid]:
    """The neck between block and head: a round stem let into the block, and a union nut round it, no wider
    than the neck's radius.
    """
    length, radius = spec.neck_length_mm, spec.neck_radius_mm
    if length <= 0.0 or radius <= 0.0:
        raise SolidError(f"a neck of radius {radius:g} and length {length:g} mm has no body")
    axis = _axis(spec, -_SUNK_MM - length)
    stem = turned(
        polygon((0.0, 0.0), (length + _SUNK_MM, 0.0), (length + _SUNK_MM, 0.8 * radius), (0.0, 0.8 * radius)),
        axis,
    )
    flat = _axis(spec, -0.85 * length)
    plane = Placement(origin_mm=flat.origin_mm, x_axis=flat.y_axis, y_axis=flat.z_axis, z_axis=flat.x_axis)
    return [stem, hexagon(plane, radius * math.cos(math.radians(30.0)), 0.6 * length)]


def head(spec: ValveEndSpec) -> cq.Solid:
    """The head: a plain collar, a groove, a fluted grip and a domed end, as long and as wide as the spec
    says.

    Raises SolidError when it is under .8 of its radius long (no room for grip and dome).
    """
    length, r = spec.head_length_mm, spec.head_radius_mm
    if not (r > 0.0 and length >= 0.8 * r):
        raise SolidError(
            f"a head of radius {r:g} mm and length {length:g} mm has no room for its grip and dome"
        )
    whole = turned(_section(length, r), _axis(spec, 0.0))
    axis = _axis(spec, 0.27 * length)
    flutes = [_flute(axis, 2.0 * math.pi * (i + 0.5) / _FLUTES, r, length) for i in range(_FLUTES)]
    return cut(whole, flutes, "valve head")


def _axis(spec: ValveEndSpec, along_mm: float) -> Placement:
    """A frame on the head's axis, ``along_mm`` past the neck's outer end, x away from the piece."""
    hand = spec.block.hand
    x = beyond(spec.block, spec.block.block_end_mm + spec.neck_length_mm + along_mm)
    return Placement(
        origin_mm=(x, spec.head_u_mm, spec.head_v_mm),
        x_axis=(float(-hand), 0.0, 0.0),
        y_axis=(0.0, 0.0, 1.0),
        z_axis=(0.0, float(hand), 0.0),
    )


def _flute(axis: Placement, angle_rad: float, head_radius_mm: float, length_mm: float) -> cq.Solid:
    """One hollow along the grip, its centre line a little outside the head's radius."""
    out = head_radius_mm * (1.0 + 0.3 * _FLUTE)
    start = axis.point((0.0, out * math.cos(angle_rad), out * math.sin(angle_rad)))
    return rod(start, axis.x_axis, _FLUTE * head_radius_mm, length_mm)


def _section(length_mm: float, r: float) -> Outline:
    """Half the head's section: along the axis, out from it.

    The dome's circle is centred on the axis and passes the tip; the shoulder's touches it from inside and the
    grip's line.
    """
    dome, shoulder = _DOME * r, _SHOULDER * r
    dome_at = length_mm - dome
    shoulder_at = dome_at + math.sqrt((dome - shoulder) ** 2 - (r - shoulder) ** 2)
    lean = math.atan2(r - shoulder, shoulder_at - dome_at)

    def on(centre: float, height: float, radius: float, angle: float) -> tuple[float, float]:
        return (centre + radius * math.cos(angle), height + radius * math.sin(angle))

    edges = (
        Segment(to=(length_mm, 0.0)),
        Segment(to=on(dome_at, 0.0, dome, lean), through=on(dome_at, 0.0, dome, lean / 2.0)),
        Segment(
            to=(shoulder_at, r), through=on(shoulder_at, r - shoulder, shoulder, (lean + math.pi / 2.0) / 2.0)
        ),
        Segment(to=(0.21 * length_mm + 0.04 * r, r)),
        Segment(to=(0.21 * length_mm, 0.96 * r)),
        Segment(to=(0.21 * length_mm, 0.76 * r)),
        Segment(to=(0.17 * length_mm, 0.76 * r)),
        Segment(to=(0.17 * length_mm, 0.85 * r)),
        Segment(to=(0.03 * length_mm, 0.85 * r)),
        Segment(to=(0.0, 0.79 * r)),
    )
    return Outline(start=(0.0, 0.0), segments=edges)
