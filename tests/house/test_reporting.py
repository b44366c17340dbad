"""How the command line reports findings and faults, and with which exit code it leaves."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
import typer
from typer.testing import CliRunner, Result

import model3d.cli
from model3d import __version__
from model3d.cli import main
from model3d.cli.app import FaultsLeaveWithTwo
from model3d.cli.explaining import app
from model3d.cli.reporting import exit_code, print_json, print_written, report
from model3d.findings import Finding, Severity
from model3d.sources.faults import Fault, FaultyFile


def finding(severity: Severity, code: str = "clash") -> Finding:
    """A finding of a severity."""
    return Finding(
        code=code,
        severity=severity,
        where="run A, wall 2",
        message="the door leaf and piece A3 overlap",
        remedy="end the run before the casing",
        parts=("door-1", "A3"),
        measured=12.3456,
        limit=0.0,
        unit="mm",
    )


def ran(verb: Callable[[], None], *arguments: str) -> Result:
    """Run an application of one verb, hung on the group that every verb hangs on."""
    one = typer.Typer(cls=FaultsLeaveWithTwo)
    one.command(name="verb")(verb)
    one.callback()(lambda: None)
    return CliRunner().invoke(one, ["verb", *arguments])


@pytest.mark.parametrize(
    ("severities", "strict", "code"),
    [
        ([], False, 0), ([], True, 0),
        (["note"], False, 0), (["note"], True, 1),
        (["warning"], False, 0), (["warning"], True, 1),
        (["error"], False, 1), (["note", "error"], False, 1), (["error"], True, 1),
    ],
)  # fmt: skip
def test_exit_code(severities: list[Severity], strict: bool, code: int) -> None:
    """Errors leave with 1, warnings and notes only when strict, nothing found with 0."""
    assert exit_code([finding(s) for s in severities], strict=strict) == code
    result = ran(lambda: report([finding(s) for s in severities], as_json=False, strict=strict))
    assert result.exit_code == code


def test_findings_as_json() -> None:
    """``--json`` gives every field of each finding, worst first, and nothing else on the output."""
    findings = [finding("note", "a"), finding("error", "b"), finding("warning", "c"), finding("error", "d")]
    result = ran(lambda: report(findings, as_json=True, strict=False))
    printed = json.loads(result.stdout)["findings"]
    assert [f["code"] for f in printed] == ["b", "d", "c", "a"]
    assert printed[0] == {
        "code": "b", "severity": "error", "where": "run A, wall 2", "message": "the door leaf and piece A3 overlap",
        "remedy": "end the run before the casing", "parts": ["door-1", "A3"], "measured": 12.3456, "limit": 0.0,
        "unit": "mm", "place_mm": None,
    }  # fmt: skip


def test_findings_as_a_table() -> None:
    """The table says severity, place, message, code, parts, figures with units and remedy; a count closes it."""
    result = ran(lambda: report([finding("warning"), finding("error")], as_json=False, strict=False))
    said = " ".join(result.stdout.split())
    for words in ("run A, wall 2", "overlap [clash]", "parts: door-1, A3", "12.346 mm", "0 mm", "end the run before"):
        assert words in said
    assert said.index("error") < said.index("warning")
    assert result.stdout.endswith("1 error, 1 warning\n")
    assert ran(lambda: report([], as_json=False, strict=False)).stdout == "Nothing found.\n"


def test_written_files_are_summed_up_by_folder() -> None:
    """A build's summary names the files at the top and counts those in each folder."""
    names = ["model.step", "steps/step-01.png", "steps/step-02.png", "stl/a.stl"]
    assert ran(lambda: print_written(Path("out"), names)).stdout.splitlines() == [
        "out: 4 files", "  model.step", "  steps/      2 files", "  stl/        1 file",
    ]  # fmt: skip


def test_a_number_that_is_not_finite_is_refused() -> None:
    """What JSON cannot say is not printed as if it could."""
    with pytest.raises(ValueError, match="not JSON compliant"):
        print_json({"measured": float("nan")})


def test_faults_go_to_the_error_stream_with_exit_code_two() -> None:
    """A faulty file leaves with 2; each fault stands on the error stream with file, line, key and message."""

    def verb() -> None:
        raise FaultyFile(
            Fault(file=Path("plan.yaml"), line=line, column=3, key=key, message=message)
            for line, key, message in [(9, "runs[a].start", "no such wall"), (4, "room.hight", "unknown key")]
        )

    result = ran(verb)
    assert result.exit_code == 2
    assert result.stdout == ""
    assert result.stderr.splitlines() == [
        "plan.yaml:4:3: room.hight: unknown key",
        "plan.yaml:9:3: runs[a].start: no such wall",
    ]


def test_a_fault_of_its_own_leaves_with_three(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """What no verb foresaw is no finding: a traceback on the error stream, and exit code 3."""

    def app() -> None:
        raise ZeroDivisionError("unforeseen")

    monkeypatch.setattr(model3d.cli, "application", lambda: app)
    with pytest.raises(SystemExit) as left:
        main()
    assert left.value.code == 3
    assert "ZeroDivisionError: unforeseen" in capsys.readouterr().err


def test_version_and_usage() -> None:
    """``--version`` names the version; an unknown verb is bad usage, exit code 2."""
    runner = CliRunner()
    assert runner.invoke(app, ["--version"]).stdout == f"dryfit {__version__}\n"
    assert runner.invoke(app, ["no-such-verb"]).exit_code == 2
