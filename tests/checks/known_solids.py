"""Solids made by hand from the kernel's own primitives, and placements to stand them at."""

from __future__ import annotations

import math

import cadquery as cq

from model3d.geometry.placement import Placement, Vec3

HERE = Placement()
ALONG_X = Placement(x_axis=(0.0, 0.0, -1.0), y_axis=(0.0, 1.0, 0.0), z_axis=(1.0, 0.0, 0.0))  # z turned to x


def box(x: float, y: float, z: float, corner: Vec3 = (0.0, 0.0, 0.0)) -> cq.Solid:
    """A box with its least corner given."""
    return cq.Solid.makeBox(x, y, z, cq.Vector(*corner))


def middle_box(x: float, y: float, z: float) -> cq.Solid:
    """A box about the origin."""
    return box(x, y, z, (-x / 2, -y / 2, -z / 2))


def rod(radius: float, length: float, start: float = 0.0) -> cq.Solid:
    """A cylinder along z."""
    return cq.Solid.makeCylinder(radius, length, cq.Vector(0, 0, start))


def ring(major: float, minor: float) -> cq.Solid:
    """A torus round z."""
    return cq.Solid.makeTorus(major, minor)


def ball(radius: float) -> cq.Solid:
    """A sphere about the origin."""
    return cq.Solid.makeSphere(radius, angleDegrees1=-90, angleDegrees2=90, angleDegrees3=360)


def cone(bottom: float, top: float, height: float) -> cq.Solid:
    """A frustum along z."""
    return cq.Solid.makeCone(bottom, top, height)


def prism(points: list[tuple[float, float]], height: float, start: float = 0.0) -> cq.Solid:
    """A plane outline carried up along z."""
    made = cq.Workplane().workplane(offset=start).polyline(points).close().extrude(height).val()
    assert isinstance(made, cq.Solid)
    return made


def less(solid: cq.Solid, *others: cq.Solid) -> cq.Solid:
    """A solid with others cut out of it."""
    cut = solid.cut(*others)
    (only,) = cut.Solids()
    return only


def drilled_plate(radius: float, size: float = 60.0, thick: float = 12.0) -> cq.Solid:
    """A plate about the origin with a round hole along z."""
    return less(middle_box(size, size, thick), rod(radius, 2 * thick, -thick))


def hexagon(across: float) -> list[tuple[float, float]]:
    """The corners of a regular hexagon, a corner on x; ``across`` from corner to corner."""
    return [
        (across / 2 * math.cos(k * math.pi / 3), across / 2 * math.sin(k * math.pi / 3)) for k in range(6)
    ]


def hook() -> cq.Solid:
    """A C of square bar: back along y, two arms along x."""
    return less(box(30, 40, 8), box(25, 24, 10, (8, 8, -1)))


def turned_z(deg: float, origin: Vec3 = (0.0, 0.0, 0.0)) -> Placement:
    """Turned about z, then moved."""
    c, s = math.cos(math.radians(deg)), math.sin(math.radians(deg))
    return Placement(origin_mm=origin, x_axis=(c, s, 0.0), y_axis=(-s, c, 0.0))


def turned_y(deg: float, origin: Vec3 = (0.0, 0.0, 0.0)) -> Placement:
    """Turned about y, then moved."""
    c, s = math.cos(math.radians(deg)), math.sin(math.radians(deg))
    return Placement(origin_mm=origin, x_axis=(c, 0.0, -s), z_axis=(s, 0.0, c))


def obround_elbow() -> cq.Solid:
    """A quarter turn of an obround 30 x 12 about an axis 40 from its middle, by the revolution of its
    outline.
    """
    made = cq.Workplane("XZ").moveTo(40.0, 0.0).slot2D(30.0, 12.0).revolve(90.0, (0, 0, 0), (0, 1, 0)).val()
    assert isinstance(made, cq.Solid)
    return made


def edge_bar(up: float) -> cq.Solid:
    """A square bar along x, standing on its edge at height ``up`` (1) or hanging by it (-1)."""
    return cq.Solid(
        prism([(0.0, 0.0), (20.0, up * 20.0), (-20.0, up * 20.0)], 80.0, -40.0)
        .moved(cq.Location(cq.Plane(origin=(0, 0, 0), xDir=(0, 1, 0), normal=(1, 0, 0))))
        .wrapped
    )
