"""From a joint at a corner to its sheet."""

from __future__ import annotations

import math
from typing import Literal

from model3d.families.family import Family
from model3d.geometry.placement import Vec3, add, scale
from model3d.layout import Joint, Layout, Piece
from model3d.pictures.corners.values import CornerSheet, HoseTable, Side, State, Window
from model3d.pictures.labelled.tags import Tag
from model3d.pictures.stage import Actor, Look
from model3d.pictures.staging.looks import new_look
from model3d.pictures.staging.meshes import MeshLibrary
from model3d.pictures.staging.poses import on_piece, run_direction
from model3d.scene import Part, Scene
from model3d.thermal import LinkHose, LongLeg, ThermalReport
from model3d.wording import ENGLISH, Catalogue

SHOWN_MM = 125.0
ROOM_SHOWN: dict[str, Look] = {"floor": "room-floor", "wall": "room-wall"}


def corner_sheet(
    family: Family,
    layout: Layout,
    scene: Scene,
    joint: Joint,
    thermal: ThermalReport,
    library: MeshLibrary,
    words: Catalogue = ENGLISH,
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
        title=words.say("corner.title", id=joint.corner.id, one=joint.earlier, other=joint.later),
        subtitle=_subtitle(family, joint, words),
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
        tags=tuple(_tags(family, joint, (earlier, later), parts, words)),
        window=_window(thermal, joint),
        hoses=_hoses(thermal, joint),
        language=words.language,
    )


def _subtitle(family: Family, joint: Joint, words: Catalogue) -> str:
    """What kind of corner it is, what joins it, and at an internal one why that is a link."""
    side = "internal" if joint.turn_deg > 0 else "external"
    what = words.say(f"corner.{side}-{joint.kind}", deg=words.fixed(180.0 - joint.turn_deg, 1))
    if joint.kind != "link" or joint.turn_deg <= 0:
        return what
    return words.say("corner.why", what=what, why=why_link(family, joint, words))


def why_link(family: Family, joint: Joint, words: Catalogue = ENGLISH) -> str:
    """Why an internal corner takes a link: the layout's own reason, in the words of a catalogue."""
    off = abs(joint.turn_deg - 90.0)
    if family.elbow is None or family.corner_joints.internal == "link":
        return words.say("corner.always-link")
    if off > family.elbow.play_deg:
        return words.say("corner.off-square", off=words.fixed(off, 2), bears=family.elbow.play_deg)
    return words.say("corner.asked")


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
    allowance = math.dist(face[:2], corner_mm[:2])
    return Side(
        mark=piece.mark,
        along=run_direction(piece, back, 0.0, 0.0),
        to_room=_to_room(piece),
        allowance_mm=allowance,
        face_mm=face,
        reach_mm=allowance + piece.cut_length_mm,
    )


def _tags(
    family: Family, joint: Joint, pieces: tuple[Piece, Piece], parts: tuple[Part, ...], words: Catalogue
) -> list[Tag]:
    section = family.section
    top = section.floor_gap_mm + section.waterways[1].centre[1]
    found: list[Tag] = []
    for piece, end, share in ((pieces[0], pieces[0].end, 1.0), (pieces[1], pieces[1].start, 0.0)):
        at = on_piece(piece, share, section.bore_u_mm, top)
        body = (f"{piece.mark}/piece",)
        clip = next((p for p in parts if p.role == "clip" and p.piece == piece.mark), None)
        if clip is not None:
            text = words.say("corner.clip", mark=piece.mark, face=words.say(f"face.{end.clip}"))
            found.append(Tag(on=(clip.id,), or_on=body, at_mm=at, text=text, face=end.clip))
        else:
            inner = on_piece(piece, share, section.front_u_mm, section.floor_gap_mm + section.height_mm - 12.0)
            found.append(Tag(on=body, at_mm=inner, text=words.say("corner.no-clip", mark=piece.mark)))
    return [*found, *_screw_tag(family, parts, words), *_elbow_tag(joint, parts, words)]


def _screw_tag(family: Family, parts: tuple[Part, ...], words: Catalogue) -> list[Tag]:
    """Which way the screws of a link look."""
    screw = next((p for p in parts if p.role == "spigot" and p.id.endswith("spigot-end-upper")), None)
    if screw is None:
        return []
    above = family.link.screw_access == "above"
    head = screw.placement.point((family.link.screw.x_mm, 0.0, 0.0))
    at = add(head, (0.0, 0.0, 12.0)) if above else add(head, scale(screw.placement.z_axis, 12.0))
    text = words.say(f"corner.screws-{family.link.screw_access}")
    return [Tag(on=(screw.id,), at_mm=at, text=text, kind="screws-up" if above else "plain")]


def _elbow_tag(joint: Joint, parts: tuple[Part, ...], words: Catalogue) -> list[Tag]:
    """How far the elbows are pushed home and drawn out."""
    elbow = next((p for p in parts if p.role == "elbow" and p.id.endswith("lower")), None)
    if elbow is None or joint.elbow is None:
        return []
    text = words.say("corner.push-draw", home=joint.elbow.push_home_mm, out=joint.elbow.draw_out_to_mm)
    return [Tag(on=(elbow.id,), at_mm=elbow.placement.origin_mm, text=text)]


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
