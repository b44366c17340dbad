"""What goes on last: trims over joints, end caps over free ends."""

from __future__ import annotations

import math
from collections.abc import Iterator

from model3d.families import specs
from model3d.families.family import Family
from model3d.layout import Joint, Layout, Piece, RunLayout
from model3d.layout.standing_out import STAND_OUT
from model3d.rooms import Room, Wall
from model3d.scene.frames import EndName, face_mm, in_wall, into
from model3d.scene.values import Part


def cover_parts(family: Family, room: Room, layout: Layout) -> Iterator[Part]:
    """Trims of every joint but couplers, caps over return and turn-back ends and both ends of dry pieces."""
    for run in layout.runs:
        for joint in run.joints:
            if joint.kind != "coupler":
                yield _trim(family, room, run, joint)
        length = family.turn_back_end.length_mm if run.turns_back else family.return_end.length_mm
        yield _cap(family, run.pieces[-1], "end", length)
    for dry in layout.dry_pieces:
        yield _cap(family, dry, "start", family.end_cap.plate_mm)
        yield _cap(family, dry, "end", family.end_cap.plate_mm)


def slant_mm(family: Family, turn_deg: float) -> float:
    """How far from an internal corner a link's trim puts a slanted panel, so that it clears the hose; 0 where a plain
    mitre does.

    The hose bends about a centre R + e out from both walls, so what lies within R less its radius and the clearance
    of that centre is clear of it. Each mitre of the trim's inner face, u out from its wall, must: along the wall it
    stands no nearer the corner than (R + e) tan(tau/2) - sqrt((R - r - clearance)^2 - (R + e - u)^2).
    """
    link, inner, half = family.link, family.section.front_u_mm, math.radians(turn_deg) / 2.0
    centre = link.arc_radius_mm + family.section.bore_u_mm
    free = link.arc_radius_mm - link.outer_radius_mm - family.trim.clearance_mm
    along = centre * math.tan(half) - math.sqrt(max(free**2 - (centre - inner) ** 2, 0.0))
    if along <= inner * math.tan(half):
        return 0.0
    return along * math.sin(half) + inner * math.cos(half) - inner


def _trim(family: Family, room: Room, run: RunLayout, joint: Joint) -> Part:
    earlier = next(p for p in run.pieces if p.mark == joint.earlier)
    allowance = sum(t.value_mm for t in earlier.end.terms if t.name != STAND_OUT)
    leg = allowance + family.trim.overlap_mm
    slant = slant_mm(family, joint.turn_deg) if joint.kind == "link" and joint.turn_deg > 0 else 0.0
    if joint.corner is None:
        wall, along = joint.wall, joint.middle_mm
    elif any(t.name == STAND_OUT for t in earlier.end.terms):
        wall, along = _lines_meet(run, joint, earlier, allowance)
    else:
        wall = _wall_before(room, joint.corner.id, joint.wall.ring)
        along = wall.length_mm
    spec = specs.trim_spec(family, turn_deg=round(joint.turn_deg, 6), leg_mm=round(leg, 6), slant_mm=round(slant, 6))
    kind = "internal" if joint.turn_deg > 0 else "external" if joint.turn_deg < 0 else "in-line"
    return Part(
        id=f"{joint.mark}/trim", name=f"Trim, {kind}, {joint.mark}", role="trim", spec=spec,
        placement=in_wall(wall, along, 0.0, 0.0), run=run.id, wall=wall.id, piece=joint.earlier, joint=joint.mark,
    )


def _lines_meet(run: RunLayout, joint: Joint, earlier: Piece, allowance_mm: float) -> tuple[Wall, float]:
    """Where the lines of two pieces meet that stand out from their walls: the piece on the wall that ends at the
    corner is cut the plain allowance short of it.
    """
    before = earlier if run.sense > 0 else next(p for p in run.pieces if p.mark == joint.later)
    out = before.far_out_mm if run.sense > 0 else before.near_out_mm
    return before.wall, before.high_mm - out + allowance_mm


def _wall_before(room: Room, corner_id: str, ring_id: str) -> Wall:
    return next(w for w in room.ring(ring_id).walls if w.last_corner.id == corner_id)


def _cap(family: Family, piece: Piece, end: EndName, length_mm: float) -> Part:
    return Part(
        id=f"{piece.mark}/end-cap-{end}",
        name=f"End cap, {piece.mark}",
        role="end-cap",
        spec=specs.end_cap_spec(family, hand=into(piece, end), length_mm=length_mm),
        placement=in_wall(piece.wall, face_mm(piece, end), 0.0, 0.0),
        run=piece.run,
        wall=piece.wall.id,
        piece=piece.mark,
        end=end,
    )
