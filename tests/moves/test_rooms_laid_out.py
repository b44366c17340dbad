"""What the rules lay out passes its own moves."""

from __future__ import annotations

from dataclasses import replace

import pytest

from model3d.layout import lay_out
from model3d.moves import check_moves
from model3d.scene import compose
from model3d.steps import plan_steps
from tests.layout.every_joint import FAMILIES, EndFitting, every_joint_plan, family_of
from tests.moves.rooms import three_walls

DRY_SHORT_MM = 100.0  # the dry piece ends this much before the corner where the run begins or ends


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("sense", [1, pytest.param(-1, marks=pytest.mark.slow)])
def test_three_walls(family: str, sense: int) -> None:
    """A run over three walls goes up in every family, with the walls and against them: no finding, every step free,
    and its least clearance told with the leg and the two that come near.
    """
    room = three_walls(family, sense)
    verdicts, findings = check_moves(room.layout, room.scene, room.steps, room.family, shapes=room.shapes)
    assert findings == ()
    assert all(v.free for v in verdicts)
    told = [v for v in verdicts if v.clearance is not None]
    for verdict in told:
        assert verdict.clearance is not None
        assert 0.0 < verdict.clearance.distance_mm < 20.0
        assert verdict.clearance_leg in {
            "offer",
            "raise",
            "slide",
            "engage",
            "press",
            "push-home",
            "draw-out",
            "insert",
        }
    if room.family.elbow is not None:
        assert any(v.clearance is not None and v.clearance.mover.startswith("r-J2/") for v in told)


@pytest.mark.slow
@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize(("sense", "end_fitting"), [(1, "return"), (-1, "turn-back"), (1, "turn-back"), (-1, "return")])
def test_every_joint(family: str, sense: int, end_fitting: EndFitting) -> None:
    """So does a run that meets every joint of its family, with either end fitting."""
    plan = every_joint_plan(sense, end_fitting)
    plan = replace(plan, dry_pieces=tuple(replace(d, to_mm=d.to_mm - DRY_SHORT_MM) for d in plan.dry_pieces))
    layout = lay_out(plan, family_of(family))
    scene = compose(plan.room, layout, family_of(family))
    steps = plan_steps(layout, scene, family_of(family))
    verdicts, findings = check_moves(layout, scene, steps, family_of(family))
    assert findings == ()
    assert all(v.free for v in verdicts)
