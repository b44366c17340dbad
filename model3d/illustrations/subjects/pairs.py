"""Right and wrong side by side: the clip's face, the push-home, the grease on the O-rings."""

from __future__ import annotations

import numpy as np

from model3d.geometry.placement import Placement, Vec3, add, scale
from model3d.illustrations.contours import Body
from model3d.illustrations.picture import Flag, Job, Panel, Path3, Picture, Setting, Verdict
from model3d.illustrations.shapes import shape
from model3d.illustrations.strokes import Shown
from model3d.illustrations.subjects.placing import (
    NOWHERE,
    EndName,
    UnknownSubject,
    as_is,
    outward,
    piece_of,
    seen_from,
    short,
)
from model3d.layout import Joint, Piece
from model3d.scene import Part
from model3d.steps.moves import room_vector

CLIP_FACE, PUSH_HOME, GREASE = "clip-face", "push-home", "grease"
NAMES = (CLIP_FACE, PUSH_HOME, GREASE)
CLIP_OFF_MM, KEPT_MM, HATCH_MM = 52.0, 80.0, 7.0


def pair(job: Job, name: str) -> Picture:
    """The right and the wrong way of ``clip-face``, ``push-home`` or ``grease``, on the first place of the plan that
    shows it. Raises UnknownSubject when there is none.
    """
    made = {CLIP_FACE: _clip_face, PUSH_HOME: _push_home, GREASE: _grease}.get(name)
    if made is None:
        raise UnknownSubject(f"no pair {name!r} (there are {', '.join(NAMES)})")
    return made(job)


def _clip_face(job: Job) -> Picture:
    clip = next((p for p in job.scene.fitted if p.role == "clip" and p.face == "back"), None)
    clip = clip or next((p for p in job.scene.fitted if p.role == "clip"), None)
    if clip is None or clip.piece is None or clip.end is None:
        raise UnknownSubject("no piece of the plan takes a clip")
    piece = piece_of(job, clip.piece)
    right = str(clip.face)
    wrong = "front" if right == "back" else "back"
    panels = []
    verdicts: tuple[tuple[Verdict, str], ...] = (("right", right), ("wrong", wrong))
    for verdict, face in verdicts:
        setting = _clip_setting(job, piece, clip, face, turned=verdict == "wrong")
        words = f"Clip faces {face.upper()}: its tab and slot lie toward the {'wall' if face == 'back' else 'room'}."
        if verdict == "wrong":
            words += " The nib of the fitting does not find the slot: no click, the joint is not held."
        panels.append(Panel(setting=setting, caption=words, verdict=verdict))
    toward = "valve" if clip.end == "start" else "return"
    return Picture(title=f"Which face: the clip of {piece.mark} toward the {toward}", panels=tuple(panels))


def _clip_setting(job: Job, piece: Piece, clip: Part, face: str, *, turned: bool) -> Setting:
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
        shown=(short(job, piece, end, KEPT_MM), Shown(body=body, tint="back" if face == "back" else "front")),
        toward=seen_from(room_vector(piece, (0.0, 1.0, 0.0)), way, turn=-0.42, lift=0.8),
        guides=((middle, add(middle, scale(way, CLIP_OFF_MM))),),
        flags=(Flag(text=face.upper(), owner=clip.id),),
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
    verdicts: tuple[tuple[Verdict, float], ...] = (("right", home), ("wrong", 0.0))
    for verdict, pushed in verdicts:
        shift = add(by, room_vector(piece, (-pushed, 0.0, 0.0)))
        elbows = _elbow_bodies(job, joint, shift)
        clear = _clear_mm(elbows, joint, later)
        said = f"{clear:.1f} mm clear of the wall" if clear >= 0 else f"{-clear:.1f} mm into the wall"
        words = f"Pushed right home ({home:g} mm)" if verdict == "right" else "Not pushed home"
        lines = _walls(job, joint, piece, later)
        setting = Setting(
            shown=(short(job, piece, "end", 50.0, by), *elbows),
            toward=(0.0, 0.0, 1.0),
            up=room_vector(piece, (0.0, -1.0, 0.0)),
            parallel=True,
            room_lines=tuple(lines),
            flags=(Flag(text=f"{abs(clear):.1f} mm", at_mm=_tip(elbows, later), colour=verdict),),
        )
        more = "the piece has room to slide." if verdict == "right" else "the piece cannot even be offered."
        panels.append(Panel(setting=setting, caption=f"{words}: {said}, {more}", verdict=verdict))
    title = f"Push home before the piece goes up: {piece.mark} from above"
    return Picture(title=title, panels=tuple(panels))


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
    fitting = next((p for role in ("elbow", "spigot", "coupler") for p in job.scene.fitted if p.role == role), None)
    if fitting is None or fitting.joint is None:
        raise UnknownSubject("no joint of the plan has O-rings of its own")
    joint = next(j for run in job.layout.runs for j in run.joints if j.mark == fitting.joint)
    piece = piece_of(job, joint.earlier)
    level = fitting.placement.origin_mm[2]
    rings = [
        p
        for p in job.scene.fitted
        if p.role == "o-ring"
        and p.joint == joint.mark
        and abs(p.placement.origin_mm[2] - level) < 1.0
        and (fitting.role != "spigot" or p.end == "end")
    ]
    ids = tuple(p.id for p in rings)
    nearest = next(p for p in rings if p.end == "end")
    way = room_vector(piece, (-1.0, 0.0, 0.0))
    panels = []
    verdicts: tuple[tuple[Verdict, str, str], ...] = (
        ("right", "Greased", "Silicone grease, generously, on every O-ring of both legs, then worked in and out."),
        ("wrong", "Dry", "A dry O-ring rolls or tears as it enters the bore: the joint leaks after the first heat."),
    )
    for verdict, word, words in verdicts:
        setting = Setting(
            shown=tuple(as_is(p, NOWHERE) for p in (fitting, *rings)),
            toward=seen_from(room_vector(piece, (0.0, 1.0, 0.0)), way, turn=0.55, lift=0.5),
            stipple=ids if verdict == "right" else (),
            flags=(Flag(text=word, owner=nearest.id, colour=verdict),),
        )
        panels.append(Panel(setting=setting, caption=words, verdict=verdict))
    return Picture(title="Grease every O-ring before it goes in", panels=tuple(panels))
