"""Heat, cutting, fixing and in-line joints of a plan: as written, as usual, and refused."""

from __future__ import annotations

import pytest

from model3d.rooms import Cutting, Heat, InLineRules, OffCut, Studs, WallFixing

from .plans import GOOD, faults_of, read, with_room

SQUARE = "{corners: [[0, 0], [4000, 0], [4000, 3000], [0, 3000]]}"


def test_as_written() -> None:
    """What a plan says of heat, cutting, fixing and in-line joints comes out in numbers."""
    plan = read(GOOD)
    assert plan.heat == Heat(room_c=21.0, loss_w=1200.0, vulnerable=True, valve_kv_m3_per_h=0.5)
    cuts = (OffCut(length_mm=1240.0, count=2), OffCut(length_mm=700.0, dry=True))
    assert plan.cutting == Cutting(kerf_mm=2.4, end_trim_mm=8.0, worth_keeping_mm=400.0, off_cuts=cuts)
    assert plan.fixings == (
        WallFixing(wall_id="w1", kind="masonry"),
        WallFixing(wall_id="w2", kind="studs", studs=Studs(first_mm=120.0, spacing_mm=400.0, width_mm=45.0)),
    )
    assert plan.in_line == InLineRules(
        off_corner_mm=350.0, off_socket_mm=120.0, off_opening_mm=100.0, off_pipe_mm=90.0
    )


def test_left_out() -> None:
    """A plan that says nothing of them has the usual values, with no wall's fixing known."""
    plan = read(with_room(SQUARE))
    assert (plan.heat, plan.cutting, plan.fixings, plan.in_line) == (Heat(), Cutting(), (), InLineRules())


@pytest.mark.parametrize(
    ("old", "new", "key", "said"),
    [
        ("loss: 1200", "loss: 0", "heat.loss", "must be more than 0"),
        ("room: 21", "room: 40, loss: 9", "heat.loss", "twice"),
        (
            "return: 50",
            "return: 20",
            "heat.room",
            "a room at 21 is not heated by water that comes back at 20",
        ),
        ("valve_kv: 0.5", "valve_kv: -1", "heat.valve_kv", "must be more than 0"),
        ("kerf: 2.4", "kerf: -1", "cutting.kerf", "must be at least 0"),
        ("count: 2", "count: 0", "cutting.off_cuts[1].count", "must be at least 1"),
        ("wall: w2, kind: studs", "wall: w1, kind: studs", "fixing[2].wall", "wall w1 is given twice"),
        ("wall: w1, kind: masonry", "wall: w9, kind: masonry", "fixing[1].wall", "there is no wall 'w9'"),
        ("kind: studs, spacing: 400,", "kind: studs,", "fixing[2]", "'spacing' is missing"),
        ("first: 120,", "", "fixing[2]", "'first' is missing"),
        ("kind: studs", "kind: board", "fixing[2].spacing", "'spacing' is for studs, not for board"),
        ("spacing: 400", "spacing: 40", "fixing[2].spacing", "studs 45 wide do not stand 40 apart"),
        ("kind: masonry", "kind: straw", "fixing[1].kind", "masonry"),
        ("off_corner: 350", "off_corner: -1", "in_line.off_corner", "must be at least 0"),
    ],
)
def test_each_fault_has_its_key(old: str, new: str, key: str, said: str) -> None:
    """What cannot be is refused at its key."""
    assert old in GOOD
    found = faults_of(GOOD.replace(old, new, 1))
    assert any(f.key == key and said in f.message for f in found), found
