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

SHOWN_MM = 118.0
CLIP_OUT_MM = 46.0
FITTING_OUT_MM = 40.0
TOWARD = {"start": "Toward the valve", "end": "Toward the return"}
END_FITTINGS = ("valve-end", "return-end", "turn-back-end")
NAMES = {"valve-end": "Valve end", "return-end": "Return end", "turn-back-end": "Turn-back end", "coupler": "Coupler"}
LATER = {
    "link": "bores stay empty here: the links go in once it is up",
    "elbow-short": "bores stay empty here: the elbows wait in the piece before",
    "coupler": "bores stay empty here: the next piece brings the coupler",
}


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
    body = scene.part(f"{piece.mark}/piece")
    sides = tuple(_side(layout, scene, step, piece, name) for name in ("start", "end"))
    ends = tuple(_bench_end(family, layout, piece, side, body, step, library) for side in sides)
    whole = _actor(library, body, "new")
    keys = {whole.mesh_key} | {a.mesh_key for end in ends for a in end.actors}
    front, top = family.section.front_u_mm, family.section.floor_gap_mm + family.section.height_mm
    return Bench(
        meshes=library.of(keys),
        title=f"Piece {piece.mark} on the bench",
        mark=piece.mark,
        cut_length_mm=piece.cut_length_mm,
        piece=whole,
        corners_mm=_box(family, piece, 0.0, 1.0),
        front_mm=on_piece(piece, 0.5, front, family.section.middle_v_mm),
        top_mm=on_piece(piece, 0.5, (front + family.section.stand_off_mm) / 2.0, top),
        to_room=run_direction(piece, 0.0, 1.0, 0.0),
        ends=(ends[0], ends[1]),
        oring_count=sum(p.role == "o-ring" for side in sides for p in side.parts),
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
    whole = _actor(library, body, "new")
    together = [_actor(library, side.clip, new_look(side.clip))] if side.clip is not None else []
    share = 0.0 if side.name == "start" else 1.0
    inward = min(SHOWN_MM / piece.cut_length_mm, 1.0)
    section = family.section
    near = _box(family, piece, *((0.0, inward) if side.name == "start" else (1.0 - inward, 1.0)))
    face = _box(family, piece, share, share)
    return BenchEnd(
        title=f"{TOWARD[side.name]}: {_goes(layout, piece, side)}",
        face=side.end.clip,
        actors=(whole, *apart),
        flush=(whole, *together),
        centre_mm=on_piece(piece, share, section.bore_u_mm, section.middle_v_mm),
        frame_mm=near,
        end_frame_mm=face,
        toward_viewer=run_direction(piece, side.out * 0.62, 0.68, 0.42),
        outward=run_direction(piece, side.out, 0.0, 0.0),
        to_room=run_direction(piece, 0.0, 1.0, 0.0),
        tags=tuple(_tags(family, layout, side, piece, moved)),
        guides_mm=tuple(_guides(family, piece, side, clip_out)),
        todo=_todo(step, piece, side),
    )


def _actor(library: MeshLibrary, part: Part, look: Look, by_mm: Vec3 = (0.0, 0.0, 0.0)) -> Actor:
    return Actor(id=part.id, mesh_key=library.key(part), placement=part.placement.moved(by_mm), look=look)


def _goes(layout: Layout, piece: Piece, side: _Side) -> str:
    joint = next(
        (
            j
            for run in layout.runs
            for j in run.joints
            if (j.later if side.name == "start" else j.earlier) == piece.mark
        ),
        None,
    )
    if joint is None:
        return {"valve": "valve end", "return": "return end", "turn-back": "turn-back end"}.get(
            side.end.joint, side.end.joint
        )
    other = joint.earlier if side.name == "start" else joint.later
    where = "in-line" if joint.corner is None else f"corner {joint.corner.id}"
    return f"meets {other}, {where}"


def _box(family: Family, piece: Piece, low: float, high: float) -> tuple[Vec3, ...]:
    section = family.section
    return tuple(
        on_piece(piece, share, u, v)
        for share in (low, high)
        for u in (section.stand_off_mm, section.front_u_mm)
        for v in (section.floor_gap_mm, section.floor_gap_mm + section.height_mm)
    )


def _tags(family: Family, layout: Layout, side: _Side, piece: Piece, moved: dict[str, Vec3]) -> list[Tag]:
    section = family.section
    upper = section.floor_gap_mm + section.waterways[1].centre[1]
    bore = on_piece(piece, 0.0 if side.name == "start" else 1.0, section.bore_u_mm, upper)
    body = (f"{piece.mark}/piece",)
    found: list[Tag] = []
    if side.clip is not None:
        at = side.clip.placement.moved(moved[side.clip.id]).point((0.0, 0.0, section.pitch_mm / 4.0))
        found.append(Tag(on=(side.clip.id,), at_mm=at, text=f"clip faces {side.end.clip.upper()}", face=side.end.clip))
    else:
        found.append(Tag(on=body, at_mm=bore, text="no clip: the long legs must slide"))
    rings = [p for p in side.parts if p.role == "o-ring"]
    if rings:
        ring = _outermost(rings, side, piece)
        at = ring.placement.moved(moved[ring.id]).origin_mm
        found.append(Tag(on=(ring.id,), at_mm=at, text=f"grease all {len(rings)} O-rings", kind="grease"))
    found += _fitting_tags(layout, side, moved)
    if not side.fittings and side.end.joint in LATER:
        waiting = side.end.joint == "link" and side.name == "start"
        text = "bores stay empty here: the links wait in the piece before" if waiting else LATER[side.end.joint]
        found.append(Tag(on=body, at_mm=bore, text=text))
    return found


def _outermost(rings: Sequence[Part], side: _Side, piece: Piece) -> Part:
    """The upper O-ring that stands nearest the piece: on the leg that goes into it."""
    along = run_direction(piece, side.out, 0.0, 0.0)

    def reach(part: Part) -> tuple[float, float]:
        x, y, z = part.placement.origin_mm
        return x * along[0] + y * along[1], -z

    return min(rings, key=reach)


def _fitting_tags(layout: Layout, side: _Side, moved: dict[str, Vec3]) -> list[Tag]:
    """Which leg goes where, or what the end fitting is."""

    def ring_of(name: str) -> Vec3:
        ring = next(p for p in side.parts if p.role == "o-ring" and p.end == name and "lower" in p.id)
        return ring.placement.moved(moved[ring.id]).origin_mm

    elbow = next((p for p in side.parts if p.role == "elbow" and p.id.endswith("lower")), None)
    if elbow is not None:
        following = next(j.later for run in layout.runs for j in run.joints if j.mark == elbow.joint)
        return [
            Tag(on=(elbow.id,), at_mm=ring_of("end"), text="long legs: into this piece"),
            Tag(on=(elbow.id,), at_mm=ring_of("start"), text=f"short legs: wait for {following}"),
        ]
    body = next((p for p in side.parts if p.role in NAMES), None)
    if body is None:
        return []
    return [Tag(on=(body.id,), at_mm=body.placement.moved(moved[body.id]).origin_mm, text=NAMES[body.role].lower())]


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
    """The bench words of this end, one thing to do an entry."""
    toward = f"end {TOWARD[side.name].lower()}: "
    for action in step.actions:
        alone = len(step.pieces) == 1
        if action.kind == "bench" and toward in action.text and (alone or f" {piece.mark}, " in action.text):
            said = action.text.split(toward, 1)[1].rstrip(".")
            return tuple(part[0].upper() + part[1:] for part in said.split("; "))
    return ()
