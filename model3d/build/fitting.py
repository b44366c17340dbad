"""The steps as they are to be done: in the usual order where it goes, in another that does where it does not."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from model3d.findings import Finding
    from model3d.moves.ways import Site
    from model3d.order import Job, Sought
    from model3d.steps import Step


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitting:
    """The steps in turn, each piece coming by an approach that was tried and is free; ``another`` is the order that was
    found since the usual one does not go, with the ``findings`` that say so: None where the usual one is kept.

    ``blocked`` are the numbers of the steps that do not go: none but where no order does; these keep their preferred
    approach.
    """

    steps: tuple[Step, ...]
    another: Sought | None = None
    findings: tuple[Finding, ...] = ()
    blocked: tuple[int, ...] = ()


def fitting_of(job: Job) -> Fitting:
    """The fitting of a job. Another order is sought only when something of the usual one does not go."""
    from model3d.moves import steps_as_moved
    from model3d.order import order_findings, seek

    blocked = [s for s in job.sites.values() if not _goes(s)]
    if blocked and not any(_stands_for_good(job, s) for s in blocked):
        sought = seek(job)
        if not sought.trapped and not sought.usual:
            return Fitting(steps=sought.steps, another=sought, findings=order_findings(job, sought))
    steps = steps_as_moved(job.layout, job.scene, job.steps, job.family, shapes=job.shapes)
    return Fitting(steps=steps, blocked=_numbers(blocked))


def _goes(site: Site) -> bool:
    from model3d.moves.remedies import is_free

    return site.step.kind not in ("piece", "brackets") or is_free(site)


def _stands_for_good(job: Job, site: Site) -> bool:
    """Whether something that never goes stands in a step's own place: no order helps then."""
    from model3d.moves.trying import first_stop
    from model3d.moves.ways import bracket_ways, piece_ways
    from model3d.steps.moves import approaches

    listed = approaches(site.family, site.group)[:1] if site.group else ()
    every = [way for a in listed for way in piece_ways(site, a)] or bracket_ways(site)
    stops = (first_stop(site, [way]) for way in every)
    return any(s is not None and s.lasting and s.standing in job.always_there for s in stops)


def _numbers(sites: Sequence[Site]) -> tuple[int, ...]:
    return tuple(s.step.number for s in sites)
