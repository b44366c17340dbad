"""From a fitting's steps to takes: each seen from where its step picture is seen, or all of a corner from close by."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence

import numpy as np

from model3d.families.family import Family
from model3d.geometry.placement import Vec3, add
from model3d.layout import Joint, Layout, Piece
from model3d.pictures.compose import composed
from model3d.pictures.moving.take import Lens, Player, Take, standing
from model3d.pictures.moving.timeline import Phase, timeline
from model3d.pictures.sight import RayScene
from model3d.pictures.solids import PlacedMesh, moved, placed
from model3d.pictures.stage import Actor, Camera, Points
from model3d.pictures.staging import StepStages
from model3d.pictures.staging.looks import ROOM_LOOKS, fitted_look, new_look
from model3d.pictures.staging.meshes import MeshLibrary
from model3d.pictures.staging.poses import on_piece, run_direction
from model3d.pictures.theme import Theme
from model3d.pictures.views import Room, framed, project
from model3d.scene import Scene
from model3d.steps import Step, up_already
from model3d.wording import catalogue

STEP_PX = (960, 460)
LENS_PX = 118
CORNER_PX = (960, 540)
CLOSE_MM, END_MM = 330.0, 90.0
MARGIN_PX = 30.0
BY_HAND = ("draw-out", "insert")


class Film:
    """Makes the takes of a fitting whose steps have been proved to go; meshes are made once."""

    def __init__(self, layout: Layout, scene: Scene, steps: tuple[Step, ...], family: Family, theme: Theme) -> None:
        self._layout, self._scene, self._steps, self._family, self._theme = layout, scene, steps, family, theme
        self._library = MeshLibrary()
        self._stages = StepStages(layout, scene, steps, family, self._library)

    def step(self, number: int) -> Take | None:
        """The take of a step that puts pieces up, from where its picture is seen; None for any other step."""
        step = self._steps[number - 1]
        phases = self._phases(step)
        if not phases:
            return None
        page = composed(self._stages.stage(number), self._theme)
        actors = self._players(step, phases)
        group = self._group(step)
        camera = _looking_at(page.view.camera, _ways(actors, phases))
        still = self._still(page.view.solids, actors)
        return Take(
            title=f"{number}. {step.title}",
            words=catalogue(step.language),
            camera=camera,
            size_px=STEP_PX,
            facing=page.facing,
            shade_mm=page.shade_mm,
            still=still,
            players=actors,
            hoses=self._bent_hoses(step),
            phases=phases,
            lens=_lens(group, camera, (*still, *map(standing, actors)), {a.part.id for a in actors}),
        )

    def corner(self, corner_id: str) -> Iterator[Take]:
        """The takes of every step at a corner, close up: what ends the earlier piece, then the later piece.

        Raises KeyError where no joint stands at such a corner.
        """
        joints = [j for run in self._layout.runs for j in run.joints if j.corner and j.corner.id == corner_id]
        if not joints:
            raise KeyError(corner_id)
        for joint in joints:
            for step in self._steps:
                if {joint.earlier, joint.later} & set(step.pieces):
                    yield from self._close_up(step, joint)

    def _close_up(self, step: Step, joint: Joint) -> Iterator[Take]:
        phases = self._phases(step)
        here = joint.later in step.pieces
        phases = tuple(p for p in phases if (p.name in BY_HAND) != here)  # by hand is done at a piece's other end
        if not phases:
            return
        actors = self._players(step, phases)
        walls = {p.wall.id for p in self._layout.pieces if p.mark in (joint.earlier, joint.later)}
        around = [p for p in self._scene.room if p.role == "floor" or (p.role == "wall" and p.wall in walls)]
        up = {i for s in self._steps[: step.number - 1] for i in (*s.travels, *s.follows)}
        up |= set(up_already(self._layout, self._scene))
        fitted = [(p, fitted_look(p)) for p in self._scene.fitted if p.id in up]
        shown = [(p, ROOM_LOOKS[p.role]) for p in around] + fitted
        stand = [Actor(id=p.id, mesh_key=self._library.key(p), placement=p.placement, look=look) for p, look in shown]
        camera, facing = self._close(joint, self._offered_end(joint, phases[0]) if here else ())
        yield Take(
            title=f"{step.number}. {step.title}",
            words=catalogue(step.language),
            camera=camera,
            size_px=CORNER_PX,
            facing=facing,
            shade_mm=80.0,
            still=self._still(placed(stand, self._library.of({a.mesh_key for a in stand})), actors),
            players=actors,
            hoses=self._bent_hoses(step),
            phases=phases,
        )

    def _close(self, joint: Joint, more_mm: Sequence[Vec3]) -> tuple[Camera, Vec3]:
        """From the room on the corner, some third of a metre of either piece in the picture and all of ``more_mm``."""
        earlier, later = (next(p for p in self._layout.pieces if p.mark == m) for m in (joint.earlier, joint.later))
        one, other = run_direction(earlier, 0.0, 1.0, 0.0), run_direction(later, 0.0, 1.0, 0.0)
        out = add(one, other)
        points = [
            on_piece(piece, share, u, v)
            for piece, share, inward in ((earlier, 1.0, -1.0), (later, 0.0, 1.0))
            for share in (share, share + inward * min(CLOSE_MM / piece.cut_length_mm, 1.0))
            for u in (0.0, 60.0)
            for v in (0.0, 170.0)
        ]
        toward = (out[0], out[1], 0.7 * math.hypot(out[0], out[1]))
        margins = Room(left=20, right=20, top=30, bottom=30)
        camera = framed(np.array([*points, *more_mm]), toward, 26.0, CORNER_PX, margins)
        return camera, (out[0], out[1], 0.0)

    def _offered_end(self, joint: Joint, offer: Phase) -> tuple[Vec3, ...]:
        """A box round the later piece's near end where it sets out."""
        later = next(p for p in self._layout.pieces if p.mark == joint.later)
        start = offer.move(f"{later.mark}/piece", 0.0)
        return tuple(start.point(c) for c in _box(later, 0.0, min(END_MM / later.cut_length_mm, 1.0)))

    def _group(self, step: Step) -> tuple[Piece, ...]:
        return tuple(p for mark in step.pieces for p in self._layout.pieces if p.mark == mark)

    def _phases(self, step: Step) -> tuple[Phase, ...]:
        beyond = next((p for p in self._layout.pieces if p.mark == step.links_into), None)
        return timeline(self._family, self._scene, step, self._group(step), beyond)

    def _bent_hoses(self, step: Step) -> frozenset[str]:
        """The hoses of the link that the step's first piece is pushed onto, and of those pushed in by hand at both
        ends.
        """
        group = self._group(step)
        joints = [j for run in self._layout.runs for j in run.joints if group and j.kind == "link"]
        near = not step.near_by_hand or step.links_from is not None
        bent = {j.mark for j in joints if near and j.later == group[0].mark}
        bent |= {j.mark for j in joints if step.links_into is not None and j.earlier == group[-1].mark}
        return frozenset(p.id for p in self._scene.fitted if p.role == "hose" and p.joint in bent)

    def _players(self, step: Step, phases: Sequence[Phase]) -> tuple[Player, ...]:
        """All parts that are elsewhere at some time of the step, and what comes with it."""
        ids = {*step.travels, *self._bent_hoses(step)}
        for phase in phases:
            ids |= {*phase.before, *phase.still}
        new = {*step.travels, *step.follows}
        found = []
        for part in (p for p in self._scene.fitted if p.id in ids):
            key = self._library.key(part)
            look = new_look(part) if part.id in new or part.joint is not None else fitted_look(part)
            found.append(Player(part=part, mesh=self._library.of([key])[key], look=look))
        return tuple(found)

    def _still(self, solids: Sequence[PlacedMesh], actors: Sequence[Player]) -> tuple[PlacedMesh, ...]:
        moving = {a.part.id for a in actors}
        return tuple(s for s in solids if s.id not in moving and s.look != "ghost" and not s.id.startswith("ghost"))


