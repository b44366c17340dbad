"""The dimensioned plan: well formed, whole, true to scale, nothing over anything, within the page."""

from __future__ import annotations

import itertools
import math
import re
from dataclasses import replace
from itertools import combinations
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model3d.build.project import Project, load
from model3d.drawings import plan_svg
from model3d.drawings.boxes import boxes_meet, within
from model3d.drawings.labels import Ink, Page
from model3d.drawings.plan_drawing import composed
from model3d.drawings.sheet import MARGIN_MM, choose_sheet
from model3d.families.reading import find_family
from model3d.layout import lay_out
from model3d.rooms.read_plan import plan_of as read_plan_of
from tests.layout.every_joint import FAMILIES, every_joint_plan, family_of
from tests.layout.random_rooms import rectilinear_points, skew_points
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over

GALLERY = Path(__file__).parents[2] / "gallery"
ROOMS = sorted(path.parent.name for path in GALLERY.glob("*/plan.yaml"))
SVG = "{http://www.w3.org/2000/svg}"
Points = list[tuple[float, float]]


@pytest.fixture(params=ROOMS)
def project(request: pytest.FixtureRequest) -> Project:
    """Each room of the gallery."""
    return load(GALLERY / request.param / "plan.yaml")


def drawn(project: Project) -> ElementTree.Element:
    """The plan of a room, parsed."""
    return ElementTree.fromstring(plan_svg(project.plan, project.layout, project.family))


def words_of(root: ElementTree.Element) -> list[str]:
    """All words on the page."""
    return [e.text or "" for e in root.iter(f"{SVG}text")]


def of_class(root: ElementTree.Element, css: str) -> list[ElementTree.Element]:
    """The elements of a class."""
    return [e for e in root.iter() if css in (e.get("class") or "").split()]


def points_of(element: ElementTree.Element) -> list[tuple[float, float]]:
    """The points of a path's data."""
    found = re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", element.get("d") or "")
    return [(float(x), float(y)) for x, y in found]


def scale_of(root: ElementTree.Element) -> int:
    """The scale as it is written on the page."""
    (written,) = [w for w in words_of(root) if w.startswith("Scale 1:")]
    return int(written.split()[1][2:])


def test_it_is_a_page_of_its_size(project: Project) -> None:
    """The plan is one SVG element, as large in millimetres as an A4 or A3 sheet, its unit the millimetre."""
    root = drawn(project)
    assert root.tag == f"{SVG}svg"
    size = (root.get("width"), root.get("height"))
    assert size in {("297mm", "210mm"), ("420mm", "297mm")}
    assert root.get("viewBox") == f"0 0 {size[0].removesuffix('mm')} {size[1].removesuffix('mm')}"
    assert f"on {'A4' if size[0] == '297mm' else 'A3'}" in " ".join(words_of(root))


def test_every_mark_and_every_length_is_there(project: Project) -> None:
    """Every piece's mark with its cut length, every wall's name with its length, and every name of a corner, an opening
    and an obstacle stand on the page, each once.
    """
    said = words_of(drawn(project))
    room = project.plan.room
    wanted = [f"{p.mark} {p.cut_length_mm:.1f}" for p in project.layout.pieces]
    wanted += [f"{w.id} {w.length_mm:.1f}".removesuffix(".0") for w in room.walls]
    wanted += [thing.id for thing in (*room.openings, *room.obstacles)]
    for words in wanted:
        assert said.count(words) == 1, words
    for corner in room.corners:
        assert sum(re.fullmatch(rf"{corner.id}( [\d.]+°)?", words) is not None for words in said) == 1


def test_clip_faces_and_ends_are_there(project: Project) -> None:
    """There is a letter for every clip, by its face, and one for what ends each run; the column explains each once."""
    root = drawn(project)
    ends = [e for p in project.layout.pieces for e in (p.start, p.end)]
    for face in ("front", "back"):
        squares = [e for e in of_class(root, face) if e.tag == f"{SVG}rect"]
        assert len(squares) == 1 + sum(e.clip == face for e in ends)
        letters = [e.text for e in of_class(root, f"on-{face}")]
        assert letters == [face[0].upper()] * len(squares)
    circles = [e for e in of_class(root, "end") if e.tag == f"{SVG}circle"]
    assert len(circles) == 3 + sum(e.joint in ("valve", "return", "turn-back") for e in ends)


