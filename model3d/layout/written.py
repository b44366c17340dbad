"""A layout as written out: ``dryfit layout --json`` and ``layout.json``. The schema comes from these classes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from typing import Any, Literal

from model3d.findings import Finding
from model3d.layout.values import (
    BracketMark,
    BracketSpot,
    ClipFace,
    End,
    EndJoint,
    Fixing,
    Joint,
    JointKind,
    Layout,
    Piece,
    PieceOnWall,
    PieceOverFloor,
)

SCHEMA_ID = "dryfit-layout-1"
DRAFT = "https://json-schema.org/draft/2020-12/schema"


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenTerm:
    """One named term of an allowance: formula with figures, value in mm."""

    name: str
    formula: str
    value_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenEnd:
    """One end of a piece: joint, clip face, allowance in mm and its terms, working insertion of the leg in mm."""

    joint: EndJoint
    clip: ClipFace
    allowance_mm: float
    terms: tuple[WrittenTerm, ...]
    insertion_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenBracket:
    """A bracket's middle: along the wall from its first corner, from the piece's near end, and from the nearest corner,
    which is on the ``side`` as you face the wall; mm.

    Its screws stand at ``heights_mm`` above the finished floor; where the floor was read, ``below_line_mm`` below the
    level line, the highest first. ``cautions`` say where cables may run.
    """

    along_wall_mm: float
    from_near_end_mm: float
    corner: str
    side: Literal["left", "right"]
    from_corner_mm: float
    heights_mm: tuple[float, ...]
    below_line_mm: tuple[float, ...]
    packers_mm: float
    fixing: Fixing
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenPiece:
    """A piece in order; ``near_mm`` and ``far_mm`` are its cut faces along the wall from the wall's first corner.
    ``start`` is toward the valve. ``planned_length_mm`` is the length as laid out of a piece that was cut otherwise;
    ``fitted`` says that it is up.
    """

    mark: str
    run: str | None
    wall: str
    sense: Literal["with-walls", "against-walls"]
    heated: bool
    cut_length_mm: float
    growth_gap_mm: float
    near_mm: float
    far_mm: float
    start: WrittenEnd
    end: WrittenEnd
    brackets: tuple[WrittenBracket, ...]
    planned_length_mm: float | None
    fitted: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenLongLeg:
    """An elbow's long leg: working insertion, pushed home by, drawn out to, drawn by the press, mm."""

    insertion_mm: float
    push_home_by_mm: float
    draw_out_to_mm: float
    press_draws_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenJoint:
    """A joint between two pieces; ``turn_deg`` in the walls' sense, positive internal, 0 in-line."""

    mark: str
    kind: JointKind
    earlier: str
    later: str
    corner: str | None
    turn_deg: float
    reason: str
    hose_straight_mm: float | None
    long_leg: WrittenLongLeg | None


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenLayout:
    """A whole layout in millimetres and degrees, rounded to a thousandth."""

    schema: Literal["dryfit-layout-1"]
    length_unit: Literal["mm"]
    angle_unit: Literal["deg"]
    family: str
    pieces: tuple[WrittenPiece, ...]
    joints: tuple[WrittenJoint, ...]
    findings: tuple[Finding, ...]
    on_walls: tuple[PieceOnWall, ...]
    over_floor: tuple[PieceOverFloor, ...]


def written(layout: Layout) -> WrittenLayout:
    """The layout as it is written out."""
    spots = {(s.piece, s.number): s for s in layout.spots}
    return WrittenLayout(
        schema="dryfit-layout-1",
        length_unit="mm",
        angle_unit="deg",
        family=layout.family_id,
        pieces=tuple(_piece(p, spots) for p in layout.pieces),
        joints=tuple(_joint(j) for run in layout.runs for j in run.joints),
        findings=tuple(_finding(f) for f in layout.findings),
        on_walls=tuple(_on_wall(p) for p in layout.on_walls),
        over_floor=tuple(_over_floor(p) for p in layout.over_floor),
    )


def layout_data(layout: Layout) -> dict[str, Any]:
    """The same as plain data for JSON."""
    return asdict(written(layout))


