"""What can be seen: id maps by ray casting, with no renderer, and the share of a part that nothing hides."""

from __future__ import annotations

from collections.abc import Collection, Sequence

import numpy as np
import numpy.typing as npt
from embreex import rtcore_scene
from embreex.mesh_construction import TriangleMesh

from model3d.pictures.solids import PlacedMesh
from model3d.pictures.stage import Camera, Points
from model3d.pictures.views import axes

IdMap = npt.NDArray[np.int64]
NOTHING = -1


class RayScene:
    """Placed meshes ready for rays. ``solids[k]`` is what the number ``k`` in an id map stands for."""

    def __init__(self, solids: Sequence[PlacedMesh]) -> None:
        self.solids = tuple(solids)
        self._owner = np.repeat(np.arange(len(self.solids)), [len(solid.triangles) for solid in self.solids])
        self._scene = rtcore_scene.EmbreeScene()
        if self.solids:
            corners = np.concatenate([solid.vertices_mm[solid.triangles] for solid in self.solids])
            self._mesh = TriangleMesh(self._scene, np.ascontiguousarray(corners, dtype=np.float32))

    def hits(self, origins_mm: Points, directions: Points) -> IdMap:
        """(n,) numbers of the first solid each ray meets, ``NOTHING`` where it meets none."""
        if not self.solids:
            return np.full(len(directions), NOTHING)
        start = np.ascontiguousarray(np.broadcast_to(origins_mm, directions.shape), dtype=np.float32)
        found = self._scene.run(start, np.ascontiguousarray(directions, dtype=np.float32))
        return np.where(found >= 0, self._owner[found], NOTHING)

    def id_map(self, camera: Camera, size_px: tuple[int, int]) -> IdMap:
        """(height, width) numbers of the solids seen in a picture of ``size_px`` (width, height)."""
        rays = pixel_rays(camera, size_px)
        return self.hits(np.asarray(camera.eye_mm)[None, :], rays).reshape(size_px[1], size_px[0])

    def numbers(self, ids: Collection[str]) -> npt.NDArray[np.int64]:
        """The numbers of the solids with these ids."""
        return np.array([k for k, solid in enumerate(self.solids) if solid.id in ids], dtype=np.int64)


def pixel_rays(camera: Camera, size_px: tuple[int, int]) -> Points:
    """(height * width, 3) unit directions through the pixels' middles, row by row from the top left."""
    width, height = size_px
    unit = 2 * np.tan(np.radians(camera.field_deg / 2)) / height
    right, down = np.meshgrid((np.arange(width) + 0.5 - width / 2) * unit, (np.arange(height) + 0.5 - height
    / 2) * unit)
    local = np.stack([right.ravel(), -down.ravel(), np.ones(width * height)], axis=1)
    rays = local @ axes(camera)
    return np.asarray(rays / np.linalg.norm(rays, axis=1, keepdims=True))


def seen_share(scene: RayScene, ids: Collection[str], camera: Camera, size_px: tuple[int, int]) -> float:
    """Pixels of ``ids`` in the whole scene over their pixels when they stand alone, 0 to 1; 0 when out of
    the picture.

    Raises ValueError when none of the ids is in the scene.
    """
    alone = RayScene([solid for solid in scene.solids if solid.id in ids])
    if not alone.solids:
        raise ValueError("nothing of " + ", ".join(sorted(ids)) + " is in the scene")
    bare = int((alone.id_map(camera, size_px) != NOTHING).sum())
    seen = int(np.isin(scene.id_map(camera, size_px), scene.numbers(ids)).sum())
    return seen / bare if bare else 0.0


def hiders(scene: RayScene, ids: Collection[str], camera: Camera, size_px: tuple[int, int]) -> dict[str,
float]:
    """What stands before ``ids``: each hiding solid's id with the share of their silhouette it takes."""
    alone = RayScene([solid for solid in scene.solids if solid.id in ids]).id_map(camera, size_px) != NOTHING
    before = scene.id_map(camera, size_px)[alone]
    numbers, counts = np.unique(before[~np.isin(before, scene.numbers(ids))], return_counts=True)
    return {
        scene.solids[int(k)].id: float(n) / before.size for k, n in zip(numbers, counts, strict=True) if k !=
        NOTHING
    }
