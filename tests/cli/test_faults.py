"""Bad input: every fault of a plan at once, each with its line and key; files that are none."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.cli.running import PLAN, changed, dryfit, written

TEN = """\
version: 1
family: b-mouldd
room:
  corners: [[0, 0], [4000, 0], [4000, 3000], [2000, -500]]
  height: 2.4 mtr
  colour: red
openings:
  - {id: door, kind: door, wall: w1, at: 3500, width: 800}
  - {id: door, kind: window, wall: w2, at: 300, width: -900}
water: {flow: 40, return: 45}
runs:
  - {id: A, start: w1, end: w7}
  - {id: B, start: w2, end: w2, return_fixed: maybe}
"""
FOUND = [
    (2, "family", "unknown family 'b-mouldd'; did you mean 'b-moulded'?"),
    (4, "room.corners[3]", "crosses itself"),
    (5, "room.height", "unknown unit 'mtr'"),
    (6, "room.colour", "unknown key 'colour'"),
    (8, "openings[door].at", "off wall w1"),
    (9, "openings[door].id", "given twice"),
    (9, "openings[door].width", "more than 0, not -900"),
    (10, "water.flow", "goes out at 40 cannot come back at 45"),
    (12, "runs[A].end", "no wall 'w7'"),
    (13, "runs[B].return_fixed", "true or false"),
]
LINE = re.compile(r"(?P<file>.*plan\.yaml):(?P<line>\d+):\d+: (?P<key>\S+): (?P<said>.+)")


@pytest.mark.parametrize("verb", ["layout", "check", "build"])
def test_ten_faults_at_once(tmp_path: Path, verb: str) -> None:
    """A plan with ten faults (an unknown key, a wrong type, a bad unit, a duplicate id, an unknown family, a room that
    crosses itself, an opening off its wall, a run on a missing wall, an impossible temperature, a negative size) gives
    a message for each, with file, line and key, in one go, and leaves with 2.
    """
    plan = written(tmp_path, TEN)
    result = dryfit(verb, plan, *(["--out", tmp_path / "out"] if verb == "build" else []))
    assert (result.exit_code, result.stdout) == (2, "")
    lines = [LINE.fullmatch(line) for line in result.stderr.splitlines()]
    assert all(line is not None and line["file"] == str(plan) for line in lines)
    assert [(int(m["line"]), m["key"]) for m in lines if m is not None] == [(n, key) for n, key, _ in FOUND]
    for match, (_, _, said) in zip(lines, FOUND, strict=True):
        assert match is not None
        assert said in match["said"]
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("fault", FOUND, ids=[key for _, key, _ in FOUND])
def test_each_of_the_ten_is_named_by_its_line(fault: tuple[int, str, str]) -> None:
    """The lines that the messages name are the lines of the faults."""
    number, key, _ = fault
    last = key.split(".")[-1].split("[")[0]
    assert last in TEN.splitlines()[number - 1]


def test_a_syntax_error_stands_alone(tmp_path: Path) -> None:
    """A file that is not YAML is one fault, with its line, whatever else is wrong with it."""
    plan = written(tmp_path, TEN.replace("height: 2.4 mtr", "height: [2.4"))
    result = dryfit("layout", plan)
    (line,) = result.stderr.splitlines()
    assert result.exit_code == 2
    assert re.match(rf"{re.escape(str(plan))}:[67]:\d+: YAML syntax: ", line)


@pytest.mark.parametrize("verb", ["layout", "check"])
def test_no_file_and_no_folder(tmp_path: Path, verb: str) -> None:
    """A plan that is not there, a folder, an empty file and one that is no text are each refused in one line."""
    (tmp_path / "picture.png").write_bytes(b"\x89PNG\x00\xff\xfe")
    written(tmp_path, "", "empty.yaml")
    for name, said in (
        ("none.yaml", "cannot be read"),
        (".", "cannot be read"),
        ("empty.yaml", "is empty"),
        ("picture.png", "is not UTF-8 text"),
    ):
        result = dryfit(verb, tmp_path / name)
        assert (result.exit_code, result.stdout) == (2, "")
        (line,) = result.stderr.splitlines()
        assert str(tmp_path / name) in line
        assert said in line


def test_a_faulty_family_is_named_with_its_own_file(tmp_path: Path) -> None:
    """A fault in a family file of one's own names that file and its line."""
    family = written(tmp_path, "version: 1\nid: mine\nname: Mine\ncolour: blue\n", "mine.yaml")
    result = dryfit("layout", changed(tmp_path, "family: a-square", "family: mine.yaml"))
    assert result.exit_code == 2
    assert f"{family}:4:1: colour: unknown key 'colour'" in result.stderr
    assert "plan.yaml" not in result.stderr


