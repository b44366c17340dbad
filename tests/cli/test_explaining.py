"""The verbs that explain, and what every verb shows of growth, seals, water and cuts."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner, Result

from model3d.cli.explaining import app
from tests.cli.running import GALLERY, PLAN, written
from tests.why.pencil import printed_sums, wrong_sums

L_ROOM = GALLERY / "l-room" / "plan.yaml"
SMALL = (Path(__file__).parent / "small.yaml").read_text(encoding="utf-8")
MM_IN_TEXT = re.compile(r"\d mm\b(?!\))")


def dryfit(*arguments: str | Path) -> Result:
    """Run ``dryfit`` with these arguments in this process, the verbs that explain among its own."""
    return CliRunner().invoke(app, [str(a) for a in arguments])


def codes(findings: list[dict[str, Any]]) -> list[str]:
    """The codes of findings as data."""
    return [f["code"] for f in findings]


def figures_of(*arguments: str | Path) -> dict[str, Any]:
    """What a verb prints as JSON."""
    found = json.loads(dryfit(*arguments, "--json").stdout)
    assert isinstance(found, dict)
    return found


@pytest.mark.parametrize("subject", ["thermal", "seals", "water", "nesting"])
def test_figures_as_text_and_data(subject: str) -> None:
    """Every figure of a subject is printed with its sum and its rule, and is in the data with its value."""
    text = dryfit("figures", L_ROOM, subject).stdout
    groups = figures_of("figures", L_ROOM, subject)["figures"]
    assert groups
    for group in groups:
        assert group["title"] in text
        for figure in group["figures"]:
            assert f"  {figure['name']} = " in text
            assert figure["rule"] in text


@pytest.mark.parametrize("room", ["l-room", "bay", "faulty", "surveyed"])
@pytest.mark.parametrize("subject", ["thermal", "seals", "water", "nesting"])
def test_every_printed_figure_can_be_done_again(room: str, subject: str) -> None:
    """Every sum that figures prints, done again from the printed numbers, gives the printed result."""
    text = dryfit("figures", GALLERY / room / "plan.yaml", subject).stdout
    figures = text.split("what, and what to do")[0]
    assert len(printed_sums(figures)) > 5
    assert wrong_sums(figures) == []


def test_thermal_figures_say_what_holds_each_end() -> None:
    """Growth says what holds each end; a long leg its window and four states; a hose its reach and its bend."""
    text = dryfit("figures", L_ROOM, "thermal").stdout
    for words in (
        "(toward the valve: held, the valve end holds it)",
        "(at both ends: free, the hoses give)",
        "(held nowhere, it floats: either end may take the whole growth)",
        "expected at each end, hot = 1.53 / 2 = 0.77 mm",
        "(window 19.0 to 52.0 mm: cold 34.0 mm; hot 35.6 mm; at the frost set-back 33.4 mm; pushed home 52.0 mm",
        "all inside)",
        "(the hoses' ends stand 77.1 to 81.0 mm apart, at most 83 mm)",
        "bend radius is 23.0 mm or more, at least 15 mm is asked)",
        "(they pass the wall's edge by 2.7 mm or more)",
    ):
        assert words in text, words


def test_water_figures_part_by_part() -> None:
    """Each part says how fast the water is in it and what it takes; the parts and the valve make up the run."""
    groups = {g["title"]: g for g in figures_of("figures", L_ROOM, "water")["figures"]}
    drops = {
        f["name"]: f["value"] for g in groups.values() for f in g["figures"] if f["name"].startswith("pressure drop")
    }
    run = {f["name"]: f["value"] for f in groups["Run A"]["figures"]}
    own = [v for n, v in drops.items() if n.startswith("pressure drop of A-")]
    assert len(own) == 15
    in_the_run = {n: g for n, g in groups.items() if n.startswith("Run A: ")}
    ends = [f["value"] for n in ("Run A: valve end", "Run A: return end") for f in in_the_run[n]["figures"][-1:]]
    assert run["valve"] + sum(own) + sum(ends) == pytest.approx(run["pressure drop of the run"])
    assert groups["Run A: A-J1"]["notes"] == ["turbulent, at most 0.44 m/s in its tail"]
    assert "may be touched for 1 second" in groups["The room"]["notes"][0]


def test_figures_of_one_mark() -> None:
    """--of keeps what belongs to one piece, joint or run; a mark without figures is refused with those there are."""
    found = figures_of("figures", L_ROOM, "thermal", "--of", "A-J4")["figures"]
    assert [g["title"] for g in found] == ["Joint A-J4: the long legs in piece A-4"]
    refused = dryfit("figures", L_ROOM, "thermal", "--of", "A-99")
    assert refused.exit_code == 2
    assert "no such figures of 'A-99' (marks: A-1, A-2," in refused.stderr


@pytest.mark.parametrize(
    "arguments",
    [
        ("layout", L_ROOM),
        ("layout", GALLERY / "surveyed" / "plan.yaml"),
        ("why", L_ROOM, "A-4"),
        ("figures", L_ROOM, "thermal"),
        ("figures", L_ROOM, "seals"),
        ("figures", L_ROOM, "nesting"),
        ("figures", GALLERY / "surveyed" / "plan.yaml", "survey"),
    ],
    ids=lambda a: " ".join(x if isinstance(x, str) else x.parent.name for x in a),
)
def test_feet_and_inches(arguments: tuple[str | Path, ...]) -> None:
    """With --units ft-in every length that is not part of a sum is in feet and inches, and JSON stays in mm."""
    plain, imperial = dryfit(*arguments).stdout, dryfit(*arguments, "--units", "ft-in").stdout
    assert " in" in imperial
    for line in imperial.splitlines():
        sums, rules = " = " in line, line.startswith("      ")
        assert sums or rules or not MM_IN_TEXT.search(line), line
    wrapped = 2 + plain.count("warning") + plain.count(" note ")  # a finding may take a line more
    assert len(plain.splitlines()) <= len(imperial.splitlines()) <= len(plain.splitlines()) + wrapped
    assert dryfit(*arguments, "--json").stdout == dryfit(*arguments, "--json", "--units", "ft-in").stdout


def held_twice(folder: Path, more: str = "") -> Path:
    """A run whose return's pipework is fixed: its one piece is held at both ends."""
    return written(folder, SMALL.rstrip() + "\n    return_fixed: true\n" + more)


