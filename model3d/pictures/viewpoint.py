"""Where the viewer stands: by rule off the target wall's normal, tried a few ways, measured on an id map."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from model3d.geometry.placement import Vec3, subtract
from model3d.pictures.cutaway import opened
from model3d.pictures.sight import RayScene, hiders, seen_share
from model3d.pictures.solids import PlacedMesh, placed
from model3d.pictures.stage import Camera, Inset, Points, Stage
from model3d.pictures.swings import arc
from model3d.pictures.theme import THEME, Theme
from model3d.pictures.views import Room, direction, framed

AZIMUTHS_DEG = (35.0, -35.0, 20.0, -20.0, 52.0, -52.0)
LEAST_SHARE = 0.6
_STAY = 1.12
_PROBE_WIDTH = 400
_LEAST_VIEW_MM = 450.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class View:
    """A chosen viewpoint, the room as opened up for it, and the share of the subject that is seen from it."""

    camera: Camera
    solids: tuple[PlacedMesh, ...]
    share: float


def visible_share(stage: Stage, actor_ids: Collection[str], camera: Camera | None = None) -> float:
    """Share of the actors' silhouette that is seen, against the same actors alone from the same camera, 0 to
    1.

    ``camera`` None: the viewpoint that the step picture takes. Raises ValueError when no actor has such an
    id.
    """
    size = (1600, 700)
    if camera is None:
        view = chosen(stage, THEME, size, Room(left=90, right=90, top=70, bottom=70))
        camera, solids = view.camera, view.solids
    else:
        solids = opened(placed(stage.actors, stage.meshes), subtract(camera.eye_mm, camera.target_mm), THEME)
    return seen_share(RayScene(solids), actor_ids, camera, (800, 350))


def chosen(stage: Stage, theme: Theme, size_px: tuple[int, int], room: Room) -> View:
    """The best view of a stage: the first azimuth unless another shows clearly more of the subject.

    Score: seen share, then the pixels the subject fills. Steeper views are tried only when none shows
    ``LEAST_SHARE`` of it.
    """
    solids = placed(stage.actors, stage.meshes)
    if stage.camera is not None:
        toward = subtract(stage.camera.eye_mm, stage.camera.target_mm)
        return _view(solids, stage, toward, stage.camera, theme, size_px)
    points = points_to_see(stage, solids)
    views: list[View] = []
    for elevation in (theme.elevation_deg, 45.0, 58.0):
        for azimuth in AZIMUTHS_DEG:
            toward = direction(stage.facing, azimuth, elevation)
            camera = framed(points, toward, theme.field_deg, size_px, room)
            views.append(_view(solids, stage, toward, camera, theme, size_px))
        if max(view.share for view in views) >= LEAST_SHARE:
            break
    return _best(views, stage)


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
    """The close-up's viewpoint: the first direction that shows most of its subject, else the one that shows
    most.
    """
    actors = stage.actors if inset.actors is None else inset.actors
    solids = placed(actors, stage.meshes)
    best: View | None = None
    for toward in _directions(inset, stage.facing):
        camera = ball_camera(inset, toward)
        scene = opened(solids, toward, theme)
        share = 1.0
        if inset.subject_ids:
            rays = RayScene(scene)
            walls = _room_hiders(rays, inset.subject_ids, camera, (160, 160))
            if walls:
                scene = opened(solids, toward, theme, walls)
                rays = RayScene(scene)
            share = seen_share(rays, inset.subject_ids, camera, (160, 160))
        if best is None or share > best.share * _STAY:
            best = View(camera=camera, solids=scene, share=share)
        if best.share >= LEAST_SHARE:
            break
    assert best is not None
    return best


def ball_camera(inset: Inset, toward: Vec3, field_deg: float = 24.0) -> Camera:
    """A camera in direction ``toward`` whose picture just holds the inset's ball."""
    unit = np.asarray(toward) / np.linalg.norm(toward)
    eye = np.asarray(inset.centre_mm) + unit * (inset.radius_mm / math.sin(math.radians(field_deg / 2)))
    return Camera(
        eye_mm=(float(eye[0]), float(eye[1]), float(eye[2])), target_mm=inset.centre_mm, field_deg=field_deg
    )


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


def _view(
    solids: Sequence[PlacedMesh], stage: Stage, toward: Vec3, camera: Camera, theme: Theme, size_px: tuple[int, int]
) -> View:
    """The view from one camera, walls that still hide the subject cut down as well."""
    probe = (_PROBE_WIDTH, max(1, _PROBE_WIDTH * size_px[1] // size_px[0]))
    scene = opened(solids, toward, theme)
    low = _room_hiders(RayScene(scene), stage.subjects, camera, probe)
    if low:
        scene = opened(solids, toward, theme, low)
    return View(camera=camera, solids=scene, share=seen_share(RayScene(scene), stage.subjects, camera, probe))


def _room_hiders(scene: RayScene, ids: Collection[str], camera: Camera, probe: tuple[int, int]) -> set[str]:
    looks = {solid.id: solid.look for solid in scene.solids}
    found = hiders(scene, ids, camera, probe)
    return {name for name, share in found.items() if looks[name] in ("room-wall", "room-fixture") and share > 0.005}


def _best(views: Sequence[View], stage: Stage) -> View:
    most = max(view.share for view in views)
    good = [view for view in views if view.share >= 0.9 * most]

    def filled(view: View) -> float:
        bare = RayScene([solid for solid in view.solids if solid.id in stage.subjects])
        return float((bare.id_map(view.camera, (_PROBE_WIDTH, 175)) >= 0).sum()) * view.share

    first = good[0]
    best = max(good, key=filled)
    return best if filled(best) > _STAY * filled(first) else first
