"""A step of the fitting: the new piece where its approach sets out, an arrow for every leg of its move."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from model3d.geometry.placement import Vec3, add, scale, subtract
from model3d.illustrations.picture import Arrow, Job, Panel, Path3, Picture, Setting
from model3d.illustrations.strokes import Shown
from model3d.illustrations.subjects.placing import (
    NOWHERE,
    EndName,
    UnknownSubject,
    as_is,
    clip_flag,
    clip_tint,
    face_mm,
    floor_line,
    outward,
    piece_of,
    reach,
    seen_from,
    short,
)
from model3d.illustrations.subjects.plain import at_end
from model3d.illustrations.subjects.whole_run import whole_run
from model3d.layout import Joint, Piece
from model3d.scene import Part
from model3d.steps import Shift, Step
from model3d.steps.moves import room_vector

KEPT_MM, EARLIER_MM, GAP_MM = 190.0, 120.0, 30.0
CLEAR_MM = 45.0  # from the end of a piece to what goes into it once it is up
_SHARES = {"offer": 0.66, "raise": 0.44, "slide": 0.1, "engage": 0.1, "press": 0.9}  # along the piece, far end near
_FROM_NEAR = {**_SHARES, "offer": 0.92, "press": 0.64}  # near end near


def fitting(job: Job, name: str) -> Picture:
    """The step of that number. A long piece is drawn short, its middle left out. A step that puts no piece up is drawn
    as the whole run from above. Raises UnknownSubject.
    """
    if not name.isdigit() or not 1 <= int(name) <= len(job.steps):
        raise UnknownSubject(f"no step {name!r} (there are 1 to {len(job.steps)})")
    step = job.steps[int(name) - 1]
    setting = _setting(job, step) if step.kind == "piece" else whole_run(job, step)
    return Picture(
        title=job.words.say("draw.step", number=step.number, title=step.title),
        panels=(Panel(setting=setting),),
        captions=tuple((a.label, a.text) for a in step.actions),
        words=job.words,
    )


def _setting(job: Job, step: Step) -> Setting:
    first, last = piece_of(job, step.pieces[0]), piece_of(job, step.pieces[-1])
    away = room_vector(first, step.approach.from_mm if step.approach is not None else (0.0, 0.0, 0.0))
    together = _drawn_together(first, last)
    beyond = add(away, together)
    travelling = _travelling(job, step, first, last, beyond, away)
    shown = [one for one, _ in travelling]
    clips = [part for _, part in travelling if part is not None and part.role == "clip"]
    ends: tuple[tuple[Piece, EndName, Vec3], ...] = ((first, "start", NOWHERE), (last, "end", together))
    for piece, end, by in ends:
        shown += [as_is(p, by) for p in at_end(job, piece, end, KEPT_MM) if p.role == "bracket"]
    later, by_hand = _by_hand(job, step, last, beyond)
    shown += later
    joint = next((j for run in job.layout.runs for j in run.joints if j.later == first.mark), None)
    if joint is not None:
        shown += _standing(job, joint, step)
    external = joint is not None and joint.turn_deg < 0.0
    facing, along = room_vector(first, (0.0, 1.0, 0.0)), outward(first, "end")
    return Setting(
        shown=tuple(shown),
        toward=seen_from(facing, along, turn=-0.5 if external else 0.28, lift=0.62),
        room_lines=tuple(_room_lines(job, joint, first, last, together)),
        arrows=(*_arrows(job, step, first, away, _FROM_NEAR if external else _SHARES), *by_hand),
        flags=tuple(clip_flag(clip, job.words) for clip in clips),
    )


def _travelling(
    job: Job, step: Step, first: Piece, last: Piece, beyond: Vec3, away: Vec3
) -> list[tuple[Shown, Part | None]]:
    """What goes up in the step, where its approach sets out: the pieces' ends, and what sits in them."""
    home = _sum(step.pushed_home)
    body = job.scene.part(f"{first.mark}/piece")
    if first is last and beyond == away:
        found: list[tuple[Shown, Part | None]] = [(as_is(body, away, "new-tint"), body)]
    else:
        found = [
            (short(job, first, "start", KEPT_MM, away, "new-tint"), None),
            (short(job, last, "end", KEPT_MM, beyond, "new-tint"), None),
        ]
    for part in (p for p in job.scene.fitted if p.id in step.travels and p.role not in ("piece", "dry-piece")):
        near = part.joint is None and part.end == "start" and part.piece == first.mark
        if near or part.joint == _far_joint(job, last) or (part.end == "end" and part.piece == last.mark):
            by = away if near else add(beyond, home.get(part.id, NOWHERE))
            found.append((as_is(part, by, clip_tint(part)), part))
    return found


def _by_hand(job: Job, step: Step, last: Piece, beyond: Vec3) -> tuple[list[Shown], list[Arrow]]:
    """What is done once the piece is up: elbows drawn out, links put in, end caps pushed on."""
    label = str(len(step.legs) + 1)
    way = outward(last, "end")
    if step.drawn_out:
        home = _sum(step.pushed_home)
        elbows = [as_is(p, add(beyond, home[p.id])) for p in job.scene.fitted if p.id in home]
        start = _beyond_end(elbows, way, 26.0)
        return [], [Arrow(start_mm=start, end_mm=add(start, scale(way, CLEAR_MM)), label=label)]
    found: list[Shown] = []
    arrows: list[Arrow] = []
    late = [p for p in job.scene.fitted if p.id in step.follows and p.role not in ("trim", "bracket", "packer")]
    ends: tuple[tuple[EndName, Vec3], ...] = (("end", beyond), ("start", _from(step, last)))
    for end, by in ends:
        off = outward(last, end)
        mine = [p for p in late if (p.joint is not None or p.end == "end") == (end == "end")]
        if mine:
            found += [as_is(p, add(by, scale(off, CLEAR_MM + _deep(job, mine, last, end)))) for p in mine]
            start = _beyond_end(found[-len(mine) :], off, 6.0)
            arrows.append(Arrow(start_mm=add(start, scale(off, CLEAR_MM)), end_mm=start, label=label))
    return found, arrows


