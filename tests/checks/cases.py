"""What a known answer is."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import cadquery as cq

from model3d.geometry.placement import Placement, Vec3
from tests.checks.known_solids import HERE


@dataclass(frozen=True, kw_only=True)
class Answer:
    """``volume_mm3``, ``depth_mm`` and, where geometry leaves no choice, ``place_mm`` in the frame both stand
    in; all 0 or None for a pair that does not clash.
    """

    volume_mm3: float = 0.0
    depth_mm: float = 0.0
    place_mm: Vec3 | None = None
    deep_to_mm: float = 1e-3  # how near the depth must come


FREE = Answer()


@dataclass(frozen=True, kw_only=True)
class Case:
    """Two solids, where they stand, and the answer."""

    name: str
    a: Callable[[], cq.Solid]
    b: Callable[[], cq.Solid]
    b_at: Placement
    answer: Answer
    a_at: Placement = HERE
