"""A step of the fitting: the new piece where its approach sets out, an arrow for every leg of its move."""

from __future__ import annotations

from model3d.geometry.placement import Vec3, add, scale, subtract
from model3d.illustrations.picture import Arrow, Job, Panel, Path3, Picture, Setting
from model3d.illustrations.strokes import Shown
from model3d.illustrations.subjects.placing import (
    NOWHERE,
    EndName,
    UnknownSubject,
    as_is,
    clip_tint,
    floor_line,
    outward,
    piece_of,
    seen_from,
    short,
)
from model3d.illustrations.subjects.plain import at_end, view
from model3d.layout import Joint, Piece
from model3d.scene import Part
from model3d.steps import Shift, Step
from model3d.steps.moves import room_vector

KEPT_MM, EARLIER_MM, GAP_MM = 190.0, 120.0, 30.0
_SHARES = {"offer": 0.62, "raise": 0.36, "slide": 0.2, "engage": 0.2, "press": 0.85}  # along the piece


def fitting(job: Job, name: str) -> Picture:
    """The step of that number. A long piece is drawn short, its middle left out. A step that puts no piece up is drawn
    as the room from above. Raises UnknownSubject.
    """
    if not name.isdigit() or not 1 <= int(name) <= len(job.steps):
        raise UnknownSubject(f"no step {name!r} (there are 1 to {len(job.steps)})")
    step = job.steps[int(name) - 1]
    captions = tuple((a.label, a.text) for a in step.actions)
    title = f"Step {step.number}: {step.title}"
    if step.kind != "piece":
        panel = Panel(setting=view(job, "above").panels[0].setting)
        return Picture(title=title, panels=(panel,), captions=captions)
    return Picture(title=title, panels=(Panel(setting=_setting(job, step)),), captions=captions)


def _setting(job: Job, step: Step) -> Setting:
    first, last = piece_of(job, step.pieces[0]), piece_of(job, step.pieces[-1])
    away = room_vector(first, step.approach.from_mm if step.approach is not None else (0.0, 0.0, 0.0))
    together = _drawn_together(first, last)
    home = _sum(step.pushed_home)
    shown: list[Shown] = []
    ends: tuple[tuple[Piece, EndName, Vec3], ...] = ((first, "start", NOWHERE), (last, "end", together))
    if first is last and together == NOWHERE:
        shown.append(as_is(job.scene.part(f"{first.mark}/piece"), away, "new"))
    else:
        shown += [short(job, piece, end, KEPT_MM, add(away, by), "new") for piece, end, by in ends]
    for part in (p for p in job.scene.fitted if p.id in step.travels and p.role not in ("piece", "dry-piece")):
        near = part.joint is None and part.end == "start" and part.piece == first.mark
        if near or part.joint == _far_joint(job, last) or (part.end == "end" and part.piece == last.mark):
            by = NOWHERE if near else add(together, home.get(part.id, NOWHERE))
            shown.append(as_is(part, add(away, by), clip_tint(part)))
    for piece, end, by in ends:
        shown += [as_is(p, by) for p in at_end(job, piece, end, KEPT_MM) if p.role == "bracket"]
    joint = next((j for run in job.layout.runs for j in run.joints if j.later == first.mark), None)
    if joint is not None:
        shown += _standing(job, joint, step)
    return Setting(
        shown=tuple(shown),
        toward=seen_from(room_vector(first, (0.0, 1.0, 0.0)), outward(first, "end"), turn=0.28, lift=0.62),
        room_lines=tuple(_room_lines(job, joint, first, last, together)),
        arrows=tuple(_arrows(job, step, first, away)),
    )


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


def _arrows(job: Job, step: Step, first: Piece, away: Vec3) -> list[Arrow]:
    """One arrow for each leg, spread along the piece as it is drawn."""
    section = job.family.section
    long = min(2.0 * KEPT_MM + GAP_MM, first.cut_length_mm) if len(step.pieces) == 1 else 2.0 * KEPT_MM + GAP_MM
    found = []
    for number, leg in enumerate(step.legs, start=1):
        x, y = first.wall.point_mm(first.near_mm + first.sense * _SHARES[leg.name] * long, section.front_u_mm)
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
