"""What hides what: rays from lines to the viewer, and id maps of a page."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt
from embreex import rtcore_scene
from embreex.mesh_construction import TriangleMesh

from model3d.illustrations.camera import Camera, Points, Window
from model3d.illustrations.contours import Body

Ids = npt.NDArray[np.int64]
NOTHING = -1


class Sight:
    """Bodies ready for rays. ``bodies[k]`` is what the number ``k`` stands for."""

    def __init__(self, bodies: Sequence[Body], middle_mm: Points) -> None:
        """``middle_mm`` is about where the bodies stand: coordinates are counted from there, since rays are single
        precision.
        """
        self.bodies = tuple(bodies)
        self._middle = np.asarray(middle_mm, dtype=float)
        triangles = [body.corners_mm for body in self.bodies]
        self._owner = np.repeat(np.arange(len(triangles)), [len(t) for t in triangles])
        self._scene = rtcore_scene.EmbreeScene()
        corners = np.concatenate(triangles) - self._middle if triangles else np.zeros((0, 3, 3))
        if len(corners):
            self._mesh = TriangleMesh(self._scene, np.ascontiguousarray(corners, dtype=np.float32))

    def nearest(self, origins_mm: Points, ways: Points) -> tuple[Ids, Points]:
        """Numbers of the first body each ray meets (``NOTHING``: none) and the distances to it, mm, endless where
        there is none.
        """
        if not len(self._owner) or not len(ways):
            return np.full(len(ways), NOTHING), np.full(len(ways), np.inf)
        start = np.ascontiguousarray(np.broadcast_to(origins_mm, ways.shape) - self._middle, dtype=np.float32)
        found = self._scene.run(start, np.ascontiguousarray(ways, dtype=np.float32), output=True)
        met = found["primID"] >= 0
        return (
            np.where(met, self._owner[found["primID"]], NOTHING),
            np.where(met, found["tfar"].astype(float), np.inf),
        )

    def hidden(self, camera: Camera, points_mm: Points) -> npt.NDArray[np.bool_]:
        """(n,) whether anything stands between each point and the viewer."""
        ways = camera.sight(points_mm)
        _, far = self.nearest(points_mm, ways)
        room = np.inf if camera.distance_mm is None else np.linalg.norm(camera.eye_mm - points_mm, axis=1)
        return np.asarray(far < room)

    def seen(self, camera: Camera, page_mm: Points) -> tuple[Ids, Points]:
        """At (n, 2) points of the page: the body seen there, and how near it is (mm toward the viewer from the
        camera's target; minus endless where there is none).
        """
        origins, ways = camera.rays(page_mm)
        ids, far = self.nearest(origins, ways)
        reach = np.where(np.isfinite(far), far, 0.0)[:, None]
        near = camera.local(origins + ways * reach)[:, 2]
        return ids, np.where(ids == NOTHING, -np.inf, near)

    def id_map(self, camera: Camera, window: Window, per_mm: float) -> Ids:
        """(rows, columns) numbers of the bodies seen at the middles of square cells, ``per_mm`` of them to a page
        millimetre, over a window of the page.
        """
        columns, rows = round(window.width * per_mm), round(window.height * per_mm)
        across = window.left + (np.arange(columns) + 0.5) / per_mm
        down = window.top + (np.arange(rows) + 0.5) / per_mm
        page = np.stack(np.meshgrid(across, down), axis=-1).reshape(-1, 2)
        return self.nearest(*camera.rays(page))[0].reshape(rows, columns)
