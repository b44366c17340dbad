"""YAML to plain values with their places."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from model3d.sources import FaultyFile, MarkedList, MarkedMap, read_source, source_of

FILE = Path("plan.yaml")
TRAPS = [
    "no",
    "on",
    "Yes",
    "off",
    "y",
    "1:30",
    "012",
    "0o17",
    "0x1f",
    "1_000",
    ".inf",
    ".nan",
    "2024-01-31",
    "TRUE",
]


@pytest.mark.parametrize("written", TRAPS)
def test_a_trap_of_yaml_1_1_stays_text(written: str) -> None:
    """Only true, false and plain decimal numbers are typed: all else that YAML would turn stays text."""
    assert source_of(f"key: {written}", FILE).data["key"] == written


def test_the_traps_are_traps() -> None:
    """The common YAML loader turns nearly all of these words into something other than their text."""
    caught = [word for word in TRAPS if yaml.safe_load(f"key: {word}")["key"] != word]
    assert set(TRAPS) - set(caught) == {"y", "0o17"}


@pytest.mark.parametrize(
    ("written", "value"),
    [
        ("true", True), ("false", False), ("0", 0), ("-12", -12), ("+3", 3), ("2.50", 2.5), (".5", 0.5),
        ("1e3", 1000.0),
        ("'12'", "12"), ('"true"', "true"), ("", None), ("~", None), ("null", None), ("10' 6\"", "10' 6\""),
        ("3.2 m", "3.2 m"), ("1.2.3", "1.2.3"),
    ],
)  # fmt: skip
def test_plain_scalars_are_what_they_look_like(written: str, value: object) -> None:
    """Decimal numbers are numbers, what is quoted is text, and nothing is nothing."""
    got = source_of(f"key: {written}", FILE).data["key"]
    assert got == value
    assert type(got) is type(value)


@given(st.one_of(st.integers(-(10**15), 10**15), st.floats(allow_nan=False, allow_infinity=False)))
def test_numbers_survive_the_way_out_and_back(number: float) -> None:
    """A number as Python writes it is read back as itself."""
    assert source_of(f"key: {number!r}", FILE).data["key"] == number


def test_every_value_knows_its_place() -> None:
    """Each key and value has its line and column, from 1, and the way to it: entries by id, else number."""
    data = source_of("a: 1\nlist:\n  - {id: door-1, width: 800}\n  - [5, 6]\n", FILE).data
    assert isinstance(data, MarkedMap)
    listed = data["list"]
    assert isinstance(listed, MarkedList)
    width = listed[0].values_at["width"]
    assert (width.line, width.column, width.key) == (3, 25, "list[door-1].width")
    key = listed[0].keys_at["width"]
    assert (key.line, key.column) == (3, 18)
    six = listed[1].entries_at[1]
    assert (six.line, six.column, six.key) == (4, 9, "list[2][2]")


def test_an_entry_taken_out_leaves_the_numbers_of_the_others() -> None:
    """A list that lacks an entry still knows how many stood in the file, and where the others did."""
    listed = source_of("- 1\n- 2\n- 3\n", FILE).data.without(0)
    assert (tuple(listed), listed.numbers, listed.total) == ((2, 3), (1, 2), 3)
    assert [place.line for place in listed.entries_at] == [2, 3]


def test_an_anchor_stands_for_what_it_marks() -> None:
    """Anchors are followed."""
    data = source_of("a: &size {width: 5}\nb: *size\n", FILE).data
    assert data["b"] == {"width": 5}


FAULTS = {
    "a: 1\nb: 2\na: 3\n": (3, 1, "a", "given twice (first on line 1)"),
    "a: !!python/name:os.system x\n": (1, 4, "a", "tags such as !!python/name:os.system"),
    "a: !mine 5\n": (1, 4, "a", "tags such as !mine"),
    "a: &loop [1, *loop]\n": (1, 4, "a[2]", "holds itself"),
    "? [1, 2]\n: 5\n": (1, 3, "", "a key must be one word"),
}


@pytest.mark.parametrize(("text", "expected"), FAULTS.items())
def test_what_yaml_allows_and_a_plan_does_not_is_a_fault(text: str, expected: tuple[int, int, str, str]) -> None:
    """A key given twice, a tag, and an anchor inside itself are faults with their line, column and key."""
    (fault,) = source_of(text, FILE).faults
    assert (fault.line, fault.column, fault.key) == expected[:3]
    assert expected[3] in fault.message


def test_the_first_of_two_like_keys_counts() -> None:
    """Of a key that is given twice the first is kept, so that the rest can still be checked."""
    assert source_of("a: 1\na: 3\n", FILE).data == {"a": 1}


BROKEN = {
    "a: [1, 2\nb: 3\n": (2, "YAML syntax"),
    "a: 'x\n": (2, "YAML syntax"),
    "a: 1\n\tb: 2\n": (2, "tab"),
    "a: 1\n---\nb: 2\n": (2, "more than one document"),
    "a: *nothing\n": (1, "undefined alias"),
    "a: 1\n b: 2\n": (2, "YAML syntax"),
    "a: \x07\n": (0, "not YAML"),
    "": (0, "is empty"),
    "# only a note\n": (0, "is empty"),
}


@pytest.mark.parametrize(("text", "expected"), BROKEN.items())
def test_a_yaml_syntax_error_stands_alone(text: str, expected: tuple[int, str]) -> None:
    """What is not YAML is one fault, with its line where there is one."""
    with pytest.raises(FaultyFile) as caught:
        source_of(text, FILE)
    (fault,) = caught.value.faults
    assert fault.line == expected[0]
    assert expected[1] in fault.message


def test_a_flood_of_anchors_is_refused() -> None:
    """A file that unfolds to more than a plan can hold is refused before it fills the memory."""
    lines = ["a0: &a0 [1, 1, 1, 1, 1, 1, 1, 1, 1, 1]"]
    lines += [f"a{i}: &a{i} [{', '.join([f'*a{i - 1}'] * 10)}]" for i in range(1, 9)]
    with pytest.raises(FaultyFile, match="holds too much"):
        source_of("\n".join(lines), FILE)


def test_a_file_that_cannot_be_read_is_a_fault(tmp_path: Path) -> None:
    """A file that is not there, or is not UTF-8, is a faulty file and not a crash."""
    with pytest.raises(FaultyFile, match="cannot be read"):
        read_source(tmp_path / "none.yaml")
    latin = tmp_path / "latin.yaml"
    latin.write_bytes("name: Gang f\u00fcr G\u00e4ste\n".encode("latin-1"))
    with pytest.raises(FaultyFile, match="not UTF-8"):
        read_source(latin)


def test_a_byte_order_mark_is_passed_over(tmp_path: Path) -> None:
    """A file that an editor saved with a byte order mark reads like any other."""
    marked = tmp_path / "marked.yaml"
    marked.write_bytes(b"\xef\xbb\xbfa: 1\n")
    assert read_source(marked).data == {"a": 1}
