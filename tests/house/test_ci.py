"""What runs on every submission, tried in a make-believe checkout whose tools do as told."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

TOOLS = ("ruff", "mypy", "lint-imports")
README = "# x\n\n```\necho first > made\necho 'tests ran' && exit {tests}\n```\n\n```\nexit 9\n```\n"


def make_believe(checkout: Path, top: Path, failing: str) -> Path:
    """A checkout with the real .ci/run, and a README, a setup and tools of which one fails; its top folder."""
    (top / ".ci").mkdir()
    shutil.copy(checkout / ".ci" / "run", top / ".ci")
    (top / "README.md").write_text(README.format(tests=int(failing == "tests")), encoding="utf-8", newline="\n")
    _script(top / ".ci" / "setup", fails=failing == "setup")
    (top / ".venv" / "bin").mkdir(parents=True)
    for tool in TOOLS:
        _script(top / ".venv" / "bin" / tool, fails=failing == tool)
    return top


def _script(path: Path, *, fails: bool) -> None:
    path.write_text(f"#!/usr/bin/env bash\nexit {int(fails)}\n", encoding="utf-8", newline="\n")
    path.chmod(0o755)


def run_of(top: Path) -> subprocess.CompletedProcess[str]:
    """Run .ci/run there."""
    return subprocess.run(["bash", ".ci/run"], cwd=top, capture_output=True, text=True)


def test_all_well_passes(checkout: Path, tmp_path: Path) -> None:
    """When every stage passes, the run passes, each stage timed, the README's two commands among them, tests last."""
    ran = run_of(make_believe(checkout, tmp_path, failing="nothing"))
    assert ran.returncode == 0, ran.stderr
    assert (tmp_path / "made").read_text(encoding="utf-8") == "first\n"
    assert ran.stdout.endswith("tests ran\n")
    for stage in ("setup", "lint", "types", "layers", "first command"):
        assert f"--- {stage}: 0 s" in ran.stdout or f"--- {stage}: 1 s" in ran.stdout


@pytest.mark.parametrize("failing", ["setup", *TOOLS, "tests"])
def test_any_failing_stage_fails_the_run(checkout: Path, tmp_path: Path, failing: str) -> None:
    """One failing stage fails the run, which names it and still runs the tests."""
    stage = {"ruff": "lint", "mypy": "types", "lint-imports": "layers"}.get(failing, failing)
    ran = run_of(make_believe(checkout, tmp_path, failing=failing))
    assert ran.returncode == 1
    assert ran.stderr.endswith(f"failed: {stage}\n")
    assert ran.stdout.endswith("tests ran\n")


def test_the_test_command_stands_in_the_readme_alone(checkout: Path) -> None:
    """The commands of the README's block are read from it, not repeated in the script."""
    script = (checkout / ".ci" / "run").read_text(encoding="utf-8")
    assert "-m pytest" not in script
    assert "dryfit" not in script
