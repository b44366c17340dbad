"""The whole layout of a plan: arithmetic only."""

from __future__ import annotations

from model3d.families.family import Family
from model3d.findings import Finding
from model3d.layout.allowances import Situation, allowance_terms
from model3d.layout.brackets import bracket_offsets_mm
from model3d.layout.run import end_of, lay_run
from model3d.layout.surveyed import findings_of_survey
from model3d.layout.values import BracketMark, Layout, Piece
from model3d.rooms import CheckedPlan, DryPlan


def lay_out(plan: CheckedPlan, family: Family) -> Layout:
    """Pieces, joints, clip faces and brackets of every run, and the dry pieces. The plan has no faults."""
    runs = []
    findings: list[Finding] = list(findings_of_survey(plan, family))
    for run in plan.runs:
        laid, found = lay_run(family, plan, run)
        runs.append(laid)
        findings += found
    dry = tuple(_dry_piece(family, d) for d in plan.dry_pieces)
    return Layout(family_id=family.id, runs=tuple(runs), dry_pieces=dry, findings=tuple(findings))


def _dry_piece(family: Family, dry: DryPlan) -> Piece:
    """A dry piece between its two end caps, cut short by its own growth in a warm room."""
    terms = allowance_terms(family, "none", Situation())
    cap = sum(t.value_mm for t in terms)
    room = dry.to_mm - dry.from_mm - 2 * cap
    growth = room * (1 - 1 / (1 + family.material.expansion_per_k * family.dry_temperature_rise_k))
    near, far = dry.from_mm + cap, dry.to_mm - cap - growth
    return Piece(
        mark=dry.id, run=None, index=1, wall=dry.wall, sense=1, near_mm=near, far_mm=far, cut_length_mm=far - near,
        growth_gap_mm=growth, start=end_of(family, "none", terms), end=end_of(family, "none", terms),
        brackets=tuple(
            BracketMark(along_mm=near + o, from_near_mm=o)
            for o in bracket_offsets_mm(family, far - near, "none", "none")
        ),
    )
