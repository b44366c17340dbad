"""A layout as plain data for ``--json`` and ``layout.json``."""

from __future__ import annotations

from typing import Any

from model3d.layout.values import End, Joint, Layout, Piece

SCHEMA_ID = "dryfit-layout-1"


def layout_data(layout: Layout) -> dict[str, Any]:
    """The layout as lists and numbers: mm and degrees, rounded to a thousandth."""
    return {
        "schema": SCHEMA_ID,
        "units": {"length": "mm", "angle": "deg"},
        "family": layout.family_id,
        "pieces": [_piece(p) for p in layout.pieces],
        "joints": [_joint(j) for run in layout.runs for j in run.joints],
    }


def _round(value: float) -> float:
    return round(value, 3) + 0.0


def _end(end: End) -> dict[str, Any]:
    return {
        "joint": end.joint,
        "clip": end.clip,
        "allowance_mm": _round(end.allowance_mm),
        "terms": [{"name": t.name, "formula": t.formula, "value_mm": _round(t.value_mm)} for t in end.terms],
        "insertion_mm": _round(end.insertion_mm),
    }


def _piece(piece: Piece) -> dict[str, Any]:
    return {
        "mark": piece.mark,
        "run": piece.run,
        "wall": piece.wall.id,
        "sense": "with-walls" if piece.sense > 0 else "against-walls",
        "heated": piece.heated,
        "cut_length_mm": _round(piece.cut_length_mm),
        "growth_gap_mm": _round(piece.growth_gap_mm),
        "near_mm": _round(piece.near_mm),
        "far_mm": _round(piece.far_mm),
        "start": _end(piece.start),
        "end": _end(piece.end),
        "brackets": [
            {"along_wall_mm": _round(b.along_mm), "from_near_end_mm": _round(b.from_near_mm)} for b in piece.brackets
        ],
    }


def _joint(joint: Joint) -> dict[str, Any]:
    data: dict[str, Any] = {
        "mark": joint.mark, "kind": joint.kind, "earlier": joint.earlier, "later": joint.later,
        "corner": joint.corner.id if joint.corner else None, "turn_deg": _round(joint.turn_deg), "reason": joint.reason,
    }
    if joint.kind == "link":
        data["hose_straight_mm"] = _round(joint.straight_mm)
    if joint.elbow is not None:
        data["long_leg"] = {
            "insertion_mm": _round(joint.elbow.insertion_mm),
            "push_home_by_mm": _round(joint.elbow.push_home_mm),
            "draw_out_to_mm": _round(joint.elbow.draw_out_to_mm),
            "press_draws_mm": _round(joint.elbow.press_draws_mm),
        }
    return data
