"""The verbs from a starter plan to a folder of files: what each prints, and with which code it leaves."""

from __future__ import annotations

import json
import signal
import subprocess
import sys
import time
from pathlib import Path
from xml.etree import ElementTree

import pytest
from jsonschema import Draft202012Validator

from tests.cli.running import GALLERY, changed, dryfit, process, written

SCHEMAS = ("plan", "family", "layout", "findings")


def schema(of: str) -> dict[str, object]:
    """The schema that ``dryfit schema`` prints."""
    result = dryfit("schema", of)
    assert result.exit_code == 0
    printed = json.loads(result.stdout)
    assert isinstance(printed, dict)
    return printed


def names(folder: Path) -> list[str]:
    """The names of everything in a folder, in order."""
    return sorted(p.name for p in folder.iterdir())


def test_from_nothing_to_files(tmp_path: Path) -> None:
    """``new`` writes a plan that ``layout``, ``check`` and ``build`` take as it stands, each leaving with 0."""
    plan, out = tmp_path / "room" / "plan.yaml", tmp_path / "out"
    made = dryfit("new", plan)
    assert (made.exit_code, plan.is_file()) == (0, True)
    assert f"dryfit layout {plan}" in made.stdout
    laid = dryfit("layout", plan)
    assert (laid.exit_code, laid.stderr) == (0, "")
    for words in ("A-1", "valve, clip back", "elbow-short, clip back", "return, clip front", "A-J1"):
        assert words in laid.stdout
    checked = dryfit("check", plan)
    assert (checked.exit_code, checked.stdout) == (0, "Nothing found.\n")
    built = dryfit("build", plan, "--out", out, "--only", "layout", "--only", "plan")
    assert (built.exit_code, names(out)) == (0, [".dryfit.json", "layout.json", "plan.svg"])
    assert [line.strip() for line in built.stdout.splitlines()] == [f"{out}: 2 files", "layout.json", "plan.svg"]
    ElementTree.parse(out / "plan.svg")


def test_new_does_not_replace(tmp_path: Path) -> None:
    """``new`` leaves a plan that is there alone, with code 2, unless told to replace it."""
    plan = written(tmp_path, "mine\n")
    refused = dryfit("new", plan)
    assert refused.exit_code == 2
    assert "--force" in refused.stderr
    assert plan.read_text(encoding="utf-8") == "mine\n"
    assert dryfit("new", plan, "--force").exit_code == 0
    assert plan.read_text(encoding="utf-8").startswith("# A run plan")


