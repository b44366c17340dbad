"""Brackets, trims and end caps.

Frames of a wall: y out from the wall's surface, z up from the floor.
"""

from __future__ import annotations

from dataclasses import dataclass

from model3d.geometry.outline import Outline


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketSpec:
    """Bracket with plate, lower ramp and upper latch: ``outline`` in (u, v) from wall and floor, ``width_mm`` along x.

    Datum: the middle of its width, on the wall, on the floor. Screw holes of ``hole_diameter_mm`` through the plate
    (``plate_mm`` thick) at ``hole_heights_mm``, in the middle of the width.
    """

    outline: Outline
    width_mm: float
    plate_mm: float
    hole_diameter_mm: float
    hole_heights_mm: tuple[float, ...]

    @property
    def volume_mm3(self) -> float:
        """Outline area times width, less the holes."""
        hole = 3.141592653589793 * self.hole_diameter_mm**2 / 4.0 * self.plate_mm
        return self.outline.area_mm2 * self.width_mm - hole * len(self.hole_heights_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimSpec:
    """Trim over a joint: ``outline`` in (u, v) from wall and floor, swept along both walls and mitred where they meet.

    Datum: the corner, on the floor; x along the wall before it (in the walls' own sense), y out from that wall. Before the corner it
    reaches back ``leg_mm`` along -x; after it the same along the next wall, which is turned by ``turn_deg`` (positive internal, 0 in-line).
    ``slant_mm`` above 0 puts a third panel across an internal corner, as if a short wall stood square to the bisector at that distance from
    the corner.
    """

    outline: Outline
    turn_deg: float
    leg_mm: float
    slant_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class EndCapSpec:
    """End cap: the cover ``outline`` from x = -``overlap_mm``·hand side on the piece out to ``length_mm`` beyond the cut face, closed by a plate.

    Datum: the cut face, on the wall, on the floor; ``hand`` +1 when the piece lies toward +x. The cover lies from ``overlap_mm`` on the piece to
    ``length_mm`` beyond; the last ``plate_mm`` of it is closed by ``closing`` (the outline of the plate, which contains the cover's outline).
    """

    hand: int
    outline: Outline
    closing: Outline
    length_mm: float
    overlap_mm: float
    plate_mm: float
