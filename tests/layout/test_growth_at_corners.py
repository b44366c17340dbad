"""The room for growth at an internal corner: (b + D) tan(tau/2) + growth + 2 on each side of it.

Family (a): b + D = 28, so 30 and the growth of the pieces that are there; an elbow leaves 51. At 55 degrees, put in at
18, a metre grows 23.4e-6 x 1000 x 37 = .866.
"""

from __future__ import annotations

import pytest

from model3d.families.family import Family
from model3d.layout import Layout, lay_out
from model3d.layout.values import Piece

from .rooms_by_hand import plan_of, ring_of, run_over


def round_a_hall(family: Family, length_mm: float, joints: list[tuple[float, str]] | None = None) -> Layout:
    """A run over the end wall, the long wall and the other end wall of a hall."""
    ring = ring_of([(0.0, 0.0), (length_mm, 0.0), (length_mm, 3000.0), (0.0, 3000.0)])
    return lay_out(plan_of(ring, run_over(ring, 4, 3, joints={"w1": joints or []})), family)


def too_acute(layout: Layout) -> list[tuple[float | None, float | None]]:
    """What each corner leaves and needs where that is too little."""
    return [(f.measured, f.limit) for f in layout.findings if f.code == "corner-too-acute"]


def test_a_long_wall_of_many_pieces(family_a: Family) -> None:
    """On a wall of 42 m in pieces out of bars only the piece at the corner grows there, 4.3 at most: no corner is too
    narrow, though the wall's whole growth, 36.4, would be too much.
    """
    layout = round_a_hall(family_a, 42000.0)
    on_wall: list[Piece] = [p for p in layout.pieces if p.wall.id == "w1"]
    assert len(on_wall) == 9
    assert 51.0 - 30.0 < 23.4e-6 * 42000.0 * 37.0
    assert too_acute(layout) == []


def test_coupled_pieces_grow_as_one(family_a: Family) -> None:
    """Six pieces that couplers make one, 25378 in all, grow 22 to either corner: 30 + 22 is more than 51; the
    same pieces joined by links are free to grow.
    """
    places = [4500.0 * i for i in range(1, 6)]
    coupled = round_a_hall(family_a, 27000.0 - 1500.0, [(p, "coupler") for p in places])
    total = sum(p.cut_length_mm for p in coupled.pieces if p.wall.id == "w1")
    assert total == pytest.approx(25500.0 - 2 * 51.0 - 5 * 4.0)
    (first, second) = too_acute(coupled)
    assert first == second
    assert first[0] == pytest.approx(51.0)
    assert first[1] == pytest.approx(28.0 + 2.0 + 23.4e-6 * total * 37.0, abs=1e-3)
    assert too_acute(round_a_hall(family_a, 25500.0, [(p, "link") for p in places])) == []
