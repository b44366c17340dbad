"""Whole sheets: parts lists, looks, files."""

from __future__ import annotations

import io
import re

import pytest
from PIL import Image

from model3d.illustrations.draw import SUBJECTS, Format, illustration, written
from model3d.illustrations.marks import balloon_radius_mm
from model3d.illustrations.picture import Job, Picture
from model3d.illustrations.sheet import COLOURS, Area, Disc, Sheet, Stroke, Words, shade
from model3d.illustrations.subjects.exploded import exploded_corner, exploded_piece
from model3d.illustrations.subjects.pairs import pair
from model3d.illustrations.subjects.placing import UnknownSubject, joint_of
from model3d.themes import Theme, find_theme, read_theme


def balloons(sheet: Sheet, theme: Theme) -> list[int]:
    """The numbers in the balloons of a sheet, its parts list's own among them."""
    radius = balloon_radius_mm(theme)
    rims = [m.centre for m in sheet.marks if isinstance(m, Disc) and m.radius == radius and m.edge_colour == "callout"]
    words = [m for m in sheet.marks if isinstance(m, Words) and m.size == "balloon" and m.text.isdigit()]
    assert len(rims) == len(words)
    return [int(m.text) for m in words]


@pytest.fixture(scope="module")
def corner_sheet(job: Job, theme: Theme) -> Sheet:
    """The first elbow corner, exploded."""
    return illustration(job, "exploded", joint_of(job, "A-J1").mark, theme)


def test_every_number_stands_in_the_list_and_on_the_drawing(corner_sheet: Sheet, theme: Theme) -> None:
    """Every reference stands in the parts list and the other way round (ISO 6433, from memory)."""
    numbers = balloons(corner_sheet, theme)
    listed = [one.number for one in corner_sheet.listed]
    assert listed == list(range(1, len(listed) + 1))
    on_drawing = list(numbers)
    for number in listed:
        on_drawing.remove(number)  # its own line of the list
    assert set(on_drawing) == set(listed)


def test_like_parts_share_one_number(job: Job) -> None:
    """Parts of one shape share a line of the list, and no shape has two (ISO 6433, from memory)."""
    for picture in (exploded_corner(job, "A-J1"), exploded_piece(job, "A-1")):
        items = picture.panels[0].setting.items
        specs = [{job.scene.part(i).spec for place in item.places for i in place} for item in items]
        assert all(len(kind) == 1 for kind in specs)
        assert len(set.union(*specs)) == len(items)
        assert shown_ids(picture) == {i for item in items for place in item.places for i in place}


def shown_ids(picture: Picture) -> set[str]:
    """Ids of all parts that a picture shows."""
    return {one.body.owner for panel in picture.panels for one in panel.setting.shown}


def test_a_joint_s_parts_are_all_there(job: Job) -> None:
    """An exploded elbow corner shows two elbows, their bridge, eight O-rings, one clip and two pieces."""
    items = exploded_corner(job, "A-J1").panels[0].setting.items
    roles = {job.scene.part(item.places[0][0]).role: item.count for item in items}
    assert roles == {"piece": 1, "clip": 1, "elbow": 2, "bridge": 1, "o-ring": 8}
    assert sum(item.count for item in items) == 14


def test_without_labels_the_same_drawing_has_no_words(job: Job, theme: Theme) -> None:
    """For exercises the drawing has no word, number or verdict; its strokes are as many."""
    with_words, without = (illustration(job, "pair", "clip-face", theme, labels=yes) for yes in (True, False))
    assert not any(isinstance(m, Words) for m in without.marks)
    assert not any(isinstance(m, Area) and m.fill in ("right", "wrong") for m in without.marks)
    assert any(isinstance(m, Words) and m.text == "Wrong" for m in with_words.marks)
    assert any(isinstance(m, Stroke) and m.weight == "thick" for m in without.marks)


def test_a_wrong_clip_is_turned_over_not_mirrored(job: Job) -> None:
    """The two clips of the pair are one part, turned half round about the run."""
    right, wrong = (p.setting.shown[1].body.placement for p in pair(job, "clip-face").panels)
    assert right.x_axis == wrong.x_axis
    assert wrong.y_axis == pytest.approx([-v for v in right.y_axis])
    assert wrong.z_axis == pytest.approx([-v for v in right.z_axis])


def test_elbows_not_pushed_home_reach_into_the_wall(job: Job) -> None:
    """Home, the elbows clear the far wall; not pushed home, they stand in it by the push-home's difference."""
    right, wrong = (p.caption for p in pair(job, "push-home").panels)
    clear = float(re.findall(r"([\d.]+) mm clear of the wall", right)[0])
    into = float(re.findall(r"([\d.]+) mm into the wall", wrong)[0])
    home = float(re.findall(r"home \(([\d.]+) mm\)", right)[0])
    assert clear + into == pytest.approx(home, abs=0.11)


@pytest.mark.parametrize("name", ["colour", "print"])
def test_a_set_made_with_one_theme_matches(job: Job, name: str) -> None:
    """Only the theme's colours and line widths stand in a file made with it."""
    look = read_theme(find_theme(name))
    text = written(illustration(job, "pair", "grease", look), look, "svg").decode()
    drawing = re.sub(r"<style>.*?</style>", "", text)
    assert set(re.findall(r"#[0-9A-Fa-f]{6}", drawing)) <= {shade(look, colour) for colour in COLOURS}
    widths = {float(w) for w in re.findall(r'stroke-width="([\d.]+)"', drawing)}
    assert widths <= {look.lines.thick, look.lines.medium, look.lines.thin}
    assert {look.lines.thick, look.lines.medium} <= widths


def test_the_same_sheet_gives_the_same_bytes(job: Job, theme: Theme) -> None:
    """SVG, PDF and PNG of one subject, drawn twice, are the same byte for byte, and each is what it says."""
    one, other = (illustration(job, "part", "A-1/clip-start", theme) for _ in range(2))
    heads: tuple[tuple[Format, bytes], ...] = (("svg", b"<svg"), ("pdf", b"%PDF"), ("png", b"\x89PNG"))
    for form, head in heads:
        first, second = (written(s, theme, form) for s in (one, other))
        assert first == second
        assert first.startswith(head)
    with Image.open(io.BytesIO(written(one, theme, "png", dots_per_inch=127))) as image:
        assert image.size[0] == pytest.approx(one.size[0] * 5.0, abs=1.0)


def test_an_unknown_subject_is_named_with_those_there_are(job: Job, theme: Theme) -> None:
    """A part, step, corner, view or pair that is not there is refused with what there is."""
    for kind in SUBJECTS:
        with pytest.raises(UnknownSubject, match=r"there are|such as"):
            illustration(job, kind, "nothing", theme)
