"""Corner sheets of a run that meets every joint, in each reference family."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image

from model3d.layout import lay_out
from model3d.pictures.corners.draw import corner_picture
from model3d.pictures.corners.judging import corner_faults
from model3d.pictures.corners.page import corner_page
from model3d.pictures.corners.staging import corner_sheet, why_link
from model3d.pictures.solids import placed
from model3d.pictures.staging.meshes import MeshLibrary
from model3d.pictures.theme import THEME
from model3d.scene import compose
from model3d.thermal import thermal_report
from tests.layout.every_joint import FAMILIES, every_joint_plan, family_of
from tests.pictures.corners.sheets import sheets


def test_in_line() -> None:
    """A joint in-line is at no corner and has no sheet."""
    family, plan = family_of("a-square"), every_joint_plan(1)
    layout = lay_out(plan, family)
    scene = compose(plan.room, layout, family)
    in_line = next(j for run in layout.runs for j in run.joints if j.corner is None)
    with pytest.raises(ValueError, match="in-line"):
        corner_sheet(family, layout, scene, in_line, thermal_report(plan, layout, family), MeshLibrary())


@pytest.mark.parametrize("sense", [1, -1])
@pytest.mark.parametrize("family", FAMILIES)
def test_labels(family: str, sense: int) -> None:
    """Every label of every corner is drawn, inside its picture, apart from the others, leaders uncrossed."""
    for sheet in sheets(family, sense):
        assert corner_faults(corner_page(sheet, THEME), THEME) == (), sheet.title


@pytest.mark.parametrize("sense", [1, -1])
@pytest.mark.parametrize("family", FAMILIES)
def test_dimensions(family: str, sense: int) -> None:
    """The allowances drawn are those of the layout, and the solids' cut faces stand at their ends."""
    layout = lay_out(every_joint_plan(sense), family_of(family))
    pieces = {p.mark: p for p in layout.pieces}
    for sheet in sheets(family, sense):
        for side, end in zip(sheet.sides, ("end", "start"), strict=True):
            piece = pieces[side.mark]
            laid = piece.end if end == "end" else piece.start
            assert side.allowance_mm == pytest.approx(laid.allowance_mm, abs=1e-6)
            body = next(s for s in placed(sheet.parts, sheet.meshes) if s.id == f"{side.mark}/piece")
            nearest = float(((body.vertices_mm - np.array(sheet.corner_mm)) @ np.array(side.along)).min())
            assert nearest == pytest.approx(side.allowance_mm, abs=0.01)


@pytest.mark.parametrize("family", ["a-square", "b-moulded"])
def test_insertion(family: str) -> None:
    """The mark of the cold state stands where the long leg of the placed elbow ends, measured from the cut face."""
    found = 0
    for sheet in sheets(family):
        if sheet.window is None:
            continue
        found += 1
        side = sheet.sides[0]
        cold = next(s.value_mm for s in sheet.window.states if s.name == "cold")
        elbow = next(s for s in placed(sheet.parts, sheet.meshes) if s.id.endswith("/elbow-upper"))
        deepest = float(((elbow.vertices_mm - np.array(side.face_mm)) @ np.array(side.along)).max())
        assert deepest == pytest.approx(cold, abs=0.01)
        assert all(state.right for state in sheet.window.states)
        assert sheet.window.least_mm < cold < sheet.window.most_mm
    assert found


def test_low_family() -> None:
    """In a family without elbows every corner shows its hose in every state, each within what is allowed."""
    for sheet in sheets("c-low"):
        assert sheet.window is None
        assert sheet.hoses is not None
        assert len(sheet.hoses.rows) >= 6
        assert all(right for *_, right in sheet.hoses.rows)


def test_parts_in_pictures() -> None:
    """What joins the pieces lies inside all three pictures."""
    for sheet in sheets("a-square"):
        page = corner_page(sheet, THEME)
        for picture in (page.from_room, page.above, page.section):
            for solid in picture.solids:
                if solid.look in ("fitting", "hose"):
                    pixels = [picture.pixel((v[0], v[1], v[2])) for v in solid.vertices_mm[::5]]
                    frame = picture.frame
                    assert all(frame.left <= x <= frame.right and frame.top <= y <= frame.bottom for x, y in pixels)


def test_same_bytes() -> None:
    """The same sheet gives the same PNG of 1600 x 1000."""
    sheet = sheets("a-square")[0]
    first = corner_picture(sheet, THEME)
    assert first == corner_picture(sheet, THEME)
    with Image.open(io.BytesIO(first)) as image:
        assert image.size == (1600, 1000)


@pytest.mark.parametrize("sense", [1, -1])
@pytest.mark.parametrize("name", FAMILIES)
def test_why_a_link(name: str, sense: int) -> None:
    """Why an internal corner takes a link is said in the layout's own words where the language is its own."""
    family = family_of(name)
    joints = [j for run in lay_out(every_joint_plan(sense), family).runs for j in run.joints]
    links = [j for j in joints if j.kind == "link" and j.corner is not None and j.turn_deg > 0]
    assert links
    for joint in links:
        assert why_link(family, joint) == joint.reason
