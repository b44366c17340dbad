"""Right and wrong side by side: the clip's face, the push-home, the O-rings and the grease on them."""

from __future__ import annotations

import numpy as np

from model3d.geometry.placement import Placement, Vec3, add, scale
from model3d.illustrations.contours import Body
from model3d.illustrations.picture import Face, Flag, Job, Panel, Path3, Picture, Setting, Verdict
from model3d.illustrations.shapes import shape
from model3d.illustrations.strokes import Shown
from model3d.illustrations.subjects.placing import (
    NOWHERE,
    EndName,
    UnknownSubject,
    as_is,
    face_mm,
    outward,
    piece_of,
    reach,
    seen_from,
    short,
)
from model3d.layout import Joint, Piece
from model3d.scene import Part
from model3d.steps.moves import room_vector

CLIP_FACE, PUSH_HOME, GREASE, O_RING = "clip-face", "push-home", "grease", "o-ring"
NAMES = (CLIP_FACE, PUSH_HOME, GREASE, O_RING)
CLIP_OFF_MM, KEPT_MM, HATCH_MM = 52.0, 80.0, 7.0


def pair(job: Job, name: str) -> Picture:
    """The right and the wrong way of ``clip-face``, ``push-home``, ``grease`` or ``o-ring``, on the first place of the
    plan that shows it. Raises UnknownSubject when there is none.
    """
    made = {CLIP_FACE: _clip_face, PUSH_HOME: _push_home, GREASE: _grease, O_RING: _o_ring}.get(name)
    if made is None:
        raise UnknownSubject(f"no pair {name!r} (there are {', '.join(NAMES)})")
    return made(job)


def _clip_face(job: Job) -> Picture:
    clip = next((p for p in job.scene.fitted if p.role == "clip" and p.face == "back"), None)
    clip = clip or next((p for p in job.scene.fitted if p.role == "clip"), None)
    if clip is None or clip.piece is None or clip.end is None:
        raise UnknownSubject("no piece of the plan takes a clip")
    piece = piece_of(job, clip.piece)
    right: Face = "back" if clip.face == "back" else "front"
    wrong: Face = "front" if right == "back" else "back"
    panels = []
    verdicts: tuple[tuple[Verdict, Face], ...] = (("right", right), ("wrong", wrong))
    for verdict, face in verdicts:
        setting = _clip_setting(job, piece, clip, face, turned=verdict == "wrong")
        said = job.words.say(f"face.{face}")
        caption = job.words.say(f"draw.clip-{verdict}", face=said, side=job.words.say(f"draw.side-{face}"))
        panels.append(Panel(setting=setting, caption=caption, verdict=verdict))
    title = job.words.say("draw.clip-title", mark=piece.mark, toward=job.words.say(f"toward.{clip.end}"))
    return Picture(title=title, panels=tuple(panels), words=job.words)


def _clip_setting(job: Job, piece: Piece, clip: Part, face: Face, *, turned: bool) -> Setting:
    end: EndName = "start" if clip.end == "start" else "end"
    way = outward(piece, end)
    at = clip.placement
    if turned:
        back = Placement(
            origin_mm=at.origin_mm, x_axis=at.x_axis, y_axis=scale(at.y_axis, -1.0), z_axis=scale(at.z_axis, -1.0)
        )
        at = back
    body = Body(owner=clip.id, shape=shape(clip.spec), placement=at.moved(scale(way, CLIP_OFF_MM)))
    middle = at.origin_mm
    return Setting(
        shown=(short(job, piece, end, KEPT_MM), Shown(body=body, tint="back-tint" if face == "back" else "front-tint")),
        toward=seen_from(room_vector(piece, (0.0, 1.0, 0.0)), way, turn=-0.42, lift=0.8),
        guides=((middle, add(middle, scale(way, CLIP_OFF_MM))),),
        flags=(Flag(text=job.words.say(f"face.{face}"), owner=clip.id, face=face),),
    )


