"""The engine on any CadQuery solids, without a word of skirting."""

from __future__ import annotations

import re
import textwrap
from itertools import pairwise
from pathlib import Path
from typing import Any

import cadquery as cq
import pytest

from model3d import motion
from model3d.geometry.placement import at
from model3d.motion import RIGID, Give, MotionBody, Moving, blocked, mesh_of, nearest
from model3d.motion.from_solids import as_manifold, part_above, part_below

MOTION = Path(__file__).parents[2] / "model3d" / "motion"


def test_two_boxes() -> None:
    """A box is moved past another that stands in its way, and over it."""
    crate = mesh_of(cq.Solid.makeBox(100.0, 100.0, 100.0))
    wall = MotionBody(id="wall", mesh=mesh_of(cq.Solid.makeBox(10.0, 500.0, 50.0)), placement=at(300.0, -200.0, 0.0))
    straight = Moving(id="crate", mesh=crate, poses=(at(0.0, 0.0, 0.0), at(600.0, 0.0, 0.0)))
    found = blocked([straight], [wall])
    assert found is not None
    assert (found.contact.mover, found.contact.standing) == ("crate", "wall")
    assert found.contact.share * 600.0 == pytest.approx(200.0, abs=0.1)
    over = (at(0.0, 0.0, 0.0), at(0.0, 0.0, 52.0), at(600.0, 0.0, 52.0))
    lifted = [Moving(id="crate", mesh=crate, poses=pair) for pair in pairwise(over)]
    assert all(blocked([leg], [wall]) is None for leg in lifted)
    near = nearest([lifted[1]], [wall], within_mm=10.0)
    assert near is not None
    assert near.distance_mm == pytest.approx(2.0, abs=1e-6)


def test_the_example_of_the_documentation() -> None:
    """The engine's documentation shows an example that runs: a crate that meets a post after 200 of 400 mm, and passes
    it 3 mm beside.
    """
    lines = (motion.__doc__ or "").splitlines()
    example = textwrap.dedent("\n".join(line for line in lines if line.startswith("    ")))
    said: dict[str, Any] = {}
    exec(example, said)
    assert said["stop"].contact.share * 400.0 == pytest.approx(200.0, abs=0.1)
    assert said["stop"].place_mm[:2] == pytest.approx((50.0, 300.0), abs=0.5)
    assert said["near"].distance_mm == pytest.approx(3.0, abs=0.01)
    assert said["near"].place_mm[0] == pytest.approx(56.5, abs=0.1)


def test_a_catch_that_gives() -> None:
    """A peg a little thicker than its hole goes through when it may give so much, and no further."""
    plate = cq.Workplane("XY").box(60.0, 60.0, 5.0).faces(">Z").hole(20.0).val()
    hole = MotionBody(id="plate", mesh=mesh_of(plate), placement=at(0.0, 0.0, 0.0))
    peg = Moving(
        id="peg",
        mesh=mesh_of(cq.Solid.makeCylinder(10.3, 30.0)),
        poses=(at(0.0, 0.0, 10.0), at(0.0, 0.0, -50.0)),
    )
    assert blocked([peg], [hole], meant=lambda _m, _s: RIGID) is not None
    assert blocked([peg], [hole], meant=lambda _m, _s: Give(mover_mm=0.2)) is not None
    assert blocked([peg], [hole], meant=lambda _m, _s: Give(mover_mm=0.35)) is None
    assert blocked([peg], [hole], meant=lambda _m, _s: Give(standing_mm=0.35)) is None


def test_cut_at_a_height() -> None:
    """A mesh cut at a height falls into two closed halves."""
    whole = mesh_of(cq.Solid.makeCylinder(10.0, 30.0))
    above, below = part_above(whole, 12.0), part_below(whole, 12.0)
    assert above is not None
    assert below is not None
    assert above.box[:, 2] == pytest.approx([12.0, 30.0])
    assert below.box[:, 2] == pytest.approx([0.0, 12.0])
    assert part_above(whole, 31.0) is None
    parts = [as_manifold(m.points, m.triangles).volume() for m in (above, below)]
    assert sum(parts) == pytest.approx(as_manifold(whole.points, whole.triangles).volume())


def trade_words(text: str) -> list[str]:
    """Words of the trade in a text."""
    return re.findall(r"\b(?:pieces?|skirting|elbows?|brackets?|hoses?|joints?|walls?|famil(?:y|ies))\b", text.lower())


def test_the_engine_does_not_know_what_it_moves() -> None:
    """No word of the trade stands in the engine's modules."""
    found = {p.name: trade_words(p.read_text(encoding="utf-8")) for p in MOTION.glob("*.py")}
    assert len(found) >= 6
    assert {name: words for name, words in found.items() if words} == {}
    assert trade_words("An Elbow in its bracket") == ["elbow", "bracket"]
