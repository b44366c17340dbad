"""The close-up of the end toward the valve: what is done there on the bench, or the joint that the move makes."""

from __future__ import annotations

from model3d.geometry.placement import Placement, Vec3, add
from model3d.layout import Joint
from model3d.pictures.stage import Actor, Arrow, Callout, Inset
from model3d.pictures.staging.end_view import RADIUS_MM, EndView
from model3d.pictures.staging.looks import new_look, waiting_look
from model3d.pictures.staging.meshes import MeshLibrary
from model3d.pictures.staging.occasion import Occasion
from model3d.pictures.staging.poses import Moves, actors, run_direction, shifted, shifts
from model3d.scene import Part
from model3d.steps.moves import room_vector


def near_inset(at: Occasion, library: MeshLibrary) -> Inset:
    """The end toward the valve: its end fitting on the bench, or the fitting it is moved onto."""
    piece = at.pieces[0]
    if at.near is None:
        return _bench_inset(at, library)
    if at.step.near_by_hand:
        return _by_hand_inset(at, library, at.near)
    leg = next(leg for leg in at.step.legs if leg.name in ("slide", "engage"))
    view = EndView(at=at, piece=piece, name="start", pose=shifted(room_vector(piece, leg.from_mm)))
    back = Placement(origin_mm=view.outward(-view.clip_out_mm))  # so that the drawn-out clip stands free of the tips
    view = EndView(at=at, piece=piece, name="start", pose=back @ view.pose)
    fittings = at.joint_parts(at.near)
    moved = dict(shifts(at.step.waiting))
    if at.near.kind == "link":
        moved |= dict.fromkeys((p.id for p in fittings), shifted(room_vector(piece, leg.to_mm)))
    clips = view.clips(at.parts(at.step.travels))
    moved |= {f"{piece.mark}/piece": view.pose} | view.drawn(clips)
    body = [p for p in at.parts(at.step.travels) if p.id == f"{piece.mark}/piece"]
    shown: list[Actor] = actors(library, [(p, new_look(p)) for p in (*body, *clips)], moved)
    shown += actors(library, [(p, waiting_look(p)) for p in fittings], moved)
    reach = view.clip_out_mm + leg.length_mm
    return Inset(
        centre_mm=view.centre(reach + 24.0),
        spot_mm=_spot(at),
        radius_mm=RADIUS_MM,
        title=view.title(),
        face=view.face,
        actors=tuple(shown),
        direction=view.direction,
        other_directions=view.other_directions,
        subject_ids=tuple(p.id for p in (*clips, *fittings) if p.role in ("clip", "elbow", "spigot")),
        badges=view.badges(clips, moved),
        guides=view.guides(reach),
        arrows=(_joining(at, view, leg.name, leg.length_mm),),
        callouts=_leg_name(at, view, fittings, moved),
    )


def _bench_inset(at: Occasion, library: MeshLibrary) -> Inset:
    """The valve end as it goes in on the bench."""
    view = EndView(at=at, piece=at.pieces[0], name="start", pose=at.setting_out())
    parts = [p for p in at.parts(at.step.travels) if p.piece == view.piece.mark and p.joint is None]
    parts = [p for p in parts if p.end != "end"]
    return bench_inset(at, library, view, parts, _spot(at))


