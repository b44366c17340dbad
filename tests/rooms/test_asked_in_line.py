"""In-line joints that a plan asks for, held against what the family offers."""

from __future__ import annotations

from pathlib import Path

import pytest

from model3d.families.reading import find_family
from model3d.rooms.read_plan import plan_of
from model3d.sources import Fault, FaultyFile

PLAN = """\
version: 1
family: own.yaml
room: {corners: [[0, 0], [7000, 0], [7000, 3000], [0, 3000]]}
runs:
  - id: A
    start: w4
    end: w2
    joints: [{wall: w1, at: 2000, use: link}, {wall: w1, at: 4000, use: coupler}]
"""


def faults_with(tmp_path: Path, offered: str) -> tuple[Fault, ...]:
    """The faults of the plan when its family offers these joints in line."""
    text = find_family("a-square").read_text(encoding="utf-8")
    assert "in_line: [link, coupler]" in text
    changed = text.replace("in_line: [link, coupler]", f"in_line: {offered}").replace(
        "inline_joint: link", f"inline_joint: {offered.strip('[]').split(', ')[0]}"
    )
    (tmp_path / "own.yaml").write_text(changed, encoding="utf-8", newline="\n")
    try:
        plan_of(PLAN, tmp_path / "plan.yaml", find_family=find_family)
    except FaultyFile as error:
        return error.faults
    return ()


@pytest.mark.parametrize(("offered", "number", "use"), [("[link]", 2, "coupler"), ("[coupler]", 1, "link")])
def test_a_joint_that_the_family_does_not_offer_is_refused(tmp_path: Path, offered: str, number: int, use: str) -> None:
    """A joint asked for within a wall that the family does not offer there is a fault with file, line and key."""
    (fault,) = faults_with(tmp_path, offered)
    assert (fault.file, fault.line, fault.key) == (tmp_path / "plan.yaml", 8, f"runs[A].joints[{number}].use")
    assert fault.message == f"family a-square joins pieces in line by {offered.strip('[]')}, not by {use}"


def test_a_joint_that_the_family_offers_is_taken(tmp_path: Path) -> None:
    """What the family offers may be asked for."""
    assert faults_with(tmp_path, "[link, coupler]") == ()
