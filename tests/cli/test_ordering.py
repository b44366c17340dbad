"""The verbs about order: what each prints, and with which code it leaves."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import Result
from typer.testing import CliRunner

import model3d.moves
from model3d.cli.ordering import app
from tests.order.rooms import CHEST, OVER_A_CORNER, PIPE, ROOM, TWO_RUNS_IN_A_CORNER, shapes_of

PLAIN = OVER_A_CORNER.replace("obstacles:\n", "")


@pytest.fixture
def dryfit(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Any:
    """Runs a verb on a plan made of these parts: ``dryfit(verb, *options, of=(...))``; meshes are kept between runs."""
    monkeypatch.setattr(model3d.moves, "Shapes", lambda family: shapes_of(family.id))

    def run(verb: str, *options: str, of: tuple[str, ...]) -> Result:
        path = tmp_path / "plan.yaml"
        path.write_text(ROOM.format(name="Invented") + "".join(of), encoding="utf-8", newline="\n")
        return CliRunner().invoke(app, [verb, str(path), *options])

    return run


def test_the_usual_order_is_printed(dryfit: Any) -> None:
    """``dryfit order`` of a plan whose usual order goes says so, lists the steps by number, and leaves with 0."""
    result = dryfit("order", "--strict", of=(PLAIN,))
    assert result.exit_code == 0
    lines = result.stdout.splitlines()
    assert lines[0] == "The usual order goes:"
    assert [int(line.split()[0]) for line in lines[1:]] == [1, 2, 3, 4, 5]


def test_another_order_says_why(dryfit: Any) -> None:
    """Another order than the usual is printed with each step's usual number and the two parts that meet otherwise: a
    warning, so 0, and with ``--strict`` 1.
    """
    result = dryfit("order", of=(TWO_RUNS_IN_A_CORNER,))
    assert result.exit_code == 0
    assert "does not go" in result.stdout.splitlines()[0]
    assert "(usually 6)" in result.stdout
    assert "B-1 is stopped: while it is offered, from the start, Valve end meets Piece A-1 at" in result.stdout
    assert dryfit("order", "--strict", of=(TWO_RUNS_IN_A_CORNER,)).exit_code == 1


def test_what_is_trapped_leaves_with_one(dryfit: Any) -> None:
    """A trapped piece is named with what traps it and the change that frees it, and the code is 1."""
    result = dryfit("order", of=(OVER_A_CORNER, PIPE))
    assert result.exit_code == 1
    assert "Trapped: A-2: while it is offered, after" in result.stdout
    assert "meets riser at" in result.stdout
    assert "Frees it, tried: Take a link in place of the elbow at corner c2" in result.stdout


def test_an_order_as_json(dryfit: Any) -> None:
    """``--json`` gives the same: the steps in turn with their usual numbers, reasons, what is trapped, changes,
    findings with stable codes.
    """
    found = json.loads(dryfit("order", "--json", of=(TWO_RUNS_IN_A_CORNER,)).stdout)
    assert found["usual"] is False
    assert [s["number"] for s in found["steps"]] == [1, 2, 3, 4, 5, 6, 7, 8]
    pieces = [(s["pieces"], s["usual_number"]) for s in found["steps"] if s["kind"] == "piece"]
    assert pieces == [(["B-1"], 6), (["A-1"], 2)]
    assert [(r["thing"], r["by"]) for r in found["reasons"]] == [("B-1", "A-1")]
    assert [f["code"] for f in found["findings"]] == ["another-order"]
    found = json.loads(dryfit("order", "--json", of=(OVER_A_CORNER, CHEST)).stdout)
    assert [c["what"] for c in found["changes"]] == ["chest"]
    assert {f["code"] for f in found["findings"]} == {"trapped"}


def test_what_comes_off_is_printed_in_turn(dryfit: Any) -> None:
    """``dryfit remove`` lists what comes off, the piece asked for last, each with its moves; ``--json`` the same."""
    result = dryfit("remove", "A-1", of=(PLAIN,))
    assert result.exit_code == 0
    lines = result.stdout.splitlines()
    assert "Isolate and drain" in lines[0]
    assert lines[-1].split(":")[0].split() == [str(len(lines) - 1), "A-1"]
    found = json.loads(dryfit("remove", "A-1", "--json", of=(PLAIN,)).stdout)
    assert [c["what"] for c in found["taken_off"]][-2:] == ["A-2", "A-1"]


def test_a_piece_that_cannot_come_out_leaves_with_one(dryfit: Any) -> None:
    """When nothing lets the piece out, what keeps it is told, and the code is 1."""
    result = dryfit("remove", "A-2", of=(OVER_A_CORNER, PIPE))
    assert result.exit_code == 1
    assert result.stdout.startswith("A-2 cannot be got out.")
    assert "riser" in result.stdout


def test_an_unknown_mark_is_bad_input(dryfit: Any) -> None:
    """A mark that no piece has leaves with 2 and the marks that there are."""
    result = dryfit("remove", "A-7", of=(PLAIN,))
    assert result.exit_code == 2
    assert result.stderr == "no piece A-7: the pieces are A-1, A-2\n"


def test_corners_are_ranked_with_their_reasons(dryfit: Any) -> None:
    """``dryfit corners`` prints each corner with its level, its word and its reasons, then the steps; ``--json`` the
    figures as well.
    """
    result = dryfit("corners", of=(PLAIN,))
    assert result.exit_code == 0
    assert "A-J1, elbow at internal corner c2  2 of 5, plain: a joint engages while the piece moves" in result.stdout
    found = json.loads(dryfit("corners", "--json", of=(PLAIN,)).stdout)
    (corner,) = found["corners"]
    assert (corner["corner"], corner["difficulty"]["level"]) == ("c2", 2)
    assert [s["pieces"] for s in found["steps"]] == [["A-1"], ["A-2"]]


@pytest.mark.parametrize("verb", ["order", "remove", "corners"])
def test_a_layout_that_is_refused_has_no_order(verb: str, dryfit: Any) -> None:
    """A plan whose layout cannot be made has its findings printed, and the code is 1."""
    options = ("A-1",) if verb == "remove" else ()
    result = dryfit(verb, *options, of=(PLAIN.replace("at: 1200}}", "at: 60}}"),))
    assert result.exit_code == 1
    assert "No order: the layout cannot be made as it stands." in result.stderr
