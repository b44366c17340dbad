"""The adjustment against published readings and against other ways to the same numbers."""

from __future__ import annotations

import math
import random

import numpy as np
import pytest
from scipy.optimize import least_squares

from model3d.survey import AngleReading, LengthReading, NotFixed, Reading, adjust, survey
from model3d.survey.network import misfits, slopes

from . import chance

SQUARE = [(0.0, 0.0), (4000.0, 0.0), (4000.0, 3000.0), (0.0, 3000.0)]


def test_trilateration_from_three_known_points() -> None:
    """Ghilani and Wolf, Adjustment Computations, the trilateration example: from A (865.40, 4527.15), B (2432.55,
    2047.25) and C (2865.22, 27.15) the lengths 6049.00, 4736.83 and 5446.49 put U at (6861.32, 3727.82), with
    residuals -.037, .077, -.047 (readings from memory, and so read in a university's exercise; result from memory and
    computed with SciPy alone).
    """
    known = [(865.40, 4527.15), (2432.55, 2047.25), (2865.22, 27.15)]
    read: list[Reading] = [
        LengthReading(name=n, first=i, second=3, value_mm=v, sigma_mm=1.0)
        for i, (n, v) in enumerate({"AU": 6049.00, "BU": 4736.83, "CU": 5446.49}.items())
    ]
    found = adjust([*known, (6900.0, 3600.0)], read, held=frozenset(range(6)))
    assert found.points[3] == pytest.approx((6861.32, 3727.82), abs=0.005)
    assert found.misfit == pytest.approx((-0.037, 0.077, -0.047), abs=0.0006)
    assert found.redundancy == 1


def test_angles_of_a_plane_triangle() -> None:
    """Mikhail and Ackermann, Observations and Least Squares, example 7.1: angles 40 19 02, 70 30 01 and 69 11 00 are
    3 seconds over 180 degrees, and each is corrected by -1 second; each has a redundancy number of 1/3.
    """
    read = [40 + 19 / 60 + 2 / 3600, 70 + 30 / 60 + 1 / 3600, 69 + 11 / 60]
    side = 1000.0
    third = side * math.sin(math.radians(read[1])) / math.sin(math.radians(read[2]))
    start = [
        (0.0, 0.0),
        (side, 0.0),
        (third * math.cos(math.radians(read[0])), third * math.sin(math.radians(read[0]))),
    ]
    readings: list[Reading] = [
        AngleReading(name=f"angle {i}", corner=i, toward=(i + 1) % 3, back=(i + 2) % 3, value_deg=v, sigma_deg=1 / 3600)
        for i, v in enumerate(read)
    ]
    base = LengthReading(name="base", first=0, second=1, value_mm=side, sigma_mm=1.0)
    report = survey(start, [*readings, base])
    assert report.angle_misclosure_deg == pytest.approx(3 / 3600, abs=1e-9)
    assert [r.residual * 3600 for r in report.readings[:3]] == pytest.approx([-1.0] * 3, abs=1e-6)
    assert [r.redundancy for r in report.readings[:3]] == pytest.approx([1 / 3] * 3, abs=1e-9)
    assert report.squares == pytest.approx(3.0, abs=1e-6)
    assert report.readings[3].unchecked


BRACED = {(0, 1): 1341.785, (0, 2): 2775.364, (0, 3): 2167.437, (1, 2): 1937.887, (1, 3): 2173.715, (2, 3): 1511.014}


def test_braced_quadrilateral_by_its_one_condition() -> None:
    """The six lengths of a braced quadrilateral meet one condition, that the tetrahedron on them has no volume
    (Cayley and Menger); corrected along that condition alone they are the adjusted lengths. Readings: Zaki, El Kady
    and Ahmed, A new treatment for the adjustment of trilateration networks, ISPRS congress 1992, Part B3.
    """
    lengths = np.array(list(BRACED.values()))
    adjusted = lengths
    for _ in range(20):
        off, by = _volume(adjusted), _volume_slopes(adjusted)
        adjusted = lengths - by * (off + by @ (lengths - adjusted)) / (by @ by)
    base, far = BRACED[0, 1], BRACED[0, 2]
    along = (base**2 + far**2 - BRACED[1, 2] ** 2) / (2 * base)
    last = (base**2 + BRACED[0, 3] ** 2 - BRACED[1, 3] ** 2) / (2 * base)
    start = [
        (0.0, 0.0),
        (base, 0.0),
        (along, math.sqrt(far**2 - along**2)),
        (last, math.sqrt(BRACED[0, 3] ** 2 - last**2)),
    ]
    read: list[Reading] = [
        LengthReading(name=f"{i}-{j}", first=i, second=j, value_mm=v, sigma_mm=1.0) for (i, j), v in BRACED.items()
    ]
    report = survey(start, read)
    assert [r.adjusted for r in report.readings] == pytest.approx(list(adjusted), abs=1e-6)
    assert max(abs(r.residual) for r in report.readings) == pytest.approx(0.0062, abs=0.0001)
    assert report.redundancy == 1


