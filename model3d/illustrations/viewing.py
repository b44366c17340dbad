"""Which way a setting is looked at: from its outlook, or from the first of its directions that shows enough."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from functools import lru_cache

import numpy as np
from scipy.spatial import ConvexHull

from model3d.geometry.placement import subtract
from model3d.illustrations.camera import Camera, Points, Window, framed
from model3d.illustrations.picture import Outlook, Setting
from model3d.illustrations.shapes import Shape, moved
from model3d.illustrations.sight import NOTHING, Sight

SCALES = (1, 2, 5, 10, 20, 25, 50, 100, 200)
ENOUGH_MM2 = 4.0  # of the page: a part of which that much is seen is seen well
NEARLY = 0.85
_DISTANCE = 4.5  # of the eye, in spans of what is drawn
_CELLS = 1.5  # to a page millimetre, when directions are compared


def corners(settings: Sequence[Setting]) -> Points:
    """(n, 3) points between which all lies that settings show: those that stand out furthest, of every body."""
    bodies = [one.body for setting in settings for one in setting.shown]
    lines = [np.array(line) for setting in settings for line in setting.room_lines]
    return np.concatenate([*(moved(_outermost(body.shape), body.placement) for body in bodies), *lines])


@lru_cache(maxsize=1024)
def _outermost(shape: Shape) -> Points:
    """(k, 3) corners of the convex hull of a shape, in its own frame."""
    points = shape.corners_mm.reshape(-1, 3)
    return np.asarray(points[ConvexHull(points).vertices])


def sight_of(setting: Setting, points: Points) -> Sight:
    """The bodies of a setting ready for rays."""
    return Sight([one.body for one in setting.shown], (points.min(axis=0) + points.max(axis=0)) / 2)


def camera_of(setting: Setting, sight: Sight, points: Points, window: Window, scale: float | None) -> Camera:
    """A camera with all ``points`` in the window, from the first direction that is nearly as good as the best: the one
    from which the part that is seen least is seen most, against what other directions show of it.
    """
    if setting.outlook is not None:
        return from_outlook(setting.outlook, window)
    span = float(np.linalg.norm(points.max(axis=0) - points.min(axis=0)))
    distance = None if setting.parallel else _DISTANCE * span
    cameras = []
    for toward in (setting.toward, *setting.others):
        bare = Camera(target_mm=(0.0, 0.0, 0.0), toward=toward, up=setting.up, distance_mm=distance)
        camera = framed(points, bare, window, scale=scale)
        if setting.to_scale and scale is None:
            camera = framed(points, bare, window, scale=standard_scale(camera.scale))
        cameras.append(camera)
    if len(cameras) == 1:
        return cameras[0]
    scores = _scores(setting, [_seen_mm2(sight, camera, window) for camera in cameras])
    return next(c for c, score in zip(cameras, scores, strict=True) if score >= min(NEARLY * max(scores), max(scores)))


def from_outlook(outlook: Outlook, window: Window) -> Camera:
    """The camera of a viewpoint, its picture across the window's whole width."""
    toward = subtract(outlook.eye_mm, outlook.target_mm)
    distance = math.hypot(*toward)
    half = math.tan(math.radians(outlook.field_deg) / 2.0)
    middle = (window.left + window.width / 2, window.top + (0.5 + outlook.shift) * window.height)
    return Camera(
        target_mm=outlook.target_mm,
        toward=toward,
        distance_mm=distance,
        scale=window.width / 2.0 / half / distance,
        middle_mm=middle,
    )


def standard_scale(most: float) -> float:
    """The largest reduction scale of ISO 5455 (or 1:25, in common use for rooms) that is no larger than ``most``."""
    return next((1.0 / n for n in SCALES if 1.0 / n <= most), most)


def _seen_mm2(sight: Sight, camera: Camera, window: Window) -> dict[str, float]:
    """How much is seen of each part, page mm2."""
    numbers, cells = np.unique(sight.id_map(camera, window, _CELLS), return_counts=True)
    seen: dict[str, float] = {}
    for number, count in zip(numbers.tolist(), cells.tolist(), strict=True):
        if number != NOTHING:
            owner = sight.bodies[number].owner
            seen[owner] = seen.get(owner, 0.0) + count / _CELLS**2
    return seen


def _scores(setting: Setting, seen: Sequence[Mapping[str, float]]) -> list[float]:
    """For each direction the share of the part that fares worst, of what the best direction shows of it; less than
    nothing where a place has no part that is seen well.
    """
    places = [place for item in setting.items for place in item.places] + [(p,) for p in setting.must_see]
    parts = {part for place in places for part in place}
    best = {part: max(one.get(part, 0.0) for one in seen) for part in parts}
    found = []
    for one in seen:
        least = min((max(one.get(part, 0.0) for part in place) for place in places), default=ENOUGH_MM2)
        share = min((one.get(part, 0.0) / best[part] for part in parts if best[part] > 0.0), default=1.0)
        found.append(share if least >= ENOUGH_MM2 else least / ENOUGH_MM2 - 1.0)
    return found
