"""The engine on pairs whose overlap is known, from every side; and wrong engines on the same."""

from __future__ import annotations

import math
from functools import cache

import cadquery as cq
import pytest

from model3d.checks.engine import Body, Clash, Tolerance, clashes
from model3d.geometry.placement import Placement, Vec3
from tests.checks.known_answers import CASES, Answer, Case
from tests.checks.wrong_engines import WRONG

FAR = Placement(
    origin_mm=(60_000.0, -41_234.567, 8_000.0),
    x_axis=(0.36, 0.48, -0.8),
    y_axis=(-0.8, 0.6, 0.0),
    z_axis=(0.48, 0.64, 0.6),
)
POSES = {"as drawn": Placement(), "turned, 60 m away": FAR}
NAMED = pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)


@cache
def solids(name: str) -> tuple[cq.Solid, cq.Solid]:
    """The two solids of a case, built once."""
    case = next(c for c in CASES if c.name == name)
    return case.a(), case.b()


def found(case: Case, pose: Placement, *, turned: bool = False) -> Clash | None:
    """What the engine says of a case somewhere, one way round or the other."""
    a, b = solids(case.name)
    bodies = [
        Body(id="a", shape_key="a", placement=pose @ case.a_at),
        Body(id="b", shape_key="b", placement=pose @ case.b_at),
    ]
    listed = bodies[::-1] if turned else bodies
    met = list(clashes(listed, {"a": a, "b": b}, allowed_mm=lambda _a, _b: 0.0, tolerance=Tolerance()))
    assert len(met) <= 1
    return met[0] if met else None


def right_volume(volume_mm3: float, answer: Answer) -> bool:
    """Whether a volume is the answer, within a thousandth of it."""
    return math.isclose(volume_mm3, answer.volume_mm3, rel_tol=1e-3, abs_tol=1e-6)


@pytest.mark.parametrize(("pose", "turned"), [("as drawn", False), ("turned, 60 m away", True)])
@NAMED
def test_the_overlap_is_the_known_one(case: Case, pose: str, turned: bool) -> None:
    """Volume, depth and place of an overlap are those of geometry, wherever the pair stands and whichever
    comes first; contact is none.
    """
    met = found(case, POSES[pose], turned=turned)
    if case.answer.volume_mm3 == 0.0:
        assert met is None
        return
    assert met is not None
    assert right_volume(met.overlap.volume_mm3, case.answer), met.overlap
    assert met.overlap.depth_mm == pytest.approx(case.answer.depth_mm, abs=case.answer.deep_to_mm)
    assert met.overlap.exact
    if case.answer.place_mm is not None:
        want: Vec3 = POSES[pose].point(case.answer.place_mm)
        assert met.place_mm == pytest.approx(want, abs=max(0.02, 2 * case.answer.deep_to_mm))


@cache
def wrong_volume(name: str, wrong: str, pose: str) -> float:
    """What a wrong engine says of a case."""
    case, (a, b) = next(c for c in CASES if c.name == name), solids(name)
    return WRONG[wrong](a, POSES[pose] @ case.a_at, b, POSES[pose] @ case.b_at)


@NAMED
def test_a_wrong_engine_is_seen(case: Case) -> None:
    """Every known answer is missed by an engine that is wrong in a known way: it shares a volume where there
    is none, none where there is, or another.
    """
    said = [wrong_volume(case.name, wrong, "as drawn") for wrong in WRONG]
    said.append(wrong_volume(case.name, "boxes only", "turned, 60 m away"))
    assert any(not right_volume(volume, case.answer) for volume in said)


@pytest.mark.parametrize("wrong", WRONG)
def test_each_wrong_engine_misses_some(wrong: str) -> None:
    """Each way of being wrong is caught by several: boxes for bodies, surfaces that must cross, a mesh for a
    curve, corners for edges.
    """
    missed = [c.name for c in CASES if not right_volume(wrong_volume(c.name, wrong, "as drawn"), c.answer)]
    assert len(missed) >= 3, missed
