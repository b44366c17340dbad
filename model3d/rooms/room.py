"""The room in numbers: rings of corners and walls, with the frames that parts are placed in.

Room frame: x, y on the floor, z up from the finished floor, mm. Every ring goes round with the room on its
left: the outer ring anticlockwise, an island (free-standing column) clockwise.
"""

from __future__ import annotations

from dataclasses import dataclass

from model3d.geometry.placement import Placement, Vec2
from model3d.rooms.obstacles import Obstacle
from model3d.rooms.openings import Door, Opening, Window


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """A corner on the wall line, ``at_mm`` in the room frame.

    ``turn_deg`` is the angle from the direction of the wall that ends here to that of the wall that begins
    here, in (-180, 180): positive at an internal corner (interior angle 180 - turn), negative at an external
    one. It does not change with the sense in which a run passes.
    """

    id: str
    at_mm: Vec2
    turn_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """One straight wall, from its first corner to its last with the room on the left.

    ``direction`` is the unit vector t from first to last corner, ``normal`` the unit vector n = z x t into
    the room. ``frame`` stands at the first corner on the floor: x along t, y along n, z up; positions *along*
    a wall are its x, positions *off* a wall its y. As you face the wall, its first corner is on the right.
    """

    id: str
    ring: str
    first_corner: Corner
    last_corner: Corner
    length_mm: float
    direction: Vec2
    normal: Vec2
    frame: Placement

    @property
    def start_mm(self) -> Vec2:
        """Where the first corner stands, room frame."""
        return self.first_corner.at_mm

    @property
    def end_mm(self) -> Vec2:
        """Where the last corner stands, room frame."""
        return self.last_corner.at_mm

    def point_mm(self, along_mm: float, off_mm: float = 0.0) -> Vec2:
        """The floor point ``along_mm`` from the first corner and ``off_mm`` into the room, room frame."""
        return (
            self.start_mm[0] + along_mm * self.direction[0] + off_mm * self.normal[0],
            self.start_mm[1] + along_mm * self.direction[1] + off_mm * self.normal[1],
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A closed ring of walls: ``walls[i]`` goes from ``corners[i]`` to ``corners[i + 1]``, the last one to
    the first.
    """

    id: str
    corners: tuple[Corner, ...]
    walls: tuple[Wall, ...]
    is_island: bool = False

    @property
    def area_mm2(self) -> float:
        """Signed area by the shoelace formula: positive for the outer ring, negative for an island."""
        points = [c.at_mm for c in self.corners]
        return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1], strict=True)) / 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """A checked room: the outer ring first, then the islands; what is cut into the walls and what stands on
    them.
    """

    rings: tuple[Ring, ...]
    height_mm: float
    wall_thickness_mm: float
    openings: tuple[Opening, ...] = ()
    obstacles: tuple[Obstacle, ...] = ()

    @property
    def outer(self) -> Ring:
        """The ring of the room's own walls."""
        return self.rings[0]

    @property
    def islands(self) -> tuple[Ring, ...]:
        """The rings of the free-standing columns."""
        return self.rings[1:]

    @property
    def walls(self) -> tuple[Wall, ...]:
        """Every wall of every ring, in order."""
        return tuple(w for ring in self.rings for w in ring.walls)

    @property
    def corners(self) -> tuple[Corner, ...]:
        """Every corner of every ring, in order."""
        return tuple(c for ring in self.rings for c in ring.corners)

    @property
    def doors(self) -> tuple[Door, ...]:
        """The openings that are doors."""
        return tuple(o for o in self.openings if isinstance(o, Door))

    @property
    def windows(self) -> tuple[Window, ...]:
        """The openings that are windows."""
        return tuple(o for o in self.openings if isinstance(o, Window))

    def wall(self, wall_id: str) -> Wall:
        """The wall of that id. Raises KeyError when there is none."""
        for wall in self.walls:
            if wall.id == wall_id:
                return wall
        raise KeyError(wall_id)

    def corner(self, corner_id: str) -> Corner:
        """The corner of that id. Raises KeyError when there is none."""
        for corner in self.corners:
            if corner.id == corner_id:
                return corner
        raise KeyError(corner_id)

    def ring(self, ring_id: str) -> Ring:
        """The ring of that id (``room`` for the outer one). Raises KeyError when there is none."""
        for ring in self.rings:
            if ring.id == ring_id:
                return ring
        raise KeyError(ring_id)
