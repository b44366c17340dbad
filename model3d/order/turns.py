"""From things in an order to numbered steps, each as it is done then."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from model3d.moves.by_hand import step_by, with_free_near
from model3d.moves.ways import Site
from model3d.order.apart import Removal
from model3d.order.blocking import Blocking, WayUp, approach_named
from model3d.order.values import Turn
from model3d.steps import Action, Step
from model3d.steps.approached import approached
from model3d.steps.words import move_actions
from model3d.wording import catalogue


def turns_of(blocking: Blocking, order: Sequence[Removal[WayUp]]) -> tuple[Turn, ...]:
    """Every step in turn, numbered from 1. A run's pressure test follows the last of its pieces, when all go up."""
    found: list[Turn] = []
    there: set[str] = set()
    runs = [_run(blocking, r) for r in order]
    whole = Counter(s.run for s in blocking.job.steps if s.kind == "piece")
    steps = (s for s in blocking.job.steps if s.kind == "pressure-test" and runs.count(s.run) == whole[s.run])
    tests = {s.run: s for s in steps}
    for k, removal in enumerate(order):
        found.append(_turn(blocking, removal, frozenset(there)))
        there.add(removal.thing)
        if runs[k] in tests and runs[k] not in runs[k + 1 :]:
            found.append(Turn(step=tests[runs[k]], thing=None))
    return tuple(replace(t, step=replace(t.step, number=n)) for n, t in enumerate(found, start=1))


def _run(blocking: Blocking, removal: Removal[WayUp]) -> str | None:
    thing = blocking.things.named[removal.thing]
    return blocking.job.sites[thing.step].step.run if thing.kind == "piece" else None


def _turn(blocking: Blocking, removal: Removal[WayUp], there: frozenset[str]) -> Turn:
    """The step of a thing with these things there."""
    thing = blocking.things.named[removal.thing]
    site = blocking.job.sites[thing.step]
    if thing.kind != "piece":
        return Turn(step=site.step, thing=thing.name)
    family, far = blocking.job.family, site.far
    if removal.way.near == "joined":
        step = approached(family, site.group, site.step, approach_named(family, site.group, removal.way.approach))
    else:
        before = site.near.earlier if site.near is not None and blocking.is_up(site.near.earlier, there) else None
        step = _by_hand(with_free_near(site), removal.way.approach, before)
    if far is not None and blocking.is_up(far.later, there):
        words = catalogue(step.language).say("after.links-into", mark=far.later)
        step = replace(step, actions=(*step.actions, Action(kind="after", text=words)), links_into=far.later)
    return Turn(step=step, thing=thing.name)


def _by_hand(site: Site, approach: str, before: str | None) -> Step:
    """The step of a piece that goes up with nothing at its near end; the links follow by hand when the piece before it
    is up.
    """
    coming = approach_named(site.family, site.group, approach)
    step = step_by(site.family, site.group, site.step, coming)
    words = catalogue(step.language)
    moves = move_actions(site.family, site.group, coming, step.legs, words)
    bench = [a for a in step.actions if a.kind == "bench"]
    after = [a for a in step.actions if a.kind not in ("bench", "move")]
    after = [replace(a, label=str(len(moves) + 1)) if a.label else a for a in after]
    if before is not None:
        label = str(len(moves) + sum(bool(a.label) for a in after) + 1)
        after.append(Action(kind="after", text=words.say("after.links-from", mark=before), label=label))
    return replace(step, actions=(*bench, *moves, *after), links_from=before)
