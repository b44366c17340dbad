"""Hoses whose later end is off its place."""

from __future__ import annotations

import math

import manifold3d
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model3d.families.specs import hose_spec
from model3d.parts.fittings import HoseSpec
from model3d.parts.hose_curve import hose_curve
from model3d.pictures.moving.bending import bent_line, line_length, tube
from tests.layout.every_joint import FAMILIES, family_of


def spec_of(name: str, turn_deg: float) -> HoseSpec:
    """The hose of a family for a turn, its straights as long as the hose allows."""
    link = family_of(name).link
    plan = link.hose_length_mm - link.slack_mm
    return hose_spec(family_of(name), turn_deg, (plan - link.arc_radius_mm * math.radians(abs(turn_deg))) / 2.0)


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("turn", [0.0, 45.0, -90.0])
def test_rest(family: str, turn: float) -> None:
    """With its end in place it lies as at rest."""
    spec = spec_of(family, turn)
    curve = hose_curve(spec)
    line = bent_line(spec, (0.0, 0.0, 0.0))
    rest = [curve.point(float(s)) for s in np.linspace(0.0, curve.plan_length_mm, len(line))]
    assert np.abs(line - np.array(rest)).max() < 0.05


@given(
    by=st.tuples(st.floats(-12.0, 0.0), st.floats(-9.0, 9.0), st.floats(-7.0, 0.0)),
    turn=st.sampled_from([0.0, 45.0, -45.0, 90.0, -90.0]),
)
def test_length_is_kept(by: tuple[float, float, float], turn: float) -> None:
    """However its end is held nearer, the hose's length stays, its first end too, and its last is where it is held."""
    spec = spec_of("a-square", turn)
    rest, line = bent_line(spec, (0.0, 0.0, 0.0)), bent_line(spec, by)
    assert np.abs(line[0] - rest[0]).max() < 1e-9
    assert np.abs(line[-1] - rest[-1] - np.array(by)).max() < 1e-9
    assert line_length(line) >= line_length(rest) - 0.01
    taut = float(np.linalg.norm(line[-1] - line[0]))
    if taut < 0.9 * line_length(rest):
        assert line_length(line) == pytest.approx(line_length(rest), rel=0.03)


def test_tube() -> None:
    """A tube is closed, and as full as its section times its length: round a quarter circle too (Pappus)."""
    angles = np.linspace(0.0, math.pi / 2, 60)
    line = np.column_stack([40.0 * np.sin(angles), 40.0 - 40.0 * np.cos(angles), np.zeros(60)])
    mesh = tube(line, 6.0)
    body = manifold3d.Manifold(manifold3d.Mesh64(mesh.vertices_mm, mesh.triangles.astype(np.uint64)))
    assert body.status() == manifold3d.Error.NoError
    polygon = 18 / 2 * 6.0**2 * math.sin(2 * math.pi / 18)
    assert body.volume() == pytest.approx(polygon * 40.0 * math.pi / 2, rel=0.01)
