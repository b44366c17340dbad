"""Where the viewer stands: by rule off the target wall's normal, tried a few ways, measured on an id map."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from model3d.geometry.placement import Vec3, subtract
from model3d.pictures.cutaway import cut_open, opened
from model3d.pictures.sight import RayScene, only, sighting
from model3d.pictures.solids import PlacedMesh, placed
from model3d.pictures.stage import Camera, Cut, Inset, Points, Stage
from model3d.pictures.swings import arc
from model3d.pictures.theme import Theme
from model3d.pictures.views import Room, direction, framed

AZIMUTHS_DEG = (35.0, -35.0, 20.0, -20.0, 52.0, -52.0)
LEAST_SHARE = 0.6
_STAY = 1.12
_PROBE_WIDTH = 400
_INSET_PROBE = (120, 120)
_HIDDEN_SHARE = 0.4
_LEAST_VIEW_MM = 450.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class View:
    """A chosen viewpoint, the room as opened up for it, the share of the subject that is seen, and its
    pixels.
    """

    camera: Camera
    solids: tuple[PlacedMesh, ...]
    share: float
    seen_px: int


def chosen(stage: Stage, theme: Theme, size_px: tuple[int, int], room: Room) -> View:
    """The best view of a stage: the first azimuth unless another shows clearly more of the subject.

    Score: seen share, then the pixels of the subject that are seen. Steeper views are tried only when none
    shows ``LEAST_SHARE`` of it.
    """
    solids = placed(stage.actors, stage.meshes)
    if stage.camera is not None:
        return _view(solids, stage, stage.camera, theme, size_px)
    points = points_to_see(stage, solids)
    views: list[View] = []
    for elevation in (theme.elevation_deg, 45.0, 58.0):
        for azimuth in AZIMUTHS_DEG:
            camera = framed(points, direction(stage.facing, azimuth, elevation), theme.field_deg, size_px, room)
            views.append(_view(solids, stage, camera, theme, size_px))
        if max(view.share for view in views) >= LEAST_SHARE:
            break
    return _best(views)


def stepped_back(view: View, stage: Stage, theme: Theme, size_px: tuple[int, int], room: Room) -> View:
    """The same direction with other margins."""
    solids = placed(stage.actors, stage.meshes)
    toward = subtract(view.camera.eye_mm, view.camera.target_mm)
    camera = framed(points_to_see(stage, solids), toward, theme.field_deg, size_px, room)
    return _view(solids, stage, camera, theme, size_px)


def points_to_see(stage: Stage, solids: Sequence[PlacedMesh]) -> Points:
    """Every point the picture must hold: the subject, its arrows and marks, the joints, and at least .9 m
    round it.
    """
    subject = np.concatenate([solid.vertices_mm for solid in solids if solid.id in stage.subjects])
    middle = (subject.min(axis=0) + subject.max(axis=0)) / 2
    along = np.array([-stage.facing[1], stage.facing[0], 0.0])
    marks = [*_marks(stage), middle - along * _LEAST_VIEW_MM, middle + along * _LEAST_VIEW_MM]
    return np.concatenate([subject, np.array(marks, dtype=float)])


def inset_view(inset: Inset, stage: Stage, theme: Theme) -> View:
    """The close-up's viewpoint: the first direction that shows its subject well, else the one that shows
    most.

    A subject that stays hidden from everywhere is inside the metal: then the bodies round it are cut open by
    a level plane along the wall, through its middle, and the best direction is taken again.
    """
    actors = stage.actors if inset.actors is None else inset.actors
    whole = placed(actors, stage.meshes)
    solids = whole if inset.cut is None else cut_open(whole, inset.cut)
    best = _best_direction(inset, solids, stage.facing, theme)
    if inset.cut is None and inset.subject_ids and best.share < _HIDDEN_SHARE:
        middle = np.mean([_middle(solid) for solid in whole if solid.id in inset.subject_ids], axis=0)
        cut = Cut(at_mm=_vec(middle), normal=stage.facing)
        other = _best_direction(inset, cut_open(whole, cut), stage.facing, theme)
        best = other if other.share > best.share else best
    return best


def _best_direction(inset: Inset, solids: Sequence[PlacedMesh], facing: Vec3, theme: Theme) -> View:
    best: View | None = None
    alone = only(solids, inset.subject_ids) if inset.subject_ids else None
    for toward in _directions(inset, facing):
        camera = ball_camera(inset, toward)
        if alone is None:
            return View(camera=camera, solids=opened(solids, toward, theme), share=1.0, seen_px=0)
        view = _cleared(solids, alone, camera, theme, _INSET_PROBE)
        if best is None or view.share > best.share * _STAY:
            best = view
        if best.share >= LEAST_SHARE:
            break
    assert best is not None
    return best


def ball_camera(inset: Inset, toward: Vec3, field_deg: float = 24.0) -> Camera:
    """A camera in direction ``toward`` whose picture just holds the inset's ball."""
    unit = np.asarray(toward) / np.linalg.norm(toward)
    eye = np.asarray(inset.centre_mm) + unit * (inset.radius_mm / math.sin(math.radians(field_deg / 2)))
    return Camera(eye_mm=_vec(eye), target_mm=inset.centre_mm, field_deg=field_deg)


def _directions(inset: Inset, facing: Vec3) -> Iterator[Vec3]:
    yield inset.direction
    yield from inset.other_directions
    if inset.subject_ids:
        for elevation in (28.0, 50.0):
            for azimuth in (30.0, -30.0, 60.0, -60.0):
                yield direction(facing, azimuth, elevation)


def _marks(stage: Stage) -> Iterator[Vec3]:
    for arrow in stage.arrows:
        yield arrow.start_mm
        yield arrow.end_mm
    for swing in stage.swings:
        yield from arc(swing)
    yield from (badge.at_mm for badge in stage.badges)
    yield from (callout.at_mm for callout in stage.callouts)
    yield from (inset.centre_mm for inset in stage.insets)


def _view(solids: Sequence[PlacedMesh], stage: Stage, camera: Camera, theme: Theme, size_px: tuple[int, int]) -> View:
    probe = (_PROBE_WIDTH, max(1, _PROBE_WIDTH * size_px[1] // size_px[0]))
    return _cleared(solids, only(solids, stage.subjects), camera, theme, probe)


def _cleared(
    solids: Sequence[PlacedMesh], alone: RayScene, camera: Camera, theme: Theme, probe: tuple[int, int]
) -> View:
    """The view from one camera; walls and fixtures that still hide the subject are cut down or left out as
    well.
    """
    toward = subtract(camera.eye_mm, camera.target_mm)
    scene = opened(solids, toward, theme)
    seen = sighting(RayScene(scene), alone, camera, probe)
    looks = {solid.id: solid.look for solid in scene}
    low = {k for k, share in seen.hiders.items() if looks[k] in ("room-wall", "room-fixture") and share > 0.005}
    if low:
        scene = opened(solids, toward, theme, low)
        seen = sighting(RayScene(scene), alone, camera, probe)
    return View(camera=camera, solids=scene, share=seen.share, seen_px=seen.seen)


def _best(views: Sequence[View]) -> View:
    most = max(view.share for view in views)
    good = [view for view in views if view.share >= 0.9 * most]
    best = max(good, key=lambda view: view.seen_px)
    return best if best.seen_px > _STAY * good[0].seen_px else good[0]


def _middle(solid: PlacedMesh) -> Points:
    return np.asarray((solid.vertices_mm.min(axis=0) + solid.vertices_mm.max(axis=0)) / 2)


def _vec(point: Points) -> Vec3:
    return float(point[0]), float(point[1]), float(point[2])
