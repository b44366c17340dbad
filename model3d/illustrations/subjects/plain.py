"""Line drawings of what is there: a part alone, a corner with its covers off, the room from a side."""

from __future__ import annotations

from model3d.geometry.placement import Vec3, add
from model3d.illustrations.contours import Body
from model3d.illustrations.picture import Job, Panel, Path3, Picture, Setting
from model3d.illustrations.shapes import shape
from model3d.illustrations.strokes import Shown
from model3d.illustrations.subjects.placing import (
    EndName,
    UnknownSubject,
    as_is,
    clip_tint,
    floor_line,
    joint_of,
    outward,
    piece_of,
    seen_from,
    short,
)
from model3d.layout import Joint, Piece
from model3d.rooms import Wall
from model3d.scene import Part
from model3d.steps.moves import room_vector

KEPT_MM = 190.0
ABOVE, PLAN = "above", "plan"
_FAR_OFF = frozenset({"piece", "dry-piece", "trim", "end-cap", "valve-end"})  # what can be made out across a room
_ROOM = frozenset({"floor", "wall", "casing", "sill", "window-frame", "door-leaf", "obstacle"})


def part_alone(job: Job, name: str) -> Picture:
    """One part by its id, or a piece by its mark, with nothing round it. Raises UnknownSubject."""
    found = [p for p in job.scene.parts if name == p.id or name + "/piece" == p.id]
    if not found:
        roles = sorted({p.id for p in job.scene.fitted})
        raise UnknownSubject(f"no part {name!r} (such as {', '.join(roles[:6])})")
    part = found[0]
    y, x = part.placement.y_axis, part.placement.x_axis
    facing = y if abs(y[2]) < 0.5 else part.placement.z_axis
    setting = Setting(shown=(as_is(part, tint=clip_tint(part)),), toward=seen_from(facing, x, turn=0.7, lift=0.55))
    return Picture(title=part.name, panels=(Panel(setting=setting),))


def corner(job: Job, name: str) -> Picture:
    """The joint at a corner with its trim off: the pieces' ends, clips, brackets, and the lines of the room."""
    joint = joint_of(job, name)
    earlier, later = piece_of(job, joint.earlier), piece_of(job, joint.later)
    shown = [as_is(p) for p in job.scene.fitted if p.joint == joint.mark and p.role != "trim"]
    ends: tuple[tuple[Piece, EndName], ...] = ((earlier, "end"), (later, "start"))
    for piece, end in ends:
        shown.append(short(job, piece, end, KEPT_MM))
        shown += [as_is(p, tint=clip_tint(p)) for p in at_end(job, piece, end, KEPT_MM)]
    facing = add(room_vector(earlier, (0.0, 1.0, 0.0)), room_vector(later, (0.0, 1.0, 0.0)))
    turn = 0.12 if joint.corner is not None else -0.45
    setting = Setting(
        shown=tuple(shown),
        toward=seen_from(facing, outward(earlier, "end"), turn=turn, lift=0.62 if joint.corner is not None else 0.4),
        room_lines=tuple(_room_lines(job, joint, earlier, later)),
    )
    where = f", at corner {joint.corner.id}" if joint.corner is not None else ", in line"
    return Picture(title=f"Joint {joint.mark}{where}", panels=(Panel(setting=setting),))


def at_end(job: Job, piece: Piece, end: EndName, kept_mm: float) -> list[Part]:
    """A piece's clip at an end, and its brackets within ``kept_mm`` of the cut face."""
    face = piece.near_mm if end == "start" else piece.far_mm
    near = {k for k, b in enumerate(piece.brackets, 1) if abs(b.along_mm - face) < kept_mm - 25.0}
    brackets = {f"{piece.mark}/bracket-{k}" for k in near}
    return [
        p for p in job.scene.fitted if p.id in brackets or (p.role == "clip" and p.piece == piece.mark and p.end == end)
    ]