def _box(piece: Piece, low: float = 0.0, high: float = 1.0) -> list[Vec3]:
    """Corners of a box round a stretch of a piece."""
    return [on_piece(piece, share, u, v) for share in (low, high) for u in (0.0, 40.0) for v in (0.0, 160.0)]


def _ways(players: Sequence[Player], phases: Sequence[Phase]) -> Points:
    """(n, 3) corners of boxes round everything that moves, where each phase begins, is halfway, and ends."""
    found = []
    for player in players:
        vertices = moved(player.mesh.vertices_mm, player.part.placement)
        low, high = vertices.min(axis=0), vertices.max(axis=0)
        box = [(x, y, z) for x in (low[0], high[0]) for y in (low[1], high[1]) for z in (low[2], high[2])]
        for phase in phases:
            if player.part.id not in phase.hidden:
                found += [phase.move(player.part.id, share).point(c) for share in (0.0, 0.5, 1.0) for c in box]
    return np.array(found)


def _looking_at(seen_from: Camera, points_mm: Points) -> Camera:
    """A camera in the direction of the step picture's, with all that moves in the picture from first to last."""
    toward = tuple(a - b for a, b in zip(seen_from.eye_mm, seen_from.target_mm, strict=True))
    margins = Room(left=MARGIN_PX, right=MARGIN_PX, top=MARGIN_PX, bottom=MARGIN_PX)
    return framed(points_mm, (toward[0], toward[1], toward[2]), seen_from.field_deg, STEP_PX, margins)


