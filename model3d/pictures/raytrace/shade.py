"""From light received to colour seen: surface colour and pattern, sheen, panes, ground and background."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from model3d.pictures.raytrace.floors import carpet, herringbone, tiles
from model3d.pictures.raytrace.gloss import Sheens, mirrored_share, sun_glint
from model3d.pictures.raytrace.patches import LUMINANCE
from model3d.pictures.raytrace.sight import GROUND, NOTHING, Seen
from model3d.pictures.raytrace.sky import Sky
from model3d.pictures.raytrace.surface import Rgb
from model3d.pictures.raytrace.texture import cloth, wood_floor, wood_part
from model3d.pictures.raytrace.world import World, kind_number

F32 = npt.NDArray[np.float32]
I32 = npt.NDArray[np.int32]

AMBIENT = slice(0, 3)
MIRRORED = slice(3, 6)
SUN = 6
CHANNELS = 7
"""Light at a point: ambient rgb, mirrored rgb, share of the sun seen."""

_LET_PASS = np.float32(0.35)
"""How much of the open daylight a ceiling that lets it pass shows of its own, so that it does not look dull."""

_GROUND_SHADE = 0.8
"""How much of a shadow the ground shows: the room is the picture, its shadow only stands it on something."""


_FLOORS = {"wood-floor": wood_floor, "herringbone": herringbone, "tiles": tiles, "carpet": carpet}


@dataclass(frozen=True, slots=True)
class Painter:
    """Everything that turns light into colour. ``ground_from_mm`` and ``ground_to_mm`` are the distances from the
    world's middle between which the ground fades to background."""

    world: World
    sky: Sky
    sheens: Sheens
    background: Rgb
    exposure: float
    ground_from_mm: float
    ground_to_mm: float


def _albedo(painter: Painter, seen: Seen, footprint: F32) -> F32:
    """Surface colour (n, 3) with its pattern; nothing sensible where no mesh is seen."""
    world = painter.world
    colour = world.albedo[seen.triangle].copy()
    mesh = np.maximum(seen.mesh, 0)
    kind = np.where(seen.mesh >= 0, world.kind[mesh], -1)
    centre = world.centre_mm.astype(np.float32)
    for name in ("wood-floor", "herringbone", "tiles", "carpet", "wood", "fabric"):
        of_kind = np.flatnonzero(kind == kind_number(name))
        for number in np.unique(mesh[of_kind]):
            at = of_kind[mesh[of_kind] == number]
            place, size = seen.place[at] + centre, footprint[at]
            source = world.meshes[int(number)]
            if name in _FLOORS:
                colour[at] *= _FLOORS[name](place, size, source.surface.boards)
            elif name == "wood":
                least = source.vertices.min(axis=0)
                colour[at] *= wood_part(place, size, least, source.vertices.max(axis=0) - least)
            else:
                colour[at] *= cloth(place, size)
    return np.clip(colour, 0, 1)


def _surface_colour(painter: Painter, seen: Seen, light: F32, footprint: F32) -> F32:
    sky, world = painter.sky, painter.world
    colour = _albedo(painter, seen, footprint)
    mesh = np.maximum(seen.mesh, 0)
    to_sun = np.maximum(seen.normal @ sky.toward_sun, np.float32(0)) * light[:, SUN]
    received = light[:, AMBIENT] + to_sun[:, None] * sky.sun
    lets_pass = np.array([not m.in_light and m.surface.kind != "glass" for m in world.meshes])[mesh]
    received += np.where(lets_pass[:, None], _LET_PASS * sky.open_ground, 0)
    facing = -np.einsum("ij,ij->i", seen.normal, seen.sight)
    rough, head_on = painter.sheens.rough[mesh], painter.sheens.head_on[mesh]
    kind = world.kind[mesh]
    out = colour * received
    fuzz = np.flatnonzero(kind == kind_number("fabric"))
    out[fuzz] += (received[fuzz] * (0.35 * colour[fuzz] + 0.02)) * ((1 - np.clip(facing[fuzz], 0, 1)) ** 3)[:, None]
    glossy = np.flatnonzero((head_on > 0) & (seen.mesh >= 0))
    if len(glossy):
        share = mirrored_share(facing[glossy], head_on[glossy], rough[glossy])[:, None]
        glint = sun_glint(seen.sight[glossy], seen.normal[glossy], sky.toward_sun, rough[glossy]) * light[glossy, SUN]
        image = light[glossy, MIRRORED] + glint[:, None] * sky.sun
        metal = (kind[glossy] == kind_number("metal"))[:, None]
        tint = np.where(metal, colour[glossy] / np.float32(0.8), np.float32(1))
        body = np.where(metal, out[glossy] * np.float32(0.25), out[glossy] * (1 - share))
        out[glossy] = body + image * share * tint
    out += world.glow[mesh]
    return np.asarray(out, np.float32)


