"""A link let go by hand between two pieces that are up: only where its hose can shorten by the depth of engagement."""

from __future__ import annotations

from dataclasses import replace

import pytest

from model3d.order.letting_go import lets_go, letting_go
from tests.layout.every_joint import FAMILIES, every_joint_plan, family_of
from tests.steps.planned import planned


@pytest.mark.parametrize(
    ("turn_deg", "goes"), [(0.0, False), (45.0, False), (87.5, False), (90.0, True), (-45.0, False), (-90.0, True)]
)
def test_only_near_a_right_angle(turn_deg: float, goes: bool) -> None:
    """In family a the hose of 84 mm bears being 24 mm shorter only near 90 degrees, inside as outside."""
    assert letting_go(family_of("a-square"), turn_deg).goes is goes


def test_it_is_shorter_by_the_depth_of_engagement() -> None:
    """The spigot comes just out of its bore, by its whole insertion: 24 mm in family a, where the hose then bends to
    15.2 mm at a right angle, and 15 is the least.
    """
    found = letting_go(family_of("a-square"), 90.0)
    assert (found.shorter_mm, found.least_mm) == (24.0, 15.0)
    assert found.radius_mm == pytest.approx(15.2, abs=0.05)


def test_a_stiffer_hose_does_not_let_go() -> None:
    """With a least bend radius just over what the corner needs, the same link does not let go; just under, it does."""
    family = family_of("a-square")
    needed = letting_go(family, 90.0).radius_mm
    for least, goes in ((needed + 0.1, False), (needed - 0.1, True)):
        changed = family.model_copy(update={"link": family.link.model_copy(update={"least_bend_radius_mm": least})})
        assert letting_go(changed, 90.0).goes is goes


def test_outside_a_corner_the_hose_keeps_off_the_edge() -> None:
    """At an external corner the hose drawn shorter bows out, away from the walls' edge; a thicker one, as thick as the
    way to the edge is wide, would cut it. Inside a corner there is no edge.
    """
    family = family_of("a-square")
    off = letting_go(family, -90.0).off_edge_mm
    assert off is not None
    assert off > 2.0
    outer = family.link.outer_radius_mm + off + 0.5
    thick = family.model_copy(update={"link": family.link.model_copy(update={"outer_radius_mm": outer})})
    assert not letting_go(thick, -90.0).goes
    assert letting_go(family, 90.0).off_edge_mm is None


@pytest.mark.parametrize("name", FAMILIES)
def test_elbows_and_couplers_never_let_go(name: str) -> None:
    """Only links let go: no elbow, no coupler, and of the links those whose hoses bear it."""
    family, layout, _, _ = planned(every_joint_plan(1), family_of(name))
    joints = layout.runs[0].joints
    assert {j.kind for j in joints if lets_go(family, j)} == {"link"}
    for joint in (j for j in joints if j.kind != "link"):
        assert not lets_go(family, joint)
        assert lets_go(family, replace(joint, kind="link", turn_deg=90.0))
