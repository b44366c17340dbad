"""From a step and its scene to the bench picture of one of its pieces."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from model3d.families.family import Family
from model3d.geometry.placement import Vec3, add
from model3d.layout import End, Layout, Piece
from model3d.pictures.bench.values import Bench, BenchEnd
from model3d.pictures.labelled.tags import Tag
from model3d.pictures.stage import Actor, Look
from model3d.pictures.staging.looks import new_look
from model3d.pictures.staging.meshes import MeshLibrary
from model3d.pictures.staging.poses import on_piece, run_direction
from model3d.scene import Part, Scene
from model3d.steps import Step
from model3d.wording import Catalogue, catalogue

SHOWN_MM = 118.0
CLIP_OUT_MM = 46.0
FITTING_OUT_MM = 40.0
TOWARD = {"start": "inset.start", "end": "inset.return"}
NAMES = {
    "valve-end": "fitting.valve",
    "return-end": "fitting.return",
    "turn-back-end": "fitting.turn-back",
    "coupler": "joint.coupler",
}
EMPTY = ("link", "elbow-short", "coupler")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Side:
    """One end of a piece: its name, which way is out of it, and the parts that go on it on the bench."""

    name: Literal["start", "end"]
    out: float
    end: End
    parts: tuple[Part, ...]

    @property
    def clip(self) -> Part | None:
        return next((p for p in self.parts if p.role == "clip"), None)

    @property
    def fittings(self) -> tuple[Part, ...]:
        return tuple(p for p in self.parts if p.role != "clip")


def bench(family: Family, layout: Layout, scene: Scene, step: Step, piece: Piece, library: MeshLibrary) -> Bench:
    """The bench picture of a heated piece that ``step`` puts up. Raises ValueError for a piece of another step."""
    if piece.mark not in step.pieces:
        raise ValueError(f"step {step.number} does not put up piece {piece.mark}")
    body, words = scene.part(f"{piece.mark}/piece"), catalogue(step.language)
    sides = tuple(_side(layout, scene, step, piece, name) for name in ("start", "end"))
    ends = tuple(_bench_end(family, layout, piece, side, body, step, library) for side in sides)
    whole = _actor(library, body, "new")
    keys = {whole.mesh_key} | {a.mesh_key for end in ends for a in end.actors}
    front, top = family.section.front_u_mm, family.section.floor_gap_mm + family.section.height_mm
    return Bench(
        meshes=library.of(keys),
        title=words.say("bench.title", mark=piece.mark),
        mark=piece.mark,
        cut_length_mm=piece.cut_length_mm,
        piece=whole,
        corners_mm=_box(family, piece, 0.0, 1.0),
        front_mm=on_piece(piece, 0.5, front, family.section.middle_v_mm),
        top_mm=on_piece(piece, 0.5, (front + family.section.stand_off_mm) / 2.0, top),
        to_room=run_direction(piece, 0.0, 1.0, 0.0),
        ends=(ends[0], ends[1]),
        oring_count=sum(p.role == "o-ring" for side in sides for p in side.parts),
        language=step.language,
    )


def _side(layout: Layout, scene: Scene, step: Step, piece: Piece, name: Literal["start", "end"]) -> _Side:
    """Which of the step's parts go on this end on the bench: clip, end fitting, long legs, or the coupler that joins
    it to the piece before.
    """
    joints = [j for run in layout.runs for j in run.joints]
    if name == "start":
        marks = {j.mark for j in joints if j.later == piece.mark and j.kind == "coupler"}
    else:
        marks = {j.mark for j in joints if j.earlier == piece.mark and j.kind == "elbow"}
    travelling = [scene.part(i) for i in step.travels]
    own = [p for p in travelling if p.piece == piece.mark and p.joint is None and p.end == name]
    joined = [p for p in travelling if p.joint in marks and p.role != "clip"]
    return _Side(
        name=name,
        out=-1.0 if name == "start" else 1.0,
        end=piece.start if name == "start" else piece.end,
        parts=tuple(dict.fromkeys([*own, *joined])),
    )


def _bench_end(
    family: Family, layout: Layout, piece: Piece, side: _Side, body: Part, step: Step, library: MeshLibrary
) -> BenchEnd:
    clip_out = CLIP_OUT_MM if side.clip is not None else 0.0
    far_out = clip_out + side.end.insertion_mm + FITTING_OUT_MM

    def shift(out_mm: float) -> Vec3:
        return run_direction(piece, side.out * out_mm, 0.0, 0.0)

    moved = {p.id: shift(clip_out if p.role == "clip" else far_out) for p in side.parts}
    apart = [_actor(library, p, new_look(p), moved[p.id]) for p in side.parts]
    whole, words = _actor(library, body, "new"), catalogue(step.language)
    together = [_actor(library, side.clip, new_look(side.clip))] if side.clip is not None else []
    share = 0.0 if side.name == "start" else 1.0
    inward = min(SHOWN_MM / piece.cut_length_mm, 1.0)
    section = family.section
    near = _box(family, piece, *((0.0, inward) if side.name == "start" else (1.0 - inward, 1.0)))
    face = _box(family, piece, share, share)
    return BenchEnd(
        toward=words.say(TOWARD[side.name]),
        title=words.say("bench.goes", toward=words.say(TOWARD[side.name]), what=_goes(layout, piece, side, words)),
        face=side.end.clip,
        actors=(whole, *apart),
        flush=(whole, *together),
        centre_mm=on_piece(piece, share, section.bore_u_mm, section.middle_v_mm),
        frame_mm=near,
        end_frame_mm=face,
        toward_viewer=run_direction(piece, side.out * 0.62, 0.68, 0.42),
        outward=run_direction(piece, side.out, 0.0, 0.0),
        to_room=run_direction(piece, 0.0, 1.0, 0.0),
        tags=tuple(_tags(family, layout, side, piece, moved, words)),
        guides_mm=tuple(_guides(family, piece, side, clip_out)),
        todo=_todo(step, piece, side),
    )


def _actor(library: MeshLibrary, part: Part, look: Look, by_mm: Vec3 = (0.0, 0.0, 0.0)) -> Actor:
    return Actor(id=part.id, mesh_key=library.key(part), placement=part.placement.moved(by_mm), look=look)


def _goes(layout: Layout, piece: Piece, side: _Side, words: Catalogue) -> str:
    """What an end meets, or the fitting that it gets."""
    joints = [j for run in layout.runs for j in run.joints]
    at_start = side.name == "start"
    joint = next((j for j in joints if (j.later if at_start else j.earlier) == piece.mark), None)
    if joint is None:
        return words.say(f"fitting.{side.end.joint}")
    other = joint.earlier if at_start else joint.later
    if joint.corner is None:
        return words.say("bench.meets-in-line", mark=other)
    return words.say("bench.meets", mark=other, place=words.say("place.corner", id=joint.corner.id))


def _box(family: Family, piece: Piece, low: float, high: float) -> tuple[Vec3, ...]:
    section = family.section
    return tuple(
        on_piece(piece, share, u, v)
        for share in (low, high)
        for u in (section.stand_off_mm, section.front_u_mm)
        for v in (section.floor_gap_mm, section.floor_gap_mm + section.height_mm)
    )


def _tags(
    family: Family, layout: Layout, side: _Side, piece: Piece, moved: dict[str, Vec3], words: Catalogue
) -> list[Tag]:
    section = family.section
    upper = section.floor_gap_mm + section.waterways[1].centre[1]
    bore = on_piece(piece, 0.0 if side.name == "start" else 1.0, section.bore_u_mm, upper)
    body = (f"{piece.mark}/piece",)
    found: list[Tag] = []
    if side.clip is not None:
        at = side.clip.placement.moved(moved[side.clip.id]).point((0.0, 0.0, section.pitch_mm / 4.0))
        text = words.say("tag.clip", face=words.say(f"face.{side.end.clip}"))
        found.append(Tag(on=(side.clip.id,), at_mm=at, text=text, face=side.end.clip))
    else:
        found.append(Tag(on=body, at_mm=bore, text=words.say("tag.no-clip")))
    rings = [p for p in side.parts if p.role == "o-ring"]
    if rings:
        ring = _outermost(rings, side, piece)
        at = ring.placement.moved(moved[ring.id]).origin_mm
        found.append(Tag(on=(ring.id,), at_mm=at, text=words.say("tag.grease", count=len(rings)), kind="grease"))
    found += _fitting_tags(layout, side, moved, words)
    if not side.fittings and side.end.joint in EMPTY:
        waits = "waits" if side.end.joint == "link" and side.name == "start" else "later"
        text = words.say(f"tag.{side.end.joint}-{waits}")
        found.append(Tag(on=body, at_mm=bore, text=text))
    return found


def _outermost(rings: Sequence[Part], side: _Side, piece: Piece) -> Part:
    """The upper O-ring that stands nearest the piece: on the leg that goes into it."""
    along = run_direction(piece, side.out, 0.0, 0.0)

    def reach(part: Part) -> tuple[float, float]:
        x, y, z = part.placement.origin_mm
        return x * along[0] + y * along[1], -z

    return min(rings, key=reach)


def _fitting_tags(layout: Layout, side: _Side, moved: dict[str, Vec3], words: Catalogue) -> list[Tag]:
    """Which leg goes where, or what the end fitting is."""

    def ring_of(name: str) -> Vec3:
        ring = next(p for p in side.parts if p.role == "o-ring" and p.end == name and "lower" in p.id)
        return ring.placement.moved(moved[ring.id]).origin_mm

    elbow = next((p for p in side.parts if p.role == "elbow" and p.id.endswith("lower")), None)
    if elbow is not None:
        following = next(j.later for run in layout.runs for j in run.joints if j.mark == elbow.joint)
        return [
            Tag(on=(elbow.id,), at_mm=ring_of("end"), text=words.say("tag.long-legs")),
            Tag(on=(elbow.id,), at_mm=ring_of("start"), text=words.say("tag.short-legs", mark=following)),
        ]
    body = next((p for p in side.parts if p.role in NAMES), None)
    if body is None:
        return []
    at = body.placement.moved(moved[body.id]).origin_mm
    return [Tag(on=(body.id,), at_mm=at, text=words.say(NAMES[body.role]))]


def _guides(family: Family, piece: Piece, side: _Side, clip_out: float) -> list[tuple[Vec3, Vec3]]:
    """Dashed lines of the bores' axes from the cut face to the clip and on to the fitting's legs."""
    section = family.section
    share = 0.0 if side.name == "start" else 1.0
    stops = [(2.0, clip_out - 3.0)] if side.clip is not None else []
    if side.fittings:
        stops.append((clip_out + 3.0, clip_out + FITTING_OUT_MM - 2.0))
    lines = []
    for v in (section.floor_gap_mm + w.centre[1] for w in section.waterways):
        face = on_piece(piece, share, section.bore_u_mm, v)
        for low, high in stops:
            lines.append(
                (
                    add(face, run_direction(piece, side.out * low, 0.0, 0.0)),
                    add(face, run_direction(piece, side.out * high, 0.0, 0.0)),
                )
            )
    return lines


def _todo(step: Step, piece: Piece, side: _Side) -> tuple[str, ...]:
    """The bench work of this end, one thing to do an entry."""
    found = next((a for a in step.actions if a.kind == "bench" and a.piece == piece.mark and a.end == side.name), None)
    return tuple(f"{part[0].upper()}{part[1:]}." for part in found.parts) if found is not None else ()
