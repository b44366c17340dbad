"""What a survey leaves open in a layout: corners whose angle is not known well enough for their joint."""

from __future__ import annotations

from model3d.families.family import Family
from model3d.findings import Finding
from model3d.layout.corners import RIGHT_ANGLE_DEG
from model3d.rooms import CheckedPlan
from model3d.survey import survey_findings

STANDARD_ERRORS = 2.0  # the true turn lies within them in 95 surveys of 100


def findings_of_survey(plan: CheckedPlan, family: Family) -> tuple[Finding, ...]:
    """The survey's own findings, and each internal corner of a run whose turn may lie on either side of the elbow's
    play.
    """
    if plan.survey is None:
        return ()
    return (*survey_findings(plan.survey), *_unsure_corners(plan, family))


def _unsure_corners(plan: CheckedPlan, family: Family) -> tuple[Finding, ...]:
    if family.elbow is None or family.corner_joints.internal != "elbow" or plan.survey is None:
        return ()
    found = []
    surveyed = dict(zip((c.id for c in plan.room.outer.corners), plan.survey.corners, strict=True))
    for run in plan.runs:
        for passed in run.corners:
            known = surveyed.get(passed.corner.id)
            if known is None or known.turn_deg <= 0 or passed.use is not None:
                continue
            off, unsure = abs(known.turn_deg - RIGHT_ANGLE_DEG), STANDARD_ERRORS * known.turn_sigma_deg
            if off - unsure < family.elbow.play_deg < off + unsure:
                found.append(
                    Finding(
                        code="elbow-unsure",
                        severity="warning",
                        where=f"corner {passed.corner.id}",
                        message=f"the survey gives a turn of {known.turn_deg:.2f} +- {unsure:.2f} degrees, so an elbow "
                        f"(play {family.elbow.play_deg:g}) may or may not do",
                        remedy="Measure the angle of this corner, or ask for a link.",
                        parts=(passed.corner.id,),
                        measured=off,
                        limit=family.elbow.play_deg,
                        unit="deg",
                        place_mm=(*passed.corner.at_mm, 0.0),
                    )
                )
    return tuple(found)
