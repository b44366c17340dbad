"""The engine on pairs at random, of which closed forms say whether they overlap; wrong engines on the same; and the
closed forms themselves.
"""

from __future__ import annotations

import math
import sys
from collections import Counter
from collections.abc import Callable

import cadquery as cq
import numpy as np
import pytest

from model3d.checks.engine import Body, Tolerance, clashes
from tests.checks.how_far import Pose, apart
from tests.checks.plain_bodies import Plain, PlainBox, PlainPrism, PlainRing, PlainRod
from tests.checks.random_pairs import KINDS, MAKERS, NEAR_MM, Pair, pair, truth
from tests.checks.wrong_engines import WRONG

FEW, MANY = 120, 10_000
Says = Callable[[Pair], bool]


def engine_says(found: Pair) -> bool:
    """Whether the engine finds that the two overlap."""
    bodies = [
        Body(id="a", shape_key="a", placement=found.a_at),
        Body(id="b", shape_key="b", placement=found.b_at),
    ]
    shapes = {"a": found.a.solid(), "b": found.b.solid()}
    return any(True for _ in clashes(bodies, shapes, allowed_mm=lambda _a, _b: 0.0, tolerance=Tolerance()))


def wrong_engine(name: str) -> Says:
    """Whether a wrong engine finds that they share a volume."""
    return lambda found: WRONG[name](found.a.solid(), found.a_at, found.b.solid(), found.b_at) > 0.0


def tried(numbers: range, says: Says) -> Counter[str]:
    """How many pairs there were of each class, and what was said wrongly, with the numbers of those pairs."""
    counts: Counter[str] = Counter()
    for number in numbers:
        found = pair(number)
        far = found.apart
        right, near = truth(far), "near" if far.most_mm > -NEAR_MM and far.least_mm < NEAR_MM else "far"
        counts.update(["pairs", found.kinds, f"{near} {right}", *([near] if near == "near" else [])])
        if right == "either":
            continue
        if says(found) != (right == "overlap"):
            wrong = "missed" if right == "overlap" else "false"
            counts.update([wrong, f"{wrong}: {number}, {found.kinds}, {far.least_mm:.4f} to {far.most_mm:.4f} apart"])
    return counts


def printed(counts: Counter[str]) -> str:
    """The counts, one class a line."""
    return "\n".join(f"{count:6d} {name}" for name, count in counts.items())


def all_right(numbers: range) -> Counter[str]:
    """Assert that none is missed and none false, with enough of every class; the counts."""
    counts = tried(numbers, engine_says)
    assert counts["missed"] == counts["false"] == 0, printed(counts)
    assert counts["near"] >= len(numbers) / 3.0
    assert all(counts[" and ".join(kinds)] == len(numbers) // len(KINDS) for kinds in KINDS)
    for each in ("near overlap", "near clear", "far overlap", "far clear"):
        assert counts[each] > len(numbers) / 20.0, each
    assert counts["near either"] + counts["far either"] < len(numbers) / 20.0
    return counts


def test_some_pairs() -> None:
    """Of pairs at random, more than a third within .5 mm of contact, no overlap deeper than contact is missed and
    nothing else is found, turned and up to 60 m away.
    """
    all_right(range(FEW))


@pytest.mark.slow
def test_ten_thousand_pairs(capsys: pytest.CaptureFixture[str]) -> None:
    """The same of ten thousand; how many of each class there were is printed."""
    counts = all_right(range(MANY))
    with capsys.disabled():
        sys.stdout.write(f"\n{printed(counts)}\n")


@pytest.mark.parametrize(
    ("name", "wrong"),
    [("boxes only", "false"), ("coarse mesh", "false"), ("surfaces crossing", "missed"), ("corners inside", "missed")],
)
def test_wrong_engines_are_seen(name: str, wrong: str) -> None:
    """Boxes for bodies, meshes taken at their word and corners for bodies go wrong on the same pairs."""
    assert tried(range(60), wrong_engine(name))[wrong] >= 2


@pytest.mark.parametrize("kind", MAKERS)
def test_closed_forms_are_of_the_solids(kind: str) -> None:
    """The distance of the closed form is that to the surface of the kernel's solid, negative where the kernel has it
    inside.
    """
    rng = np.random.default_rng(3)
    body = MAKERS[kind](rng)
    made, places = body.solid(), rng.uniform(-1.2, 1.2, (150, 3)) * body.reach_mm
    for place, signed in zip(places, body.signed_mm(places), strict=True):
        far = made.Shells()[0].distance(cq.Vertex.makeVertex(*place))
        assert abs(signed) == pytest.approx(far, abs=1e-6)
        assert made.isInside(cq.Vector(*place)) == (signed < 0.0)


BOX, ROD, RING = PlainBox(half_mm=(5, 4, 3)), PlainRod(radius_mm=3, half_mm=6), PlainRing(major_mm=10, minor_mm=2)
PLATE = PlainBox(half_mm=(30, 30, 3))
WEDGE = PlainPrism(corners_mm=((-4, -3), (4, -3), (0, 5)), half_mm=2)
UPRIGHT = np.eye(3)
ALONG_X = np.array([[0.0, 0.0, 1.0], [0.0, 1.0, 0.0], [-1.0, 0.0, 0.0]])  # as columns: z turned to x


@pytest.mark.parametrize(
    ("a", "b", "axes", "origin_mm", "far_mm"),
    [
        (BOX, BOX, UPRIGHT, (13, 0, 0), 3.0),
        (BOX, BOX, UPRIGHT, (13, 12, 0), 5.0),
        (BOX, BOX, UPRIGHT, (9.5, 1, 0), -0.5),
        (BOX, BOX, UPRIGHT, (0, 0, 0), -6.0),
        (BOX, ROD, UPRIGHT, (8.25, 0, 0), 0.25),
        (BOX, ROD, UPRIGHT, (5 + 1.7, 4 + 1.7, 0), math.hypot(1.7, 1.7) - 3.0),
        (BOX, ROD, ALONG_X, (0, 0, 5.75), -0.25),
        (ROD, ROD, ALONG_X, (0, 5.5, 0), -0.5),
        (BOX, WEDGE, UPRIGHT, (0, -9.4, 0), 0.4),
        (PLATE, RING, UPRIGHT, (0, 0, 4.9), -0.1),
        (BOX, RING, UPRIGHT, (0, 0, 0), 8.0 - math.hypot(5, 4)),
        (ROD, RING, UPRIGHT, (4.8, 0, 0), 0.2),
        (ROD, RING, UPRIGHT, (5.3, 0, 0), -0.3),
        (RING, RING, UPRIGHT, (0, 0, 3.9), -0.1),
        (RING, RING, ALONG_X, (10, 0, 0), math.hypot(10, 10) - 10 - 4),
    ],
)
def test_how_far_by_hand(
    a: Plain, b: Plain, axes: np.ndarray, origin_mm: tuple[float, float, float], far_mm: float
) -> None:
    """How far two bodies are apart, or have to be moved to be off one another, is what geometry says."""
    there = Pose(axes=axes, origin_mm=np.array(origin_mm, dtype=float))
    found, back = apart(a, b, there), apart(b, a, there.inverse())
    for each in (found, back):
        assert each.most_mm == pytest.approx(far_mm, abs=2e-3)
        assert each.least_mm == pytest.approx(far_mm, abs=2e-3)
    freed = apart(a, b, there.moved((1e-3 - min(far_mm, 0.0)) * found.way))
    assert freed.most_mm > 0.0
