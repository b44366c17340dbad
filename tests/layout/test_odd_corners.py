"""Bays, cut corners, chimney breasts, alcoves and columns in family (a), by pencil.

Allowances: elbow at 90 degrees 51; link at an external 90 (40 - 17) + 8.58 + 20 = 51.58, at an external 45 53.82, at
an internal 45 67.90; valve end 95, return end 60. Insertions: long leg 52 pushed home, short leg and spigots 24.
"""

from __future__ import annotations

import math

import pytest

from model3d.families.family import Family
from model3d.layout import Layout, lay_out
from model3d.parts.fixings import TrimSpec
from model3d.scene import compose

from .rooms_by_hand import plan_of, ring_of, run_over

Walls = list[tuple[float, float]]
"""Each wall's length and the turn at its end."""


def corners(walls: Walls) -> list[tuple[float, float]]:
    """The corners of a ring of walls, the first at (0, 0), the first wall along x; the walls must close."""
    x = y = heading = 0.0
    points = []
    for length, turn in walls:
        points.append((x, y))
        x, y = x + length * math.cos(math.radians(heading)), y + length * math.sin(math.radians(heading))
        heading += turn
    assert math.hypot(x, y) < 1e-6
    assert heading == pytest.approx(360.0)
    return points


def laid(family: Family, walls: Walls, first: int, count: int, *, sense: int = 1) -> Layout:
    """A run over some walls of a ring."""
    ring = ring_of(corners(walls))
    return lay_out(plan_of(ring, run_over(ring, first, count, sense=sense)), family)


def lengths(layout: Layout) -> dict[str, float]:
    """Cut lengths by wall."""
    return {p.wall.id: p.cut_length_mm for p in layout.pieces}


SLOPE = 400.0 * math.sqrt(2.0)
BAY: Walls = [(1000, -45), (SLOPE, 45), (1500, 45), (SLOPE, -45), (1000, 90), (3000, 90), (4300, 90), (3000, 90)]
CUT: Walls = [(3000, 45), (600, 45), (2500, 90), (3000 + 600 * math.sqrt(0.5), 90), (2500 + 600 * math.sqrt(0.5), 90)]


def test_a_bay(family_a: Family) -> None:
    """Round a bay, external 45, internal 45 twice, external 45, all four corners take links: the slopes are cut S -
    53.82 - 67.90, the front 1500 - 2 x 67.90, every clip there front.
    """
    layout = laid(family_a, BAY, 1, 5)
    joints = layout.runs[0].joints
    assert [(j.kind, round(j.turn_deg)) for j in joints] == [("link", -45), ("link", 45), ("link", 45), ("link", -45)]
    cut = lengths(layout)
    assert cut["w2"] == pytest.approx(SLOPE - 53.82 - 67.90, abs=0.01)
    assert cut["w3"] == pytest.approx(1500 - 2 * 67.90, abs=0.01)
    assert cut["w4"] == pytest.approx(cut["w2"])
    assert {(p.start.clip, p.end.clip) for p in layout.pieces[1:4]} == {("front", "front")}
    assert not [f for f in layout.findings if f.severity == "error"]
    notes = {f.parts for f in layout.findings if f.code == "link-for-elbow"}
    assert notes == {("c3",), ("c4",)}


def test_trims_follow_the_angle(family_a: Family) -> None:
    """The trim over each corner of a bay has that corner's turn."""
    ring = ring_of(corners(BAY))
    plan = plan_of(ring, run_over(ring, 1, 5))
    layout = lay_out(plan, family_a)
    turns = {
        p.joint: p.spec.turn_deg for p in compose(plan.room, layout, family_a).fitted if isinstance(p.spec, TrimSpec)
    }
    assert turns == {j.mark: pytest.approx(j.turn_deg) for j in layout.runs[0].joints}


def test_a_cut_corner(family_a: Family) -> None:
    """A corner cut off at 45 degrees is two internal corners of 45: 600 of it is cut 600 - 2 x 67.90 = 464.20."""
    layout = laid(family_a, CUT, 1, 3)
    assert [j.kind for j in layout.runs[0].joints] == ["link", "link"]
    assert lengths(layout)["w2"] == pytest.approx(464.20, abs=0.01)


def breast(depth: float, width: float = 1300.0) -> Walls:
    """A room with a chimney breast on its first wall, 1100 of alcove on each side of it."""
    whole = width + 2200.0
    return [
        (1100, 90),
        (depth, -90),
        (width, -90),
        (depth, 90),
        (1100, 90),
        (3000, 90),
        (whole, 90),
        (3000, 90),
    ]