def _push_home(job: Job) -> Picture:
    joints = [j for run in job.layout.runs for j in run.joints if j.elbow is not None]
    for joint in joints:
        piece, later = piece_of(job, joint.earlier), piece_of(job, joint.later)
        step = next((s for s in job.steps if piece.mark in s.pieces and s.pushed_home), None)
        if step is None or not step.legs:
            continue
        offered = max(leg.to_mm[0] for leg in step.legs)
        forgotten = _elbow_bodies(job, joint, room_vector(piece, (offered, 0.0, 0.0)))
        if _clear_mm(forgotten, joint, later) < 0.0:
            return _elbows(job, joint, piece, later, offered)
    raise UnknownSubject("no piece of the plan has elbows that would meet the wall, were they not pushed home")


def _elbows(job: Job, joint: Joint, piece: Piece, later: Piece, offered_mm: float) -> Picture:
    """From above: the far end of a piece as it is offered, its elbows home or not, and the wall beyond."""
    work = joint.elbow
    home = work.push_home_mm if work is not None else 0.0
    by = room_vector(piece, (offered_mm, 0.0, 0.0))
    panels = []
    kept = 30.0 + max(_depth_in_mm(job, piece, _elbow_bodies(job, joint, room_vector(piece, (-home, 0.0, 0.0)))), 30.0)
    verdicts: tuple[tuple[Verdict, float], ...] = (("right", home), ("wrong", 0.0))
    for verdict, pushed in verdicts:
        elbows = _elbow_bodies(job, joint, add(by, room_vector(piece, (-pushed, 0.0, 0.0))))
        clear = round(abs(_clear_mm(elbows, joint, later)), 1)
        setting = Setting(
            shown=(short(job, piece, "end", kept, by, from_above=True), *elbows),
            toward=(0.0, 0.0, 1.0),
            up=room_vector(piece, (0.0, -1.0, 0.0)),
            parallel=True,
            room_lines=tuple(_walls(job, joint, piece, later)),
            flags=(Flag(text=job.words.say("draw.mm", mm=clear), at_mm=_tip(elbows, later), colour=verdict),),
        )
        caption = job.words.say(f"draw.home-{verdict}", mm=clear, home=home)
        panels.append(Panel(setting=setting, caption=caption, verdict=verdict))
    title = job.words.say("draw.home-title", mark=piece.mark)
    return Picture(title=title, panels=tuple(panels), words=job.words)


def _depth_in_mm(job: Job, piece: Piece, bodies: list[Shown]) -> float:
    """How far bodies reach into a piece's far end."""
    way = outward(piece, "end")
    return float(np.dot(face_mm(job, piece, "end", 0.0), way)) - min(reach(one, way)[0] for one in bodies)


def _elbow_bodies(job: Job, joint: Joint, by_mm: Vec3) -> list[Shown]:
    """The elbows and the bridge of a joint, moved."""
    return [as_is(p, by_mm) for p in job.scene.fitted if p.joint == joint.mark and p.role in ("elbow", "bridge")]


def _depths(elbows: list[Shown], later: Piece) -> tuple[float, Vec3]:
    """The point of the elbows nearest the next wall, and its distance along that wall's normal from the room's
    origin.
    """
    normal = np.array([*later.wall.normal, 0.0])
    points = np.concatenate([e.body.corners_mm.reshape(-1, 3) for e in elbows])
    far = points @ normal
    k = int(far.argmin())
    x, y, _ = points[k]
    return float(far[k]), (float(x), float(y), 0.0)


def _clear_mm(elbows: list[Shown], joint: Joint, later: Piece) -> float:
    """How far the elbows stand off the next wall; negative: into it."""
    corner = joint.corner
    at = corner.at_mm if corner is not None else (0.0, 0.0)
    return _depths(elbows, later)[0] - float(np.dot(at, later.wall.normal))


def _tip(elbows: list[Shown], later: Piece) -> Vec3:
    x, y, _ = _depths(elbows, later)[1]
    top = max(float(e.body.corners_mm[..., 2].max()) for e in elbows)
    return (x, y, top)