# What a hurried person writes, and what must be said of it: line, key, words.
HURRIED = {
    "a decimal comma": ("at: 3150", "at: '3,15 m'", 6, "openings[door].at", "decimals take a point, not a comma"),
    "a decimal comma in a corner": ("[4200, 0]", "[4,2 m, 0]", 4, "room.corners[2]", "decimals take a point"),
    "a unit spelt out": ("at: 200", "at: 200 millimeters", 9, "runs[A].start.at", "did you mean 'mm'?"),
    "a number as text": ("at: 200", "at: '200'", 9, "runs[A].start.at", "text without a unit"),
    "a door past its wall": ("at: 3150", "at: 3950", 6, "openings[door].at", "from 3950.0 to 4750.0 is off wall w1"),
    "a run over a doorway": ("at: 2900", "at: 3200", 8, "runs[A]", "goes over the doorway of 'door' on wall w1"),
    "a misspelt key": ("openings:", "openning:", 5, "openning", "did you mean 'openings'?"),
    "a misspelt kind": ("kind: door", "kind: dor", 6, "openings[door].kind", "did you mean 'door'?"),
    "a misspelt family": ("a-square", "a-sqare", 2, "family", "did you mean 'a-square'?"),
    "a wall in capitals": ("{wall: w2", "{wall: W2", 9, "runs[A].start.wall", "did you mean 'w2'?"),
    "a tab": ("    start", "\tstart", 9, "YAML syntax", "tab"),
    "a colon forgotten": ("family: a-square", "family a-square", 3, "YAML syntax", "':'"),
}


@pytest.mark.parametrize("name", HURRIED)
def test_what_a_hurried_person_writes(tmp_path: Path, name: str) -> None:
    """A slip of the pen is answered in one line that says where it is and what to write."""
    old, new, line, key, said = HURRIED[name]
    plan = changed(tmp_path, old, new)
    result = dryfit("layout", plan)
    (told,) = result.stderr.splitlines()
    assert result.exit_code == 2
    assert told.startswith(f"{plan}:{line}:")
    assert f": {key}: " in told
    assert said in told


def test_metres_without_their_unit(tmp_path: Path) -> None:
    """A room in metres without units is told that lengths are millimetres."""
    text = PLAN.replace("4200", "4.2").replace("3400", "3.4")
    result = dryfit("layout", written(tmp_path, text))
    assert result.exit_code == 2
    assert "off wall w1, which is 4.2 long; lengths are millimetres, metres are written out" in result.stderr


def test_lengths_with_their_units(tmp_path: Path) -> None:
    """3.15m, 315 cm and 3150 are one length."""
    plain = dryfit("layout", written(tmp_path)).stdout
    for at in ("3.15m", "3.15 m", "315 cm", "3150 mm", "3150.0"):
        assert dryfit("layout", changed(tmp_path, "at: 3150", f"at: {at}")).stdout == plain


def test_a_wall_mismeasured(tmp_path: Path) -> None:
    """A room given by walls, one of them 12 mm wrong, is refused with the 12 mm and the walls that may be wrong."""
    walls = f"walls: [{', '.join(f'{{length: {length}, turn: 90}}' for length in (4200, 3412, 4200, 3400))}]"
    plan = changed(tmp_path, "corners: [[0, 0], [4200, 0], [4200, 3400], [0, 3400]]", walls)
    result = dryfit("layout", plan)
    (told,) = result.stderr.splitlines()
    assert result.exit_code == 2
    assert told.startswith(f"{plan}:4:")
    for words in ("do not close", "12.0 mm", "measure again w2 and w4"):
        assert words in told
    plan.write_text(plan.read_text(encoding="utf-8").replace("3412", "3401"), encoding="utf-8")
    assert dryfit("layout", plan).exit_code == 0
