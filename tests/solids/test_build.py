"""The registry: every kind has a maker, each distinct spec is built once, refusals are typed."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import get_args

import pytest

from model3d.geometry.outline import polygon
from model3d.parts.kinds import Spec
from model3d.parts.profile import PieceSpec
from model3d.solids.build import MAKERS, solid
from model3d.solids.sound import SolidError, one_solid, shells_in, solids_in

from .square_edged import CLIP, ELBOW, piece_spec, section
from .square_fittings import BRIDGE, COUPLER, COUPLER_BRIDGE, ORING, SPIGOT, hose_spec

FITTINGS = (
    piece_spec(1234.5), CLIP, ELBOW, BRIDGE, COUPLER_BRIDGE, ORING, SPIGOT, COUPLER, hose_spec(90.0), hose_spec(-45.0)
)


def test_every_kind_of_part_has_a_maker() -> None:
    """Whatever kind of spec there is, there is a function that makes its solid, and no other."""
    assert set(MAKERS) == set(get_args(Spec))


def test_a_spec_is_built_once_and_shared() -> None:
    """Two equal specs give the very same solid; another spec another one."""
    assert solid(piece_spec(777.0)) is solid(piece_spec(777.0))
    assert solid(piece_spec(777.0)) is not solid(piece_spec(777.05))


@pytest.mark.parametrize(
    ("spec", "volume_mm3"),
    [(spec, spec.volume_mm3) for spec in FITTINGS],
    ids=[type(spec).__name__ for spec in FITTINGS],
)
def test_every_fitting_is_one_closed_valid_solid(spec: Spec, volume_mm3: float) -> None:
    """Each kind is exactly one valid closed solid with metal in it, its volume the closed form."""
    made = solid(spec)
    assert len(solids_in(made.wrapped)) == 1
    assert all(shell.Closed() for shell in shells_in(made.wrapped))
    assert made.isValid()
    assert made.Volume() == pytest.approx(volume_mm3, rel=1e-4)


def test_what_is_no_part_is_refused_by_name() -> None:
    """A value that is no part has no maker and says so."""
    with pytest.raises(SolidError, match="no maker for int"):
        solid(5)  # type: ignore[arg-type]


def test_what_the_kernel_refuses_is_a_typed_error() -> None:
    """Numbers that the kernel itself refuses come out as a solid's error that names the kind."""
    nowhere = replace(section(), outline=polygon((0.0, 0.0), (5.0, 0.0), (5.0, 0.0), (5.0, 5.0)))
    with pytest.raises(SolidError, match="PieceSpec"):
        solid(PieceSpec(length_mm=100.0, section=nowhere))


def test_an_inside_out_solid_is_refused() -> None:
    """A solid whose faces look inward holds less than nothing: refused."""
    inside_out = solid(piece_spec(100.0)).wrapped.Reversed()
    with pytest.raises(SolidError, match="volume"):
        one_solid(inside_out, "piece")


def test_an_open_shell_is_no_solid() -> None:
    """A lone face is no solid."""
    with pytest.raises(SolidError, match="one solid expected, 0 found"):
        one_solid(solid(ORING).Faces()[0], "ring")


def test_a_turn_is_not_the_same_shape_as_its_mirror() -> None:
    """A hose that turns left is another shape than one that turns right, as large."""
    left, right = solid(hose_spec(90.0)), solid(hose_spec(-90.0))
    assert left is not right
    assert math.isclose(left.Volume(), right.Volume(), rel_tol=1e-6)
    assert left.Center().y == pytest.approx(-right.Center().y, abs=1e-3)