def _walls(job: Job, joint: Joint, piece: Piece, later: Piece) -> list[Path3]:
    """Both walls' faces from above, with hatching behind them."""
    corner = joint.corner.at_mm if joint.corner is not None else (0.0, 0.0)
    level = job.family.section.height_mm * 2.0
    back, on = room_vector(piece, (-1.0, 0.0, 0.0)), room_vector(later, (1.0, 0.0, 0.0))
    origin: Vec3 = (corner[0], corner[1], level)
    found: list[Path3] = []
    reaches = ((back, room_vector(piece, (0.0, -1.0, 0.0)), 120.0), (on, room_vector(later, (0.0, -1.0, 0.0)), 70.0))
    for way, behind, long in reaches:
        found.append((origin, add(origin, scale(way, long))))
        for k in range(int(long / HATCH_MM)):
            foot = add(origin, scale(way, (k + 0.5) * HATCH_MM))
            found.append((foot, add(foot, add(scale(behind, 7.0), scale(way, 7.0)))))
    return found


def _grease(job: Job) -> Picture:
    fitting, rings, piece = _ringed(job)
    ids = tuple(p.id for p in rings)
    nearest = next(p for p in rings if p.end == "end")
    panels = []
    verdicts: tuple[tuple[Verdict, str], ...] = (("right", "draw.greased"), ("wrong", "draw.dry"))
    for verdict, key in verdicts:
        flag = Flag(text=job.words.say(key), owner=nearest.id, colour=verdict)
        setting = _fitting_alone(piece, fitting, rings, flag, greased=ids if verdict == "right" else ())
        legs = "-one" if verdict == "right" and fitting.role != "elbow" else ""
        caption = job.words.say(f"draw.grease-{verdict}{legs}")
        panels.append(Panel(setting=setting, caption=caption, verdict=verdict))
    return Picture(title=job.words.say("draw.grease-title"), panels=tuple(panels), words=job.words)


def _o_ring(job: Job) -> Picture:
    fitting, rings, piece = _ringed(job)
    lost = next(p for p in rings if p.end == "end")
    toward = _toward(piece)
    at = _front_of(lost, toward)
    panels = []
    verdicts: tuple[tuple[Verdict, str], ...] = (("right", "draw.ring-there"), ("wrong", "draw.ring-missing"))
    for verdict, key in verdicts:
        kept = rings if verdict == "right" else [p for p in rings if p is not lost]
        flag = Flag(text=job.words.say(key), at_mm=at, colour=verdict)
        caption = job.words.say(f"draw.ring-{verdict}")
        panels.append(
            Panel(setting=_fitting_alone(piece, fitting, kept, flag), caption=caption, verdict=verdict)
        )
    return Picture(title=job.words.say("draw.ring-title"), panels=tuple(panels), words=job.words)


def _ringed(job: Job) -> tuple[Part, list[Part], Piece]:
    """The plan's first elbow, spigot or coupler, its O-rings, and the piece that it goes into."""
    fitting = next((p for role in ("elbow", "spigot", "coupler") for p in job.scene.fitted if p.role == role), None)
    if fitting is None or fitting.joint is None:
        raise UnknownSubject("no joint of the plan has O-rings of its own")
    joint = next(j for run in job.layout.runs for j in run.joints if j.mark == fitting.joint)
    level = fitting.placement.origin_mm[2]
    rings = [
        p
        for p in job.scene.fitted
        if p.role == "o-ring"
        and p.joint == joint.mark
        and abs(p.placement.origin_mm[2] - level) < 1.0
        and (fitting.role != "spigot" or p.end == "end")
    ]
    return fitting, rings, piece_of(job, joint.earlier)


def _toward(piece: Piece) -> Vec3:
    return seen_from(room_vector(piece, (0.0, 1.0, 0.0)), room_vector(piece, (-1.0, 0.0, 0.0)), turn=0.55, lift=0.5)


def _fitting_alone(
    piece: Piece, fitting: Part, rings: list[Part], flag: Flag, *, greased: tuple[str, ...] = ()
) -> Setting:
    """A fitting with its O-rings, in no bore."""
    shown = tuple(as_is(p, NOWHERE) for p in (fitting, *rings))
    return Setting(shown=shown, toward=_toward(piece), stipple=greased, flags=(flag,))


def _front_of(ring: Part, toward: Vec3) -> Vec3:
    """The point of an O-ring's groove that looks most toward the viewer."""
    points = as_is(ring).body.corners_mm.reshape(-1, 3)
    middle = (points.min(axis=0) + points.max(axis=0)) / 2
    x, y, z = points[int(((points - middle) @ np.asarray(toward)).argmax())]
    return (float(x), float(y), float(z))
