"""The order of the gallery's rooms, what comes off in them, and their hardest corners."""

from __future__ import annotations

import pytest

from model3d.build.project import load
from model3d.order.rating import rate
from model3d.order.removing import remove
from model3d.order.seek import seek
from tests.order.rooms import GALLERY, job

pytestmark = pytest.mark.slow


@pytest.mark.parametrize("room", ["l-room", "bay", "surveyed"])
def test_the_usual_order_goes(room: str) -> None:
    """In the gallery's clean rooms the usual order goes, every step in it, each by an approach of its family."""
    at = job(load(GALLERY / room / "plan.yaml"))
    sought = seek(at)
    assert sought.usual
    assert [s.title for s in sought.steps] == [s.title for s in at.steps]
    rating = rate(at, sought)
    levels = [c.difficulty.level for c in rating.corners]
    assert levels == sorted(levels, reverse=True)
    closed = {j.mark for j in at.joints if j.kind != "coupler"}
    assert {c.joint for c in rating.corners} == closed


def test_round_the_external_corner_is_the_hardest() -> None:
    """In the L-shaped room the corner where links are fed round outside comes first, for that reason."""
    at = job(load(GALLERY / "l-room" / "plan.yaml"))
    first = rate(at, seek(at)).corners[0]
    assert (first.joint, first.kind, round(first.turn_deg)) == ("A-J5", "link", -90)
    assert any("external corner" in r.text for r in first.difficulty.reasons)


def test_what_comes_off_stops_at_the_link_that_lets_go() -> None:
    """In the L-shaped room the second piece comes out with the third to fifth off, up to the external corner's link,
    which lets go by hand; the links of the cut corner do not, and the pieces past the external corner stay up.
    """
    removed = remove(job(load(GALLERY / "l-room" / "plan.yaml")), "A-2")
    assert [c.thing for c in removed.taken_off if c.thing.startswith("A-")] == ["A-5", "A-4", "A-3", "A-2"]


def test_of_the_faulty_room_the_last_piece_is_trapped() -> None:
    """In the room with three mistakes the pipe and the wall that the run ends too near to are what trap its pieces."""
    traps = {t.thing: t.by for t in seek(job(load(GALLERY / "faulty" / "plan.yaml"))).trapped}
    assert traps["A-3"] == "room/riser"
    assert traps["A-4"] == "room/w4"
