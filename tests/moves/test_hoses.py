"""Hoses while a piece moves: how far apart their ends stand, how tightly they bend, in every pose."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from model3d.moves import MoveVerdict
from model3d.moves.check import piece_verdict
from model3d.moves.findings import step_findings
from model3d.moves.hoses import by_hand_hose_poses, most_apart_mm, near_hose_poses, worst
from model3d.moves.ways import Site
from tests.moves.rooms import three_walls


def link_site() -> Site:
    """A piece after a link at an internal right angle, in the family without elbows."""
    return three_walls("c-low").site("r-2")


def test_ends_apart_by_hand() -> None:
    """At rest the ends stand as far apart as straight, arc, straight put them; while they are engaged and pressed the
    later one is half and all of the press distance out.
    """
    site = link_site()
    link, bracket, joint = site.family.link, site.family.bracket, site.near
    assert joint is not None
    assert joint.turn_deg == pytest.approx(90.0)
    side = link.arc_radius_mm + joint.straight_mm
    poses = near_hose_poses(site.family, joint, site.pieces, site.step.legs)
    assert [p.leg for p in poses] == ["engage"] + ["press"] * 6
    assert poses[0].at_mm == (0.0, bracket.press_mm, 0.0)  # it is raised before, in this family
    assert poses[0].apart_mm == pytest.approx(math.hypot(side - bracket.press_mm, side), abs=1e-6)
    assert poses[3].apart_mm == pytest.approx(math.hypot(side - bracket.press_mm / 2.0, side), abs=1e-6)
    assert poses[-1].apart_mm == pytest.approx(math.hypot(side, side), abs=1e-6)


def test_a_hose_pushed_in_by_hand() -> None:
    """A piece put up when the one beyond its far link is there already: the hose's later spigot begins just out of its
    bore, the whole insertion nearer along it, and ends at rest; the verdict tells these poses.
    """
    room = three_walls("c-low")
    site, family = room.site("r-1"), room.family
    assert site.far is not None
    poses = by_hand_hose_poses(family, site.far, site.pieces)
    side = family.link.arc_radius_mm + site.far.straight_mm
    assert {p.leg for p in poses} == {"insert"}
    assert poses[0].apart_mm == pytest.approx(math.hypot(side, side - family.link.insertion_mm), abs=1e-6)
    assert poses[-1].apart_mm == pytest.approx(math.hypot(side, side), abs=1e-6)
    later = [p for p in room.scene.parts if p.piece == "r-2"]
    assert piece_verdict(replace(site, standing=(*site.standing, *later))).hoses == tuple(poses)
    assert piece_verdict(site).hoses == ()


@pytest.mark.parametrize(("out_mm", "says"), [(-30.0, "mm apart"), (25.0, "it bends to")])
def test_a_hose_that_does_not_bear_its_way_is_told(out_mm: float, says: str) -> None:
    """Laid out by the rules the hose keeps its limits in every pose; where the next piece's face stands 30 mm too far
    its ends are torn apart, 25 mm too near it bends under its least radius: either is an error with the figure.
    """
    site = link_site()
    joint, family = site.near, site.family
    assert joint is not None
    as_laid_out = near_hose_poses(family, joint, site.pieces, site.step.legs)
    assert worst(family, as_laid_out) is None
    assert all(p.radius_mm >= family.link.least_bend_radius_mm for p in as_laid_out)
    moved = {**site.pieces, joint.later: replace(site.pieces[joint.later], near_out_mm=out_mm)}
    bad = worst(family, near_hose_poses(family, joint, moved, site.step.legs))
    assert bad is not None
    assert (bad.apart_mm > most_apart_mm(family)) == (out_mm < 0.0)
    site = replace(site, pieces=moved)
    (found,) = step_findings([site], site, MoveVerdict(step=3, tried=(), hoses=(bad,)))
    assert (found.code, found.severity) == ("hose-in-move", "error")
    assert says in found.message
