"""The gallery's rooms: clean ones have no finding of moves; in the faulty one each planted mistake is found, and what
is said of it frees it.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from model3d.build.checking import check_project
from model3d.build.project import load
from model3d.findings import Finding
from model3d.moves import check_moves

GALLERY = Path(__file__).parents[2] / "gallery"
FAULTY = (GALLERY / "faulty" / "plan.yaml").read_text(encoding="utf-8")


@cache
def found_in(text: str, folder: Path) -> tuple[Finding, ...]:
    """What a check says of a plan's text."""
    path = folder / "plan.yaml"
    path.write_text(text, encoding="utf-8", newline="\n")
    return check_project(load(path))


def said(findings: tuple[Finding, ...], code: str) -> str:
    """The remedy of the one finding of a code."""
    (found,) = (f for f in findings if f.code == code)
    return found.remedy


def changed(text: str, old: str, new: str) -> str:
    """The plan with one figure or word changed."""
    assert text.count(old) == 1
    return text.replace(old, new)


def figure(text: str, pattern: str) -> float:
    """The figure in a remedy."""
    found = re.search(pattern, text)
    assert found is not None, text
    return float(found.group(1))


@pytest.mark.slow
@pytest.mark.parametrize("room", ["l-room", "bay", "surveyed"])
def test_clean_rooms_have_no_finding_of_moves(room: str) -> None:
    """Every step of a clean room goes, with an approach that is free."""
    project = load(GALLERY / room / "plan.yaml")
    verdicts, findings = check_moves(project.layout, project.scene, project.steps, project.family)
    assert findings == ()
    assert len(verdicts) > 4
    assert all(v.free for v in verdicts)


@pytest.mark.slow
def test_the_planted_mistakes_and_no_other(tmp_path: Path) -> None:
    """The faulty room has the three planted errors and nothing else."""
    findings = found_in(FAULTY, tmp_path)
    assert {(f.severity, f.code, f.parts[0], f.parts[1]) for f in findings} == {
        ("error", "door-leaf-on-run", "A-1/valve-end", "room/door/swing"),
        ("error", "obstacle-in-run", "A-3/piece", "room/riser"),
        ("error", "move-blocked", "A-4/return-end", "room/w4"),
    }
    assert len(findings) == 3


@pytest.mark.slow
def test_each_remedy_frees(tmp_path: Path) -> None:
    """With the riser moved as far as is said, the run's end set back to where is said and the door stopped, hung or
    opened as is said, the plan is clean; with any one of the three left out, that one is found and no other.
    """
    findings = found_in(FAULTY, tmp_path)
    door = said(findings, "door-leaf-on-run")
    stop = figure(door, r"[Ss]top the door at (\d+) degrees")
    ways = [("opens: 175", f"opens: {stop:g}")]
    ways += [("hinge: left", "hinge: right")] if "hang it on its right side" in door else []
    ways += [("swing: in", "swing: out")] if "let it open out of the room" in door else []
    assert len(ways) == door.count("; or ") + 1 == 3
    riser = said(findings, "obstacle-in-run")
    off = 22.0 + figure(riser, r"^Move riser (\d+) mm out from the wall\.$")
    end = figure(said(findings, "move-blocked"), r"^End run A \d+ mm further back, at (\d+) on w3\.$")
    moved = changed(FAULTY, "off: 22", f"off: {off:g}")
    both = changed(moved, "at: 3998", f"at: {end:g}")
    for way in ways:
        assert found_in(changed(both, *way), tmp_path) == ()
    assert [f.code for f in found_in(both, tmp_path)] == ["door-leaf-on-run"]
    assert [f.code for f in found_in(changed(moved, *ways[0]), tmp_path)] == ["move-blocked"]
    left = changed(changed(FAULTY, "at: 3998", f"at: {end:g}"), *ways[0])
    assert [f.code for f in found_in(left, tmp_path)] == ["obstacle-in-run"]
