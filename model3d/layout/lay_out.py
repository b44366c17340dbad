"""The whole layout of a plan: arithmetic only."""

from __future__ import annotations

from dataclasses import replace

from model3d.families.family import Family
from model3d.findings import Finding
from model3d.layout.allowances import Situation, allowance_terms
from model3d.layout.bowed import bow_findings, dry_on_wall, lay_run_on_walls
from model3d.layout.bracket_spots import bracket_spots, cable_cautions
from model3d.layout.brackets import bracket_offsets_mm
from model3d.layout.over_floor import floor_findings, pieces_over_floor
from model3d.layout.run import end_of
from model3d.layout.settling import settled_pieces
from model3d.layout.surveyed import findings_of_survey
from model3d.layout.values import BracketMark, Layout, Piece, PieceOnWall, RunLayout
from model3d.rooms import CheckedPlan, DryPlan


def lay_out(plan: CheckedPlan, family: Family) -> Layout:
    """Pieces, joints, clip faces and brackets of every run, and the dry pieces. The plan has no faults."""
    runs: list[RunLayout] = []
    on_walls: list[PieceOnWall] = []
    findings: list[Finding] = list(findings_of_survey(plan, family))
    for run in plan.runs:
        laid, found, held = lay_run_on_walls(family, plan, run)
        runs.append(laid)
        findings += found
        on_walls += held
    dry = []
    settled, found = settled_pieces(plan, family, [_dry_piece(family, d) for d in plan.dry_pieces])
    findings += found
    for settled_piece in settled:
        piece, held = dry_on_wall(family, plan, settled_piece)
        dry.append(piece)
        on_walls += held
    findings += bow_findings(plan, on_walls)
    layout = Layout(family_id=family.id, runs=tuple(runs), dry_pieces=tuple(dry), findings=(), on_walls=tuple(on_walls))
    over = pieces_over_floor(plan, family, layout)
    findings += floor_findings(plan, family, layout, over)
    layout = replace(layout, over_floor=over)
    layout = replace(layout, spots=bracket_spots(plan, layout, family))
    return replace(layout, findings=(*findings, *cable_cautions(layout, corners=False)))


def _dry_piece(family: Family, dry: DryPlan) -> Piece:
    """A dry piece between its two end caps, cut short by its own growth in a warm room."""
    terms = allowance_terms(family, "none", Situation())
    cap = sum(t.value_mm for t in terms)
    room = dry.to_mm - dry.from_mm - 2 * cap
    growth = room * (1 - 1 / (1 + family.material.expansion_per_k * family.dry_temperature_rise_k))
    near, far = dry.from_mm + cap, dry.to_mm - cap - growth
    return Piece(
        mark=dry.id,
        run=None,
        index=1,
        wall=dry.wall,
        sense=1,
        near_mm=near,
        far_mm=far,
        cut_length_mm=far - near,
        growth_gap_mm=growth,
        start=end_of(family, "none", terms),
        end=end_of(family, "none", terms),
        brackets=tuple(
            BracketMark(along_mm=near + o, from_near_mm=o)
            for o in bracket_offsets_mm(family, far - near, "none", "none")
        ),
    )