def _from(step: Step, piece: Piece) -> Vec3:
    """Where a piece's near end is while it is offered, as a shift from its place."""
    return room_vector(piece, step.approach.from_mm if step.approach is not None else (0.0, 0.0, 0.0))


def _deep(job: Job, parts: list[Part], piece: Piece, end: EndName) -> float:
    """How far parts reach into a piece's end."""
    way = outward(piece, end)
    at = float(np.dot(face_mm(job, piece, end, 0.0), way))
    return max(at - min(reach(as_is(p), way)[0] for p in parts), 0.0)


def _beyond_end(bodies: list[Shown], way: Vec3, by_mm: float) -> Vec3:
    """A point past what bodies reach along a direction, at the middle of them across it."""
    points = np.concatenate([one.body.corners_mm.reshape(-1, 3) for one in bodies])
    middle = (points.min(axis=0) + points.max(axis=0)) / 2
    far = float((points @ np.asarray(way)).max()) + by_mm
    x, y, z = middle + (far - float(middle @ np.asarray(way))) * np.asarray(way)
    return (float(x), float(y), float(z))


def _drawn_together(first: Piece, last: Piece) -> Vec3:
    """How far the far end is drawn toward the near one, so that both can be shown large."""
    length = abs(last.far_mm - first.near_mm)
    spare = length - 2.0 * KEPT_MM - GAP_MM
    return scale(outward(first, "start"), spare) if spare > 60.0 else NOWHERE


def _far_joint(job: Job, last: Piece) -> str:
    return next((j.mark for run in job.layout.runs for j in run.joints if j.earlier == last.mark), "none")


def _standing(job: Job, joint: Joint, step: Step) -> list[Shown]:
    """What stands at the near joint: the earlier piece's end and the fittings that wait there."""
    waiting = _sum(step.waiting)
    earlier = piece_of(job, joint.earlier)
    parts = [p for p in job.scene.fitted if p.joint == joint.mark and p.role != "trim"]
    found = [as_is(p, waiting.get(p.id, NOWHERE)) for p in parts]
    found.append(short(job, earlier, "end", EARLIER_MM))
    return found + [as_is(p, NOWHERE, clip_tint(p)) for p in _clips(job, earlier)]


def _clips(job: Job, piece: Piece) -> list[Part]:
    return [p for p in at_end(job, piece, "end", EARLIER_MM) if p.role == "clip"]


def _sum(shifts: tuple[Shift, ...]) -> dict[str, Vec3]:
    found: dict[str, Vec3] = {}
    for shift in shifts:
        found[shift.part] = add(found.get(shift.part, NOWHERE), shift.by_mm)
    return found


def _room_lines(job: Job, joint: Joint | None, first: Piece, last: Piece, together: Vec3) -> list[Path3]:
    """The floor's line along the wall, and at a corner the upright and the earlier wall's floor line."""
    beyond = 50.0
    by = together if together != NOWHERE else NOWHERE
    far = floor_line(last, last.far_mm, last.far_mm + beyond * last.sense, by)[1]
    near_mm = first.near_mm - beyond * first.sense
    if joint is None or joint.corner is None:
        return [(floor_line(first, near_mm, near_mm)[0], far)]
    x, y = joint.corner.at_mm
    corner: Vec3 = (x, y, 0.0)
    earlier = piece_of(job, joint.earlier)
    back = floor_line(earlier, earlier.far_mm - (EARLIER_MM + beyond) * earlier.sense, earlier.far_mm)[0]
    return [(corner, far), (corner, back), (corner, (x, y, job.family.section.height_mm + 90.0))]


def _arrows(job: Job, step: Step, first: Piece, away: Vec3, shares: Mapping[str, float]) -> list[Arrow]:
    """One arrow for each leg, spread along the piece as it is drawn."""
    section = job.family.section
    long = min(2.0 * KEPT_MM + GAP_MM, first.cut_length_mm) if len(step.pieces) == 1 else 2.0 * KEPT_MM + GAP_MM
    found = []
    for number, leg in enumerate(step.legs, start=1):
        x, y = first.wall.point_mm(first.near_mm + first.sense * shares[leg.name] * long, section.front_u_mm)
        up = section.floor_gap_mm + section.height_mm * (0.5 if leg.name in ("offer", "press") else 1.0)
        way = room_vector(first, subtract(leg.to_mm, leg.from_mm))
        start = add((x, y, up), away)
        if leg.name == "press":
            found.append(Arrow(start_mm=subtract(start, scale(way, 1.0)), end_mm=start, label=str(number)))
        elif leg.name == "raise":
            found.append(Arrow(start_mm=start, end_mm=add(start, scale(way, 7.0)), label=str(number)))
        else:
            found.append(Arrow(start_mm=start, end_mm=add(start, way), label=str(number)))
    return found
