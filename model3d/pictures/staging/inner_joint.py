"""The close-up of a joint between pieces that go up as one: the coupler between its two clips."""

from __future__ import annotations

from model3d.geometry.placement import Placement, add
from model3d.layout import Joint
from model3d.pictures.stage import Inset
from model3d.pictures.staging.end_view import RADIUS_MM, EndView
from model3d.pictures.staging.looks import new_look
from model3d.pictures.staging.meshes import MeshLibrary
from model3d.pictures.staging.occasion import Occasion
from model3d.pictures.staging.poses import actors


def inner_inset(at: Occasion, library: MeshLibrary, joint: Joint) -> Inset:
    """The two ends drawn apart, the clips out of them and the coupler between, as on the bench."""
    earlier, later = (next(p for p in at.pieces if p.mark == mark) for mark in (joint.earlier, joint.later))
    pose = at.setting_out()
    one = EndView(at=at, piece=earlier, name="end", pose=pose)
    apart = one.clip_out_mm + one.fitting_out_mm + one.end.insertion_mm
    other = EndView(at=at, piece=later, name="start", pose=Placement(origin_mm=one.outward(apart)) @ pose)
    couplers = at.joint_parts(joint)
    clips = [*one.clips(at.parts(at.step.travels)), *other.clips(at.parts(at.step.travels))]
    middle = Placement(origin_mm=one.outward(apart / 2.0)) @ pose
    moved = dict.fromkeys((p.id for p in couplers), middle) | one.drawn(clips[:1]) | other.drawn(clips[1:])
    moved |= {f"{earlier.mark}/piece": one.pose, f"{later.mark}/piece": other.pose}
    bodies = at.parts((f"{earlier.mark}/piece", f"{later.mark}/piece"))
    rings = [p for p in couplers if p.role == "o-ring"]
    words, face = at.words, "front" if one.face == "F" else "back"
    title = words.say("inset.coupler", one=earlier.mark, other=later.mark, face=words.say(f"face.{face}"))
    return Inset(
        centre_mm=add(one.face_mm, one.outward(apart / 2.0)),
        spot_mm=one.face_mm,
        radius_mm=RADIUS_MM + 12.0,
        title=title,
        face=one.face,
        actors=tuple(actors(library, [(p, new_look(p)) for p in (*bodies, *clips, *couplers)], moved)),
        direction=one.outward(0.3, 0.8, 0.5),
        other_directions=(one.outward(-0.3, 0.8, 0.5), one.outward(0.5, 0.7, 0.5)),
        subject_ids=tuple(p.id for p in (*clips, *couplers) if p.role in ("clip", "coupler")),
        badges=(*one.badges(clips[:1], moved), *other.badges(clips[1:], moved)),
        guides=(*one.guides(apart / 2.0), *other.guides(apart / 2.0)),
        callouts=one.grease([p for p in rings if p.end == "end"], moved, len(rings)),
    )
