"""Tail pipes with their compression nuts, and the hexagons of other fittings."""

from __future__ import annotations

import math

import cadquery as cq
from cadquery.func import intersect

from model3d.geometry.outline import polygon
from model3d.geometry.placement import Placement
from model3d.parts.ends import EndBlockSpec
from model3d.solids.end_block import beyond
from model3d.solids.simple_bodies import prism, rod, turned
from model3d.solids.sound import SolidError, one_solid

_UP = (0.0, 0.0, 1.0)
_COS_30 = math.cos(math.radians(30.0))


def tail_parts(spec: EndBlockSpec, radius_mm: float, offset_mm: float, room_mm: float) -> list[cq.Solid]:
    """A pipe from ``tail_bottom_mm`` above the floor into the block, ``offset_mm`` beyond the cut face, its
    compression nut and the collar above it.

    ``room_mm`` is how far the nut may reach along the wall either way. Raises SolidError when the pipe does
    not fit under the block.
    """
    u = spec.bore_centres[0][0]
    across = min(u - spec.block_back_mm, spec.block_front_mm - u)
    along = min(room_mm, offset_mm - spec.face_gap_mm, spec.block_end_mm - offset_mm)
    if radius_mm >= min(across, along) or spec.block_bottom_mm <= 0.0:
        raise SolidError(
            f"a tail of radius {radius_mm:g} mm at {offset_mm:g} mm does not fit under its block: "
            f"{min(across, along):.4g} mm either way, {spec.block_bottom_mm:g} mm high"
        )
    x, top = beyond(spec, offset_mm), spec.block_bottom_mm
    nut_mm, collar_mm = min(11.0, 0.4 * top), min(1.5, 0.05 * top)
    pipe = rod((x, u, spec.tail_bottom_mm), _UP, radius_mm, top + collar_mm - spec.tail_bottom_mm)
    apothem, corner_along = _nut_size(radius_mm, across, room_mm)
    collar = rod((x, u, top - collar_mm), _UP, (radius_mm + apothem) / 2.0, 2.0 * collar_mm)
    along_x, across_y = (
        ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)) if corner_along else ((0.0, 1.0, 0.0), (-1.0, 0.0, 0.0))
    )
    nut = hexagon(
        Placement(origin_mm=(x, u, top - collar_mm - nut_mm), x_axis=along_x, y_axis=across_y),
        apothem,
        nut_mm,
    )
    return [pipe, nut, collar]


def tail_bore(spec: EndBlockSpec, radius_mm: float, offset_mm: float, top_mm: float) -> cq.Solid:
    """What the water takes from a tail: from under the floor end up to ``top_mm``; pipe wall 1 mm (15 x 1
    tube of EN 1057) or a fifth of the radius.
    """
    u = spec.bore_centres[0][0]
    return rod((beyond(spec, offset_mm), u, -1.0), _UP, radius_mm - min(1.0, radius_mm / 5.0), top_mm + 1.0)


def _nut_size(radius_mm: float, across_mm: float, room_mm: float) -> tuple[float, bool]:
    """Half the width over flats, as large as the room lets it be, and whether its corners point along the
    wall.
    """
    best = 1.3 * radius_mm
    corners_along = min(best, across_mm - 0.25, room_mm * _COS_30)
    corners_across = min(best, across_mm * _COS_30, room_mm)
    return max(corners_along, corners_across), corners_along >= corners_across


def hexagon(plane: Placement, apothem_mm: float, length_mm: float) -> cq.Solid:
    """A nut's outside: a hexagon in a plane, a corner on the plane's x, carried along its z, both ends
    chamfered at 30 degrees.
    """
    corner = apothem_mm / _COS_30
    points = [
        (corner * math.cos(math.radians(60.0 * i)), corner * math.sin(math.radians(60.0 * i)))
        for i in range(6)
    ]
    drop = min((corner - apothem_mm) * math.tan(math.radians(30.0)), length_mm / 4.0)
    envelope = polygon(
        (0.0, 0.0),
        (length_mm, 0.0),
        (length_mm, apothem_mm),
        (length_mm - drop, corner),
        (drop, corner),
        (0.0, apothem_mm),
    )
    axis = Placement(origin_mm=plane.origin_mm, x_axis=plane.z_axis, y_axis=plane.x_axis, z_axis=plane.y_axis)
    return one_solid(intersect(prism(polygon(*points), plane, length_mm), turned(envelope, axis)), "nut")
