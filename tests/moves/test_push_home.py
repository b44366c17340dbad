"""Why elbows are pushed home: without it the far wall stops the piece, first at the offer."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from model3d.moves.check import piece_verdict
from model3d.moves.elbows import far_elbow_slide, outside
from model3d.moves.trying import first_stop
from model3d.moves.ways import Site, piece_ways
from model3d.steps.moves import approaches
from tests.moves.rooms import ELBOW_FAMILIES, three_walls


def not_pushed_home(site: Site) -> Site:
    """The same step with the far elbows left in their working position."""
    return replace(site, step=replace(site.step, pushed_home=()))


@pytest.mark.parametrize("family", ELBOW_FAMILIES)
@pytest.mark.parametrize("sense", [1, pytest.param(-1, marks=pytest.mark.slow)])
def test_without_the_push_home_the_far_wall_blocks_the_offer(family: str, sense: int) -> None:
    """Between two internal corners a piece whose far elbows are not pushed home runs into the far wall with them, on
    the offer, whichever way it comes; pushed home it goes.
    """
    site = three_walls(family, sense).site("r-2")
    far_wall = site.find(f"room/{site.pieces['r-3'].wall.id}")
    assert piece_verdict(site).free
    for approach in approaches(site.family, site.group):
        stop = first_stop(not_pushed_home(site), piece_ways(not_pushed_home(site), approach))
        assert stop is not None
        assert (stop.leg, site.find(stop.mover).joint) == ("offer", "r-J2")
        if approach.name == "slanted":  # the others meet the next wall's first bracket before
            assert stop.standing == far_wall.id
        ways = piece_ways(not_pushed_home(site), approach)[1:]
        later = [first_stop(not_pushed_home(site), [way]) for way in ways]
        assert [s.standing if s is not None else None for s in later[:2]] == [far_wall.id] * 2  # raised, slid


@pytest.mark.parametrize("family", ELBOW_FAMILIES)
def test_elbows_pose_by_pose(family: str) -> None:
    """The long legs' insertion in every pose: working; deeper by the push-home; drawn out until the press is left;
    all inside the window, which a push-home of a millimetre past it leaves.
    """
    site = three_walls(family).site("r-2")
    joint, step = site.far, site.step
    assert joint is not None
    assert joint.elbow is not None
    slide = far_elbow_slide(site.family, joint, site.group[-1], step)
    working = joint.elbow.insertion_mm
    assert dict(slide.poses) == {
        "working": pytest.approx(working),
        "pushed home": pytest.approx(working + joint.elbow.push_home_mm),
        "drawn out": pytest.approx(working + site.family.bracket.press_mm),
    }
    assert list(outside(slide)) == []
    past = slide.most_mm - dict(slide.poses)["pushed home"] + 1.0
    shifts = [
        replace(s, by_mm=tuple(v * (1.0 + past / joint.elbow.push_home_mm) for v in s.by_mm))  # type: ignore[arg-type]
        for s in step.pushed_home
    ]
    further = far_elbow_slide(site.family, joint, site.group[-1], replace(step, pushed_home=tuple(shifts)))
    assert [name for name, _ in outside(further)] == ["pushed home"]
    assert all(a != b for (_, a), (_, b) in pairwise(slide.poses))
