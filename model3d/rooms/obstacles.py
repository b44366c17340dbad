"""What stands in a run's way, resolved: each obstacle in a frame of its own, in numbers.

``frame`` is the frame of the wall the obstacle is on (x along, y off the wall into the room, z up), or for a
box on the floor a frame in the room. ``low_mm`` and ``high_mm`` are the corners of the box round the obstacle
in that frame; what is sunk into the wall has negative y.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from model3d.geometry.placement import Placement, Vec3
from model3d.rooms.drawers import Opener


@dataclass(frozen=True, slots=True, kw_only=True)
class Pipe:
    """A straight pipe, its axis from ``from_mm`` to ``to_mm`` (in ``frame``), upright or along the wall."""

    id: str
    wall_id: str
    frame: Placement
    from_mm: Vec3
    to_mm: Vec3
    diameter_mm: float

    @property
    def low_mm(self) -> Vec3:
        """Low corner of the box round it."""
        (ax, ay, az), (bx, by, bz), (rx, ry, rz) = self.from_mm, self.to_mm, self._radius_about()
        return (min(ax, bx) - rx, min(ay, by) - ry, min(az, bz) - rz)

    @property
    def high_mm(self) -> Vec3:
        """High corner of the box round it."""
        (ax, ay, az), (bx, by, bz), (rx, ry, rz) = self.from_mm, self.to_mm, self._radius_about()
        return (max(ax, bx) + rx, max(ay, by) + ry, max(az, bz) + rz)

    def _radius_about(self) -> Vec3:
        r = self.diameter_mm / 2.0
        return (r, r, 0.0) if self.from_mm[0] == self.to_mm[0] else (0.0, r, r)


@dataclass(frozen=True, slots=True, kw_only=True)
class PipeTail:
    """A pipe that comes up out of the floor and ends ``height_mm`` above it."""

    id: str
    wall_id: str
    frame: Placement
    along_mm: float
    off_mm: float
    diameter_mm: float
    height_mm: float

    @property
    def low_mm(self) -> Vec3:
        """Low corner of the box round it."""
        r = self.diameter_mm / 2.0
        return (self.along_mm - r, self.off_mm - r, 0.0)

    @property
    def high_mm(self) -> Vec3:
        """High corner of the box round it."""
        r = self.diameter_mm / 2.0
        return (self.along_mm + r, self.off_mm + r, self.height_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class SocketOutlet:
    """A socket-outlet: a plate proud of the wall and a back box sunk into it, both centred on one point.

    ``along_mm`` and ``up_mm`` are the centre; the box's width and height are along and up, its depth into the
    wall.
    """

    id: str
    wall_id: str
    frame: Placement
    along_mm: float
    up_mm: float
    plate_width_mm: float
    plate_height_mm: float
    plate_proud_mm: float
    box_width_mm: float
    box_height_mm: float
    box_depth_mm: float

    @property
    def low_mm(self) -> Vec3:
        """Low corner of the box round it, back box included."""
        across, up = (
            max(self.plate_width_mm, self.box_width_mm),
            max(self.plate_height_mm, self.box_height_mm),
        )
        return (self.along_mm - across / 2.0, -self.box_depth_mm, self.up_mm - up / 2.0)

    @property
    def high_mm(self) -> Vec3:
        """High corner of the box round it."""
        across, up = (
            max(self.plate_width_mm, self.box_width_mm),
            max(self.plate_height_mm, self.box_height_mm),
        )
        return (self.along_mm + across / 2.0, self.plate_proud_mm, self.up_mm + up / 2.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Slab:
    """A rectangular obstacle: trunking, a box on the wall or the floor, a shelf, a sill; from ``low_mm`` to
    ``high_mm``.

    ``wall_id`` is None for a box that stands on the floor away from a wall. ``openers`` are its drawers and doors.
    """

    id: str
    kind: Literal["trunking", "box", "shelf", "sill"]
    wall_id: str | None
    frame: Placement
    low_mm: Vec3
    high_mm: Vec3
    openers: tuple[Opener, ...] = ()


Obstacle = Pipe | PipeTail | SocketOutlet | Slab
