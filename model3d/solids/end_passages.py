"""The water passages inside an end fitting: what is bored from its block and legs."""

from __future__ import annotations

import cadquery as cq

from model3d.parts.ends import EndBlockSpec
from model3d.solids.end_block import beyond, into_piece
from model3d.solids.outlines import across_at, obround_outline
from model3d.solids.placing import located
from model3d.solids.simple_bodies import block, prism
from model3d.solids.sound import SolidError

_PAST_MM = 1.0  # how far a cutter starts outside what it cuts


def passage(spec: EndBlockSpec, height_of: int, end_mm: float) -> cq.Solid:
    """What the water passage of one leg takes: from outside its tip to ``end_mm`` beyond the cut face."""
    length = spec.insertion_mm + end_mm + _PAST_MM
    straight = prism(obround_outline(spec.leg.passage), across_at(0.0), length)
    return located(straight, into_piece(spec, end_mm, height_of))


def chamber(spec: EndBlockSpec, end_mm: float) -> cq.Solid:
    """What joins the passages inside the block: an upright duct between their centres, a little narrower."""
    (u0, v0), (u1, v1) = spec.bore_centres
    half = 0.45 * spec.leg.passage.width_mm
    near = end_mm - spec.leg.passage.width_mm
    return block(
        (beyond(spec, near), min(u0, u1) - half, v0),
        (beyond(spec, end_mm - (spec.leg.passage.width_mm / 2.0 - half)), max(u0, u1) + half, v1),
    )


def passage_end_mm(spec: EndBlockSpec) -> float:
    """Where the joined passages end: one leg's width short of the block's far face."""
    return spec.block_end_mm - spec.leg.outside.width_mm


def joined_passages(spec: EndBlockSpec) -> list[cq.Solid]:
    """Both passages and the chamber between them. Raises SolidError when the block is too thin."""
    end = passage_end_mm(spec)
    if end - spec.leg.passage.width_mm <= spec.face_gap_mm:
        raise SolidError(
            f"a block to {spec.block_end_mm:g} mm is too thin "
            f"for a chamber behind its {spec.face_gap_mm:g} mm gap"
        )
    return [passage(spec, 0, end), passage(spec, 1, end), chamber(spec, end)]
