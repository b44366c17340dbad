"""The service question: what must come off to get a piece out, and by which moves: its own, run backwards."""

from __future__ import annotations

from collections.abc import Iterator

from model3d.moves.by_hand import step_by, with_free_near
from model3d.order.apart import Apart, Asked, Removal
from model3d.order.blocking import Blocking, WayUp, approach_named
from model3d.order.get_out import get_out
from model3d.order.job import Job, things_of, with_all_to_fit
from model3d.order.seek import Tick, ticking, traps_of
from model3d.order.values import ComingOff, Removed
from model3d.steps import MoveLeg

FAR, NEAR = "the end toward the return", "the end toward the valve"
WAYS_OUT = {
    "straight": "straight out into the room",
    "slanted": "out into the room on the slant, its end toward the return back from the corner",
    "above": "up and out",
    "along": "out along the wall, toward the return",
    "swing": "out by its end toward the return, turning about its other end",
}


def remove(job: Job, mark: str, *, tick: Tick | None = None) -> Removed:
    """The fewest things that must come off to get a piece out, of everything that is up once all is fitted. Raises
    KeyError when there is no such piece.
    """
    job = with_all_to_fit(job)
    blocking = Blocking(job=job, things=things_of(job, each_cover=True))
    thing = blocking.things.of_mark[mark]
    asked = Asked(ticking(blocking, tick))
    found = get_out(asked.assembly, thing.name, asked=asked)
    if isinstance(found, Apart):
        return Removed(mark=mark, taken_off=(), trapped=tuple(traps_of(blocking, found)))
    there = set(asked.assembly.things)
    taken: list[ComingOff] = []
    for removal in found:
        there.discard(removal.thing)
        taken.append(ComingOff(thing=removal.thing, moves=tuple(_moves(blocking, removal, frozenset(there)))))
    return Removed(mark=mark, taken_off=tuple(taken))


def _moves(blocking: Blocking, removal: Removal[WayUp], there: frozenset[str]) -> Iterator[str]:
    """The moves of one thing with all these still there."""
    thing = blocking.things.named[removal.thing]
    if thing.kind == "covers":
        yield "Pull it off."
    elif thing.kind == "brackets":
        yield "Unscrew them, and take each straight off the wall."
    else:
        yield from _piece_moves(blocking, removal, there)


def _piece_moves(blocking: Blocking, removal: Removal[WayUp], there: frozenset[str]) -> Iterator[str]:
    site = blocking.job.sites[blocking.things.named[removal.thing].step]
    near, far = site.near, site.far
    if far is not None and far.kind == "link":
        if blocking.is_up(far.later, there):
            yield f"Let the links to {far.later} go by hand, the hoses bent: out of {FAR}."
        else:
            yield f"Draw the links out of {FAR}."
    if far is not None and far.elbow is not None:
        yield f"Push the elbows at {FAR} right home, {far.elbow.push_home_mm:g} mm past working."
    by_hand = removal.way.near == "by hand"
    if by_hand and near is not None and blocking.is_up(near.earlier, there):
        yield f"Let the links from {near.earlier} go by hand, the hoses bent: out of {NEAR}."
    drawn = near is not None and near.elbow is not None and blocking.is_up(near.earlier, there)
    if by_hand:
        site = with_free_near(site)
    approach = approach_named(blocking.job.family, site.group, removal.way.approach)
    for leg in reversed(step_by(blocking.job.family, site.group, site.step, approach).legs):
        yield _backwards(leg, approach.name, drawn=drawn)
    if site.step.two_people:
        yield "Two people."


def _backwards(leg: MoveLeg, approach: str, *, drawn: bool) -> str:
    """A leg run backwards, in words; ``drawn``: elbows of the piece before come out of it with the press undone."""
    if leg.name == "press":
        and_elbows = f"; the elbows at {NEAR} draw out with it" if drawn else ""
        return f"Free the latches and draw it {leg.length_mm:g} mm out from the wall{and_elbows}."
    if leg.name == "slide":
        return f"Slide it {leg.length_mm:g} mm toward the return, off the short legs."
    if leg.name == "engage":
        return f"Draw it {leg.length_mm:g} mm toward the return, off the links."
    if leg.name == "raise":
        return f"Lower it {leg.length_mm:g} mm off the ramps."
    return f"Take it {WAYS_OUT[approach]}."
