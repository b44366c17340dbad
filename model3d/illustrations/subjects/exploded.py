"""Exploded views: a corner's joint pulled apart along its legs, and a piece with what it gets on the bench."""

from __future__ import annotations

from model3d.geometry.placement import Vec3, add, scale
from model3d.illustrations.picture import Job, Panel, Path3, Picture, Setting
from model3d.illustrations.strokes import Shown
from model3d.illustrations.subjects.naming import items
from model3d.illustrations.subjects.placing import (
    NOWHERE,
    EndName,
    UnknownSubject,
    as_is,
    clip_tint,
    face_mm,
    joint_of,
    outward,
    piece_of,
    seen_from,
    short,
    spread,
)
from model3d.layout import Joint, Piece
from model3d.scene import Part
from model3d.scene.frames import bore_heights_mm
from model3d.steps.moves import room_vector

KEPT_MM = 120.0
CLEAR_MM = 40.0  # more before a fitting with parts that come off it another way
GAP_MM, RING_GAP_MM = 26.0, 8.0
_FROM_THE_MIDDLE = ("spigot", "bridge", "o-ring-2", "o-ring-1", "clip")  # of a joint, into a piece
_FROM_THE_PIECE = ("clip", "o-ring-1", "o-ring-2", "fitting")
_SHORT_LEGS = ("bridge", "o-ring-2", "o-ring-1")

Placed = list[tuple[Part, str]]


def exploded_corner(job: Job, name: str) -> Picture:
    """The joint at a corner pulled apart: fittings in the middle, each piece drawn back along itself."""
    joint = joint_of(job, name)
    earlier, later = piece_of(job, joint.earlier), piece_of(job, joint.later)
    own = [p for p in job.scene.fitted if p.joint == joint.mark and p.role != "trim"]
    middle = ("elbow", "hose", "coupler", *(("bridge",) if joint.kind == "coupler" else ()))
    centre = [p for p in own if p.role in middle]
    shown = [as_is(p) for p in centre]
    placed: Placed = [(p, "centre") for p in centre]
    guides: list[Path3] = []
    ends: tuple[tuple[Piece, EndName], ...] = ((earlier, "end"), (later, "start"))
    for piece, end in ends:
        side = _side(job, joint, own, piece, end)
        groups = _grouped(side, _FROM_THE_MIDDLE)
        bodies = [
            [as_is(p) for p in centre],
            *([as_is(p) for p in g] for g in groups),
            [short(job, piece, end, KEPT_MM)],
        ]
        shifts = spread(bodies, scale(outward(piece, end), -1.0), [*map(_gap_inward, groups), GAP_MM])[1:]
        shown += _shifted(groups, shifts)
        shown.append(short(job, piece, end, KEPT_MM, shifts[-1]))
        placed += [(p, end) for p in [job.scene.part(f"{piece.mark}/piece"), *side]]
        guides += _guides(job, piece, end, NOWHERE, shifts[-1])
    facing = add(room_vector(earlier, (0.0, 1.0, 0.0)), room_vector(later, (0.0, 1.0, 0.0)))
    turn = 0.1 if joint.corner else 0.7
    setting = _setting(job, shown, facing, outward(earlier, "end"), guides, placed, turn=turn)
    title = job.words.say("draw.exploded", mark=joint.mark)
    return Picture(title=title, panels=(Panel(setting=setting),), words=job.words)


def exploded_piece(job: Job, mark: str) -> Picture:
    """A piece on the bench with its clips and the fittings that go into it there, drawn off along it."""
    piece = piece_of(job, mark)
    step = next((s for s in job.steps if mark in s.pieces), None)
    if step is None:
        raise UnknownSubject(f"piece {mark} is up already: it has no step")
    parts = [p for p in job.scene.fitted if p.id in step.travels and p.piece == mark and p.role != "end-cap"]
    body = job.scene.part(f"{mark}/piece")
    placed: Placed = [(body, "piece")]
    shown, guides = _stubs(job, piece)
    ends: tuple[tuple[EndName, Vec3], ...] = (("start", NOWHERE), ("end", _drawn_in(piece)))
    for end, by in ends:
        mine = [p for p in parts if p.role != "piece" and (end == "end" if p.joint else p.end == end)]
        bodies, lines = _drawn_off(job, piece, end, mine, by)
        shown += bodies
        guides += lines
        seated = {p.id for p in mine if p.joint is None or p.end == end}
        placed += [(p, end if p.id in seated else "beyond") for p in mine]
    facing = room_vector(piece, (0.0, 1.0, 0.0))
    setting = _setting(job, shown, facing, outward(piece, "end"), guides, placed, turn=0.62)
    title = job.words.say("draw.bench", mark=mark, mm=round(piece.cut_length_mm, 1))
    return Picture(title=title, panels=(Panel(setting=setting),), words=job.words)


def _setting(
    job: Job, shown: list[Shown], facing: Vec3, along: Vec3, guides: list[Path3], placed: Placed, *, turn: float
) -> Setting:
    turns = (turn, -turn, turn + 0.35, -turn - 0.35, 0.4, -0.4)
    ways = [seen_from(facing, along, turn=t, lift=up) for up in (0.55, 0.9, 0.3) for t in turns]
    return Setting(
        shown=tuple(shown), toward=ways[0], others=tuple(ways[1:]), guides=tuple(guides), items=items(placed, job.words)
    )


