"""The close-up of the end toward the return: its elbows pushed home on the bench and drawn out on the wall, the links
pushed in once it is up, or its end fitting.
"""

from __future__ import annotations

from collections.abc import Sequence

from model3d.geometry.placement import Placement, Vec3, add
from model3d.pictures.stage import Arrow, Callout, Inset, Notch
from model3d.pictures.staging.end_view import RADIUS_MM, EndView
from model3d.pictures.staging.looks import new_look
from model3d.pictures.staging.meshes import MeshLibrary
from model3d.pictures.staging.near_end import bench_inset
from model3d.pictures.staging.occasion import Occasion
from model3d.pictures.staging.poses import Moves, actors, shifted
from model3d.scene import Part
from model3d.steps.words import DRAWN_MM, drawn_by_mm

ABOVE_MM = 26.0


def far_inset(at: Occasion, library: MeshLibrary) -> Inset:
    """The end toward the return, as the step leaves it or as the bench hands it over."""
    view = EndView(at=at, piece=at.pieces[-1], name="end", pose=at.setting_out())
    if at.far is not None and at.far.kind == "elbow":
        return _elbow_inset(at, library, view)
    if at.far is not None:
        return _link_inset(at, library, view)
    mine = [p for p in at.parts(at.step.travels) if p.piece == view.piece.mark and p.joint is None]
    return bench_inset(at, library, view, [p for p in mine if p.end != "start"], view.face_mm)


def _elbow_inset(at: Occasion, library: MeshLibrary, view: EndView) -> Inset:
    """The long legs pushed home, seen through a window in the piece; drawn out once it is up."""
    joint = at.joint_parts(at.far)
    body = [p for p in at.parts(at.step.travels) if p.id == f"{view.piece.mark}/piece"]
    moved = at.travelling(view.pose)
    elbows = [p for p in joint if p.role == "elbow"]
    rings = [p for p in joint if p.role == "o-ring"]
    seated = [p for p in rings if p.end == "end"]
    return Inset(
        centre_mm=add(view.face_mm, view.outward(-12.0, 14.0)),
        spot_mm=view.face_mm,
        radius_mm=RADIUS_MM - 8.0,
        title=view.title(),
        actors=tuple(actors(library, [(p, new_look(p)) for p in (*body, *joint)], moved)),
        direction=view.outward(0.3, 0.8, 0.5),
        other_directions=(view.outward(0.15, 0.85, 0.5), view.outward(0.5, 0.7, 0.5)),
        subject_ids=tuple(p.id for p in elbows),
        notch=_window(view, [p.id for p in body]),
        arrows=_elbow_arrows(at, view),
        callouts=(*view.grease(seated, moved, len(rings)), *_long_leg(at, view, seated, moved)),
    )


def _window(view: EndView, ids: Sequence[str]) -> Notch:
    """Opens the front of the piece as deep as the leg stands in it, through the bores' middles."""
    deep = view.end.most_insertion_mm + 10.0
    return Notch(
        from_mm=add(view.face_mm, view.outward(-deep)),
        along=view.outward(1.0),
        at_mm=view.face_mm,
        normal=view.outward(0.0, 1.0),
        actor_ids=tuple(ids),
    )


def _elbow_arrows(at: Occasion, view: EndView) -> tuple[Arrow, ...]:
    """Pushed home, on the bench; drawn out, as the step's last move."""
    if at.far is None or at.far.elbow is None:
        return ()
    label = next((a.label for a in at.step.actions if a.kind == "after"), "")
    half = at.family.section.pitch_mm / 2.0
    home, out = at.far.elbow.push_home_mm, drawn_by_mm(at.far, view.end)
    low = add(view.face_mm, view.outward(78.0, 24.0, -half - 22.0))
    high = add(view.face_mm, view.outward(4.0, 16.0, half + ABOVE_MM))
    pushed = Arrow(
        start_mm=low,
        end_mm=add(low, view.outward(-home)),
        kind="push-home",
        along_mm=view.along(low),
        note=at.words.say("note.bench", mm=home),
    )
    drawn = Arrow(
        start_mm=high,
        end_mm=add(high, view.outward(out)),
        label=label,
        kind="draw-out",
        along_mm=view.along(high),
        note=at.words.say("note.mm", mm=out),
    )
    return tuple(arrow for arrow, by in ((pushed, home), (drawn, out)) if by > DRAWN_MM)


def _long_leg(at: Occasion, view: EndView, seated: Sequence[Part], moved: Moves) -> tuple[Callout, ...]:
    """The long leg by its name, on the lower one, where it lies open."""
    lower = [p for p in seated if p.id.endswith("lower-2")] or list(seated)
    place = (moved[lower[0].id] @ lower[0].placement).origin_mm
    at_mm = add(add(place, view.outward(9.0)), view.outward(0.0, at.family.leg.width_mm / 2.0, 0.0))
    return (Callout(at_mm=at_mm, text=at.words.say("callout.long-leg")),)


def _link_inset(at: Occasion, library: MeshLibrary, view: EndView) -> Inset:
    """The link before it is pushed in, with the piece up: clip, spigots with their O-rings, screw heads."""
    view = EndView(at=at, piece=view.piece, name="end", pose=shifted((0.0, 0.0, 0.0)))
    spot = EndView(at=at, piece=view.piece, name="end", pose=at.setting_out()).face_mm
    late = at.joint_parts(at.far)
    travels = at.parts(at.step.travels)
    clips = view.clips(travels)
    body = [p for p in travels if p.id == f"{view.piece.mark}/piece"]
    out = Placement(origin_mm=view.outward(view.fitting_out_mm))
    moved = dict.fromkeys((p.id for p in late), out) | view.drawn(clips)
    rings = [p for p in late if p.role == "o-ring"]
    near = [p for p in late if p.role == "spigot" and "spigot-end" in p.id]
    label = next((a.label for a in at.step.actions if a.kind == "after"), "")
    return Inset(
        centre_mm=view.centre(view.fitting_out_mm + 18.0),
        spot_mm=spot,
        radius_mm=RADIUS_MM,
        title=view.title(),
        face=view.face,
        actors=tuple(actors(library, [(p, new_look(p)) for p in (*body, *clips, *late)], moved)),
        direction=view.direction,
        other_directions=view.other_directions,
        subject_ids=tuple(p.id for p in (*clips, *near)),
        badges=view.badges(clips, moved),
        guides=view.guides(view.clip_out_mm + 12.0),
        arrows=(view.links_in(label),),
        callouts=(
            *view.grease([p for p in rings if p.end == "end"], moved, len(rings)),
            *_screws(at, near, moved),
        ),
    )


def _screws(at: Occasion, spigots: Sequence[Part], moved: Moves) -> tuple[Callout, ...]:
    upper = next(p for p in spigots if p.id.endswith("upper"))
    head: Vec3 = (at.family.link.screw.x_mm, 0.0, at.family.leg.height_mm / 2.0)
    place = (moved[upper.id] @ upper.placement).point(head)
    text = at.words.say(f"callout.screws-{at.family.link.screw_access}")
    return (Callout(at_mm=place, text=text, kind="screws-up"),)
