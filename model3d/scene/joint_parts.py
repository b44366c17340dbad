"""The parts of a joint: elbows, links or couplers, their bridges and O-rings."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from model3d.families import specs
from model3d.families.family import Family
from model3d.layout import Joint, Piece
from model3d.scene.frames import along_run, bore_heights_mm, facing_room, in_wall, turned_over, upright
from model3d.scene.piece_parts import WATERWAYS, orings
from model3d.scene.values import Part

EndPair = tuple[Piece, Piece]


def joint_parts(family: Family, joint: Joint, earlier: Piece, later: Piece) -> Iterator[Part]:
    """Every part between two pieces; all of them are fitted with the earlier one."""
    kinds = {"elbow": _elbow_parts, "link": _link_parts, "coupler": _coupler_parts}
    yield from kinds[joint.kind](family, joint, earlier, later)


def _side(family: Family, fitting: Literal["elbow", "link", "coupler"]) -> int:
    return 1 if family.nib_faces[fitting] == "front" else -1


def _elbow_parts(family: Family, joint: Joint, earlier: Piece, later: Piece) -> Iterator[Part]:
    elbow = family.elbow
    if elbow is None:
        raise ValueError(f"family {family.id} has no elbow for joint {joint.mark}")
    spec = specs.elbow_spec(family, round(joint.turn_deg, 6))
    for waterway, height in zip(WATERWAYS, bore_heights_mm(family), strict=True):
        yield Part(
            id=f"{joint.mark}/elbow-{waterway}",
            name=f"Elbow, {waterway}, {joint.mark}",
            role="elbow",
            spec=spec,
            placement=along_run(family, earlier, "end", height, elbow.stub_mm - earlier.far_out_mm, up=False),
            run=earlier.run,
            wall=earlier.wall.id,
            piece=earlier.mark,
            joint=joint.mark,
        )
    yield Part(
        id=f"{joint.mark}/bridge", name=f"Bridge, {joint.mark}", role="bridge", spec=specs.bridge_spec(family),
        placement=turned_over(family, later, "start", _side(family, "elbow")), run=earlier.run, wall=later.wall.id,
        piece=earlier.mark, joint=joint.mark,
    )
    owner = f"{joint.mark}/elbow"
    yield from orings(family, earlier, "end", earlier.end.insertion_mm, owner, piece=earlier.mark, joint=joint.mark)
    yield from orings(family, later, "start", later.start.insertion_mm, owner, piece=earlier.mark, joint=joint.mark)


def _link_parts(family: Family, joint: Joint, earlier: Piece, later: Piece) -> Iterator[Part]:
    stub = family.link.stub_mm
    owner = f"{joint.mark}/link"
    spigot = specs.spigot_spec(family)
    hose = specs.hose_spec(family, round(joint.run_turn_deg, 6), round(joint.straight_mm, 6))
    turned = facing_room if family.link.screw_access == "front" else upright  # the screw stands along the spigot's z
    for waterway, height in zip(WATERWAYS, bore_heights_mm(family), strict=True):
        for piece, end in ((earlier, "end"), (later, "start")):
            yield Part(
                id=f"{owner}-spigot-{end}-{waterway}",
                name=f"Link spigot, {waterway}, {joint.mark}",
                role="spigot",
                spec=spigot,
                placement=turned(family, piece, "end" if end == "end" else "start", height),
                run=earlier.run,
                wall=piece.wall.id,
                piece=earlier.mark,
                joint=joint.mark,
            )
        yield Part(
            id=f"{owner}-hose-{waterway}", name=f"Link hose, {waterway}, {joint.mark}", role="hose", spec=hose,
            placement=along_run(family, earlier, "end", height, stub, up=True), run=earlier.run, wall=earlier.wall.id,
            piece=earlier.mark, joint=joint.mark,
        )
    for piece, end in ((earlier, "end"), (later, "start")):
        yield Part(
            id=f"{owner}-bridge-{end}", name=f"Bridge, {joint.mark}", role="bridge", spec=specs.bridge_spec(family),
            placement=turned_over(family, piece, "end" if end == "end" else "start", _side(family, "link")),
            run=earlier.run, wall=piece.wall.id, piece=earlier.mark, joint=joint.mark,
        )
    yield from orings(family, earlier, "end", earlier.end.insertion_mm, owner, piece=earlier.mark, joint=joint.mark)
    yield from orings(family, later, "start", later.start.insertion_mm, owner, piece=earlier.mark, joint=joint.mark)


def _coupler_parts(family: Family, joint: Joint, earlier: Piece, later: Piece) -> Iterator[Part]:
    owner = f"{joint.mark}/coupler"
    section, side = family.section, _side(family, "coupler")
    spec = specs.coupler_spec(family)
    for waterway, height in zip(WATERWAYS, bore_heights_mm(family), strict=True):
        yield Part(
            id=f"{owner}-{waterway}", name=f"Coupler, {waterway}, {joint.mark}", role="coupler", spec=spec,
            placement=in_wall(joint.wall, joint.middle_mm, section.bore_u_mm, height), run=earlier.run,
            wall=joint.wall.id, piece=earlier.mark, joint=joint.mark,
        )
    yield Part(
        id=f"{owner}-bridge", name=f"Bridge, {joint.mark}", role="bridge", spec=specs.coupler_bridge_spec(family),
        placement=in_wall(joint.wall, joint.middle_mm, section.bore_u_mm, section.middle_v_mm, signs=(1, side, side)),
        run=earlier.run, wall=joint.wall.id, piece=earlier.mark, joint=joint.mark,
    )
    yield from orings(family, earlier, "end", earlier.end.insertion_mm, owner, piece=earlier.mark, joint=joint.mark)
    yield from orings(family, later, "start", later.start.insertion_mm, owner, piece=earlier.mark, joint=joint.mark)