def _volume(lengths: np.ndarray) -> float:
    """The Cayley-Menger determinant of the six lengths."""
    d = dict(zip(BRACED, lengths**2, strict=True))
    rows = [[0.0, 1, 1, 1, 1]]
    rows += [[1.0, *(0.0 if i == j else d[min(i, j), max(i, j)] for j in range(4))] for i in range(4)]
    return float(np.linalg.det(np.array(rows)) / 1e15)


def _volume_slopes(lengths: np.ndarray) -> np.ndarray:
    steps = np.eye(6) * 1e-3
    return np.array([(_volume(lengths + s) - _volume(lengths - s)) / 2e-3 for s in steps])


def test_slopes_are_the_misfits_differences() -> None:
    """The derivatives of lengths and angles are what small steps of the corners give."""
    rng = random.Random(3)
    points = np.array(chance.skew_room(rng))
    readings = chance.faultless(rng, [(float(x), float(y)) for x, y in points])
    exact = slopes(points, readings)
    for k in range(points.size):
        step = np.zeros(points.size)
        step[k] = 1e-3
        by = step.reshape(-1, 2)
        differences = (misfits(points + by, readings) - misfits(points - by, readings)) / 2e-3
        assert exact[:, k] == pytest.approx(differences, abs=1e-6)


@pytest.mark.parametrize("seed", range(5))
def test_no_other_corners_fit_better(seed: int) -> None:
    """The adjusted corners are where a general minimiser, given no derivatives, ends too."""
    rng = random.Random(seed)
    room = chance.skew_room(rng)
    readings = chance.with_errors(rng, chance.faultless(rng, room))
    report = survey(chance.roughly(rng, room), readings)

    def cost(unknown: np.ndarray) -> np.ndarray:
        points = np.array([0.0, 0.0, unknown[0], 0.0, *unknown[1:]]).reshape(-1, 2)
        return misfits(points, readings)

    first = [room[1][0], *(v for p in room[2:] for v in p)]
    other = least_squares(cost, first, xtol=1e-14, ftol=1e-14, gtol=1e-14)
    assert [v for p in report.points[2:] for v in p] == pytest.approx(list(other.x[1:]), abs=1e-3)
    assert report.squares == pytest.approx(float(other.fun @ other.fun), rel=1e-6)


def test_faultless_readings_give_the_room_back() -> None:
    """Readings without errors give the very room, no residuals and no misclosure, from corners 50 mm off."""
    rng = random.Random(11)
    for _ in range(20):
        room = chance.skew_room(rng)
        report = survey(chance.roughly(rng, room), chance.faultless(rng, room))
        for corner, true in zip(report.points, room, strict=True):
            assert corner == pytest.approx(true, abs=1e-5)
        assert report.squares < 1e-9
        assert report.gap_mm < 1e-5
        assert report.suspicion is None


def test_a_corner_left_free_is_named() -> None:
    """Walls alone do not fix a room of four corners: those that can move are said."""
    with pytest.raises(NotFixed) as refused:
        survey(SQUARE, [chance.wall(SQUARE, i) for i in range(4)])
    assert set(refused.value.corners) == {2, 3}


def test_misclosure_of_walls_and_angles() -> None:
    """Walls at square corners, the first read 6 mm long, end 6 mm from where they began; it and the wall over from it
    share that.
    """
    walls: list[Reading] = [chance.wall(SQUARE, i) for i in range(4)]
    angles: list[Reading] = [chance.angle(SQUARE, i, sigma_deg=1e-4) for i in range(4)]
    report = survey(SQUARE, [chance.shifted(walls[0], 6.0), *walls[1:], *angles])
    assert report.misclosure_mm == pytest.approx((6.0, 0.0), abs=1e-6)
    assert report.angle_misclosure_deg == pytest.approx(0.0, abs=1e-9)
    assert report.walls[0].length_mm == pytest.approx(4003.0, abs=0.01)
