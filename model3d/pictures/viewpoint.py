"""Where the viewer stands: by rule off the target wall's normal, tried a few ways, measured on an id map."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from model3d.geometry.placement import Vec3, subtract
from model3d.pictures.cutaway import cut_open, notched, opened
from model3d.pictures.sight import RayScene, only, sighting
from model3d.pictures.solids import PlacedMesh, cut_away, placed
from model3d.pictures.stage import Camera, Cut, Inset, Points, Stage
from model3d.pictures.swings import arc
from model3d.pictures.theme import Theme
from model3d.pictures.views import Room, direction, framed

AZIMUTHS_DEG = (35.0, -35.0, 20.0, -20.0, 52.0, -52.0)
OVERVIEW_AZIMUTHS_DEG = (18.0, -18.0, 0.0, 32.0, -32.0)
OVERVIEW_ELEVATIONS_DEG = (52.0, 60.0, 68.0)
LEAST_SHARE = 0.6
_STAY = 1.12
_PROBE_WIDTH = 400
_INSET_PROBE = (120, 120)
_HIDDEN_SHARE = 0.4
_LEAST_VIEW_MM = 330.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class View:
    """A chosen viewpoint, the room as opened up for it, the share of the subject that is seen, and its
    pixels.
    """

    camera: Camera
    scene: RayScene
    share: float
    seen_px: int

    @property
    def solids(self) -> tuple[PlacedMesh, ...]:
        """What stands on the picture."""
        return self.scene.solids


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bed:
    """A stage ready to be looked at from many sides: walls and fixtures, the rest, and the subject alone."""

    room: tuple[PlacedMesh, ...]
    rest: RayScene
    alone: RayScene | None


def bed_of(solids: Sequence[PlacedMesh], subject_ids: Collection[str]) -> Bed:
    """Sort solids for looking; without a subject nothing is measured. Raises ValueError when no solid has its id."""
    movable = ("room-wall", "room-fixture")
    return Bed(
        room=tuple(solid for solid in solids if solid.look in movable),
        rest=RayScene([solid for solid in solids if solid.look not in movable]),
        alone=only(solids, subject_ids) if subject_ids else None,
    )


def stage_bed(stage: Stage, theme: Theme) -> Bed:
    """The main picture's solids, sorted; what stands in the room is cut to the height of the walls, or it would stand
    out over them.
    """
    solids = placed(stage.actors, stage.meshes)
    low = [cut_away(s, (0.0, 0.0, theme.wall_mm), (0.0, 0.0, 1.0)) if s.look == "obstacle" else s for s in solids]
    return bed_of([solid for solid in low if solid is not None], stage.subjects)


def chosen(bed: Bed, stage: Stage, theme: Theme, size_px: tuple[int, int], room: Room) -> View:
    """The best view of a stage: the first azimuth unless another shows clearly more of the subject.

    Score: seen share, then the pixels of the subject that are seen. Steeper views are tried only when none shows
    ``LEAST_SHARE`` of it.
    """
    if stage.camera is not None:
        return _cleared(bed, stage.camera, theme, _probe(size_px))
    points = points_to_see(stage, bed)
    views: list[View] = []
    azimuths = OVERVIEW_AZIMUTHS_DEG if stage.overview else AZIMUTHS_DEG
    for elevation in OVERVIEW_ELEVATIONS_DEG if stage.overview else (theme.elevation_deg, 45.0, 58.0):
        for azimuth in azimuths:
            camera = framed(points, direction(stage.facing, azimuth, elevation), theme.field_deg, size_px, room)
            views.append(_cleared(bed, camera, theme, _probe(size_px)))
        if max(view.share for view in views) >= LEAST_SHARE:
            break
    return _best(views)


def stepped_back(view: View, bed: Bed, stage: Stage, theme: Theme, size_px: tuple[int, int], room: Room) -> View:
    """The same direction with other margins."""
    toward = subtract(view.camera.eye_mm, view.camera.target_mm)
    camera = framed(points_to_see(stage, bed), toward, theme.field_deg, size_px, room)
    return _cleared(bed, camera, theme, _probe(size_px))


def points_to_see(stage: Stage, bed: Bed) -> Points:
    """Every point the picture must hold: the subject, its arrows and marks, the joints, and at least .66 m
    round it.
    """
    seen = bed.alone.solids if bed.alone is not None else bed.rest.solids
    seen += tuple(solid for solid in bed.rest.solids if solid.id in stage.framed_ids or solid.look == "ghost")
    subject = np.concatenate([solid.vertices_mm for solid in seen])
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
    whole = whole if inset.notch is None else notched(whole, inset.notch)
    solids = whole if inset.cut is None else cut_open(whole, inset.cut)
    best = _best_direction(inset, solids, stage.facing, theme)
    if inset.cut is None and inset.subject_ids and not inset.keeps_side and best.share < _HIDDEN_SHARE:
        middle = np.mean([_middle(solid) for solid in whole if solid.id in inset.subject_ids], axis=0)
        cut = Cut(at_mm=_vec(middle), normal=stage.facing)
        other = _best_direction(inset, cut_open(whole, cut), stage.facing, theme)
        best = other if other.share > best.share else best
    return best


def _best_direction(inset: Inset, solids: Sequence[PlacedMesh], facing: Vec3, theme: Theme) -> View:
    bed = bed_of(solids, inset.subject_ids)
    best = _cleared(bed, ball_camera(inset, inset.direction), theme, _INSET_PROBE)
    for toward in _other_directions(inset, facing):
        if best.share >= LEAST_SHARE:
            break
        view = _cleared(bed, ball_camera(inset, toward), theme, _INSET_PROBE)
        best = view if view.share > best.share * _STAY else best
    return best


def ball_camera(inset: Inset, toward: Vec3, field_deg: float = 24.0) -> Camera:
    """A camera in direction ``toward`` whose picture just holds the inset's ball."""
    unit = np.asarray(toward) / np.linalg.norm(toward)
    eye = np.asarray(inset.centre_mm) + unit * (inset.radius_mm / math.sin(math.radians(field_deg / 2)))
    return Camera(eye_mm=_vec(eye), target_mm=inset.centre_mm, field_deg=field_deg)