def metered_exposure(sky: Sky, seen: Seen, light: F32, target: float) -> float:
    """Exposure that brings the light received by the surfaces seen to ``target``, like a light meter held to the
    surfaces: their colours do not count. Midway between the median and the bright seventh; within .5 to 4."""
    at = np.flatnonzero(seen.mesh >= 0)
    if len(at) == 0:
        return 1.0
    to_sun = np.maximum(seen.normal[at] @ sky.toward_sun, np.float32(0)) * light[at, SUN]
    received = (light[at, AMBIENT] + to_sun[:, None] * sky.sun) @ LUMINANCE
    middle = float(np.quantile(received, 0.5) + np.quantile(received, 0.85)) / 2
    return float(np.clip(target / max(middle, 1e-6), 0.5, 4.0))


def gentle(linear: F32) -> F32:
    """The tone map: as it is up to .6, then a smooth shoulder that nears one. A bright colour keeps most of its hue:
    half of the shoulder works on the brightest channel, half on each for itself."""
    top = np.maximum(linear.max(axis=-1, keepdims=True), np.float32(1e-6))
    return np.asarray(0.5 * linear * (_shoulder(top) / top) + 0.5 * _shoulder(linear), np.float32)


def _shoulder(linear: F32) -> F32:
    knee = np.float32(0.6)
    over = np.maximum(linear - knee, 0)
    return np.asarray(np.where(linear > knee, knee + (1 - knee) * (1 - np.exp(-over / (1 - knee))), linear), np.float32)


def _through_panes(painter: Painter, seen: Seen, colour: F32) -> F32:
    """Colours seen through panes: what stands behind, tinted, or daylight where nothing does, and a faint mirror."""
    world = painter.world
    at = np.flatnonzero(seen.pane != NOTHING)
    if len(at) == 0:
        return colour
    meshes = [world.meshes[n] for n in range(len(world.meshes))]
    tints = np.array([m.surface.colour for m in meshes], np.float32)[seen.pane[at]]
    low = np.array([m.vertices[:, 2].min() if len(m.vertices) else 0.0 for m in meshes])
    high = np.array([m.vertices[:, 2].max() if len(m.vertices) else 1.0 for m in meshes])
    pane = seen.pane[at]
    height = seen.pane_height[at] + world.centre_mm[2] - low[pane]
    up = np.clip(height / np.maximum(high[pane] - low[pane], 1), 0, 1).astype(np.float32)[:, None]
    daylight = tints * (np.float32(1.10) - np.float32(0.38) * up) + np.float32(0.10) * (1 - up)
    outside = (seen.mesh[at] < 0)[:, None]
    behind = np.where(outside, daylight / np.float32(painter.exposure), colour[at] * (0.6 + 0.4 * tints))
    share = mirrored_share(seen.pane_facing[at], np.float32(0.05), np.float32(0.05))[:, None]
    colour[at] = behind * (1 - share) + painter.sky.sky * np.float32(1.1 / painter.exposure) * share
    return colour


def paint(painter: Painter, seen: Seen, light: F32, footprint: F32, picture_y: F32) -> F32:
    """Display colours (n, 3), linear 0 to 1, of what is seen under the light (n, CHANNELS).

    ``picture_y`` (n,) is 0 at the picture's top and 1 at its bottom.
    """
    back = np.asarray(painter.background, np.float32) * (1 + np.float32(0.06) * (0.5 - picture_y))[:, None]
    surface = _surface_colour(painter, seen, light, footprint)
    surface = _through_panes(painter, seen, surface)
    out = gentle(surface * np.float32(painter.exposure))
    bare = seen.pane == NOTHING
    nothing = np.flatnonzero((seen.mesh == NOTHING) & bare)
    out[nothing] = back[nothing]
    ground = np.flatnonzero((seen.mesh == GROUND) & bare)
    out[ground] = back[ground] * _ground_share(painter, seen.place[ground], light[ground])
    return np.clip(out, 0, 1)


def _ground_share(painter: Painter, place: F32, light: F32) -> F32:
    """How dark the shadow on the ground leaves the background, (n, 3), fading out with distance."""
    sky = painter.sky
    sun = sky.sun * np.maximum(sky.toward_sun[2], 0)
    share = (light[:, AMBIENT] + light[:, SUN, None] * sun) / np.maximum(sky.open_ground, np.float32(1e-6))
    far = np.hypot(place[:, 0], place[:, 1])
    fade = np.clip((far - painter.ground_from_mm) / (painter.ground_to_mm - painter.ground_from_mm), 0, 1)
    fade = fade * fade * (3 - 2 * fade)
    grey = share.mean(axis=1, keepdims=True) * 0.6 + share * 0.4
    grey = 1 - np.float32(_GROUND_SHADE) * (1 - grey)
    return np.asarray(np.minimum(grey, 1.02) * (1 - fade[:, None]) + fade[:, None], np.float32)