def _by_hand_inset(at: Occasion, library: MeshLibrary, near: Joint) -> Inset:
    """The end that goes onto nothing: its clip; and the links that are pushed in there by hand, once it is up, when the
    piece before is up as well.
    """
    view = EndView(at=at, piece=at.pieces[0], name="start", pose=shifted((0.0, 0.0, 0.0)))
    fittings = at.joint_parts(near) if at.step.links_from is not None else []
    body = [p for p in at.parts(at.step.travels) if p.piece == view.piece.mark and p.joint is None and p.end != "end"]
    clips = view.clips(body)
    out = Placement(origin_mm=view.outward(view.fitting_out_mm))
    moved = dict.fromkeys((p.id for p in fittings), out) | view.drawn(clips)
    said = at.words.say("after.links-from", mark=near.earlier)
    label = next((a.label for a in at.step.actions if a.text == said), "")
    shown = actors(library, [(p, new_look(p)) for p in body], moved)
    shown += actors(library, [(p, waiting_look(p)) for p in fittings], moved)
    return Inset(
        centre_mm=view.centre(view.fitting_out_mm + 18.0),
        spot_mm=_spot(at),
        radius_mm=RADIUS_MM,
        title=view.title(),
        face=view.face,
        actors=tuple(shown),
        direction=view.direction,
        other_directions=view.other_directions,
        subject_ids=tuple(p.id for p in (*clips, *fittings) if p.role in ("clip", "spigot")),
        badges=view.badges(clips, moved),
        guides=view.guides(view.clip_out_mm + 12.0),
        arrows=(view.links_in(label),) if fittings else (),
    )


def bench_inset(at: Occasion, library: MeshLibrary, view: EndView, parts: list[Part], spot_mm: Vec3) -> Inset:
    """An end with its end fitting drawn out: clip first, then grease, then the fitting until it clicks."""
    clips = view.clips(parts)
    rings = [p for p in parts if p.role == "o-ring"]
    out = Placement(origin_mm=view.outward(view.fitting_out_mm))
    moved = {p.id: view.pose if p.role == "piece" else out @ view.pose for p in parts} | view.drawn(clips)
    start = add(view.face_mm, view.outward(view.fitting_out_mm + 42.0, 20.0, at.family.section.pitch_mm / 2.0 + 56.0))
    return Inset(
        centre_mm=view.centre(view.fitting_out_mm + 30.0),
        spot_mm=spot_mm,
        radius_mm=RADIUS_MM + 10.0,
        title=view.title(),
        face=view.face,
        actors=tuple(actors(library, [(p, new_look(p)) for p in parts], moved)),
        direction=view.direction,
        other_directions=view.other_directions,
        subject_ids=tuple(p.id for p in (*clips, *rings)),
        badges=view.badges(clips, moved),
        guides=view.guides(view.clip_out_mm + 12.0),
        arrows=(
            Arrow(
                start_mm=start,
                end_mm=add(start, view.outward(-view.fitting_out_mm)),
                kind="engage",
                along_mm=view.along(start),
            ),
        ),
        callouts=view.grease(rings, moved, len(rings)),
    )


def _spot(at: Occasion) -> Vec3:
    """The near end where the piece stands in the main picture."""
    return EndView(at=at, piece=at.pieces[0], name="start", pose=at.setting_out()).face_mm


def _joining(at: Occasion, view: EndView, name: str, long_mm: float) -> Arrow:
    number = next(k for k, leg in enumerate(at.step.legs, 1) if leg.name == name)
    section = at.family.section
    start = add(view.face_mm, view.outward(-66.0, section.front_u_mm - section.bore_u_mm, 6.0))
    return Arrow(
        start_mm=start,
        end_mm=add(start, view.outward(long_mm)),
        label=str(number),
        kind="slide" if name == "slide" else "engage",
        note=at.words.say("note.mm", mm=long_mm),
        along_mm=view.along(start),
    )


def _leg_name(at: Occasion, view: EndView, fittings: list[Part], moved: Moves) -> tuple[Callout, ...]:
    """The short leg by its name, at the upper one."""
    if at.near is None or at.near.kind != "elbow":
        return ()
    rings = [p for p in fittings if p.role == "o-ring" and p.end == "start" and p.id.endswith("upper-2")]
    rings = rings or [p for p in fittings if p.role == "o-ring" and p.end == "start"]
    place = (moved[rings[0].id] @ rings[0].placement).origin_mm
    at_mm = add(add(place, view.outward(7.0)), run_direction(view.piece, 0.0, 0.0, at.family.leg.height_mm / 2.0))
    return (Callout(at_mm=at_mm, text=at.words.say("callout.short-leg")),)