def _other_directions(inset: Inset, facing: Vec3) -> Iterator[Vec3]:
    yield from inset.other_directions
    if inset.subject_ids and not inset.keeps_side:
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
    yield from (inset.ringed_mm for inset in stage.insets)


def _probe(size_px: tuple[int, int]) -> tuple[int, int]:
    return _PROBE_WIDTH, max(1, _PROBE_WIDTH * size_px[1] // size_px[0])


def _cleared(bed: Bed, camera: Camera, theme: Theme, probe: tuple[int, int]) -> View:
    """The view from one camera; walls and fixtures that still hide the subject are cut down or left out as well."""
    toward = subtract(camera.eye_mm, camera.target_mm)
    scene = RayScene(opened(bed.room, toward, theme), bed.rest)
    if bed.alone is None:
        return View(camera=camera, scene=scene, share=1.0, seen_px=0)
    seen = sighting(scene, bed.alone, camera, probe)
    looks = {solid.id: solid.look for solid in scene.solids}
    low = {k for k, share in seen.hiders.items() if looks[k] in ("room-wall", "room-fixture") and share > 0.005}
    if low:
        scene = RayScene(opened(bed.room, toward, theme, low), bed.rest)
        seen = sighting(scene, bed.alone, camera, probe)
    return View(camera=camera, scene=scene, share=seen.share, seen_px=seen.seen)


def _best(views: Sequence[View]) -> View:
    most = max(view.share for view in views)
    good = [view for view in views if view.share >= 0.9 * most]
    best = max(good, key=lambda view: view.seen_px)
    return best if best.seen_px > _STAY * good[0].seen_px else good[0]


def _middle(solid: PlacedMesh) -> Points:
    return np.asarray((solid.vertices_mm.min(axis=0) + solid.vertices_mm.max(axis=0)) / 2)


def _vec(point: Points) -> Vec3:
    return float(point[0]), float(point[1]), float(point[2])
