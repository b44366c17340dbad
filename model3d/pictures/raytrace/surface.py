"""What is drawn: surfaces and placed triangle meshes, as plain values.

Room frame: x, y on the floor plan, z up from the finished floor, millimetres. Colours are linear RGB, 0 to 1.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
import numpy.typing as npt

Rgb = tuple[float, float, float]
Kind = Literal["matt", "satin", "wood-floor", "herringbone", "tiles", "carpet", "wood", "fabric", "glass", "metal"]

KINDS: tuple[Kind, ...] = (
    "matt",
    "satin",
    "wood-floor",
    "herringbone",
    "tiles",
    "carpet",
    "wood",
    "fabric",
    "glass",
    "metal",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Boards:
    """Floor boards: length and width of one board, the way they run in plan, how much boards differ, and the draw.

    ``tint`` is the spread of one board's lightness about the surface colour (0 none, .3 lively).
    """

    length_mm: float = 1900.0
    width_mm: float = 180.0
    turn_deg: float = 0.0
    tint: float = 0.16
    seed: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """How a mesh looks: linear RGB colour and kind.

    ``gloss`` overrides the kind's own sheen (0 dull, 1 mirror-sharp); ``boards`` serves wood-floor, herringbone and
    tiles (a tile is ``width_mm`` square); ``glow`` is light it gives off itself, in units of what a white surface sends
    on; ``cap_colour`` paints the upward faces that stand at one of the mesh's
    ``caps_mm`` heights, as where a wall is cut. Raises ValueError for an unknown kind or a colour out of range.
    """

    colour: Rgb
    kind: Kind = "matt"
    gloss: float | None = None
    glow: Rgb = (0.0, 0.0, 0.0)
    boards: Boards = Boards()
    cap_colour: Rgb = (0.045, 0.05, 0.06)

    def __post_init__(self) -> None:
        if self.kind not in KINDS:
            raise ValueError(f"surface kind {self.kind!r} is none of {', '.join(KINDS)}")
        for name, rgb in (("colour", self.colour), ("cap_colour", self.cap_colour)):
            if not all(0.0 <= c <= 1.0 for c in rgb):
                raise ValueError(f"{name} {rgb} is not linear RGB within 0 to 1")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TraceMesh:
    """A placed triangle mesh: vertices (n, 3) mm in the room frame, triangles (m, 3) vertex numbers, anticlockwise
    from outside.

    ``smooth`` rounds the shading across edges blunter than 35 degrees. ``origin_id`` names what the mesh was made
    from (several meshes may share it). A mesh ``in_view`` is seen by the camera; a mesh ``in_light`` stops light: a
    ceiling that is seen but lets the daylight in is ``in_light=False``; a wall that stands behind the camera but
    still shades is ``in_view=False``. Raises ValueError when the arrays do not fit together.
    """

    vertices: npt.NDArray[np.float64]
    triangles: npt.NDArray[np.int32]
    surface: Surface
    origin_id: str = ""
    smooth: bool = False
    in_view: bool = True
    in_light: bool = True
    caps_mm: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        v, t = np.asarray(self.vertices, np.float64), np.asarray(self.triangles, np.int32)
        if v.ndim != 2 or v.shape[1] != 3 or t.ndim != 2 or t.shape[1] != 3:
            raise ValueError(f"{self.origin_id!r}: vertices {v.shape} and triangles {t.shape} must both be (n, 3)")
        if not np.isfinite(v).all():
            raise ValueError(f"{self.origin_id!r}: a vertex is not a finite number")
        if len(t) and (t.min() < 0 or t.max() >= len(v)):
            raise ValueError(f"{self.origin_id!r}: triangle vertex {t.max()} is beyond the {len(v)} vertices")
        object.__setattr__(self, "vertices", v)
        object.__setattr__(self, "triangles", t)