def view(job: Job, name: str) -> Picture:
    """The room from ``above``, in ``plan``, or one wall straight on, by its id. Raises UnknownSubject."""
    if name == ABOVE:
        return _from_above(job)
    walls = {w.id: w for w in job.room.walls}
    if name == PLAN:
        fitted = [as_is(p) for p in job.scene.fitted if p.role in _FAR_OFF]
        floor = [_soft(p) for p in job.scene.room if p.role == "floor"]
        lines = tuple(_wall_line(w) for w in job.room.walls)
        setting = Setting(
            shown=(*floor, *fitted),
            toward=(0.0, 0.0, 1.0),
            up=(0.0, 1.0, 0.0),
            parallel=True,
            room_lines=lines,
            to_scale=True,
        )
        return Picture(title="The run in plan", panels=(Panel(setting=setting),))
    if name not in walls:
        raise UnknownSubject(f"no view {name!r} (there are {ABOVE}, {PLAN}, {', '.join(walls)})")
    wall = walls[name]
    fitted = [as_is(p) for p in job.scene.fitted if p.wall == name]
    soft = [_soft(p) for p in job.scene.room if p.wall == name and p.role in _ROOM - {"wall", "floor"}]
    normal: Vec3 = (wall.normal[0], wall.normal[1], 0.0)
    frame = wall.frame.point
    line: Path3 = (frame((0.0, 0.0, 0.0)), frame((wall.length_mm, 0.0, 0.0)))
    highest = max([500.0, *(float(one.body.corners_mm[..., 2].max()) + 60.0 for one in soft)])
    sides = tuple((frame((x, 0.0, 0.0)), frame((x, 0.0, highest))) for x in (0.0, wall.length_mm))
    setting = Setting(shown=(*fitted, *soft), toward=normal, parallel=True, room_lines=(line, *sides), to_scale=True)
    return Picture(title=f"Wall {name}, straight on", panels=(Panel(setting=setting),))


def _from_above(job: Job) -> Picture:
    """The room and what is fitted, walls between it and the viewer left away."""
    longest = max(job.layout.pieces, key=lambda p: p.cut_length_mm)
    toward = seen_from(
        room_vector(longest, (0.0, 1.0, 0.0)), room_vector(longest, (1.0, 0.0, 0.0)), turn=0.55, lift=1.0
    )
    hidden = {w.id for w in job.room.walls if w.normal[0] * toward[0] + w.normal[1] * toward[1] <= 0.0}
    soft = [_soft(p) for p in job.scene.room if p.role in _ROOM and p.wall not in hidden]
    fitted = [as_is(p) for p in job.scene.fitted if p.role in _FAR_OFF]
    return Picture(title="The finished room", panels=(Panel(setting=Setting(shown=(*soft, *fitted), toward=toward)),))


def _soft(part: Part) -> Shown:
    return Shown(body=Body(owner=part.id, shape=shape(part.spec), placement=part.placement), soft=True)


def _wall_line(wall: Wall) -> Path3:
    return (wall.frame.point((0.0, 0.0, 1.0)), wall.frame.point((wall.length_mm, 0.0, 1.0)))


def _room_lines(job: Job, joint: Joint, earlier: Piece, later: Piece) -> list[Path3]:
    """Where floor and walls meet round a joint."""
    far = KEPT_MM + 60.0
    top = job.family.section.height_mm + 90.0
    found: list[Path3] = []
    for piece, face, sense in ((earlier, earlier.far_mm, -1.0), (later, later.near_mm, 1.0)):
        along = face + sense * piece.sense * far
        if joint.corner is None:
            found.append(floor_line(piece, along, joint.middle_mm))
            continue
        at_corner = 0.0 if piece.wall.first_corner.id == joint.corner.id else piece.wall.length_mm
        found.append(floor_line(piece, along, at_corner))
    if joint.corner is not None:
        x, y = joint.corner.at_mm
        found.append(((x, y, 0.0), (x, y, top)))
    return found
