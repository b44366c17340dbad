"""From a joint at a corner to its sheet."""

from __future__ import annotations

import math
from typing import Literal

from model3d.families.family import Family
from model3d.geometry.placement import Vec3, add
from model3d.layout import Joint, Layout, Piece
from model3d.pictures.corners.values import CornerSheet, HoseTable, Side, State, Window
from model3d.pictures.labelled.tags import Tag
from model3d.pictures.stage import Actor, Look
from model3d.pictures.staging.looks import new_look
from model3d.pictures.staging.meshes import MeshLibrary
from model3d.pictures.staging.poses import on_piece, run_direction
from model3d.scene import Part, Scene
from model3d.thermal import LinkHose, LongLeg, ThermalReport

SHOWN_MM = 150.0
KINDS = {"elbow": "rigid elbows", "link": "links"}
ROOM_SHOWN: dict[str, Look] = {"floor": "room-floor", "wall": "room-wall"}


def corner_sheet(
    family: Family, layout: Layout, scene: Scene, joint: Joint, thermal: ThermalReport, library: MeshLibrary
) -> CornerSheet:
    """The sheet of a joint at a corner. Raises ValueError for an in-line joint."""
    if joint.corner is None:
        raise ValueError(f"joint {joint.mark} is in-line, not at a corner")
    earlier = next(p for p in layout.pieces if p.mark == joint.earlier)
    later = next(p for p in layout.pieces if p.mark == joint.later)
    parts = _parts(scene, joint, (earlier, later))
    shown = tuple(_actor(library, p, "fitted" if p.role == "piece" else new_look(p)) for p in parts)
    room = tuple(
        _actor(library, p, ROOM_SHOWN[p.role])
        for p in scene.room
        if p.role == "floor" or (p.role == "wall" and p.wall in (earlier.wall.id, later.wall.id))
    )
    section = family.section
    x, y = joint.corner.at_mm
    at: Vec3 = (x, y, section.floor_gap_mm + section.waterways[1].centre[1])
    out = [sum(pair) for pair in zip(_to_room(earlier), _to_room(later), strict=True)]
    return CornerSheet(
        meshes=library.of({a.mesh_key for a in (*shown, *room)}),
        title=f"Corner {joint.corner.id}, {joint.earlier} to {joint.later}",
        subtitle=_subtitle(joint),
        corner_mm=(x, y, 0.0),
        internal=joint.turn_deg > 0,
        angle_deg=180.0 - joint.turn_deg,
        room=room,
        parts=shown,
        near_mm=(*_near(family, earlier, "end", SHOWN_MM), *_near(family, later, "start", SHOWN_MM)),
        joint_mm=(*_near(family, earlier, "end", 74.0), *_near(family, later, "start", 44.0)),
        front_u_mm=section.front_u_mm,
        toward_viewer=(out[0], out[1], 0.62 * math.hypot(out[0], out[1])),
        cut_at_mm=at,
        sides=(_side(earlier, "end", (x, y, 0.0)), _side(later, "start", (x, y, 0.0))),
        tags=tuple(_tags(family, joint, (earlier, later), parts)),
        window=_window(thermal, joint),
        hoses=_hoses(thermal, joint),
    )


def _subtitle(joint: Joint) -> str:
    kind = "internal" if joint.turn_deg > 0 else "external"
    why = f": {joint.reason}" if joint.kind == "link" and joint.turn_deg > 0 and joint.reason else ""
    return f"{kind} corner of {180.0 - joint.turn_deg:.1f} degrees in the room, {KINDS[joint.kind]}{why}"


def _parts(scene: Scene, joint: Joint, pieces: tuple[Piece, Piece]) -> tuple[Part, ...]:
    """The two pieces, their clips at this joint, and the joint's own parts; no trims, no brackets."""
    ends = {pieces[0].mark: "end", pieces[1].mark: "start"}

    def shown(part: Part) -> bool:
        if part.role in ("trim", "end-cap", "bracket", "packer", "cradle"):
            return False
        if part.joint == joint.mark:
            return True
        return part.piece in ends and (part.role == "piece" or (part.role == "clip" and part.end == ends[part.piece]))

    return tuple(p for p in scene.fitted if shown(p))


def _actor(library: MeshLibrary, part: Part, look: Look) -> Actor:
    return Actor(id=part.id, mesh_key=library.key(part), placement=part.placement, look=look)


