"""From things in an order to numbered steps, each as it is done then."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from model3d.order.apart import Removal
from model3d.order.blocking import Blocking, WayUp, approach_named, step_by, with_free_near
from model3d.order.values import Turn
from model3d.steps import Action, Step
from model3d.steps.approached import approached
from model3d.steps.words import move_actions


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
    family, near, far = blocking.job.family, removal.way.near, site.far
    beyond = far.later if far is not None and blocking.is_up(far.later, there) else None
    if near == "joined":
        step = approached(family, site.group, site.step, approach_named(family, site.group, removal.way.approach))
    else:
        before = site.near.earlier if site.near is not None and blocking.is_up(site.near.earlier, there) else None
        step = _by_hand(blocking, removal, before)
    if beyond is not None:
        words = f"Push the other ends of the links into {beyond} by hand, the hoses bent, until they click."
        step = replace(step, actions=(*step.actions, Action(kind="after", text=words)))
    return Turn(step=step, thing=thing.name, near=near, links_after=beyond)


def _by_hand(blocking: Blocking, removal: Removal[WayUp], before: str | None) -> Step:
    """The step of a piece that goes up with nothing at its near end; the links follow by hand when the piece before it
    is up.
    """
    family = blocking.job.family
    site = with_free_near(blocking.job.sites[blocking.things.named[removal.thing].step])
    approach = approach_named(family, site.group, removal.way.approach)
    step = step_by(family, site.group, site.step, approach)
    moves = move_actions(family, site.group, approach, step.legs)
    bench = [a for a in step.actions if a.kind == "bench"]
    after = [a for a in step.actions if a.kind not in ("bench", "move")]
    if before is not None:
        words = (
            f"Push the links from {before} in at the end toward the valve by hand, the hoses bent, until they click."
        )
        after.insert(0, Action(kind="after", text=words))
    return replace(step, actions=(*bench, *moves, *after))