@pytest.mark.parametrize("sense", [1, -1])
def test_a_chimney_breast(family_a: Family, sense: int) -> None:
    """Two internal and two external corners within 1.9 m: sides 300 - 51 - 51.58 = 197.42, the front 1300 - 2 x 51.58
    = 1196.84. Elbows stand in the alcoves, links at the breast's edges, whichever way the run goes.
    """
    layout = laid(family_a, breast(300.0), 1 if sense > 0 else 5, 5, sense=sense)
    assert [j.kind for j in layout.runs[0].joints] == ["elbow", "link", "link", "elbow"]
    cut = lengths(layout)
    assert [cut[w] for w in ("w2", "w3", "w4")] == pytest.approx([197.42, 1196.84, 197.42], abs=0.01)
    side = next(p for p in layout.pieces if p.wall.id == ("w2" if sense > 0 else "w4"))
    assert (side.start.joint, side.start.clip, side.end.joint, side.end.clip) == (
        "elbow-short",
        "back",
        "link",
        "front",
    )
    leaving = next(p for p in layout.pieces if p.wall.id == ("w4" if sense > 0 else "w2"))
    assert (leaving.start.joint, leaving.end.joint, leaving.end.clip) == ("link", "elbow-long", "none")
    assert not [f for f in layout.findings if f.severity == "error"]


@pytest.mark.parametrize(
    ("depth", "code"),
    [(181.0, None), (180.0, "piece-too-short"), (103.0, "piece-too-short"), (100.0, "no-room-for-piece")],
)
def test_a_shallow_chimney_breast(family_a: Family, depth: float, code: str | None) -> None:
    """The side that ends in long legs needs 24 + 52 + 2 = 78, so a breast of 78 + 102.58 = 180.58; one under 102.58
    has no room at all.
    """
    layout = laid(family_a, breast(depth), 1, 5)
    found = {f.code for f in layout.findings if f.parts == ("r-4",)}
    assert found == ({code} if code is not None else set())


def test_an_alcove(family_a: Family) -> None:
    """The back of an alcove, between the room's corner and the breast's side, both square and internal, is cut 1100 -
    2 x 51.
    """
    layout = laid(family_a, breast(300.0), 8, 3)
    assert lengths(layout)["w1"] == pytest.approx(998.0)
    piece = layout.pieces[1]
    assert (piece.start.clip, piece.end.clip) == ("back", "none")


def column(side: float) -> list[tuple[float, float]]:
    """A square column: its corners go round clockwise."""
    return [(0.0, 0.0), (0.0, side), (side, side), (side, 0.0)]


def test_a_column(family_a: Family) -> None:
    """Round a column of 400 every corner is external: 400 - 95 - 51.58, then 400 - 2 x 51.58, then 400 - 51.58 - 60
    less its growth.
    """
    ring = ring_of(column(400.0), "column", island=True)
    layout = lay_out(plan_of(ring, run_over(ring, 1, 3)), family_a)
    assert [round(j.turn_deg) for j in layout.runs[0].joints] == [-90, -90]
    first, middle, last = layout.pieces
    assert (first.cut_length_mm, middle.cut_length_mm) == pytest.approx((253.42, 296.84), abs=0.01)
    assert last.cut_length_mm + last.growth_gap_mm == pytest.approx(288.42, abs=0.01)
    assert last.growth_gap_mm == pytest.approx(288.42 * 23.4e-6 * 37.0, abs=0.001)
    assert (middle.start.clip, middle.end.clip) == ("front", "front")


@pytest.mark.parametrize(("side", "found"), [(154.0, set()), (153.0, {"piece-too-short"})])
def test_a_slender_column(family_a: Family, side: float, found: set[str]) -> None:
    """Between two links a piece needs 24 + 24 + 2 = 50, so a column of 50 + 103.16 = 153.16."""
    ring = ring_of(column(side), "column", island=True)
    layout = lay_out(plan_of(ring, run_over(ring, 1, 3)), family_a)
    assert {f.code for f in layout.findings if f.parts == ("r-2",)} == found


@pytest.mark.parametrize(
    ("turn_deg", "kind"), [(88.1, "elbow"), (91.9, "elbow"), (87.9, "link"), (92.1, "link"), (60.0, "link")]
)
def test_an_elbow_only_within_its_play(family_a: Family, turn_deg: float, kind: str) -> None:
    """A rigid elbow bears 2 degrees either way; past that a link is taken, and its reason gives the angle and the
    play.
    """
    far = (3000.0 + 2500.0 * math.cos(math.radians(turn_deg)), 2500.0 * math.sin(math.radians(turn_deg)))
    ring = ring_of([(0.0, 0.0), (3000.0, 0.0), far, (0.0, far[1])])
    joint = lay_out(plan_of(ring, run_over(ring, 1, 2)), family_a).runs[0].joints[0]
    assert joint.kind == kind
    if kind == "link":
        assert f"{abs(turn_deg - 90):.2f} degrees off square, the elbow bears 2" in joint.reason
