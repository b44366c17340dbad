"""The shape of a clamped elastic hose against closed forms (Euler's elastica) and symmetry."""

from __future__ import annotations

import itertools
import math

import pytest
from scipy.optimize import brentq
from scipy.special import ellipe, ellipk

from model3d.geometry.placement import Vec3
from model3d.thermal import bent_hose as bent_hose_module
from model3d.thermal.bent_hose import NoShape, bent_hose


def clamped_in_line(length_mm: float, apart_mm: float) -> float:
    """Least radius of an elastica clamped in line: apart / length = 2 E(k)/K(k) - 1, greatest curvature 8
    k K(k) / length.
    """
    k = brentq(lambda x: 2 * ellipe(x * x) / ellipk(x * x) - 1 - apart_mm / length_mm, 1e-6, 0.9)
    return float(length_mm / (8 * k * ellipk(k * k)))


@pytest.mark.parametrize("apart_mm", [83.0, 80.0, 77.0, 74.0, 60.0, 45.0])
def test_in_line(apart_mm: float) -> None:
    """In line, the least radius is that of the elastica with four quarter waves (elliptic integrals)."""
    assert bent_hose(84.0, (apart_mm, 0.0, 0.0), 0.0).least_radius_mm == pytest.approx(
        clamped_in_line(84.0, apart_mm), rel=1e-3
    )


@pytest.mark.parametrize("turn_deg", [-120.0, -90.0, -30.0, 45.0, 90.0])
def test_a_free_arc(turn_deg: float) -> None:
    """Where the ends stand as on a circular arc of the hose's length, it takes that arc."""
    turn = math.radians(turn_deg)
    radius = 84.0 / abs(turn)
    end = (radius * abs(math.sin(turn)), math.copysign(radius * (1 - math.cos(turn)), turn), 0.0)
    assert bent_hose(84.0, end, turn_deg).least_radius_mm == pytest.approx(radius, rel=1e-4)


@pytest.mark.parametrize(
    ("end", "turn_deg"),
    [((48.58, -48.58, 0.0), -90.0), ((69.75, 28.89, 0.0), 45.0), ((56.6, -48.6, -5.0), -90.0)],
)
def test_length_and_ends(end: Vec3, turn_deg: float) -> None:
    """The hose keeps its length, ends where it is held, and leaves and arrives in the directions it is
    held in.
    """
    points = bent_hose(84.0, end, turn_deg).points_mm
    assert points[-1] == pytest.approx(end, abs=1e-4)
    length = sum(math.dist(a, b) for a, b in itertools.pairwise(points))
    assert length == pytest.approx(84.0, rel=1e-3)
    turn = math.radians(turn_deg)
    out = [b - a for a, b in zip(points[-2], points[-1], strict=True)]
    assert math.atan2(out[1], out[0]) == pytest.approx(turn, abs=0.04)
    assert math.atan2(points[1][1], points[1][0]) == pytest.approx(0.0, abs=0.04)


def test_alike_in_every_direction() -> None:
    """A hose in line bends alike whether its end is set aside by 8 mm or down by 8 mm, and mirrored with
    its turn.
    """
    aside, down = bent_hose(84.0, (80.0, 8.0, 0.0), 0.0), bent_hose(84.0, (80.0, 0.0, -8.0), 0.0)
    left, right = bent_hose(84.0, (48.6, 48.6, 0.0), 90.0), bent_hose(84.0, (48.6, -48.6, 0.0), -90.0)
    assert left.least_radius_mm == pytest.approx(right.least_radius_mm, rel=1e-9)
    assert aside.least_radius_mm == pytest.approx(down.least_radius_mm, rel=0.05)


def test_a_hose_too_short_has_no_shape() -> None:
    """Ends further apart than the hose is long are refused with both figures."""
    with pytest.raises(NoShape, match=r"84 mm does not reach over 85\.0 mm"):
        bent_hose(84.0, (85.0, 0.0, 0.0), 0.0)


def test_that_there_is_no_shape_is_found_out_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Ends between which no shape is found are tried once; asked again, the same is said at once."""
    asked: list[tuple[object, ...]] = []

    def none(*what: object) -> None:
        asked.append(what)
        raise NoShape("no such shape")

    monkeypatch.setattr(bent_hose_module, "_shape", none)
    for _ in range(3):
        with pytest.raises(NoShape, match="no such shape"):
            bent_hose(84.0, (11.5, 12.25, 0.0), 33.0)
    assert len(asked) == 1
