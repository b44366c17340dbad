"""Which face every clip goes on: literals for every kind of end, in all three families and both senses of a run.

The tables are the rule of the reference families (family (a)'s is common practice, no source).
"""

from __future__ import annotations

import pytest

from model3d.families.family import Family
from model3d.layout import Layout, lay_out

from .every_joint import FAMILIES, EndFitting, every_joint_plan, family_of

# One line a piece, in the run's order: what joins its near end and the face of the clip there, then its far end.
FACES: dict[tuple[str, int], list[str]] = {
    ("a-square", 1): [
        "valve back, link front",
        "link front, elbow-long none",
        "elbow-short back, elbow-long none",
        "elbow-short back, coupler front",
        "coupler front, link front",
        "link front, elbow-long none",
        "elbow-short back, link front",
        "link front, link front",
        "link front, return front",
    ],
    ("a-square", -1): [
        "valve back, link front",
        "link front, link front",
        "link front, elbow-long none",
        "elbow-short back, link front",
        "link front, coupler front",
        "coupler front, elbow-long none",
        "elbow-short back, elbow-long none",
        "elbow-short back, link front",
        "link front, return front",
    ],
    ("b-moulded", 1): [
        "valve front, link back",
        "link back, elbow-long none",
        "elbow-short front, elbow-long none",
        "elbow-short front, coupler back",
        "coupler back, link back",
        "link back, elbow-long none",
        "elbow-short front, link back",
        "link back, link back",
        "link back, return back",
    ],
    ("b-moulded", -1): [
        "valve front, link back",
        "link back, link back",
        "link back, elbow-long none",
        "elbow-short front, link back",
        "link back, coupler back",
        "coupler back, elbow-long none",
        "elbow-short front, elbow-long none",
        "elbow-short front, link back",
        "link back, return back",
    ],
    ("c-low", 1): [
        "valve front, link front",
        "link front, link front",
        "link front, link front",
        "link front, coupler back",
        "coupler back, link front",
        "link front, link front",
        "link front, link front",
        "link front, link front",
        "link front, return back",
    ],
    ("c-low", -1): [
        "valve front, link front",
        "link front, link front",
        "link front, link front",
        "link front, link front",
        "link front, coupler back",
        "coupler back, link front",
        "link front, link front",
        "link front, link front",
        "link front, return back",
    ],
}
LAST_TURNED_BACK = {
    "a-square": "link front, turn-back front",
    "b-moulded": "link back, turn-back back",
    "c-low": "link front, turn-back front",
}
DRY = "none none, none none"
WAYS = [(name, sense) for name in FAMILIES for sense in (1, -1)]
ENTRIES = [(name, entry) for name in FAMILIES for entry in family_of(name).clip_faces]


def faces(layout: Layout) -> list[str]:
    """The joints and clip faces of every piece, in the form of the table above."""
    return [f"{p.start.joint} {p.start.clip}, {p.end.joint} {p.end.clip}" for p in layout.pieces]


def faces_of(family: Family, sense: int, end_fitting: EndFitting = "return") -> list[str]:
    """The same of the run that meets every joint."""
    return faces(lay_out(every_joint_plan(sense, end_fitting), family))


def expected(name: str, sense: int, end_fitting: EndFitting = "return") -> list[str]:
    """What they must be."""
    run = FACES[name, sense]
    return [*run, DRY] if end_fitting == "return" else [*run[:-1], LAST_TURNED_BACK[name], DRY]


@pytest.mark.parametrize("end_fitting", ["return", "turn-back"])
@pytest.mark.parametrize(("name", "sense"), WAYS)
def test_clip_faces(name: str, sense: int, end_fitting: EndFitting) -> None:
    """Every end of every piece takes the clip face its family's table gives it, whichever way the run goes."""
    assert faces_of(family_of(name), sense, end_fitting) == expected(name, sense, end_fitting)


@pytest.mark.parametrize("name", FAMILIES)
def test_every_kind_of_end_is_there(name: str) -> None:
    """The run meets every kind of end that the family's table names, and the dry piece none of them."""
    rows = expected(name, 1, "return") + expected(name, 1, "turn-back")
    met = {side.split()[0] for row in rows for side in row.split(", ")}
    assert met == {*family_of(name).clip_faces, "none"}


@pytest.mark.parametrize(("name", "entry"), ENTRIES)
@pytest.mark.parametrize("sense", [1, -1])
def test_any_changed_entry_of_a_table_is_seen(name: str, entry: str, sense: int) -> None:
    """Whichever one entry of a family's table of clip faces is changed, to any other face, the comparison fails."""
    family = family_of(name)
    for face in {"front", "back", "none"} - {family.clip_faces[entry]}:
        changed = family.model_copy(update={"clip_faces": {**family.clip_faces, entry: face}})
        same = all(faces_of(changed, sense, end) == expected(name, sense, end) for end in ("return", "turn-back"))
        assert not same


def test_a_piece_between_corners_by_the_rule_of_thumb() -> None:
    """Family (a): between two internal corners one clip, at the start, back; from internal to external back then
    front; between two externals two, both front.
    """
    rows = [row for sense in (1, -1) for row in FACES["a-square", sense]]
    assert "elbow-short back, elbow-long none" in rows
    assert "elbow-short back, link front" in rows
    assert "link front, link front" in rows
