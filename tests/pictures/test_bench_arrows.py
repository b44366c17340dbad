"""What is done on the bench is not taken for a move on the wall."""

from __future__ import annotations

from model3d.pictures.bands import legend_of
from model3d.pictures.compose import composed
from model3d.pictures.overlay import svg
from model3d.pictures.stage import Stage
from model3d.pictures.theme import THEME
from tests.pictures.pages import project_of, stages_of


def bench_arrows(stage: Stage) -> int:
    """Arrows of close-ups without a number."""
    return sum(not arrow.label for inset in stage.insets for arrow in inset.arrows)


def test_work_on_the_bench_has_empty_arrows_and_a_line_of_its_own() -> None:
    """The arrows of close-ups that carry no number are drawn empty, not in the colour of moves, and the legend says
    what they are; the page without such an arrow has no such line.
    """
    stages = stages_of(project_of("bay"))
    with_valve, links = stages.stage(2), stages.stage(4)
    assert bench_arrows(with_valve) == 2
    assert bench_arrows(links) == 0
    assert "bench" in [entry.look for entry in legend_of(with_valve)]
    assert "bench" not in [entry.look for entry in legend_of(links)]
    empty = f'fill="{THEME.paper}" stroke="{THEME.ink}" stroke-width="2.4"'
    assert svg(composed(with_valve, THEME), THEME).count(empty) == 2
    assert svg(composed(links, THEME), THEME).count(empty) == 0


def test_all_o_rings_are_spoken_of() -> None:
    """A pair of elbows has eight O-rings, of which a close-up shows those of one end: it says all of them. An end
    fitting has four, all of them in sight.
    """
    insets = stages_of(project_of("bay")).stage(2).insets
    said = {callout.text for inset in insets for callout in inset.callouts if callout.kind == "grease"}
    assert said == {"Grease 4 O-rings", "Grease all 8 O-rings"}


def test_every_joint_of_the_run_is_looked_at() -> None:
    """The pressure test counts the joints between pieces and the fittings at both ends of the run."""
    project = project_of("l-room")
    test = next(s for s in project.steps if s.kind == "pressure-test" and s.run == "A")
    run = next(r for r in project.layout.runs if r.id == "A")
    (inset,) = stages_of(project).stage(test.number).insets
    ends = {run.pieces[0].start.joint, run.pieces[-1].end.joint}
    assert ends == {"valve", "return"}
    assert inset.title == f"Joints to look at: {len(run.joints) + 2}"