def test_the_scale_is_true(project: Project) -> None:
    """The inner outline on paper, times the scale that is written there, is the room's: every wall as long as it is."""
    root = drawn(project)
    (walls, *_) = of_class(root, "wall")
    inner = points_of(walls)[len(project.plan.room.outer.walls) :]
    scale = scale_of(root)
    for wall, a, b in zip(project.plan.room.outer.walls, inner, [*inner[1:], inner[0]], strict=True):
        assert math.dist(a, b) * scale == pytest.approx(wall.length_mm, abs=0.002 * scale)


def test_pieces_stand_where_they_are(project: Project) -> None:
    """Each piece is a band as long as it is cut, to scale, heated ones filled."""
    root = drawn(project)
    scale = scale_of(root)
    for css, heated in (("piece", True), ("dry", False)):
        lengths = [math.dist(*points_of(e)[:2]) * scale for e in of_class(root, css)]
        pieces = [p for p in project.layout.pieces if p.heated is heated]
        assert lengths == pytest.approx([p.cut_length_mm for p in pieces], abs=0.002 * scale)


def test_nothing_leaves_the_page(project: Project) -> None:
    """Every point drawn is within the frame."""
    root = drawn(project)
    width, height = (float((root.get(side) or "").removesuffix("mm")) for side in ("width", "height"))
    points = [p for e in root.iter(f"{SVG}path") for p in points_of(e)]
    points += [(float(e.get("x") or 0), float(e.get("y") or 0)) for e in root.iter(f"{SVG}text")]
    assert len(points) > 100
    assert all(MARGIN_MM - 1e-6 <= x <= width - MARGIN_MM + 1e-6 for x, _ in points)
    assert all(MARGIN_MM - 1e-6 <= y <= height - MARGIN_MM + 1e-6 for _, y in points)
    page = composed(project.plan, project.layout, project.family)[1]
    assert all(within(box, page.area) for box in (*page.words, *page.lines))


def overlaps(page: Page) -> int:
    """How many pairs of figures, names and letters overlap."""
    return sum(boxes_meet(a, b) for a, b in combinations(page.words, 2))


def test_nothing_stands_over_anything(project: Project) -> None:
    """In the gallery's rooms no figure, name or letter stands over another, nor over a wall, a piece or an obstacle."""
    page = composed(project.plan, project.layout, project.family)[1]
    assert len(page.words) >= 20
    assert overlaps(page) == 0
    assert not any(boxes_meet(words, solid) for words in page.words for solid in page.solids)


@settings(max_examples=40)
@given(
    points=st.one_of(rectilinear_points(), skew_points()),
    sense=st.sampled_from([1, -1]),
    name=st.sampled_from(FAMILIES),
)
def test_nothing_stands_over_anything_in_any_room(points: Points, sense: int, name: str) -> None:
    """Nor does a figure, name or letter stand over another in any room, however many corners it has."""
    ring, count = ring_of(points), len(points)
    plan = plan_of(ring, run_over(ring, 1 if sense > 0 else count - 1, count - 1, sense=sense))
    layout = lay_out(plan, family_of(name))
    assert overlaps(composed(plan, layout, family_of(name))[1]) == 0


@pytest.mark.parametrize("sense", [1, -1])
@pytest.mark.parametrize("name", FAMILIES)
def test_every_joint_is_drawn(name: str, sense: int) -> None:
    """So it is for a run with every joint and a dry piece."""
    plan, family = every_joint_plan(sense), family_of(name)
    assert overlaps(composed(plan, lay_out(plan, family), family)[1]) == 0