def _to_room(piece: Piece) -> Vec3:
    return run_direction(piece, 0.0, 1.0, 0.0)


def _near(family: Family, piece: Piece, end: Literal["start", "end"], shown_mm: float) -> tuple[Vec3, ...]:
    """Points round the last stretch of a piece toward the corner."""
    inward = min(shown_mm / piece.cut_length_mm, 1.0)
    shares = (0.0, inward) if end == "start" else (1.0 - inward, 1.0)
    section = family.section
    return tuple(
        on_piece(piece, share, u, v)
        for share in shares
        for u in (0.0, section.front_u_mm)
        for v in (0.0, section.floor_gap_mm + section.height_mm)
    )


def _side(piece: Piece, end: Literal["start", "end"], corner_mm: Vec3) -> Side:
    share = 0.0 if end == "start" else 1.0
    face = on_piece(piece, share, 0.0, 0.0)
    back = 1.0 if end == "start" else -1.0
    return Side(
        mark=piece.mark,
        along=run_direction(piece, back, 0.0, 0.0),
        to_room=_to_room(piece),
        allowance_mm=math.dist(face[:2], corner_mm[:2]),
        face_mm=face,
    )


def _tags(family: Family, joint: Joint, pieces: tuple[Piece, Piece], parts: tuple[Part, ...]) -> list[Tag]:
    section = family.section
    top = section.floor_gap_mm + section.waterways[1].centre[1]
    found: list[Tag] = []
    for piece, end, share in ((pieces[0], pieces[0].end, 1.0), (pieces[1], pieces[1].start, 0.0)):
        at = on_piece(piece, share, section.bore_u_mm, top)
        body = (f"{piece.mark}/piece",)
        clip = next((p for p in parts if p.role == "clip" and p.piece == piece.mark), None)
        if clip is not None:
            text = f"{piece.mark}: clip faces {end.clip.upper()}"
            found.append(Tag(on=(clip.id,), or_on=body, at_mm=at, text=text, face=end.clip))
        else:
            inner = on_piece(piece, share, section.front_u_mm, section.floor_gap_mm + section.height_mm - 12.0)
            found.append(Tag(on=body, at_mm=inner, text=f"{piece.mark}: no clip, the long legs slide"))
    screw = next((p for p in parts if p.role == "spigot" and p.id.endswith("spigot-end-upper")), None)
    if screw is not None and family.link.screw_access == "above":
        at = add(screw.placement.point((family.link.screw.x_mm, 0.0, 0.0)), (0.0, 0.0, 12.0))
        found.append(Tag(on=(screw.id,), at_mm=at, text="screw heads up", kind="screws-up"))
    elbow = next((p for p in parts if p.role == "elbow" and p.id.endswith("upper")), None)
    if elbow is not None and joint.elbow is not None:
        text = f"push home by {joint.elbow.push_home_mm:g}, draw out to {joint.elbow.draw_out_to_mm:g} mm"
        found.append(Tag(on=(elbow.id,), at_mm=elbow.placement.origin_mm, text=text))
    return found


def _window(thermal: ThermalReport, joint: Joint) -> Window | None:
    leg: LongLeg | None = next((leg for leg in thermal.long_legs if leg.joint == joint.mark), None)
    if leg is None:
        return None
    bad = {f.name for f in leg.outside}
    names = ("cold", "hot", "frost", "pushed home")
    return Window(
        least_mm=leg.least.value,
        most_mm=leg.most.value,
        states=tuple(
            State(name=name, value_mm=f.value, right=f.name not in bad)
            for name, f in zip(names, leg.states, strict=True)
        ),
    )


def _hoses(thermal: ThermalReport, joint: Joint) -> HoseTable | None:
    hose: LinkHose | None = next((h for h in thermal.hoses if h.joint == joint.mark), None)
    if hose is None:
        return None
    rows = []
    for state in hose.states:
        bend = state.bend.value if state.bend is not None else None
        right = state.apart.value <= hose.most_apart_mm and bend is not None and bend >= hose.least_bend_mm
        rows.append((state.state, state.apart.value, bend, right))
    return HoseTable(most_apart_mm=hose.most_apart_mm, least_bend_mm=hose.least_bend_mm, rows=tuple(rows))
