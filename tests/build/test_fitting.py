"""The order that a check and a build keep to: the usual one where it goes, another where that goes, none where none."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import Result
from typer.testing import CliRunner

import model3d.moves
from model3d.build import checking, filming, fitting, illustrating
from model3d.build.project import Project
from model3d.cli.reporting import exit_code
from model3d.cli.verbs import app
from model3d.findings import Finding
from model3d.moves import check_moves
from model3d.pictures import opengl, staging, step
from model3d.pictures.moving.timeline import timeline
from tests.order.rooms import OVER_A_CORNER, PIPE, ROOM, TWO_RUNS_IN_A_CORNER, read, shapes_of

PLAIN = OVER_A_CORNER.replace("obstacles:\n", "")
LINK = OVER_A_CORNER.replace("at: 1200}}", "at: 1200}, joints: [{corner: c2, use: link}]}")


@pytest.fixture(autouse=True)
def kept_shapes(monkeypatch: pytest.MonkeyPatch) -> None:
    """Meshes are kept between plans."""
    monkeypatch.setattr(model3d.moves, "Shapes", lambda family: shapes_of(family.id))


def dryfit(folder: Path, verb: str, *options: str, of: tuple[str, ...]) -> Result:
    """Run a verb on a plan made of these parts."""
    path = folder / "plan.yaml"
    path.write_text(ROOM.format(name="Invented") + "".join(of), encoding="utf-8", newline="\n")
    return CliRunner().invoke(app, [verb, str(path), *options])


def of_moves(project: Project) -> tuple[str, ...]:
    """The codes of what the check of moves finds of the steps in the order kept to."""
    found = check_moves(project.layout, project.scene, project.moved_steps, project.family, shapes=project.job.shapes)
    return tuple(f.code for f in found[1])


def test_the_usual_order_is_kept_and_no_other_sought(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the usual order goes it is kept, step by step, and taking apart is not begun."""

    def begun(*_all: object) -> None:
        raise AssertionError("sought")

    monkeypatch.setattr("model3d.order.seek", begun)
    project = read(PLAIN)
    assert project.fitting.another is None
    assert project.fitting.blocked == ()
    assert [(s.number, s.title) for s in project.moved_steps] == [(s.number, s.title) for s in project.steps]


def test_a_check_warns_of_another_order(tmp_path: Path) -> None:
    """Where run A bars run B's first piece and B goes first, a check has one warning and no error: the leg, the pair,
    how deep, and the order that goes; with ``--strict`` it leaves with 1, otherwise with 0.
    """
    result = dryfit(tmp_path, "check", "--json", "--strict", of=(TWO_RUNS_IN_A_CORNER,))
    assert result.exit_code == 1
    (found,) = json.loads(result.stdout)["findings"]
    assert (found["code"], found["severity"]) == ("another-order", "warning")
    assert found["parts"] == ["B-1/valve-end", "A-1/piece"]
    assert "while it is offered, from the start, Valve end meets Piece A-1" in found["message"]
    assert "mm deep on the way" in found["message"]
    assert "B-1, A-1." in found["remedy"]
    assert exit_code(read(TWO_RUNS_IN_A_CORNER).fitting.findings, strict=False) == 0


def test_the_order_found_passes_the_check_of_moves() -> None:
    """The steps kept to have no finding of moves, where the usual ones have: with another run first, and with links
    pushed in by hand.
    """
    for parts in ((TWO_RUNS_IN_A_CORNER,), (LINK, PIPE)):
        project = read(*parts)
        usual = check_moves(project.layout, project.scene, project.steps, project.family, shapes=project.job.shapes)
        assert {f.code for f in usual[1]} == {"move-blocked"}
        assert of_moves(project) == ()
        assert [s.number for s in project.moved_steps] == list(range(1, len(project.steps) + 1))
        assert {f.code for f in project.fitting.findings} == {"another-order"}
    (by_hand,) = [s for s in project.moved_steps if s.near_by_hand]
    assert (by_hand.pieces, by_hand.links_from) == (("A-2",), "A-1")
    assert [a.label for a in by_hand.actions if a.label] == ["1", "2", "3", "4"]


def test_where_no_order_goes_it_stays_an_error(tmp_path: Path) -> None:
    """A piece that a pipe traps in every order is an error of its usual step, with what frees it; the code is 1."""
    result = dryfit(tmp_path, "check", "--json", of=(OVER_A_CORNER, PIPE))
    assert result.exit_code == 1
    (found,) = json.loads(result.stdout)["findings"]
    assert (found["code"], found["severity"]) == ("move-blocked", "error")
    assert found["message"].startswith("step 3: ")
    assert found["remedy"].startswith("Move riser")
    assert read(OVER_A_CORNER, PIPE).fitting.blocked == (3,)


