"""Approaches: each one that a family lists gets through where no other does."""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from model3d.moves.check import piece_verdict
from model3d.moves.trying import first_stop
from model3d.moves.ways import Site, piece_ways
from model3d.scene import Part
from model3d.steps import Approach
from model3d.steps.moves import approaches
from tests.layout.every_joint import FAMILIES
from tests.moves.rooms import ELBOW_FAMILIES, Fitting, lying_rod, rod, three_walls

OUT_MM = 250.0  # how far out every family's straight approach sets out
SLANT_OUT_MM = 142.0  # how far out a slanted one does
SAID = {"straight": "straight", "slanted": "slant", "above": "above", "along": "along", "swing": "swing"}


@dataclass(frozen=True)
class Case:
    """A piece of a small room, and the one approach that is to be free."""

    family: str
    mark: str
    name: str

    def fitting(self) -> Fitting:
        """The room; against the walls' sense in the second family."""
        return three_walls(self.family, -1 if self.family == "b-moulded" else 1)


def listed(family: str, mark: str) -> tuple[Approach, ...]:
    """The approaches of a family for a piece of the small room."""
    site = three_walls(family).site(mark)
    return approaches(site.family, site.group)


def cases() -> list[Case]:
    """Every approach of every family: on the last piece, and in families with elbows on the first, which carries some
    at its far end.
    """
    pieces = [(name, "r-3") for name in FAMILIES] + [(name, "r-1") for name in ELBOW_FAMILIES]
    return [Case(family, mark, a.name) for family, mark in pieces for a in listed(family, mark)]


def blocker(site: Site, approach: Approach) -> Part:
    """A rod in the way of one approach, out of the way of the others."""
    piece, family = site.group[0], site.family
    front = family.section.front_u_mm + family.bracket.press_mm
    top = family.section.floor_gap_mm + family.section.height_mm
    offered = site.step.legs[0].to_mm[0]
    built_on = piece.start.allowance_mm if piece.start.joint == "valve" else 0.0
    beyond = piece.end.allowance_mm + offered + 30.0
    if approach.name == "straight":
        return rod(piece, 50.0, front + (OUT_MM + SLANT_OUT_MM) / 2.0, name="straight")
    if approach.name == "slanted":
        return rod(piece, offered - built_on - 6.0, 145.0, name="slanted")
    if approach.name == "above":
        return lying_rod(piece, piece.cut_length_mm / 2.0, 5.0, top + 30.0, 60.0)
    if approach.name == "along":
        return rod(piece, piece.cut_length_mm + beyond, family.section.bore_u_mm, name="along")
    return rod(piece, piece.cut_length_mm - 40.0, front + OUT_MM + 12.0, name="swing")


@pytest.mark.parametrize("case", cases(), ids=lambda c: f"{c.family}-{c.mark}-{c.name}")
def test_only_one_approach_gets_through(case: Case) -> None:
    """With a rod in the way of every approach but one, that one is free and is taken, in the step's legs and
    words as well; the others are stopped on the offer, each by its own rod.
    """
    fitting = case.fitting()
    site = fitting.site(case.mark)
    every = approaches(site.family, site.group)
    rods = {a.name: blocker(site, a) for a in every if a.name != case.name}
    room = fitting.beside(*rods.values())
    site = room.site(case.mark)
    stops = {a.name: first_stop(site, piece_ways(site, a)) for a in every}
    assert {name for name, stop in stops.items() if stop is None} == {case.name}
    assert {name: (s.leg, s.standing) for name, s in stops.items() if s is not None} == {
        name: ("offer", part.id) for name, part in rods.items()
    }
    assert piece_verdict(site).approach == case.name
    (step,) = (s for s in room.as_moved() if case.mark in s.pieces)
    assert step.approach == next(a for a in every if a.name == case.name)
    assert step.legs[0].from_mm == step.approach.from_mm
    assert SAID[case.name] in next(a.text for a in step.actions if a.kind == "move").lower()


@pytest.mark.parametrize("family", FAMILIES)
def test_the_first_free_one_is_taken(family: str) -> None:
    """In an empty room the approach that the family lists first is taken, and no other is tried."""
    verdict = piece_verdict(three_walls(family).site("r-3"))
    assert [t.approach for t in verdict.tried] == [listed(family, "r-3")[0].name]
    assert verdict.free
