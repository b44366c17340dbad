"""The close-up of a dry piece's end: its cap, and the place it goes to."""

from __future__ import annotations

from model3d.geometry.placement import Placement, add
from model3d.pictures.stage import Arrow, Inset
from model3d.pictures.staging.end_view import RADIUS_MM, EndName, EndView
from model3d.pictures.staging.looks import new_look
from model3d.pictures.staging.meshes import MeshLibrary
from model3d.pictures.staging.occasion import Occasion
from model3d.pictures.staging.poses import actors
from model3d.steps.dry_ends import dry_places

CAP_OUT_MM = 46.0


def dry_insets(at: Occasion, library: MeshLibrary) -> list[Inset]:
    """Both ends, each cap a little off, with the arrow that pushes it on."""
    places = dry_places(at.pieces[0], at.scene, at.words)
    return [_dry_inset(at, library, "start", places[0]), _dry_inset(at, library, "end", places[1])]


def _dry_inset(at: Occasion, library: MeshLibrary, name: EndName, place: str) -> Inset:
    view = EndView(at=at, piece=at.pieces[0], name=name, pose=at.setting_out())
    caps = [p for p in at.parts(at.step.follows) if p.end == name]
    out = Placement(origin_mm=view.outward(CAP_OUT_MM)) @ view.pose
    moved = {p.id: out for p in caps} | dict.fromkeys(at.step.travels, view.pose)
    label = next((a.label for a in at.step.actions if a.kind == "after"), "")
    start = add(view.face_mm, view.outward(CAP_OUT_MM + 18.0, 12.0, -6.0))
    words = at.words
    title = words.say("inset.cap", where=words.say("inset.place", place=place), joint=words.say("joint.none"))
    body = at.parts(at.step.travels)
    return Inset(
        centre_mm=add(view.face_mm, view.outward(10.0)),
        spot_mm=view.face_mm,
        radius_mm=RADIUS_MM,
        title=title,
        actors=tuple(actors(library, [(p, new_look(p)) for p in (*body, *caps)], moved)),
        direction=view.direction,
        other_directions=view.other_directions,
        subject_ids=tuple(p.id for p in caps),
        arrows=(
            Arrow(
                start_mm=start,
                end_mm=add(start, view.outward(-CAP_OUT_MM)),
                label=label,
                kind="engage",
                along_mm=view.along(start),
            ),
        ),
    )
