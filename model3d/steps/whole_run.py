"""The steps that take a whole run at once: brackets first, the pressure test, trims and end caps last."""

from __future__ import annotations

from collections.abc import Sequence

from model3d.layout import Piece, RunLayout
from model3d.scene import Scene
from model3d.steps.values import Action, Step, StepKind
from model3d.wording import Catalogue

COVERS = ("trim", "end-cap")
ON_WALL = ("bracket", "packer", "cradle")


def bracket_step(run: RunLayout, scene: Scene, number: int, words: Catalogue) -> Step:
    """All brackets of a run and its cradle, but those of pieces that are up."""
    up = {p.mark for p in run.pieces if p.fitted}
    found = tuple(p.id for p in scene.fitted if p.run == run.id and p.role in ON_WALL and p.piece not in up)
    cradle = any(scene.part(i).role == "cradle" for i in found)
    count = sum(scene.part(i).role == "bracket" for i in found)
    fix = words.say("brackets.fix-cradle" if cradle else "brackets.fix", count=count)
    title = words.say("title.brackets", run=run.id)
    return _step("brackets", run.id, title, number, [_cables(words), Action(kind="after", text=fix)], words, found)


def dry_bracket_step(dry: Sequence[Piece], scene: Scene, number: int, words: Catalogue) -> Step:
    """All brackets of the dry pieces."""
    marks = {p.mark for p in dry}
    found = tuple(p.id for p in scene.fitted if p.piece in marks and p.role in ON_WALL)
    count = sum(scene.part(i).role == "bracket" for i in found)
    fix = Action(kind="after", text=words.say("brackets.fix-dry", count=count))
    return _step("brackets", None, words.say("title.brackets-dry"), number, [_cables(words), fix], words, found)


def pressure_step(run: RunLayout, number: int, words: Catalogue) -> Step:
    """The pressure test of a run."""
    said = [Action(kind="check", text=words.say(key)) for key in ("test.look", "test.press")]
    return _step("pressure-test", run.id, words.say("title.test", run=run.id), number, said, words)


def cover_step(run: RunLayout, scene: Scene, number: int, words: Catalogue) -> Step:
    """Trims and end caps of a run."""
    covers = tuple(p.id for p in scene.fitted if p.run == run.id and p.role in COVERS)
    said = [Action(kind="after", text=words.say("covers.push"))]
    return _step("covers", run.id, words.say("title.covers", run=run.id), number, said, words, covers)


def _cables(words: Catalogue) -> Action:
    return Action(kind="check", text=words.say("check.cables"))


def _step(
    kind: StepKind,
    run: str | None,
    title: str,
    number: int,
    said: Sequence[Action],
    words: Catalogue,
    follows: tuple[str, ...] = (),
) -> Step:
    return Step(
        number=number, kind=kind, run=run, title=title, actions=tuple(said), follows=follows, language=words.language
    )