@pytest.mark.parametrize("of", SCHEMAS)
def test_schemas_are_schemas(of: str) -> None:
    """Every schema that is printed is one of JSON Schema's draft 2020-12, with a name of its own."""
    made = schema(of)
    Draft202012Validator.check_schema(made)
    assert made["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert len({schema(other)["$id"] for other in SCHEMAS}) == len(SCHEMAS)


@pytest.mark.parametrize("room", ["l-room", "bay", "faulty"])
def test_layout_as_json(room: str) -> None:
    """``layout --json`` prints a layout and nothing else, as ``dryfit schema layout`` says."""
    result = dryfit("layout", GALLERY / room / "plan.yaml", "--json")
    assert (result.exit_code, result.stderr) == (0, "")
    printed = json.loads(result.stdout)
    assert [e.message for e in Draft202012Validator(schema("layout")).iter_errors(printed)] == []
    first = printed["pieces"][0]
    assert (first["mark"], first["start"]["joint"]) == ("A-1", "valve")
    assert first["cut_length_mm"] > 200.0


def test_findings_as_json(tmp_path: Path) -> None:
    """``check --json`` prints findings and nothing else, as ``dryfit schema findings`` says, and leaves with 1."""
    plan = changed(tmp_path, "width: 800", "width: 800, opens: 175, hinge: right")
    result = dryfit("check", plan, "--json")
    assert (result.exit_code, result.stderr) == (1, "")
    printed = json.loads(result.stdout)
    check = Draft202012Validator(schema("findings"))
    assert [e.message for e in check.iter_errors(printed)] == []
    (found,) = [f for f in printed["findings"] if f["severity"] == "error"]
    assert {"code", "severity", "where", "parts", "measured", "limit", "message", "remedy"} <= set(found)
    assert found["code"] == "door-leaf-on-run"
    assert found["measured"] > found["limit"]
    for key in ("severity", "remedy", "measured"):
        assert not check.is_valid({"findings": [{k: v for k, v in found.items() if k != key}]})
    assert not check.is_valid({"findings": [{**found, "severity": "awful"}]})
    assert not check.is_valid({"findings": [{**found, "measured": "much"}]})


def test_notes_count_only_when_strict() -> None:
    """A layout with nothing but notes leaves with 0, with ``--strict`` with 1; the findings stand below it."""
    plan = GALLERY / "bay" / "plan.yaml"
    plain, strict = dryfit("layout", plan), dryfit("layout", plan, "--strict")
    assert (plain.exit_code, strict.exit_code) == (0, 1)
    assert plain.stdout == strict.stdout
    assert "[link-for-elbow]" in plain.stdout
    assert plain.stdout.splitlines()[-1].endswith("notes")


def test_errors_leave_with_one(tmp_path: Path) -> None:
    """A layout that cannot be made leaves with 1 and says what is wrong; ``build`` makes nothing of it."""
    corners = "[[0, 0], [4200, 0], [4200, 3400], [4150, 3400], [4150, 3600], [0, 3600]]"
    plan = changed(tmp_path, "[[0, 0], [4200, 0], [4200, 3400], [0, 3400]]", corners)
    text = plan.read_text(encoding="utf-8").replace("{wall: w1, at: 2900}", "{wall: w5, at: 2900}")
    plan.write_text(text, encoding="utf-8")
    laid = dryfit("layout", plan)
    assert laid.exit_code == 1
    assert "[no-room-for-piece]" in laid.stdout
    built = dryfit("build", plan, "--out", tmp_path / "out", "--only", "layout")
    assert built.exit_code == 1
    assert "[no-room-for-piece]" in built.stdout
    assert "Nothing built" in built.stderr
    assert names(tmp_path) == ["plan.yaml"]


def test_only_chooses(tmp_path: Path) -> None:
    """``--only`` chooses the kinds of file; an unknown kind is bad usage, with the known ones named."""
    plan, out = written(tmp_path), tmp_path / "out"
    assert dryfit("build", plan, "--out", out, "--only", "plan").exit_code == 0
    assert names(out) == [".dryfit.json", "plan.svg"]
    wrong = dryfit("build", plan, "--out", out, "--only", "pan")
    assert wrong.exit_code == 2
    assert "'layout'" in wrong.stderr
    assert names(out) == [".dryfit.json", "plan.svg"]


def test_a_build_replaces_its_own_folder_only(tmp_path: Path) -> None:
    """A second build replaces the first; a folder with someone else's files in it is left as it is, with code 2."""
    plan, out, other = written(tmp_path), tmp_path / "out", tmp_path / "photos"
    for only in ("layout", "plan"):
        assert dryfit("build", plan, "--out", out, "--only", only).exit_code == 0
    assert names(out) == [".dryfit.json", "plan.svg"]
    other.mkdir()
    (other / "me.jpg").write_text("x", encoding="utf-8")
    refused = dryfit("build", plan, "--out", other, "--only", "plan")
    assert refused.exit_code == 2
    assert "not made by dryfit" in refused.stderr
    assert names(other) == ["me.jpg"]
    assert names(tmp_path) == ["out", "photos", "plan.yaml"]


def test_a_room_too_large_to_draw(tmp_path: Path) -> None:
    """A room that fits no sheet is refused in a line, with code 2 and nothing written; without the plan it builds."""
    plan = changed(tmp_path, "[4200, 0], [4200, 3400]", "[99 m, 0], [99 m, 3400]")
    plan.write_text(
        plan.read_text(encoding="utf-8").replace("start: {wall: w2, at: 200}", "start: w1"), encoding="utf-8"
    )
    built = dryfit("build", plan, "--out", tmp_path / "out", "--only", "plan", "--only", "layout")
    assert built.exit_code == 2
    assert "too large for a sheet" in built.stderr
    assert len(built.stderr.splitlines()) == 1
    assert names(tmp_path) == ["plan.yaml"]
    assert dryfit("build", plan, "--out", tmp_path / "out", "--only", "layout").exit_code == 0


def test_no_arguments_print_help() -> None:
    """``dryfit`` alone prints what it can do; a verb misspelt is answered with the nearest one."""
    alone = dryfit()
    for verb in ("new", "layout", "check", "build", "schema"):
        assert verb in alone.output
    wrong = dryfit("lay", "plan.yaml")
    assert wrong.exit_code == 2
    assert "layout" in wrong.stderr


_SLOW_BUILD = """
import sys, time
from model3d.build import outputs
from model3d.cli import main
written = outputs._plan
def slowly(project, folder):
    written(project, folder)
    print("half", flush=True)
    time.sleep(60)
outputs._plan = slowly
main()
"""


@pytest.mark.parametrize("before", [False, True])
def test_an_interrupted_build_leaves_nothing(tmp_path: Path, before: bool) -> None:
    """A build interrupted from the keyboard in the middle leaves no folder, or the one that was there, whole."""
    plan, out = written(tmp_path), tmp_path / "out"
    if before:
        assert dryfit("build", plan, "--out", out, "--only", "layout").exit_code == 0
    arguments = ["build", str(plan), "--out", str(out), "--only", "layout", "--only", "plan"]
    flags = subprocess.CREATE_NEW_PROCESS_GROUP if sys.platform == "win32" else 0
    with subprocess.Popen(
        [sys.executable, "-c", _SLOW_BUILD, *arguments],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        creationflags=flags,
    ) as running:
        assert running.stdout is not None
        assert running.stdout.readline() == "half\n"
        time.sleep(0.1)
        running.send_signal(signal.CTRL_BREAK_EVENT if sys.platform == "win32" else signal.SIGINT)
        running.communicate(timeout=30)
    assert running.returncode not in (0, 1, 2)
    assert names(tmp_path) == (["out", "plan.yaml"] if before else ["plan.yaml"])
    assert not before or names(out) == [".dryfit.json", "layout.json"]


def test_a_process_answers_as_the_application_does(tmp_path: Path) -> None:
    """``python -m model3d`` as a process of its own prints the same and leaves with the same codes."""
    plan = written(tmp_path)
    good, bad = process("layout", plan, "--json"), process("layout", tmp_path / "none.yaml")
    assert (good.returncode, good.stderr) == (0, "")
    assert json.loads(good.stdout) == json.loads(dryfit("layout", plan, "--json").stdout)
    assert (bad.returncode, bad.stdout) == (2, "")
    assert "none.yaml" in bad.stderr


@pytest.mark.slow
def test_a_whole_build(tmp_path: Path) -> None:
    """``dryfit build`` on the starter plan writes every kind of file, none empty."""
    plan, out = tmp_path / "plan.yaml", tmp_path / "out"
    assert dryfit("new", plan).exit_code == 0
    ran = process("build", plan, "--out", out)
    assert (ran.returncode, ran.stderr) == (0, "")
    assert {"layout.json", "plan.svg", "model.step", "stl", "steps"} <= set(names(out))
    assert any(name.startswith("room.") for name in names(out))
    files = [p for p in out.rglob("*") if p.is_file()]
    assert len(files) > 20
    assert all(p.stat().st_size > 0 for p in files)