def test_figures_at_one_place_are_seen_to_overlap() -> None:
    """Two figures put at one place do overlap: placing them is what keeps them apart."""
    project = load(GALLERY / "bay" / "plan.yaml")
    page = composed(project.plan, project.layout, project.family)[1]
    page.put(Ink(svg=(), words=(page.words[0],)))
    assert overlaps(page) == 1


@pytest.mark.parametrize(
    ("wide_mm", "deep_mm", "scale", "name"),
    [
        (3600.0, 3000.0, 20, "A4"),
        (5200.0, 4200.0, 20, "A3"),
        (7600.0, 6000.0, 25, "A3"),
        (9000.0, 7000.0, 50, "A4"),
        (18000.0, 12000.0, 100, "A4"),
        (30000.0, 24000.0, 100, "A3"),
    ],
)
def test_the_largest_scale_that_fits(wide_mm: float, deep_mm: float, scale: int, name: str) -> None:
    """The room is drawn at the largest standard scale that fits, on the smallest sheet that takes it so."""
    sheet = choose_sheet([(0.0, 0.0), (wide_mm, deep_mm)])
    assert (sheet.scale, sheet.name) == (scale, name)


def test_a_room_too_large_for_any_sheet_is_refused() -> None:
    """A hall of a hundred metres fits no sheet, and is refused with its size."""
    with pytest.raises(ValueError, match="100000 x 9000 mm"):
        choose_sheet([(0.0, 0.0), (100000.0, 9000.0)])


def test_names_are_written_out_safely() -> None:
    """A name with signs of XML in it stands on the page as it is."""
    ring = ring_of([(0.0, 0.0), (3600.0, 0.0), (3600.0, 3000.0), (0.0, 3000.0)])
    plan = plan_of(ring, run_over(ring, 4, 3))
    odd = replace(plan, name='Mum & Dad\'s <room> "2"')
    family = family_of("a-square")
    root = ElementTree.fromstring(plan_svg(odd, lay_out(odd, family), family))
    assert 'Mum & Dad\'s <room> "2"' in " ".join(words_of(root))
    assert "Mum & Dad's <room>" in (root.findtext(f"{SVG}title") or "")


def test_what_opens_is_drawn_to_scale() -> None:
    """A casement and a cupboard door are drawn open with the arc that they sweep, a drawer as it stands pulled out, all
    dashed; what stands above one another once.
    """
    text = """\
version: 1
family: a-square
room: {corners: [[0, 0], [4000, 0], [4000, 3000], [0, 3000]]}
openings:
  - {id: french, kind: window, wall: w3, at: 1000, width: 1200, swing: in, hinge: both}
obstacles:
  - {id: chest, kind: box, wall: w1, at: 1000, width: 900, depth: 400, height: 700,
     drawers: [{up: 50, height: 200, out: 300}, {up: 300, height: 200, out: 300}], doors: [{hinge: left, up: 500}]}
runs: [{id: A, start: {wall: w2, at: 500}, end: {wall: w2, at: 2500}}]
"""
    plan = read_plan_of(text, Path("plan.yaml"), find_family=find_family)
    family = family_of("a-square")
    root = ElementTree.fromstring(plan_svg(plan, lay_out(plan, family), family))
    scale = scale_of(root)
    shapes = [points_of(e) for e in of_class(root, "leaf")]
    (drawer,) = [s for s in shapes if len(s) == 4]
    lengths = [math.dist(a, b) * scale for a, b in itertools.pairwise(drawer)]
    assert lengths == pytest.approx([300.0, 900.0, 300.0], abs=0.01 * scale)
    radii = sorted(math.dist(s[0], s[-1]) * scale for s in shapes if len(s) > 4)
    assert radii == pytest.approx([600.0, 600.0, 900.0], abs=0.01 * scale)
    for leaf in (s for s in shapes if len(s) > 4):
        radius = math.dist(leaf[0], leaf[-1])
        assert [math.dist(p, leaf[-1]) for p in leaf[:-1]] == pytest.approx([radius] * (len(leaf) - 1), abs=0.01)
        assert math.dist(leaf[0], leaf[-2]) == pytest.approx(math.sqrt(2.0) * radius, abs=0.01)