def _lens(group: Sequence[Piece], camera: Camera, solids: Sequence[PlacedMesh], joined: Collection[str]) -> Lens:
    """A close-up of the near end while it is joined and pressed, of the far end for what is done by hand; each from the
    side that shows most of what is ``joined`` there, in that corner of the picture that the pieces leave freest.
    """
    scene = RayScene([s for s in solids if s.look not in ROOM_LOOKS and s.look != "bracket"])
    near = _clearest(scene, [_close_camera(group[0], 0.0, out) for out in (-0.62, 0.55, -0.2)], joined)
    far = _clearest(scene, [_close_camera(group[-1], 1.0, out) for out in (0.55, -0.55, 0.2)], joined)
    cameras = dict.fromkeys(("raise", "slide", "engage", "press", "push-in"), near) | dict.fromkeys(BY_HAND, far)
    line = [on_piece(p, s, 20.0, 70.0) for p in group for s in (0.0, 0.25, 0.5, 0.75, 1.0)]
    seen = project(camera, np.array(line), *STEP_PX)[:, :2]
    edge = LENS_PX + 14.0
    corners = [(x, y) for x in (edge, STEP_PX[0] - edge) for y in (edge, STEP_PX[1] - edge)]
    best = max(corners, key=lambda c: float(np.min(np.linalg.norm(seen - np.array(c), axis=1))))
    return Lens(centre_px=best, radius_px=LENS_PX, cameras=cameras)


def _clearest(scene: RayScene, cameras: Sequence[Camera], joined: Collection[str]) -> Camera:
    """The first camera that shows nearly as much of the parts as the best."""
    numbers = scene.numbers(joined)
    seen = [int(np.isin(scene.id_map(camera, (LENS_PX, LENS_PX)), numbers).sum()) for camera in cameras]
    return next(camera for camera, count in zip(cameras, seen, strict=True) if count >= 0.8 * max(seen))


def _close_camera(piece: Piece, share: float, out: float) -> Camera:
    inward = min(80.0 / piece.cut_length_mm, 1.0)
    stretch = (share, share + inward) if share == 0.0 else (share - inward, share)
    points = np.array(_box(piece, *stretch))
    side = 2 * LENS_PX, 2 * LENS_PX
    return framed(points, run_direction(piece, out, 0.68, 0.45), 24.0, side, Room(left=34, right=34, top=34, bottom=34))
