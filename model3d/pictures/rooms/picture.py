"""The customer's picture of a room from a named viewpoint: ray-traced, no OpenGL."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from model3d.families.family import Family
from model3d.layout import Layout
from model3d.pictures.raytrace.sight import id_map
from model3d.pictures.raytrace.surface import TraceMesh
from model3d.pictures.raytrace.trace import trace
from model3d.pictures.raytrace.view import Settings
from model3d.pictures.rooms.cameras import Shot
from model3d.pictures.rooms.contents import FURNITURE, before_meshes, furniture_meshes, run_meshes, wall_things
from model3d.pictures.rooms.lighting import CEILING_GLOW, room_light, studio_light
from model3d.pictures.rooms.shell import shell_meshes
from model3d.rooms import CheckedPlan
from model3d.scene import Scene

MEASURED_PX = 640
WANTED_SEEN, MOST_HIDDEN = 0.85, 0.06


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomToShow:
    """A room with all its numbers."""

    plan: CheckedPlan
    layout: Layout
    scene: Scene
    family: Family


def shot_meshes(room: RoomToShow, taken: Shot, *, before: bool = False) -> list[TraceMesh]:
    """Everything in a picture; with ``before``, the room as it was."""
    shown = replace(taken.shown, ceiling_glow=CEILING_GLOW if taken.closed else None, before=before)
    meshes = [*shell_meshes(room.plan, room.scene, shown), *wall_things(room.plan, room.scene, shown)]
    meshes += furniture_meshes(room.plan, shown)
    meshes += before_meshes(room.plan, shown) if before else run_meshes(room.plan, room.scene, shown)
    return meshes


def take(
    room: RoomToShow, taken: Shot, *, before: bool = False, settings: Settings | None = None
) -> npt.NDArray[np.uint8]:
    """The picture, (height, width, 3) sRGB bytes: the same for the same input on one machine."""
    light = room_light(room.plan, taken.view) if taken.closed else studio_light(taken.view)
    return trace(shot_meshes(room, taken, before=before), taken.view, replace(settings or Settings(), light=light))


def settled(room: RoomToShow, taken: Shot) -> Shot:
    """The same picture with the furniture left out that hides too much of the run: each piece that hides more than
    ``MOST_HIDDEN`` of its pixels, the worst first, until ``WANTED_SEEN`` of them are seen.

    A picture from an eye that the plan gives stays as it is asked for.
    """
    if taken.by_eye:
        return taken
    count = _counted(room, taken)
    shown = taken.shown
    for piece, hidden in sorted(count.hidden.items(), key=lambda pair: (-pair[1], pair[0])):
        if count.seen >= WANTED_SEEN * count.whole:
            break
        if hidden > MOST_HIDDEN * count.whole:
            shown = replace(shown, left_out=shown.left_out | {piece})
            count = _counted(room, replace(taken, shown=shown))
    return replace(taken, shown=shown)


def share_of_run_seen(room: RoomToShow, taken: Shot) -> float:
    """Share (0 to 1) of the run's pixels that are seen, of those that would be with nothing but the run there: its
    parts on the walls that the picture is of. 1 when none of them is in the frame at all.

    Counted on a map of what each pixel shows, ``MEASURED_PX`` wide.
    """
    count = _counted(room, taken)
    return count.seen / count.whole if count.whole else 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Count:
    """Pixels of the run: as they would be with nothing else there, as they are seen, and hidden by each piece."""

    whole: int
    seen: int
    hidden: dict[str, int]


def _counted(room: RoomToShow, taken: Shot) -> _Count:
    wide, high = taken.view.size_px
    view = replace(taken.view, size_px=(MEASURED_PX, max(1, round(MEASURED_PX * high / wide))))
    wanted = {p.id for p in room.scene.fitted if p.wall in taken.walls}
    meshes = shot_meshes(room, replace(taken, view=view))
    alone = [m for m in meshes if m.origin_id in wanted]
    if not alone:
        return _Count(whole=0, seen=0, hidden={})
    ours = id_map(alone, view) >= 0
    owners = [m.origin_id for m in meshes]
    numbers, counts = np.unique(id_map(meshes, view)[ours], return_counts=True)
    by_owner: dict[str, int] = {}
    for number, pixels in zip(numbers.tolist(), counts.tolist(), strict=True):
        name = owners[number] if number >= 0 else ""
        by_owner[name] = by_owner.get(name, 0) + pixels
    hidden = {name.removeprefix(FURNITURE): k for name, k in by_owner.items() if name.startswith(FURNITURE)}
    return _Count(whole=int(ours.sum()), seen=sum(k for name, k in by_owner.items() if name in wanted), hidden=hidden)
