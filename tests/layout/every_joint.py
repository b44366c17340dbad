"""A room in which one run meets every kind of joint that a family offers, and a dry piece stands beside it."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

from model3d.families.family import Family
from model3d.rooms import CheckedPlan, DryPlan
from model3d.sources import read_typed
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over

PROFILES = Path(__file__).parents[2] / "profiles"
FAMILIES = ("a-square", "b-moulded", "c-low")
# Internal right angles at c1, c2, c3 and c5, an external one at c4, a bay of two 135 degree corners at c6 and c7.
ROOM = [(0.0, 0.0), (5000.0, 0.0), (5000.0, 2500.0), (3000.0, 2500.0), (3000.0, 5000.0), (800.0, 5000.0), (0.0, 4200.0)]
EndFitting = Literal["return", "turn-back"]


def family_of(name: str) -> Family:
    """A reference family, as its file says it."""
    return read_typed(PROFILES / f"{name}.yaml", Family)


def every_joint_plan(sense: int, end_fitting: EndFitting = "return") -> CheckedPlan:
    """A run over all seven walls, valve on w1 (with the walls) or w7 (against them), with an in-line link on w1
    and a coupler on w3.

    The run leaves 300 mm of w7 free at c1; a dry piece stands there.
    """
    ring = ring_of(ROOM)
    joints = {"w1": [(2600.0, "link")], "w3": [(1100.0, "coupler")]}
    free_mm = ring.walls[6].length_mm - 300.0
    run = run_over(
        ring,
        1 if sense > 0 else 7,
        7,
        sense=sense,
        end_fitting=end_fitting,
        joints=joints,
        start_at=None if sense > 0 else free_mm,
        end_at=free_mm if sense > 0 else None,
    )
    dry = DryPlan(id="D1", wall=ring.walls[6], from_mm=free_mm + 20.0, to_mm=ring.walls[6].length_mm - 20.0)
    return plan_of(ring, run, dry=(dry,))