def layout_schema() -> dict[str, Any]:
    """The JSON Schema of what is written, draft 2020-12."""
    from pydantic import TypeAdapter

    made = TypeAdapter(WrittenLayout).json_schema(mode="serialization")
    return {"$schema": DRAFT, "$id": f"urn:dryfit:{SCHEMA_ID}", **made}


def _round(value: float) -> float:
    return round(value, 3) + 0.0


def _finding(finding: Finding) -> Finding:
    measured, limit = (None if value is None else _round(value) for value in (finding.measured, finding.limit))
    if finding.place_mm is None:
        return replace(finding, measured=measured, limit=limit)
    x, y, z = (_round(value) for value in finding.place_mm)
    return replace(finding, measured=measured, limit=limit, place_mm=(x, y, z))


def _on_wall(piece: PieceOnWall) -> PieceOnWall:
    return replace(
        piece,
        stand_out_mm=_round(piece.stand_out_mm),
        packers_mm=tuple(_round(p) for p in piece.packers_mm),
        cradle_packers_mm=_round(piece.cradle_packers_mm),
        bend_mm=_round(piece.bend_mm),
        bend_limit_mm=_round(piece.bend_limit_mm),
    )


def _over_floor(piece: PieceOverFloor) -> PieceOverFloor:
    return replace(
        piece,
        near_gap_mm=_round(piece.near_gap_mm),
        far_gap_mm=_round(piece.far_gap_mm),
        least_gap_mm=_round(piece.least_gap_mm),
        most_gap_mm=_round(piece.most_gap_mm),
        holes_down_mm=tuple(_round(h) for h in piece.holes_down_mm),
    )


def _end(end: End) -> WrittenEnd:
    return WrittenEnd(
        joint=end.joint,
        clip=end.clip,
        allowance_mm=_round(end.allowance_mm),
        insertion_mm=_round(end.insertion_mm),
        terms=tuple(WrittenTerm(name=t.name, formula=t.formula, value_mm=_round(t.value_mm)) for t in end.terms),
    )


def _bracket(mark: BracketMark, spot: BracketSpot) -> WrittenBracket:
    return WrittenBracket(
        along_wall_mm=_round(mark.along_mm),
        from_near_end_mm=_round(mark.from_near_mm),
        corner=spot.corner,
        side=spot.side,
        from_corner_mm=_round(spot.from_corner_mm),
        heights_mm=spot.heights_mm,
        below_line_mm=tuple(_round(b) for b in spot.below_line_mm),
        packers_mm=_round(spot.packers_mm),
        fixing=spot.fixing,
        cautions=spot.cautions,
    )


def _piece(piece: Piece, spots: Mapping[tuple[str, int], BracketSpot]) -> WrittenPiece:
    return WrittenPiece(
        mark=piece.mark,
        run=piece.run,
        wall=piece.wall.id,
        sense="with-walls" if piece.sense > 0 else "against-walls",
        heated=piece.heated,
        cut_length_mm=_round(piece.cut_length_mm),
        growth_gap_mm=_round(piece.growth_gap_mm),
        near_mm=_round(piece.near_mm),
        far_mm=_round(piece.far_mm),
        start=_end(piece.start),
        end=_end(piece.end),
        brackets=tuple(_bracket(b, spots[piece.mark, n]) for n, b in enumerate(piece.brackets, 1)),
        planned_length_mm=None if piece.planned_mm is None else _round(piece.planned_mm),
        fitted=piece.fitted,
    )


def _joint(joint: Joint) -> WrittenJoint:
    elbow = joint.elbow
    return WrittenJoint(
        mark=joint.mark,
        kind=joint.kind,
        earlier=joint.earlier,
        later=joint.later,
        turn_deg=_round(joint.turn_deg),
        corner=joint.corner.id if joint.corner else None,
        reason=joint.reason,
        hose_straight_mm=_round(joint.straight_mm) if joint.kind == "link" else None,
        long_leg=None
        if elbow is None
        else WrittenLongLeg(
            insertion_mm=_round(elbow.insertion_mm),
            push_home_by_mm=_round(elbow.push_home_mm),
            draw_out_to_mm=_round(elbow.draw_out_to_mm),
            press_draws_mm=_round(elbow.press_draws_mm),
        ),
    )