@pytest.mark.parametrize("verb", [("layout",), ("check",), ("figures", "thermal")])
def test_held_at_both_ends(tmp_path: Path, verb: tuple[str, ...]) -> None:
    """A piece held at both ends is one error of every verb that looks at growth, with its force."""
    plan = held_twice(tmp_path)
    ran = dryfit(verb[0], plan, *verb[1:], "--json")
    (found,) = [f for f in json.loads(ran.stdout)["findings"] if f["severity"] == "error"]
    assert ran.exit_code == 1
    assert found["code"] == "held-at-both-ends"
    assert "about 78 kN" in found["message"]


def test_check_looks_at_heat_and_people(tmp_path: Path) -> None:
    """A check says that a run gives too little heat, and that it is too hot where vulnerable people live."""
    plan = written(tmp_path, SMALL + "heat: {loss: 900, vulnerable: true}\n")
    found = json.loads(dryfit("check", plan, "--json").stdout)["findings"]
    assert codes(found) == ["surface-too-hot", "heat-too-little"]


CUT = PLAN + "as_cut: {A-2: 4110, A-3: 3290}\nfitted: [A-1]\n"


def test_cuts_are_said_once(tmp_path: Path) -> None:
    """A piece cut too long is one error, of the layout as of the thermal figures; the next one, whose joints hold, a
    note.
    """
    plan = written(tmp_path, CUT)
    for verb in (("layout", plan), ("figures", plan, "thermal"), ("figures", plan, "as-cut")):
        found = json.loads(dryfit(*verb, "--json").stdout)["findings"]
        assert sorted(codes(found)) == ["as-cut", "as-cut-wrong"], verb


def test_cuts_are_shown_end_by_end(tmp_path: Path) -> None:
    """The layout shows what is up, and of each cut the gap or overlap at each end, its joint hot and cold, and the
    change.
    """
    text = dryfit("layout", written(tmp_path, CUT)).stdout
    for words in (
        "A-1 (up)",
        "A-2: cut to 4110.0 mm, laid out 4098.0 mm (12.0 mm longer): does not do",
        "toward the return, long legs: overlap 12.0 mm at joint A-J2",
        "toward the return, long legs: gap 8.0 mm at joint A-J3",
        "insertion hot = 26 + 2.85 = 28.85 mm",
        "Cut 10.5 mm off A-2, to 4099.5 mm.",
    ):
        assert words in text, words
    assert text.count("insertion cold = 54 - 20 + 12") == 1


def test_no_cuts() -> None:
    """A plan without lengths as cut is told how to give them."""
    assert "'as_cut: {MARK: length}'" in dryfit("figures", L_ROOM, "as-cut").stdout


def test_a_refused_layout_has_no_figures(tmp_path: Path) -> None:
    """Where the layout cannot be made there are no figures, and the reason is the finding."""
    text = PLAN.replace("[4200, 3400], [0, 3400]", "[4200, 3400], [4100, 0.5]")
    plan = written(tmp_path, re.sub(r"openings:.*?runs:", "runs:", text, flags=re.S))
    for subject in ("thermal", "water", "nesting", "as-cut"):
        ran = dryfit("figures", plan, subject)
        assert ran.exit_code in (1, 2)
        assert ran.exit_code == 2 or "cannot be made" in ran.stdout


@pytest.mark.parametrize("mark", ["A-4", "A-J1", "A", "D1"])
def test_why(mark: str) -> None:
    """why explains pieces, joints, runs and dry pieces, and its data has the same figures as its text."""
    text = dryfit("why", L_ROOM, mark).stdout
    lines = [line for s in figures_of("why", L_ROOM, mark)["sections"] for line in s["lines"]]
    assert len(lines) > 10
    assert all(f"  {line['name']} = " in text for line in lines)


def test_why_of_no_mark() -> None:
    """A mark that is not there is bad input; the marks there are are listed, runs among them."""
    ran = dryfit("why", L_ROOM, "Z-1")
    assert ran.exit_code == 2
    assert "marks: A, B, A-1," in ran.stderr


def test_changed_in_feet(tmp_path: Path) -> None:
    """What differs between two plans is shown in feet and inches on demand."""
    old, new = written(tmp_path, name="old.yaml"), written(tmp_path, CUT, name="new.yaml")
    assert "cut length 4098.0 mm -> 4110.0 mm" in dryfit("changed", old, new).stdout
    assert "cut length 13 ft 5 11/32 in -> 13 ft 5 13/16 in" in dryfit("changed", old, new, "--units", "ft-in").stdout
