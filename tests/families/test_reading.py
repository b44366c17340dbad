"""Families found and read: by name, by path, and every fault with its line and key."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from model3d.families.family import Family
from model3d.families.reading import UnknownFamily, find_family, known_families, profiles_folder, read_family
from model3d.sources import FaultyFile, json_schema

from .variants import NAMES, changed, plain


@pytest.mark.parametrize("name", NAMES)
def test_the_packaged_families_are_read_by_name(name: str) -> None:
    """Each packaged family is found by its name, which is its id and its file's name."""
    path = find_family(name)
    assert path.parent == profiles_folder()
    assert read_family(path).id == name == path.stem


def test_the_known_families() -> None:
    """The known families are those of the profiles folder, in order."""
    assert known_families() == NAMES


def test_a_family_file_of_ones_own_is_read_by_its_path(tmp_path: Path) -> None:
    """A path, absolute or from the plan's folder, leads to a file of one's own; a packaged name goes before a file of
    that name."""
    own = tmp_path / "mine" / "own.yaml"
    own.parent.mkdir()
    text = find_family("b-moulded").read_text(encoding="utf-8")
    own.write_text(text.replace("id: b-moulded", "id: my-own"), encoding="utf-8", newline="\n")
    assert find_family("mine/own.yaml", tmp_path) == own
    assert find_family(str(own)) == own
    assert find_family(str(own), tmp_path / "elsewhere") == own
    assert read_family(find_family("own.yaml", own.parent)).id == "my-own"
    shutil.copy(own, own.with_name("a-square"))
    assert find_family("a-square", own.parent) == profiles_folder() / "a-square.yaml"


def test_an_unknown_family_is_refused_with_the_known_ones(tmp_path: Path) -> None:
    """An unknown name is refused with the known names and the nearest; a path that leads nowhere is named."""
    with pytest.raises(UnknownFamily) as refused:
        find_family("a-sqare", tmp_path)
    assert str(refused.value) == (
        "unknown family 'a-sqare'; did you mean 'a-square'? (known: a-square, b-moulded, c-low; or give a file's path)"
    )
    with pytest.raises(UnknownFamily, match=r"there is no family file at .*nowhere.yaml"):
        find_family("nowhere.yaml", tmp_path)


def faults(tmp_path: Path, find: str, replace: str, name: str = "a-square") -> list[tuple[int, str, str]]:
    """Line, key and message of every fault when a text of a family's file is replaced."""
    text = find_family(name).read_text(encoding="utf-8")
    assert text.count(find) == 1
    path = tmp_path / "own.yaml"
    path.write_text(text.replace(find, replace), encoding="utf-8", newline="\n")
    with pytest.raises(FaultyFile) as refused:
        read_family(path)
    assert all(fault.file == path for fault in refused.value.faults)
    return [(fault.line, fault.key, fault.message) for fault in refused.value.faults]


def line_of(text: str, name: str = "a-square") -> int:
    """The line of a packaged family's file that holds a text."""
    lines = find_family(name).read_text(encoding="utf-8").splitlines()
    return next(i for i, line in enumerate(lines, start=1) if text in line)


FORM = (
    ("  stub_mm: 20\n  long", "  stub: 20\n  long", "elbow.stub", "unknown key 'stub'; did you mean 'stub_mm'?"),
    ("  lift_mm: 5", "  lift_mm: 5 kg", "bracket.lift_mm", "unknown unit 'kg'"),
    ("  lift_mm: 5", "  lift_mm: -5", "bracket.lift_mm", "must be more than 0, not -5"),
    ("  play_deg: 2", "  play_deg: two", "elbow.play_deg", "must be a number, not the text 'two'"),
    ("access: above", "access: below", "link.screw_access", "must be above or front, not the text 'below'"),
    ("clip_faces: {valve: back", "clip_faces: {valve: bak", "clip_faces.valve", "must be front or back or none"),
    ("clip_faces: {valve: back", "clip_faces: {valv: back", "clip_faces.valv", "must be valve or link or elbow-long"),
    ("  coupler: [half-gap]", "  coupler: [half-gop]", "allowances.coupler[1]", "did you mean 'half-gap'?"),
    ('to: ["d", "p", "0"]', 'to: ["q", "p", "0"]', "moves.elbow-short[2].to[1]", "'q' is not a sum of millimetres"),
    ("per_k: 23.4e-6", "per_k: 23.4", "material.expansion_per_k", "must be less than 0.0001, not 23.4"),
    ("  press_mm: 8", "  press_mm: 8\n  press_mm: 9", "bracket.press_mm", "the key 'press_mm' is given twice"),
)


@pytest.mark.parametrize(("find", "replace", "key", "says"), FORM)
def test_a_fault_of_form_has_its_line_and_key(find: str, replace: str, key: str, says: str, tmp_path: Path) -> None:
    """A wrong key, unit, type, word, sum or a key given twice is one fault, with the line and the key it stands at."""
    found = faults(tmp_path, find, replace)
    named = [f for f in found if f[1] == key]
    assert len(named) == 1, found
    assert says in named[0][2]
    first = find.splitlines()[0]
    assert named[0][0] == line_of(first) + (1 if "press_mm: 9" in replace else 0)


def test_a_sum_that_fails_has_its_line_and_key(tmp_path: Path) -> None:
    """A family whose push-home does not meet its slide is refused at the stub's line, the sum written out."""
    text = "  stub_mm: 20\n  long_leg_mm: 54\n  short_leg_mm: 44"
    found = faults(tmp_path, text, "  stub_mm: 12\n  long_leg_mm: 46\n  short_leg_mm: 36")
    assert (
        line_of("  stub_mm: 20"),
        "elbow.stub_mm",
        "push-home: the slide needs 26.0 - 17.0 + 7.5 = 16.5 mm but the stub allows 12.0 - 2.0 = 10.0 mm",
    ) in found


def test_lengths_may_be_written_with_a_unit(tmp_path: Path) -> None:
    """A length of a family may be written out in another unit and means the same."""
    text = find_family("a-square").read_text(encoding="utf-8")
    own = tmp_path / "own.yaml"
    own.write_text(text.replace("  height_mm: 140\n", "  height_mm: 14 cm\n"), encoding="utf-8", newline="\n")
    assert read_family(own).section.height_mm == 140.0


@pytest.mark.parametrize("name", NAMES)
def test_the_json_schema_takes_the_packaged_families(name: str) -> None:
    """The JSON Schema made from the models takes each packaged family's file as it stands."""
    jsonschema.validate(plain(name), json_schema(Family), cls=jsonschema.Draft202012Validator)


@pytest.mark.parametrize(
    "changes",
    [
        {"elbow.stub": 20},
        {"bracket.lift_mm": -5},
        {"clip_faces.link": "forward"},
        {"version": 2},
        {"nib.heights_mm": []},
    ],
)
def test_the_json_schema_refuses_what_the_reader_refuses(changes: dict[str, Any]) -> None:
    """An unknown key, a negative size, a word that is none of the words, another version: the schema refuses them
    too."""
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(changed("a-square", changes), json_schema(Family), cls=jsonschema.Draft202012Validator)
