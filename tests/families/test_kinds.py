"""The packaged families differ in kind, not only in size; their tables as literals."""

from __future__ import annotations

import pytest

from model3d.families.reading import find_family, read_family
from model3d.families.rules import move_sum

from .variants import NAMES

FAMILIES = {name: read_family(find_family(name)) for name in NAMES}

CLIP_FACES = {
    "a-square": {
        "valve": "back", "link": "front", "elbow-long": "none", "elbow-short": "back", "return": "front",
        "coupler": "front", "turn-back": "front",
    },
    "b-moulded": {
        "valve": "front", "link": "back", "elbow-long": "none", "elbow-short": "front", "return": "back",
        "coupler": "back", "turn-back": "back",
    },
    "c-low": {"valve": "front", "link": "front", "return": "back", "coupler": "back", "turn-back": "front"},
}  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
def test_each_family_has_a_clip_face_table_of_its_own(name: str) -> None:
    """The clip-face tables of the three families, entry by entry; no two are alike."""
    assert dict(FAMILIES[name].clip_faces) == CLIP_FACES[name]
    assert sum(dict(f.clip_faces) == CLIP_FACES[name] for f in FAMILIES.values()) == 1


def test_waterways_differ_in_kind() -> None:
    """Obround waterways in (a), round ones in (b) and (c); three stand-offs, three depths of section."""
    shapes = [f.section.waterways[0].width_mm == f.section.waterways[0].height_mm for f in FAMILIES.values()]
    assert shapes == [False, True, True]
    assert len({f.section.stand_off_mm for f in FAMILIES.values()}) == 3
    assert len({f.section.depth_mm for f in FAMILIES.values()}) == 3


def test_locking_differs_in_kind() -> None:
    """(a) and (c) lock by one nib and one tab, (b) by two of each, its tabs at heights of their own."""
    assert [len(f.nib.heights_mm) for f in FAMILIES.values()] == [1, 2, 1]
    assert [len(f.clip.tab.heights_mm) for f in FAMILIES.values()] == [1, 2, 1]
    assert FAMILIES["b-moulded"].clip.tab.heights_mm != FAMILIES["b-moulded"].nib.heights_mm


def test_corners_differ_in_kind() -> None:
    """(a) and (b) take elbows at internal corners; (c) has no elbow and takes a link at every corner."""
    assert [f.corner_joints.internal for f in FAMILIES.values()] == ["elbow", "elbow", "link"]
    assert [f.elbow is not None for f in FAMILIES.values()] == [True, True, False]
    assert [f.inline_joint for f in FAMILIES.values()] == ["link", "coupler", "link"]


def test_screw_access_differs_in_kind() -> None:
    """Screws face up in (a) and (b), toward the room in (c)."""
    assert [f.link.screw_access for f in FAMILIES.values()] == ["above", "above", "front"]


def test_stock_output_and_moves_differ() -> None:
    """Stock lengths, rated output and the order of moves onto a link are each family's own."""
    assert len({f.stock_lengths_mm for f in FAMILIES.values()}) == 3
    assert len({f.rated_output.at_50_k_w_per_m for f in FAMILIES.values()}) == 3
    assert [leg.leg for leg in FAMILIES["a-square"].moves.link] == ["offer", "engage", "raise", "press"]
    assert [leg.leg for leg in FAMILIES["c-low"].moves.link] == ["offer", "raise", "engage", "press"]
    assert FAMILIES["c-low"].approaches.any[0].approach == "above"


@pytest.mark.parametrize(
    ("text", "value"),
    [("d", 26.0), ("-l", -5.0), ("d - 15", 11.0), ("p+142", 150.0), ("-12.5", -12.5), (" 0 ", 0.0), ("d-p+l-1", 22.0)],
)
def test_a_move_is_a_sum_of_terms(text: str, value: float) -> None:
    """A place of a move is a sum of millimetres and of d, p, l."""
    assert move_sum(text, {"d": 26.0, "p": 8.0, "l": 5.0}) == value


@pytest.mark.parametrize("text", ["", "d p", "2d", "x", "d--p", "d +"])
def test_what_is_no_sum_is_refused(text: str) -> None:
    """Anything else is refused."""
    with pytest.raises(ValueError, match="sum"):
        move_sum(text, {"d": 26.0, "p": 8.0, "l": 5.0})
