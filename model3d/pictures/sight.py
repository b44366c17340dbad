"""What can be seen: id maps by ray casting, with no renderer, and the share of a part that nothing hides."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from embreex import rtcore_scene
from embreex.mesh_construction import TriangleMesh

from model3d.pictures.solids import PlacedMesh
from model3d.pictures.stage import Camera, Look, Points
from model3d.pictures.views import axes

IdMap = npt.NDArray[np.int64]
NOTHING = -1
SEE_THROUGH: frozenset[Look] = frozenset({"ghost"})


class RayScene:
    """Placed meshes ready for rays. ``solids[k]`` is what the number ``k`` in an id map stands for. Ghosts are seen
    through.

    ``base`` is a scene that stands there too, shared with others: its solids come first, and it is not built anew.
    """

    def __init__(self, solids: Sequence[PlacedMesh], base: RayScene | None = None) -> None:
        own = tuple(solids)
        before = base.solids if base is not None else ()
        self._base = base
        self.solids: tuple[PlacedMesh, ...] = (*before, *own)
        counts = [0 if solid.look in SEE_THROUGH else len(solid.triangles) for solid in own]
        self._owner = np.repeat(np.arange(len(own)), counts) + len(before)
        self._scene = rtcore_scene.EmbreeScene()
        firm = [solid for solid in own if solid.look not in SEE_THROUGH]
        if firm:
            corners = np.concatenate([solid.vertices_mm[solid.triangles] for solid in firm])
            self._mesh = TriangleMesh(self._scene, np.ascontiguousarray(corners, dtype=np.float32))

    def hits(self, origins_mm: Points, directions: Points) -> IdMap:
        """(n,) numbers of the first solid each ray meets, ``NOTHING`` where it meets none."""
        return self.nearest(origins_mm, directions)[0]

    def nearest(self, origins_mm: Points, directions: Points) -> tuple[IdMap, Points]:
        """As ``hits``, with the distances to them, mm; endless where there is none. Directions are unit vectors."""
        numbers = np.full(len(directions), NOTHING)
        far = np.full(len(directions), np.inf)
        if self._base is not None:
            numbers, far = self._base.nearest(origins_mm, directions)
        if len(self._owner) and len(directions):
            start = np.ascontiguousarray(np.broadcast_to(origins_mm, directions.shape), dtype=np.float32)
            found = self._scene.run(start, np.ascontiguousarray(directions, dtype=np.float32), output=True)
            nearer = (found["primID"] >= 0) & (found["tfar"] < far)
            numbers = np.where(nearer, self._owner[found["primID"]], numbers)
            far = np.where(nearer, found["tfar"], far)
        return numbers, far

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
    right, down = np.meshgrid(
        (np.arange(width) + 0.5 - width / 2) * unit, (np.arange(height) + 0.5 - height / 2) * unit
    )
    local = np.stack([right.ravel(), -down.ravel(), np.ones(width * height)], axis=1)
    rays = local @ axes(camera)
    return np.asarray(rays / np.linalg.norm(rays, axis=1, keepdims=True))


@dataclass(frozen=True, slots=True, kw_only=True)
class Sighting:
    """How a subject is seen: its pixels alone, its pixels in the scene, and the share each hiding solid
    takes, by id.
    """

    bare: int
    seen: int
    hiders: Mapping[str, float]

    @property
    def share(self) -> float:
        """Seen pixels over bare pixels, 0 to 1; 0 when the subject is out of the picture."""
        return self.seen / self.bare if self.bare else 0.0


def sighting(scene: RayScene, alone: RayScene, camera: Camera, size_px: tuple[int, int]) -> Sighting:
    """The subject ``alone`` against the whole ``scene`` (which holds it too, by the same ids), from one
    camera.
    """
    rays = pixel_rays(camera, size_px)
    eye = np.asarray(camera.eye_mm)[None, :]
    there = alone.hits(eye, rays) != NOTHING
    before = scene.hits(eye, rays[there])
    own = scene.numbers({solid.id for solid in alone.solids})
    numbers, counts = np.unique(before[~np.isin(before, own)], return_counts=True)
    return Sighting(
        bare=int(there.sum()),
        seen=int(np.isin(before, own).sum()),
        hiders={
            scene.solids[int(k)].id: float(n) / before.size
            for k, n in zip(numbers, counts, strict=True)
            if k != NOTHING
        },
    )


def only(solids: Sequence[PlacedMesh], ids: Collection[str]) -> RayScene:
    """The solids with these ids, alone. Raises ValueError when there is none."""
    kept = [solid for solid in solids if solid.id in ids]
    if not kept:
        raise ValueError("nothing of " + ", ".join(sorted(ids)) + " is in the scene")
    return RayScene(kept)