def _side(job: Job, joint: Joint, own: list[Part], piece: Piece, end: EndName) -> list[Part]:
    """What stands in one piece's end: the joint's parts there and the piece's clip."""
    found = [p for p in own if p.role == "o-ring" and p.end == end]
    if joint.kind == "elbow":
        found += [p for p in own if p.role == "bridge" and end == "start"]
    if joint.kind == "link":
        found += [p for p in own if p.role in ("spigot", "bridge") and f"-{end}" in p.id]
    return found + [p for p in job.scene.fitted if p.role == "clip" and p.piece == piece.mark and p.end == end]


def _key(part: Part) -> str:
    if part.role == "o-ring":
        return f"o-ring-{part.id[-1]}"
    return part.role if part.role in ("clip", "bridge", "spigot") else "fitting"


def _grouped(parts: list[Part], order: tuple[str, ...]) -> list[list[Part]]:
    """The parts in groups of one kind, in that order; none empty."""
    return [g for g in ([p for p in parts if _key(p) == k] for k in order) if g]


def _gap_inward(group: list[Part]) -> float:
    return RING_GAP_MM if _key(group[0]) == "o-ring-1" else GAP_MM


def _gap_outward(group: list[Part]) -> float:
    return RING_GAP_MM if _key(group[0]) == "o-ring-2" else GAP_MM


def _shifted(groups: list[list[Part]], shifts: list[Vec3], by_mm: Vec3 = NOWHERE) -> list[Shown]:
    return [as_is(p, add(by_mm, s), clip_tint(p)) for g, s in zip(groups, shifts, strict=False) for p in g]


def _guides(job: Job, piece: Piece, end: EndName, from_mm: Vec3, to_mm: Vec3) -> list[Path3]:
    """Along each bore, from the cut face as moved one way to the cut face as moved the other."""
    faces = [face_mm(job, piece, end, height) for height in bore_heights_mm(job.family)]
    return [(add(face, from_mm), add(face, to_mm)) for face in faces]


def _drawn_in(piece: Piece) -> Vec3:
    """How far the far end of a long piece is drawn toward its near one; its middle is left out."""
    spare = piece.cut_length_mm - 2.0 * KEPT_MM - 26.0
    return scale(outward(piece, "start"), spare) if spare > 60.0 else NOWHERE


def _stubs(job: Job, piece: Piece) -> tuple[list[Shown], list[Path3]]:
    """The piece itself, its middle broken out when it is long."""
    if _drawn_in(piece) == NOWHERE:
        return [as_is(job.scene.part(f"{piece.mark}/piece"))], []
    return [short(job, piece, "start", KEPT_MM), short(job, piece, "end", KEPT_MM, _drawn_in(piece))], []


def _drawn_off(job: Job, piece: Piece, end: EndName, parts: list[Part], by_mm: Vec3) -> tuple[list[Shown], list[Path3]]:
    """What goes into one end of a piece, drawn off it outward; an elbow's short legs keep theirs apart."""
    seated = [p for p in parts if p.joint is None or p.end == end or p.role in ("elbow", "coupler")]
    beyond = [p for p in parts if p not in seated]
    groups = _grouped(seated, _FROM_THE_PIECE)
    bodies = [[short(job, piece, end, KEPT_MM)], *([as_is(p) for p in g] for g in groups)]
    gaps = list(map(_gap_outward, groups))
    if beyond:
        gaps[-1] += CLEAR_MM
    shifts = spread(bodies, outward(piece, end), gaps)[1:]
    shown = _shifted(groups, shifts, by_mm)
    last = shifts[-1] if shifts else NOWHERE
    guides = _guides(job, piece, end, by_mm, add(by_mm, last)) if len(groups) > 1 else []
    if beyond:
        waiting, lines = _short_legs(job, piece, groups[-1], beyond, add(by_mm, last))
        shown, guides = shown + waiting, guides + lines
    return shown, guides


def _short_legs(
    job: Job, piece: Piece, fittings: list[Part], beyond: list[Part], by_mm: Vec3
) -> tuple[list[Shown], list[Path3]]:
    """The bridge and the O-rings of the legs that wait for the later piece, drawn off along them, and the line that
    each ring comes off by.
    """
    joint = next(j for run in job.layout.runs for j in run.joints if j.earlier == piece.mark)
    way = scale(outward(piece_of(job, joint.later), "start"), -1.0)
    groups = _grouped(beyond, _SHORT_LEGS)
    bodies = [[as_is(p) for p in fittings], *([as_is(p) for p in g] for g in groups)]
    shifts = spread(bodies, way, list(map(_gap_inward, groups)))[1:]
    rings = [p for p in groups[-1] if _key(p).startswith("o-ring")]
    starts = [add(p.placement.origin_mm, by_mm) for p in rings]
    return _shifted(groups, shifts, by_mm), [(start, add(start, shifts[-1])) for start in starts]
