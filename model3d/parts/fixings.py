"""Brackets and their packers, trims and end caps.

Frames of a wall: y out from the wall's surface, z up from the floor.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from model3d.geometry.moments import centroid_u_mm
from model3d.geometry.outline import Outline, Segment


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketSpec:
    """Bracket with plate, lower ramp and upper latch: ``outline`` in (u, v) from wall and floor, ``width_mm``
    along x.

    Datum: the middle of its width, on the wall, on the floor. Screw holes of ``hole_diameter_mm`` through the
    plate (``plate_mm`` thick) at ``hole_heights_mm``, in the middle of the width, countersunk at 90 degrees
    from the plate's front, since the piece's back lies on it: the head is twice as wide as the hole (common
    proportion of countersunk wood screws, from memory).
    """

    outline: Outline
    width_mm: float
    plate_mm: float
    hole_diameter_mm: float
    hole_heights_mm: tuple[float, ...]

    @property
    def volume_mm3(self) -> float:
        """Outline area times width, less the holes and the cones of their countersinks."""
        r, deep = self.hole_diameter_mm / 2.0, self.countersink_depth_mm
        hole = math.pi * r**2 * (self.plate_mm - deep)
        cone = math.pi * deep / 3.0 * (r**2 + r * (r + deep) + (r + deep) ** 2)
        return self.outline.area_mm2 * self.width_mm - (hole + cone) * len(self.hole_heights_mm)

    @property
    def countersink_depth_mm(self) -> float:
        """How deep the 90 degree cone goes: the hole's radius, at most half the plate."""
        return min(self.hole_diameter_mm / 2.0, self.plate_mm / 2.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class PackerSpec:
    """Packers behind a bracket, together as thick as ``thickness_mm``: a plate behind the bracket's own, with its screw
    holes.

    Datum: that of the bracket, on its back plane; the packers lie from y = -``thickness_mm`` to y = 0, from
    ``bottom_mm`` to ``top_mm``, ``width_mm`` along x about the middle.
    """

    thickness_mm: float
    width_mm: float
    bottom_mm: float
    top_mm: float
    hole_diameter_mm: float
    hole_heights_mm: tuple[float, ...]

    @property
    def volume_mm3(self) -> float:
        """The plate less its holes."""
        holes = math.pi * self.hole_diameter_mm**2 / 4.0 * len(self.hole_heights_mm)
        return (self.width_mm * (self.top_mm - self.bottom_mm) - holes) * self.thickness_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimSpec:
    """Trim over a joint: ``outline`` in (u, v) from wall and floor, swept along both walls and mitred where
    they meet.

    Datum: the corner, on the floor; x along the wall before it (in the walls' own sense), y out from that
    wall. Before the corner it reaches back ``leg_mm`` along -x; after it the same along the next wall, which
    is turned by ``turn_deg`` (positive internal, 0 in-line). ``slant_mm`` above 0 puts a third panel across
    an internal corner, as if a short wall stood square to the bisector at that distance from the corner;
    there are then two mitres, each of half the turn.
    """

    outline: Outline
    turn_deg: float
    leg_mm: float
    slant_mm: float = 0.0

    @property
    def panel_lengths_mm(self) -> tuple[float, ...]:
        """Each panel's length along the wall's line (u = 0), before the mitres shorten or lengthen it: two,
        or three when slanted.
        """
        if self.slant_mm <= 0.0:
            return (self.leg_mm, self.leg_mm)
        half = math.radians(self.turn_deg) / 2.0
        side = self.leg_mm - self.slant_mm / math.sin(half)
        return (side, 2.0 * self.slant_mm / math.tan(half), side)

    @property
    def mitre_turn_deg(self) -> float:
        """The turn at each mitre, degrees."""
        return self.turn_deg / (len(self.panel_lengths_mm) - 1)

    @property
    def volume_mm3(self) -> float:
        """Outline area times the length of the path its centroid takes.

        At a distance u from the walls the path is sum(panels) - 2 k u tan(mitre / 2) long, k mitres: linear
        in u, so its integral over the outline is the area times its value at the centroid.
        """
        mitres = len(self.panel_lengths_mm) - 1
        lost = 2.0 * mitres * math.tan(math.radians(self.mitre_turn_deg) / 2.0)
        return self.outline.area_mm2 * (sum(self.panel_lengths_mm) - lost * centroid_u_mm(self.outline))


@dataclass(frozen=True, slots=True, kw_only=True)
class EndCapSpec:
    """End cap: the cover ``outline`` from ``overlap_mm`` on the piece out to ``length_mm`` beyond the cut
    face, closed by a plate.

    Datum: the cut face, on the wall, on the floor; ``hand`` +1 when the piece lies toward +x. The cover lies
    from ``overlap_mm`` on the piece to ``length_mm`` beyond; the last ``plate_mm`` of it is closed by
    ``closing`` (the outline of the plate, which contains the cover's outline).
    """

    hand: int
    outline: Outline
    closing: Outline
    length_mm: float
    overlap_mm: float
    plate_mm: float

    @property
    def volume_mm3(self) -> float:
        """The cover over its whole length, and what the plate adds to it."""
        cover = self.outline.area_mm2 * (self.overlap_mm + self.length_mm)
        return cover + (self.closing.area_mm2 - self.outline.area_mm2) * self.plate_mm


def closing_of(cover: Outline) -> Outline:
    """The outline of the plate that closes a cover toward the wall: the cover's outer side, then down its back, then
    along its foot.

    ``cover`` goes anticlockwise; its outer side runs from the outer end of its foot to its nearest point to the wall.
    """
    points = [(a, segment) for a, segment in cover.edges]
    foot = min(range(len(points)), key=lambda i: (points[i][0][1], -points[i][0][0]))
    back_u = min(a[0] for a, _ in points)
    outer: list[Segment] = []
    for step in range(len(points)):
        _, segment = points[(foot + step) % len(points)]
        outer.append(segment)
        if segment.to[0] == back_u:
            break
    start = points[foot][0]
    return Outline(start=start, segments=(*outer, Segment(to=(back_u, start[1]))))
