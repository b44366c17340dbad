"""Drawers, doors and casements in a plan: what is wrong with each is named with its line and key."""

from __future__ import annotations

import pytest
from jsonschema import Draft202012Validator

from model3d.plans import Plan
from model3d.rooms import CupboardDoor, Drawer, Slab
from model3d.sources import json_schema, source_of
from tests.plans.test_starter import plain
from tests.rooms.plans import FILE, GOOD, faults_of, read

CHEST = "turn: 30, width: 600, depth: 300, height: 500"
WINDOW = "sill: 900, height: 1200"
UNIT = "id: unit, kind: cabinet, wall: w2, at: 2200, width: 700, depth: 500, height: 900"
FURNITURE = f"furniture:\n  - {{{UNIT}, EXTRA}}\n"

FAULTY = {
    "above its front": (CHEST, "drawers: [{up: 400, height: 150}]", 16, "obstacles[chest].drawers[1].height",
                        "the drawer ends at 550, and chest goes from 0 to 500 up"),
    "begins above it": (CHEST, "doors: [{hinge: left, up: 600}]", 16, "obstacles[chest].doors[1].up",
                        "the door begins at 600, and chest goes from 0 to 500 up"),
    "past its side": (CHEST, "drawers: [{}, {to: 601}]", 16, "obstacles[chest].drawers[2].to",
                      "the drawer ends at 601, and the front of chest is 600 wide"),
    "ends swapped": (CHEST, "doors: [{hinge: left, from: 300, to: 200}]", 16, "obstacles[chest].doors[1].from",
                     "'from' (300) must be less than 'to' (200)"),
    "past its side from the start": (CHEST, "drawers: [{from: 700}]", 16, "obstacles[chest].drawers[1].from",
                                     "'from' (700) must be less than 'to' (600, the width of the front)"),
    "the side front is as wide as the box is deep": (CHEST, "front: left, drawers: [{to: 400}]", 16,
                                                     "obstacles[chest].drawers[1].to", "is 300 wide"),
    "no hinge": (CHEST, "doors: [{up: 10}]", 16, "obstacles[chest].doors[1].hinge", "is missing"),
    "no such hinge": (CHEST, "doors: [{hinge: top}]", 16, "obstacles[chest].doors[1].hinge", "top"),
    "no such unit": (CHEST, "drawers: [{out: 30 kg}]", 16, "obstacles[chest].drawers[1].out", "unknown unit 'kg'"),
    "pulled out by nothing": (CHEST, "drawers: [{out: 0}]", 16, "obstacles[chest].drawers[1].out", "more than 0"),
    "opens too far": (CHEST, "doors: [{hinge: left, opens: 190}]", 16, "obstacles[chest].doors[1].opens", "most 180"),
    "mistyped": (CHEST, "drawers: [{hight: 10}]", 16, "obstacles[chest].drawers[1].hight", "did you mean 'height'"),
    "a front of nothing": (CHEST, "front: left", 16, "obstacles[chest].front", "give one"),
    "hinge of a fixed light": (WINDOW, "hinge: left", 9, "openings[window].hinge", "give 'swing', in or out"),
    "angle of a fixed light": (WINDOW, "opens: 45", 9, "openings[window].opens", "give 'swing', in or out"),
    "a swing that is none": (WINDOW, "swing: up", 9, "openings[window].swing", "up"),
    "a window opens too far": (WINDOW, "swing: in, opens: 200", 9, "openings[window].opens", "at most 180"),
}  # fmt: skip


@pytest.mark.parametrize("name", FAULTY)
def test_a_fault_is_found_with_its_line_and_key(name: str) -> None:
    """Each known-bad drawer, door and casement is one fault."""
    after, new, line, key, said = FAULTY[name]
    (fault,) = faults_of(GOOD.replace(after, f"{after}, {new}", 1))
    assert (fault.line, fault.key) == (line, key)
    assert said in fault.message


@pytest.mark.parametrize(
    ("extra", "key", "said"),
    [
        ("drawers: [{up: 100}]", "furniture[unit].drawers", "say 'fixed: true', or leave them out"),
        ("fixed: true, doors: [{hinge: left, up: 1000}]", "furniture[unit].doors[1].up", "from 0 to 900"),
    ],
)
def test_faults_of_furniture(extra: str, key: str, said: str) -> None:
    """What is not built in has no drawers that are looked at; what is has them within its own size."""
    (fault,) = faults_of(GOOD + FURNITURE.replace("EXTRA", extra))
    assert (fault.line, fault.key) == (GOOD.count("\n") + 2, key)
    assert said in fault.message


def test_a_rug_has_no_drawers() -> None:
    """What has no inside has no drawers or doors."""
    (fault,) = faults_of(GOOD + FURNITURE.replace("cabinet", "rug").replace("EXTRA", "fixed: true, drawers: [{}]"))
    assert (fault.key, fault.message) == ("furniture[unit].drawers", "a rug has no drawers")


def test_lengths_may_have_units() -> None:
    """Heights and lengths of drawers are lengths like any other."""
    text = GOOD.replace(CHEST, f"{CHEST}, drawers: [{{up: 10 cm, height: 0.15 m, out: 1 ft}}]")
    (chest,) = [o for o in read(text).room.obstacles if o.id == "chest"]
    assert isinstance(chest, Slab)
    (drawer,) = chest.openers
    assert isinstance(drawer, Drawer)
    assert (drawer.low_mm, drawer.high_mm, drawer.out_mm) == pytest.approx((100.0, 250.0, 304.8))


def test_built_in_furniture_keeps_its_doors() -> None:
    """A fixed piece's doors are the obstacle's."""
    text = GOOD + FURNITURE.replace("EXTRA", "fixed: true, doors: [{hinge: right, from: 100}]")
    (unit,) = [o for o in read(text).room.obstacles if o.id == "unit"]
    assert isinstance(unit, Slab)
    (door,) = unit.openers
    assert isinstance(door, CupboardDoor)
    assert (door.from_mm, door.to_mm, door.hinge_mm, door.low_mm, door.high_mm) == (100.0, 700.0, 100.0, 0.0, 900.0)
    assert door.front.origin_mm == (0.0, 500.0, 0.0)


def test_a_window_says_nothing_unless_it_opens_in() -> None:
    """Without a word, and opening out, a window has no casement; opening in it is hung on the left and opens square."""
    for extra, casement in (("", None), (", swing: out, hinge: right", None), (", swing: in", ("left", 90.0))):
        (window,) = read(GOOD.replace(WINDOW, WINDOW + extra)).room.windows
        assert (window.casement and (window.casement.hinge, window.casement.opens_deg)) == casement


def test_the_schema_knows_them() -> None:
    """What an editor is told of drawers, doors and casements agrees with what is read."""
    validator = Draft202012Validator(json_schema(Plan))
    text = GOOD.replace(WINDOW, f"{WINDOW}, swing: in, hinge: both, opens: 100")
    good = text.replace(CHEST, f"{CHEST}, front: left, drawers: [{{up: 10, out: 30 cm}}], doors: [{{hinge: left}}]")
    assert faults_of(good) == ()
    assert validator.is_valid(plain(source_of(good, FILE).data))
    for old, new in (("hinge: both", "hinge: top"), ("doors: [{hinge: left}]", "doors: [{}]"), ("up: 10,", "upp: 10,")):
        assert not validator.is_valid(plain(source_of(good.replace(old, new), FILE).data))
