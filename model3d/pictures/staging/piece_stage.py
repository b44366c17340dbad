"""The stage of a step that puts a piece up."""

from __future__ import annotations

from collections.abc import Sequence

from model3d.geometry.placement import Placement, Vec3, add, subtract
from model3d.pictures.stage import Actor, Arrow, Frame, Inset, Stage, Swing
from model3d.pictures.staging.dry_end import dry_insets
from model3d.pictures.staging.far_end import far_inset
from model3d.pictures.staging.inner_joint import inner_inset
from model3d.pictures.staging.looks import fitted_look, new_look, waiting_look
from model3d.pictures.staging.meshes import MeshLibrary
from model3d.pictures.staging.near_end import near_inset
from model3d.pictures.staging.occasion import Occasion
from model3d.pictures.staging.poses import actors, on_piece, room_actors, run_direction, shifted, shifts
from model3d.pictures.staging.room_map import room_map
from model3d.pictures.staging.side_view import side_view
from model3d.pictures.staging.words import captions, hardness
from model3d.steps import MoveLeg
from model3d.steps.moves import room_vector
from model3d.steps.words import pressed_together

PRESSED_AT = 0.7  # a press pushes on the front, under the arrows on the top edge, and where the new piece hides it not


def piece_stage(at: Occasion, library: MeshLibrary) -> Stage:
    """Fitted parts muted, the new piece strong where its approach sets out, a ghost where it is offered; an arrow a
    leg, the first from the piece, the others from the ghost; a close-up a joint.
    """
    pose = at.setting_out()
    moved = at.travelling(pose)
    waiting = shifts(at.step.waiting)
    joint = {p.id for p in at.joint_parts(at.near)}
    fitted = [(p, waiting_look(p) if p.id in joint else fitted_look(p)) for p in at.standing(joint)]
    travels = at.parts(at.step.travels)
    stage_actors = room_actors(library, at.scene.room) + actors(library, fitted, waiting)
    stage_actors += actors(library, [(p, new_look(p)) for p in travels], moved) + _ghosts(at, library)
    insets = _insets(at, library)
    every = [a for inset in insets for a in inset.actors or ()]
    return Stage(
        meshes=library.of({a.mesh_key for a in stage_actors + every}),
        actors=tuple(stage_actors),
        frame=Frame(
            title=at.step.title,
            captions=captions(at.step),
            step=at.step.number,
            steps=at.steps,
            language=at.step.language,
            hardness=hardness(at.step),
        ),
        facing=run_direction(at.pieces[0], 0.0, 1.0, 0.0),
        arrows=_arrows(at, pose),
        swings=_swings(at),
        insets=tuple(insets),
        subject_ids=tuple(p.id for p in travels if p.role in ("piece", "dry-piece")),
        side_view=side_view(at.family) if any(inset.face for inset in insets) else None,
        plan_map=room_map(at),
    )


def _insets(at: Occasion, library: MeshLibrary) -> list[Inset]:
    if at.step.run is None:
        return dry_insets(at, library)
    return [near_inset(at, library), *(inner_inset(at, library, j) for j in at.between), far_inset(at, library)]


def _ghosts(at: Occasion, library: MeshLibrary) -> list[Actor]:
    """The pieces where they are offered."""
    if at.step.approach is None:
        return []
    offered = at.offered()
    found = []
    for part in at.parts(tuple(f"{p.mark}/piece" for p in at.pieces)):
        place = offered @ part.placement
        found.append(Actor(id=f"{part.id}/offered", mesh_key=library.key(part), placement=place, look="ghost"))
    return found


def _arrows(at: Occasion, setting_out: Placement) -> tuple[Arrow, ...]:
    """One arrow a leg where the piece then is, in their order from left to right as the viewer sees it; two for a
    press at both ends together. A swing is drawn apart.
    """
    legs = [(k, leg) for k, leg in enumerate(at.step.legs, 1) if not _swings_in(at, leg)]
    snagged = {snag.during for snag in at.step.snags}
    both = pressed_together(at.family, at.pieces)
    found = []
    for place, (number, leg) in enumerate(legs):
        shares = [(place + 0.7) / (len(legs) + 0.4)]
        if leg.name == "press" and both:
            shares = [0.2, 0.88]
        snag_share = _nearer(at, shares)
        pose, way = _leg(at, leg, setting_out)
        height = PRESSED_AT if leg.name == "press" else 1.0
        for share in shares:
            start = _on_front(at, pose, share, height)
            found.append(
                Arrow(
                    start_mm=start,
                    end_mm=add(start, way),
                    label=str(number),
                    kind=leg.name,
                    along_mm=(_on_front(at, pose, 0.06, height), _on_front(at, pose, 0.94, height)),
                    note=_note(at, leg) if share == shares[0] else "",
                    snag=leg.name in snagged and share == snag_share,
                )
            )
    return tuple(found)


def _leg(at: Occasion, leg: MoveLeg, setting_out: Placement) -> tuple[Placement, Vec3]:
    """Where the piece is when a leg begins, from its final place, and the way it then goes, room frame."""
    if leg.name == "offer":
        return setting_out, at.offer_way()
    first = at.pieces[0]
    return shifted(room_vector(first, leg.from_mm)), room_vector(first, subtract(leg.to_mm, leg.from_mm))


def _nearer(at: Occasion, shares: Sequence[float]) -> float:
    """Of shares from the viewer's left, the one nearest to the end that has a snag."""
    at_start = not any(snag.end == "end" for snag in at.step.snags)
    right = (at.pieces[0].sense > 0) == at_start
    return max(shares) if right else min(shares)


def _note(at: Occasion, leg: MoveLeg) -> str:
    """How far a leg goes; an offer comes from wherever one stands."""
    if leg.name == "offer":
        return ""
    return at.words.say("note.mm", mm=leg.length_mm)


def _on_front(at: Occasion, pose: Placement, share_from_left: float, height: float) -> Vec3:
    """A point on the front of what goes up, at a share of its length from the viewer's left and of its height.

    The walls go round with the room on their left: seen from the room their own direction runs to the left.
    """
    first, last = at.pieces[0], at.pieces[-1]
    section = at.family.section
    up = section.floor_gap_mm + height * section.height_mm
    ends = [on_piece(p, s, section.front_u_mm, up) for p, s in ((first, 0.0), (last, 1.0))]
    share = 1.0 - share_from_left if first.sense > 0 else share_from_left
    a, b = ends
    x, y, z = (p + share * (q - p) for p, q in zip(a, b, strict=True))
    return pose.point((x, y, z))


def _swings_in(at: Occasion, leg: MoveLeg) -> bool:
    return leg.name == "offer" and at.step.approach is not None and at.step.approach.name == "swing"


def _swings(at: Occasion) -> tuple[Swing, ...]:
    """The far end's way round, from where it is shown."""
    approach, first, last = at.step.approach, at.pieces[0], at.pieces[-1]
    if approach is None or approach.name != "swing":
        return ()
    section = at.family.section
    far = at.setting_out().point(on_piece(last, 0.92, section.front_u_mm, section.floor_gap_mm + section.height_mm))
    return (Swing(centre_mm=at.hinge_mm(), start_mm=far, turn_deg=-approach.turn_deg * first.sense, label="1"),)
