"""Shaded pictures of placed meshes: soft light, ambient occlusion, thin sharp edges. The only module that
draws with VTK.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from functools import cache
from itertools import groupby
from typing import Any

import numpy as np
import numpy.typing as npt

from model3d.geometry.placement import Vec3
from model3d.pictures.opengl import ready
from model3d.pictures.shading import Shaded, shaded
from model3d.pictures.solids import PlacedMesh, edge_segments, moved, turned
from model3d.pictures.stage import ROOM_LOOKS, Camera, Points
from model3d.pictures.theme import Surface, Theme, rgb

Raster = npt.NDArray[np.uint8]

_AMBIENT, _KEY, _FILL, _TOP = 0.47, 0.44, 0.24, 0.10
_LIFT = 4e-4
_GRAIN = 1 / 550  # depths are kept to about one part in 2000: a finer bias shows them as streaks


class Studio:
    """One offscreen window, used for picture after picture. Raises NoOpenGLError where there is no OpenGL."""

    def __init__(self, theme: Theme) -> None:
        ready()
        import pyvista

        self._pyvista: Any = pyvista
        self._theme = theme
        self._plotter: Any = pyvista.Plotter(off_screen=True, lighting="none", window_size=[64, 64])
        self._plotter.set_background(theme.backdrop)
        self._plotter.enable_anti_aliasing("ssaa")
        self._shade = 0.0, 0.0

    def shot(
        self,
        solids: Sequence[PlacedMesh],
        camera: Camera,
        size_px: tuple[int, int],
        facing: Vec3,
        shade_mm: float,
    ) -> Raster:
        """(height, width, 3) picture, lit from above and from where ``facing`` points.

        ``shade_mm`` is how far ambient occlusion reaches.
        """
        plotter = self._plotter
        plotter.remove_all_lights()
        for light in self._lights(facing):
            plotter.add_light(light)
        plotter.clear_actors()
        plotter.render_window.SetSize(*size_px)  # setting the plotter's own size would draw the empty window
        ordered = sorted(solids, key=lambda solid: solid.look)
        for look, group in groupby(ordered, key=lambda solid: solid.look):
            self._add(list(group), self._theme.surfaces[look], camera)
        bias = round(max(shade_mm / 50, math.dist(camera.eye_mm, camera.target_mm) * _GRAIN), 2)
        if (shade_mm, bias) != self._shade:
            plotter.disable_ssao()
            plotter.enable_ssao(radius=shade_mm, bias=bias, kernel_size=24, blur=True)
            self._shade = shade_mm, bias
        plotter.camera.position = camera.eye_mm
        plotter.camera.focal_point = camera.target_mm
        plotter.camera.up = camera.up
        plotter.camera.view_angle = camera.field_deg
        plotter.reset_camera_clipping_range()
        plotter.render()
        return np.asarray(plotter.screenshot(None, return_img=True), dtype=np.uint8)[:, :, :3].copy()

    def close(self) -> None:
        """Give the window back."""
        self._plotter.close()

    def _lights(self, facing: Vec3) -> Iterable[Any]:
        light = self._pyvista.Light
        fx, fy = facing[0], facing[1]
        key = (fx - 0.35 * fy, fy + 0.35 * fx, 0.85)
        yield light(position=[1e5 * c for c in key], focal_point=(0, 0, 0), light_type="scene light", intensity=_KEY)
        yield light(position=(0, 0, 1e5), focal_point=(0, 0, 0), light_type="scene light", intensity=_TOP)
        yield light(position=(0.3, 0.3, 1.0), light_type="camera light", intensity=_FILL)

    def _add(self, solids: list[PlacedMesh], surface: Surface, camera: Camera) -> None:
        for bare in (False, True):
            parts = [part for part in (_faces(solid, bare) for solid in solids) if len(part.triangles)]
            if parts:
                self._add_faces(parts, surface, self._cut_colour(solids[0]) if bare else surface.fill)
        lines = np.concatenate([_lines(solid) for solid in solids])
        if len(lines) and surface.line_px > 0:
            self._add_lines(lines, surface, np.asarray(camera.eye_mm))

    def _cut_colour(self, solid: PlacedMesh) -> Any:
        """Cut walls are dark; a cut part shows a pale tint of its own colour."""
        if solid.look in ROOM_LOOKS:
            return self._theme.cut_face
        return tuple(0.35 * part + 0.65 for part in rgb(self._theme.surfaces[solid.look].fill))

    def _add_faces(self, parts: list[Shaded], surface: Surface, colour: Any) -> None:
        starts = np.cumsum([0, *(len(part.vertices_mm) for part in parts)])
        faces = np.concatenate([part.triangles + start for part, start in zip(parts, starts, strict=False)])
        points = np.concatenate([part.vertices_mm for part in parts])
        shape = self._pyvista.PolyData.from_regular_faces(points, faces)
        shape.point_data["Normals"] = np.concatenate([part.normals for part in parts]).astype(np.float32)
        shape.point_data.active_normals_name = "Normals"
        self._plotter.add_mesh(
            shape,
            color=colour,
            smooth_shading=True,
            opacity=surface.opacity,
            ambient=_AMBIENT + (1 - _AMBIENT) * surface.glow,
            diffuse=1.0 - 0.9 * surface.glow,
            specular=surface.shine,
            specular_power=18,
            reset_camera=False,
            render=False,
            show_scalar_bar=False,
        )

    def _add_lines(self, lines: Points, surface: Surface, eye_mm: Points) -> None:
        """Lines, drawn a little toward the viewer so that the faces they lie on do not swallow them."""
        points = lines.reshape(-1, 3)
        ends = np.arange(len(points)).reshape(-1, 2)
        cells = np.column_stack([np.full(len(ends), 2), ends]).ravel()
        shape = self._pyvista.PolyData(points + (eye_mm - points) * _LIFT, lines=cells)
        self._plotter.add_mesh(
            shape,
            color=surface.line,
            line_width=surface.line_px,
            lighting=False,
            opacity=max(surface.opacity, 0.6),
            reset_camera=False,
            render=False,
        )


@cache
def studio(theme: Theme) -> Studio:
    """The one window of a process that pictures of a theme are drawn in."""
    return Studio(theme)


def _faces(solid: PlacedMesh, bare: bool) -> Shaded:
    """A solid's shaded triangles in the room frame: those laid bare by a cut, or the others."""
    own = shaded(solid.mesh)
    cut = np.zeros(len(own.triangles), dtype=bool) if solid.cut is None else solid.cut
    return Shaded(
        vertices_mm=moved(own.vertices_mm, solid.placement),
        normals=turned(own.normals, solid.placement),
        triangles=own.triangles[cut == bare],
    )


def _lines(solid: PlacedMesh) -> Points:
    return moved(edge_segments(solid.mesh).reshape(-1, 3), solid.placement).reshape(-1, 2, 3)
