"""Meshes of the parts' solids for pictures, each distinct shape once."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from model3d.parts.kinds import Spec
from model3d.pictures.stage import Mesh
from model3d.scene import Part
from model3d.solids.build import solid
from model3d.solids.mesh import solid_mesh

DEFLECTION_MM = 0.08
ANGLE_DEG = 14.0
ROUND_ANGLE_DEG = 28.0  # of rings and hoses: round both ways, they would take most of all triangles
ROUND_DEFLECTION_MM = 0.15
ROUND = ("o-ring", "hose")


class MeshLibrary:
    """Meshes by key, made when first asked for; equal specs share one."""

    def __init__(self) -> None:
        self._keys: dict[Spec, str] = {}
        self._meshes: dict[str, Mesh] = {}

    def key(self, part: Part) -> str:
        """The key of a part's mesh."""
        known = self._keys.get(part.spec)
        if known is None:
            known = f"{part.role}-{len(self._keys)}"
            self._keys[part.spec] = known
            angle = ROUND_ANGLE_DEG if part.role in ROUND else ANGLE_DEG
            deflection = ROUND_DEFLECTION_MM if part.role in ROUND else DEFLECTION_MM
            made = solid_mesh(solid(part.spec).wrapped, known, deflection_mm=deflection, angle_deg=angle)
            self._meshes[known] = Mesh(vertices_mm=made.vertices_mm, triangles=made.triangles.astype(np.int64))
        return known

    def of(self, keys: Iterable[str]) -> dict[str, Mesh]:
        """The meshes of these keys."""
        return {key: self._meshes[key] for key in keys}
