"""Solids of pieces as they were cut follow the layout with its cuts."""

from __future__ import annotations

from dataclasses import replace

import pytest

from model3d.as_cut import with_cuts
from model3d.confirm import confirm_project
from model3d.families.family import Family
from model3d.layout import lay_out
from model3d.scene import compose
from tests.as_cut.test_cutting import COUPLER, LINK, plan


@pytest.mark.parametrize(
    ("cuts", "joints"),
    [({"r-2": 3490.0}, None), ({"r-2": 1382.0}, LINK), ({"r-2": 1440.0}, COUPLER)],
)
def test_solids_of_cut_pieces(
    family_a: Family, cuts: dict[str, float], joints: dict[str, list[tuple[float, str]]] | None
) -> None:
    """Pieces cut otherwise are built so: cut faces, insertions and what is left of the elbows' stubs are those of the
    layout with its cuts, and are not those of the layout without.
    """
    made = plan(cuts, joints=joints)
    laid = lay_out(made, family_a)
    cut = with_cuts(made, laid, family_a).layout
    scene = compose(made.room, cut, family_a)
    assert confirm_project(made.room, cut, scene) == ()
    wrong = {f.code for f in confirm_project(made.room, replace(laid, findings=cut.findings), scene)}
    assert "cut-face-off" in wrong
