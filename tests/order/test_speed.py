"""How long an order takes to find, for a run of thirty pieces."""

from __future__ import annotations

import time

import pytest

from model3d.order.apart import Asked, take_apart
from model3d.order.blocking import Blocking
from model3d.order.job import things_of
from model3d.order.seek import seek
from tests.order.many_pieces import long_room


@pytest.mark.benchmark
def test_thirty_pieces_in_ten_seconds() -> None:
    """The order of thirty pieces, solids and collisions included, is found within 10 s, from nothing known; the search
    itself, once the collisions are known, within a tenth of a second.
    """
    at = long_room(30)
    assert len(at.layout.pieces) == 30
    began = time.perf_counter()
    sought = seek(at)
    cold = time.perf_counter() - began
    assert sought.usual
    asked = Asked(Blocking(job=at, things=things_of(at)).assembly())
    take_apart(asked.assembly, asked=asked)
    began = time.perf_counter()
    take_apart(asked.assembly, asked=asked)
    alone = time.perf_counter() - began
    assert cold < 10.0
    assert alone < 0.1


def test_a_question_a_thing_when_the_usual_order_goes() -> None:
    """Where the usual order goes, and every piece by its preferred approach, each thing is asked about once."""
    at = long_room(6)
    blocking = Blocking(job=at, things=things_of(at))
    asked = Asked(blocking.assembly())
    apart = take_apart(asked.assembly, asked=asked)
    assert all(r.way == asked.assembly.ways[r.thing][0] for r in apart.removals)
    assert asked.questions == len(asked.assembly.things)
