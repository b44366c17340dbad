"""Line drawings of what is there: a part alone, a corner with its covers off, the room from a side."""

from __future__ import annotations

from model3d.geometry.placement import Vec3, add, subtract
from model3d.illustrations.contours import Body
from model3d.illustrations.picture import Flag, Job, Outlook, Panel, Path3, Picture, Setting
from model3d.illustrations.shapes import shape
from model3d.illustrations.strokes import Shown
from model3d.illustrations.subjects.naming import name_of
from model3d.illustrations.subjects.placing import (
    EndName,
    UnknownSubject,
    as_is,
    clip_flag,
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
from model3d.sources import near_miss
from model3d.steps.moves import room_vector

KEPT_MM = 190.0
ABOVE, PLAN = "above", "plan"
FAR_OFF = frozenset(
    {"piece", "dry-piece", "trim", "end-cap", "valve-end", "return-end", "turn-back-end"}
)  # what can be made out across a room
_NEARER = FAR_OFF | {"bracket", "cradle", "elbow", "hose", "spigot", "coupler", "bridge"}
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
    title = job.words.say("draw.part", name=name_of([part], job.words), id=part.id)
    return Picture(title=title, panels=(Panel(setting=setting),), words=job.words)


def corner(job: Job, name: str) -> Picture:
    """The joint at a corner with its trim off: the pieces' ends, clips, brackets, and the lines of the room."""
    joint = joint_of(job, name)
    earlier, later = piece_of(job, joint.earlier), piece_of(job, joint.later)
    shown = [as_is(p) for p in job.scene.fitted if p.joint == joint.mark and p.role != "trim"]
    flags: list[Flag] = []
    ends: tuple[tuple[Piece, EndName], ...] = ((earlier, "end"), (later, "start"))
    for piece, end in ends:
        shown.append(short(job, piece, end, KEPT_MM))
        own = at_end(job, piece, end, KEPT_MM)
        shown += [as_is(p, tint=clip_tint(p)) for p in own]
        flags.append(Flag(text=piece.mark, owner=f"{piece.mark}/piece"))
        flags += [clip_flag(p, job.words) for p in own if p.role == "clip"]
    facing = add(room_vector(earlier, (0.0, 1.0, 0.0)), room_vector(later, (0.0, 1.0, 0.0)))
    turn = 0.12 if joint.corner is not None else -0.45
    setting = Setting(
        shown=tuple(shown),
        toward=seen_from(facing, outward(earlier, "end"), turn=turn, lift=0.62 if joint.corner is not None else 0.4),
        room_lines=tuple(_room_lines(job, joint, earlier, later)),
        flags=tuple(flags),
    )
    where = joint.corner.id if joint.corner is not None else ""
    title = job.words.say("draw.joint-corner" if where else "draw.joint-in-line", mark=joint.mark, id=where)
    return Picture(title=title, panels=(Panel(setting=setting),), words=job.words)


def at_end(job: Job, piece: Piece, end: EndName, kept_mm: float) -> list[Part]:
    """A piece's clip at an end, and its brackets within ``kept_mm`` of the cut face."""
    face = piece.near_mm if end == "start" else piece.far_mm
    near = {k for k, b in enumerate(piece.brackets, 1) if abs(b.along_mm - face) < kept_mm - 25.0}
    brackets = {f"{piece.mark}/bracket-{k}" for k in near}
    return [
        p for p in job.scene.fitted if p.id in brackets or (p.role == "clip" and p.piece == piece.mark and p.end == end)
    ]


def view(job: Job, name: str) -> Picture:
    """The room from a viewpoint of the plan, from ``above``, in ``plan``, or one wall straight on, by its id. Raises
    UnknownSubject.
    """
    walls = {w.id: w for w in job.room.walls}
    if name in job.viewpoints and name in job.outlooks:
        return _from_outlook(job, name, job.outlooks[name])
    if name == ABOVE:
        return _from_above(job)
    if name == PLAN:
        return _in_plan(job)
    if name in walls:
        return _straight_on(job, walls[name])
    known = dict.fromkeys((*job.viewpoints, ABOVE, PLAN, *walls))
    raise UnknownSubject(f"no view {name!r}{near_miss(name, known)} (there are {', '.join(known)})")


def _in_plan(job: Job) -> Picture:
    fitted = [as_is(p) for p in job.scene.fitted if p.role in FAR_OFF]
    floor = [soft(p) for p in job.scene.room if p.role == "floor"]
    setting = Setting(
        shown=(*floor, *fitted),
        toward=(0.0, 0.0, 1.0),
        up=(0.0, 1.0, 0.0),
        parallel=True,
        room_lines=tuple(_wall_line(w) for w in job.room.walls),
        to_scale=True,
    )
    return Picture(title=job.words.say("draw.plan"), panels=(Panel(setting=setting),), words=job.words)


def _straight_on(job: Job, wall: Wall) -> Picture:
    """A wall with all that is fitted on it, and the trims round its corners."""
    on_it = {p.mark for p in job.layout.pieces if p.wall.id == wall.id}
    joints = {j.mark for run in job.layout.runs for j in run.joints if on_it & {j.earlier, j.later}}
    covers = {p.id for p in job.scene.fitted if p.role == "trim" and p.joint in joints}
    fitted = [as_is(p) for p in job.scene.fitted if p.wall == wall.id or p.id in covers]
    things = [soft(p) for p in job.scene.room if p.wall == wall.id and p.role in _ROOM - {"wall", "floor"}]
    normal: Vec3 = (wall.normal[0], wall.normal[1], 0.0)
    frame = wall.frame.point
    line: Path3 = (frame((0.0, 0.0, 0.0)), frame((wall.length_mm, 0.0, 0.0)))
    highest = max([500.0, *(float(one.body.corners_mm[..., 2].max()) + 60.0 for one in things)])
    sides = tuple((frame((x, 0.0, 0.0)), frame((x, 0.0, highest))) for x in (0.0, wall.length_mm))
    setting = Setting(shown=(*fitted, *things), toward=normal, parallel=True, room_lines=(line, *sides), to_scale=True)
    return Picture(title=job.words.say("draw.wall", id=wall.id), panels=(Panel(setting=setting),), words=job.words)


def _from_outlook(job: Job, name: str, outlook: Outlook) -> Picture:
    """The fitted room from a viewpoint, without the walls that stand before it."""
    things = [soft(p) for p in job.scene.room if p.role in _ROOM and p.wall not in outlook.left_out]
    fitted = [as_is(p) for p in job.scene.fitted if p.role in _NEARER]
    setting = Setting(shown=(*things, *fitted), toward=(0.0, 0.0, 1.0), outlook=outlook)
    title = job.words.say("draw.outlook", id=name)
    return Picture(title=title, panels=(Panel(setting=setting),), words=job.words)


def _from_above(job: Job) -> Picture:
    """The room and what is fitted, without walls between it and the viewer."""
    outlook = job.outlooks.get(ABOVE)
    toward = from_above(job) if outlook is None else subtract(outlook.eye_mm, outlook.target_mm)
    away = {w.id for w in job.room.walls if w.normal[0] * toward[0] + w.normal[1] * toward[1] <= 0.0}
    away |= frozenset() if outlook is None else outlook.left_out
    away |= {w.id for w in job.room.walls if _hides(job, w, toward)}
    things = [soft(p) for p in job.scene.room if p.role in _ROOM and p.wall not in away]
    fitted = [as_is(p) for p in job.scene.fitted if p.role in FAR_OFF]
    setting = Setting(shown=(*things, *fitted), toward=toward)
    return Picture(title=job.words.say("draw.above"), panels=(Panel(setting=setting),), words=job.words)


def _hides(job: Job, wall: Wall, toward: Vec3) -> bool:
    """Whether a wall stands between some piece and a viewer far off in that direction."""
    (nx, ny), (x0, y0) = wall.normal, wall.start_mm
    closing = nx * toward[0] + ny * toward[1]
    if abs(closing) < 1e-9:
        return False
    for piece in job.layout.pieces:
        for share in (0.02, 0.25, 0.5, 0.75, 0.98):
            at_mm = piece.near_mm + share * (piece.far_mm - piece.near_mm)
            x, y = piece.wall.point_mm(at_mm, job.family.section.front_u_mm)
            far = ((x0 - x) * nx + (y0 - y) * ny) / closing
            px, py = x + far * toward[0] - x0, y + far * toward[1] - y0
            along = px * wall.direction[0] + py * wall.direction[1]
            if far > 1e-6 and 0.0 <= along <= wall.length_mm and far * toward[2] < job.room.height_mm:
                return True
    return False


def from_above(job: Job, *, turn: float = 0.55) -> Vec3:
    """A direction from over the room, off the normal of the wall with the longest piece."""
    longest = max(job.layout.pieces, key=lambda p: p.cut_length_mm)
    facing, along = room_vector(longest, (0.0, 1.0, 0.0)), room_vector(longest, (1.0, 0.0, 0.0))
    return seen_from(facing, along, turn=turn, lift=1.0)


def soft(part: Part) -> Shown:
    """A part of the room, thin and grey."""
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
