"""How much faster sweeping is than conservative advancement alone, on the moves of a room of seven pieces."""

from __future__ import annotations

import math
import sys
from collections.abc import Iterator
from time import perf_counter

import pytest

from model3d.motion import Memo
from model3d.motion.way import First, contacts
from model3d.moves import Shapes
from model3d.moves.approaching import tried_in_turn
from model3d.moves.meant import meant_on
from model3d.moves.sites import sites
from model3d.moves.ways import Site, Way, hand_ways
from tests.layout.every_joint import ROOM, family_of
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over
from tests.motion.advancement import first_touch
from tests.steps.planned import planned

GOAL = 15.0
GIVEN_UP = 60.0  # advancement is given up after so many times the sweep's seconds


def ways_of_the_room() -> Iterator[tuple[Site, Way]]:
    """Every leg of the seven pieces of a run over seven walls, by the approach that is free, and the work by hand."""
    ring = ring_of(ROOM)
    run = run_over(ring, 1, 7, end_at=ring.walls[6].length_mm - 300.0)
    family, layout, scene, steps = planned(plan_of(ring, run), family_of("a-square"))
    assert len(layout.pieces) == 7
    for site in sites(layout, scene, steps, Shapes(family=family)):
        if site.step.kind == "piece":
            _, ways = tried_in_turn(site)
            assert ways is not None
            yield from ((site, way) for way in [*ways, *hand_ways(site)])


def timed(ways: list[tuple[Site, Way]], first: First | None, most_s: float = math.inf) -> tuple[float, int, int]:
    """Seconds that the ways take, the contacts found, and how many ways were done before ``most_s`` were over; nothing
    kept from before.
    """
    memo: Memo = {}
    start, met = perf_counter(), 0
    done = 0
    for site, way in ways:
        if perf_counter() - start > most_s:
            break
        done += 1
        meant = meant_on(site.family, site.find, way.name, site.marks)
        met += sum(1 for _ in contacts(way.movers, way.standing, meant=meant, memo=memo, first=first))
    return perf_counter() - start, met, done


@pytest.mark.benchmark
def test_moves_of_seven_pieces_against_advancement(capsys: pytest.CaptureFixture[str]) -> None:
    """All legs of seven pieces are free by both, and sweeping answers them many times sooner."""
    ways = list(ways_of_the_room())
    timed(ways, None)  # skins are drawn in and rays prepared for both
    for _, way in ways:
        for mover in way.movers:
            mover.mesh.drawn(0.04)
    by_sweep, met, done = timed(ways, None)
    by_advancement, met_as_well, of_them = timed(ways, first_touch, GIVEN_UP * by_sweep)
    with capsys.disabled():
        sys.stdout.write(f"\n{done} legs swept in {by_sweep:.2f} s; {of_them} of them by advancement in ")
        sys.stdout.write(f"{by_advancement:.2f} s: at least {by_advancement / by_sweep:.0f} times as long\n")
    assert met == met_as_well == 0
    assert done == len(ways)
    assert by_advancement > GOAL * by_sweep
