"""Corner sheets of a run that meets every joint, in each reference family."""

from __future__ import annotations

from functools import cache

from model3d.layout import lay_out
from model3d.pictures.corners.staging import corner_sheet
from model3d.pictures.corners.values import CornerSheet
from model3d.scene import compose
from model3d.thermal import thermal_report
from model3d.wording import ENGLISH, Catalogue
from tests.layout.every_joint import every_joint_plan, family_of
from tests.pictures.bench.benches import library


@cache
def sheets(family_name: str, sense: int = 1) -> tuple[CornerSheet, ...]:
    """The sheet of every corner of the run."""
    return sheets_in(ENGLISH, family_name, sense)


def sheets_in(words: Catalogue, family_name: str, sense: int = 1) -> tuple[CornerSheet, ...]:
    """The same in the words of a catalogue."""
    family, plan = family_of(family_name), every_joint_plan(sense)
    layout = lay_out(plan, family)
    scene = compose(plan.room, layout, family)
    thermal = thermal_report(plan, layout, family)
    joints = [j for run in layout.runs for j in run.joints if j.corner is not None]
    return tuple(corner_sheet(family, layout, scene, j, thermal, library(), words) for j in joints)
