"""Ray-traced picture of placed meshes: the whole way from meshes and view to pixels."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import numpy.typing as npt
from PIL import Image

from model3d.pictures.raytrace.field import Chosen, Field, fresh_light, light_field
from model3d.pictures.raytrace.gather import Lighting
from model3d.pictures.raytrace.gloss import sheens
from model3d.pictures.raytrace.patches import light_patches
from model3d.pictures.raytrace.portals import portal_here
from model3d.pictures.raytrace.sampling import even_square, fractions
from model3d.pictures.raytrace.shade import Painter, metered_exposure, paint
from model3d.pictures.raytrace.sight import Camera, Seen, camera_of, joined, look, pixel_centres
from model3d.pictures.raytrace.sky import sky_of
from model3d.pictures.raytrace.surface import TraceMesh
from model3d.pictures.raytrace.view import ENCLOSED_BOUNCES, Settings, View
from model3d.pictures.raytrace.work import each, spans
from model3d.pictures.raytrace.world import World, build_world

F32 = npt.NDArray[np.float32]
U8 = npt.NDArray[np.uint8]

_PIECE = 60_000
_GROUND_GAP_MM = 0.5
_ONE_SURFACE = 0.985


def _edges(camera: Camera, seen: Seen, corners: Seen) -> Chosen:
    """Pixels whose centre and four corners do not all see one smooth surface, and those beside them."""
    height, width = camera.height, camera.width
    row, column = np.divmod(np.arange(height * width), width)
    rough = np.zeros(height * width, np.bool_)
    slack = seen.depth * np.float32(0.6 * camera.pixel)
    on_mesh = seen.mesh >= 0
    for dy in (0, 1):
        for dx in (0, 1):
            at = (row + dy) * (width + 1) + column + dx
            turned = np.einsum("ij,ij->i", seen.normal, corners.normal[at]) < _ONE_SURFACE
            off = np.abs(np.einsum("ij,ij->i", seen.normal, seen.place - corners.place[at])) > slack
            rough |= on_mesh & (turned | off)
            rough |= (seen.mesh != corners.mesh[at]) | (seen.pane != corners.pane[at])
    return np.flatnonzero(_widened(rough.reshape(height, width)))


def _widened(marked: npt.NDArray[np.bool_]) -> npt.NDArray[np.bool_]:
    """The pixels marked and those beside them: what is thinner than a pixel may pass between its corners."""
    wide = marked.copy()
    wide[1:] |= marked[:-1]
    wide[:-1] |= marked[1:]
    wide[:, 1:] |= marked[:, :-1]
    wide[:, :-1] |= marked[:, 1:]
    return wide


class _Tracer:
    """One picture in the making."""

    def __init__(self, meshes: Sequence[TraceMesh], view: View, settings: Settings) -> None:
        light = settings.light
        self.settings = settings
        self.world: World = build_world(meshes)
        self.camera = camera_of(view, self.world)
        self.sky = sky_of(light)
        size = float(np.linalg.norm((self.world.greatest - self.world.least)[:2])) / 2
        self.reach = 3.2 * size
        under = float(self.world.least[2]) - _GROUND_GAP_MM
        self.ground = under if light.ground_mm is None else light.ground_mm - float(self.world.centre_mm[2])
        patches = light_patches(
            self.world,
            self.sky,
            bounces=ENCLOSED_BOUNCES if light.enclosed and settings.bounces else settings.bounces,
            tinge=light.tinge,
            seed=settings.seed,
            threads=settings.threads,
            enclosed=light.enclosed,
        )
        portals = tuple(portal_here(p, self.world) for p in light.portals)
        self.lighting = Lighting(self.world, self.sky, patches, settings.seed, settings.threads, portals)
        self.sheens = sheens([m.surface for m in meshes])
        self.painter = Painter(
            self.world, self.sky, self.sheens, light.background, light.exposure or 1.0, 1.3 * size, self.reach
        )

    def see(self, x: F32, y: F32) -> Seen:
        """What is seen through picture points, in pieces."""
        pieces = spans(len(x), _PIECE)
        found: list[Seen | None] = [None] * len(pieces)

        def one(number: int) -> None:
            at = pieces[number]
            found[number] = look(self.world, self.camera, x[at], y[at], self.ground, self.reach)

        each(one, range(len(pieces)), self.settings.threads)
        return joined([seen for seen in found if seen is not None])

    def colours(self, seen: Seen, light: F32, y: F32) -> F32:
        """Display colours (n, 3) of points seen at picture rows y."""
        out = np.empty((len(seen), 3), np.float32)

        def one(span: slice) -> None:
            some = seen.some(np.arange(span.start, span.stop))
            size = self.camera.footprint(some)
            out[span] = paint(self.painter, some, light[span], size, y[span] / np.float32(self.camera.height))

        each(one, spans(len(seen), _PIECE), self.settings.threads)
        return out

    def edge_colours(self, field: Field, edge: Chosen) -> F32:
        """Colours (n, 3) of the edge pixels, each the mean of several points within it."""
        samples = self.settings.samples_per_pixel
        total = np.zeros((len(edge), 3), np.float32)
        row, column = np.divmod(edge, self.camera.width)
        for sample, (dx, dy) in enumerate(even_square(samples)):
            x = (column + dx).astype(np.float32)
            y = (row + dy).astype(np.float32)
            seen = self.see(x, y)
            light, unlike = field.at(seen, x, y)
            if len(unlike):
                number = (edge[unlike] * samples + sample).astype(np.int64).astype(np.int32)
                light[unlike] = fresh_light(self.lighting, self.sheens, seen.some(unlike), number, self.settings)
            total += self.colours(seen, light, y)
        return total / np.float32(samples)

    def picture(self) -> U8:
        camera = self.camera
        x, y = pixel_centres(camera)
        seen = self.see(x, y)
        field = light_field(self.lighting, self.sheens, camera, seen, self.settings)
        light = self.settings.light
        if light.exposure is None:
            exposure = metered_exposure(self.sky, seen, field.light, light.metered)
            self.painter = replace(self.painter, exposure=exposure)
        colour = self.colours(seen, field.light, y)
        if self.settings.samples_per_pixel > 1:
            corner_x = np.tile(np.arange(camera.width + 1, dtype=np.float32), camera.height + 1)
            corner_y = np.repeat(np.arange(camera.height + 1, dtype=np.float32), camera.width + 1)
            edge = _edges(camera, seen, self.see(corner_x, corner_y))
            if len(edge):
                colour[edge] = self.edge_colours(field, edge)
        return _quantised(colour.reshape(camera.height, camera.width, 3), self.settings.seed)


def _quantised(linear: F32, seed: int) -> U8:
    """Linear colours as sRGB bytes (IEC 61966-2-1), dithered by less than one step so that no bands show."""
    low = linear * np.float32(12.92)
    high = np.float32(1.055) * np.maximum(linear, np.float32(1e-6)) ** np.float32(1 / 2.4) - np.float32(0.055)
    coded = np.where(linear <= 0.0031308, low, high) * np.float32(255)
    rows, columns = (np.arange(n, dtype=np.int32) for n in linear.shape[:2])
    draw = fractions(rows[:, None], columns[None], seed, 9)
    return np.asarray(np.clip(np.floor(coded + draw[..., None]), 0, 255), np.uint8)


def trace(meshes: Sequence[TraceMesh], view: View, settings: Settings | None = None) -> U8:
    """The picture of the meshes: (height, width, 3) sRGB bytes.

    The same input gives the same bytes on one machine, whatever the number of threads. Raises ValueError when no
    mesh has a triangle in view.
    """
    return _Tracer(meshes, view, settings or Settings()).picture()


def trace_png(meshes: Sequence[TraceMesh], view: View, settings: Settings | None = None) -> bytes:
    """The same picture as a PNG file's bytes."""
    held = io.BytesIO()
    Image.fromarray(trace(meshes, view, settings)).save(held, format="PNG", optimize=False, compress_level=6)
    return held.getvalue()