def test_nothing_is_sought_past_what_stands_for_good(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where a pipe stands in the piece's own place no order can help, and none is sought."""

    def begun(*_all: object) -> None:
        raise AssertionError("sought")

    monkeypatch.setattr("model3d.order.seek", begun)
    assert fitting.fitting_of(read(OVER_A_CORNER, PIPE.replace("at: 1212", "at: 900")).job).blocked == (3,)


def test_a_build_keeps_to_the_order_found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The step pictures are numbered in the order found: run B's piece comes before run A's, on a stage where run A's
    is not up yet; the build says that the order is another.
    """
    stages: list[Any] = []

    def drawn(stage: Any, _theme: object) -> bytes:
        stages.append(stage)
        return b""

    monkeypatch.setattr(opengl, "ready", lambda: None)
    monkeypatch.setattr(step, "step_picture", drawn)
    result = dryfit(tmp_path, "build", "--only", "steps", "--out", str(tmp_path / "out"), of=(TWO_RUNS_IN_A_CORNER,))
    assert result.exit_code == 0
    assert "[another-order]" in result.stdout
    assert [s.frame.step for s in stages] == list(range(1, 9))
    pieces = [(s.frame.step, s.frame.title) for s in stages if s.frame.title.startswith("Piece")]
    assert [title.split(",")[0] for _, title in pieces] == ["Piece B-1", "Piece A-1"]
    first, second = (stages[number - 1] for number, _ in pieces)
    assert "A-1/piece" not in {a.id for a in first.actors}
    assert "B-1/piece" in {a.id for a in second.actors}


def test_a_build_says_which_steps_are_blocked(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where no order goes, the pictures are of the usual one, and the build names the step that is blocked."""
    monkeypatch.setattr(opengl, "ready", lambda: None)
    monkeypatch.setattr(step, "step_picture", lambda *_all: b"")
    result = dryfit(tmp_path, "build", "--only", "steps", "--out", str(tmp_path / "out"), of=(OVER_A_CORNER, PIPE))
    assert result.exit_code == 0
    assert "Drawn, but blocked: step 3." in result.stderr


def test_links_by_hand_are_drawn_where_they_wait() -> None:
    """On the picture of a piece whose near links are pushed in by hand, its close-up shows them out of its bores with
    an arrow that has the number of that line.
    """
    project = read(LINK, PIPE)
    (by_hand,) = [s for s in project.moved_steps if s.near_by_hand]
    stages = staging.StepStages(project.layout, project.scene, project.moved_steps, project.family)
    near = stages.stage(by_hand.number).insets[0]
    assert [a.label for a in near.arrows] == ["4"]
    spigot = next(a for a in near.actors or () if a.id == "A-J1/link-spigot-start-upper")
    apart = spigot.placement.origin_mm[1] - project.scene.part(spigot.id).placement.origin_mm[1]
    assert -apart > project.family.link.insertion_mm


def test_films_and_line_drawings_keep_to_it() -> None:
    """A film's steps and a line drawing's are numbered in the order found, where run B's piece comes first; the phases
    of a film push links in by hand once their piece is up, and leave none of them in its way before.
    """
    project = read(TWO_RUNS_IN_A_CORNER)
    drawn = illustrating.job_of(project, moved=True).steps
    assert drawn == project.moved_steps
    up = [s for s in drawn if s.kind == "piece"]
    assert [s.pieces for s in up] == [("B-1",), ("A-1",)]
    assert filming._steps(project, filming.Wanted()) == [s.number for s in up]
    by_hand = read(LINK, PIPE)
    (step_by_hand,) = [s for s in by_hand.moved_steps if s.near_by_hand]
    (piece,) = [p for p in by_hand.layout.pieces if p.mark == "A-2"]
    phases = timeline(by_hand.family, by_hand.scene, step_by_hand, (piece,))
    assert [p.name for p in phases] == ["offer", "raise", "press", "push-in"]
    spigot = "A-J1/link-spigot-start-upper"
    assert all(abs(p.shift(spigot, 0.5)[1]) > by_hand.family.link.insertion_mm for p in phases[:-1])
    assert phases[-1].shift(spigot, 1.0) == (0.0, 0.0, 0.0)
    assert phases[-1].label == "4"


def test_a_hose_on_an_edge_is_said_once() -> None:
    """What is said of a hose that rubs on the walls' edge is not said again of its moves; of what else it meets, and of
    other links, it is.
    """
    rubs = Finding(code="hose-on-edge", severity="error", where="", message="", remedy="", parts=("A-J3",))
    pairs = [("A-J3/link-hose-upper", "room/w4"), ("A-J3/link-hose-upper", "A-4/bracket-1")]
    pairs += [("A-J2/link-hose-upper", "room/w4"), ("A-4/piece", "room/w4")]
    moves = [
        Finding(code="move-blocked", severity="error", where="", message="", remedy="", parts=pair) for pair in pairs
    ]
    assert [f.parts for f in checking._off_the_edge([rubs], moves)] == pairs[1:]
    assert [f.parts for f in checking._off_the_edge([], moves)] == pairs
