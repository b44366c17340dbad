"""The README's commands."""

from __future__ import annotations

import os
import re
import subprocess
from pathlib import Path

import pytest
import typer
from typer.testing import CliRunner

from model3d.cli import application

BUILD = "bash .ci/setup && .venv/bin/dryfit build gallery/l-room/plan.yaml --out build/l-room"
TESTS = "bash .ci/setup && .venv/bin/python -m pytest"


def first_block(text: str) -> list[str]:
    """The lines of a Markdown text's first fenced block."""
    found = re.search(r"^```[^\n]*\n(.*?)^```", text, re.MULTILINE | re.DOTALL)
    return found.group(1).splitlines() if found else []


def linked(text: str) -> list[str]:
    """The files of the checkout that a Markdown text links to or shows."""
    return [t for t in re.findall(r"\]\(([^)#\s]+)[^)]*\)", text) if "://" not in t]


def test_first_block_is_the_two_commands(checkout: Path) -> None:
    """The README's first fenced block holds two lines: build a gallery room, and run the tests."""
    text = (checkout / "README.md").read_text(encoding="utf-8")
    assert first_block(text) == [BUILD, TESTS]
    assert first_block("no block") == []


def plans(text: str) -> list[str]:
    """The fenced YAML blocks of a Markdown text."""
    return re.findall(r"^```yaml\n(.*?)^```", text, re.MULTILINE | re.DOTALL)


def test_the_plan_shown_lays_out(checkout: Path, tmp_path: Path) -> None:
    """The README's plan has fewer than 20 lines and lays out as it stands, nothing found."""
    (plan,) = plans((checkout / "README.md").read_text(encoding="utf-8"))
    assert plan.count("\n") < 20
    path = tmp_path / "plan.yaml"
    path.write_text(plan, encoding="utf-8", newline="\n")
    result = CliRunner().invoke(application(), ["layout", "--strict", str(path)])
    assert result.exit_code == 0, result.output
    path.write_text(plan.replace("a-square", "a-sqare"), encoding="utf-8", newline="\n")
    assert CliRunner().invoke(application(), ["layout", str(path)]).exit_code == 2


def test_every_verb_is_in_the_table(checkout: Path) -> None:
    """The README's table of verbs names every verb that there is, and none that there is not."""
    text = (checkout / "README.md").read_text(encoding="utf-8")
    told = set(re.findall(r"^\| `dryfit ([a-z]+)", text, re.MULTILINE))
    assert told == set(typer.main.get_group(application()).commands)


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md"])
def test_every_linked_file_is_there(checkout: Path, name: str) -> None:
    """Every picture and file that a document of the top level shows or links to is tracked in the checkout."""
    listed = subprocess.run(["git", "ls-files"], cwd=checkout, capture_output=True, text=True, check=True)
    tracked = set(listed.stdout.splitlines())
    text = (checkout / name).read_text(encoding="utf-8")
    assert [link for link in linked(text) if link not in tracked] == []
    assert linked("![a](b.png) [c](d.md#e) [f](https://g)") == ["b.png", "d.md"]


@pytest.mark.slow
def test_the_two_commands_work_in_a_fresh_clone(checkout: Path, tmp_path: Path) -> None:
    """In a fresh clone, the first line builds the room, and the second collects the tests."""
    clone = tmp_path / "clone"
    subprocess.run(["git", "clone", "-q", str(checkout), str(clone)], check=True)
    build, tests = first_block((clone / "README.md").read_text(encoding="utf-8"))
    subprocess.run(["bash", "-c", build], cwd=clone, check=True)
    made = {p.name for p in (clone / "build" / "l-room").iterdir()}
    assert {"model.step", "layout.json", "plan.svg", "room.png", "steps", "stl"} <= made
    environment = {**os.environ, "PYTEST_ADDOPTS": "--collect-only -q"}
    listed = subprocess.run(["bash", "-c", tests], cwd=clone, env=environment, capture_output=True, text=True)
    assert listed.returncode == 0, listed.stdout
    assert "tests/house/test_readme.py::test_first_block_is_the_two_commands" in listed.stdout
