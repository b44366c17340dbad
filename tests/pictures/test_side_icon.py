"""The side view of a clip: which way its tabs stand."""

from __future__ import annotations

import numpy as np
import pytest

from model3d.pictures.markup import element
from model3d.pictures.overlay import rasterised
from model3d.pictures.paper import Box
from model3d.pictures.side_icon import side_icon
from model3d.pictures.staging.side_view import side_view
from model3d.pictures.theme import THEME, rgb
from tests.layout.every_joint import FAMILIES, family_of

BOX = Box(left=10, top=10, width=80, height=120)


@pytest.mark.parametrize("name", FAMILIES)
@pytest.mark.parametrize("face", ["F", "B"])
def test_tabs_stand_toward_the_wall_or_the_room(name: str, face: str) -> None:
    """In the side view the wall is on the left; the clip's colour reaches from its plate to the right for FRONT, to the
    left for BACK, never to both sides.
    """
    view = side_view(family_of(name))
    drawn = side_icon(view, "F" if face == "F" else "B", BOX, THEME)
    page = element("svg", drawn, xmlns="http://www.w3.org/2000/svg", width=100, height=140, viewBox="0 0 100 140")
    pixels = rasterised(page)[:, :, :3] / 255
    fill = THEME.surfaces["clip-front" if face == "F" else "clip-back"].fill
    columns = (np.abs(pixels - np.array(rgb(fill))).max(axis=2) < 0.1).sum(axis=0)
    used = np.nonzero(columns)[0]
    plate = np.nonzero(columns > 0.6 * columns.max())[0]
    left, right = plate[0] - used[0], used[-1] - plate[-1]
    assert (right > 8 and left < 3) if face == "F" else (left > 8 and right < 3)


@pytest.mark.parametrize("name", FAMILIES)
def test_the_side_view_is_the_family_s_section(name: str) -> None:
    """Outline, plate and tabs are those of the family where they stand before the wall."""
    family = family_of(name)
    view = side_view(family)
    section = family.section
    u, v = np.array(view.outline).T
    assert (u.min(), u.max()) == pytest.approx((section.stand_off_mm, section.front_u_mm))
    assert (v.min(), v.max()) == pytest.approx((section.floor_gap_mm, section.floor_gap_mm + section.height_mm))
    middle = section.bore_u_mm
    assert all(tab[0] >= middle for tab in view.front_tabs)
    assert all(tab[0] + tab[2] <= middle for tab in view.back_tabs)
    assert len(view.front_tabs) == len(family.clip.tab.heights_mm)
