"""Pieces that are cut or up already, by their marks, as a plan gives them."""

from __future__ import annotations

from dataclasses import dataclass

from model3d.plans import PlanInPart
from model3d.rooms.reading import Reading
from model3d.sources import near_miss


@dataclass(frozen=True, slots=True, kw_only=True)
class CutMade:
    """The length that the piece of this mark was cut to."""

    mark: str
    length_mm: float


def cuts_made(reading: Reading, plan: PlanInPart) -> tuple[CutMade, ...]:
    """The lengths as cut; a fault where a mark is of no run and no dry piece."""
    for mark in plan.as_cut:
        _check(reading, plan, mark, f"as_cut.{mark}", "as_cut")
    return tuple(CutMade(mark=mark, length_mm=length) for mark, length in plan.as_cut.items())


def fitted_pieces(reading: Reading, plan: PlanInPart) -> tuple[str, ...]:
    """The marks of the pieces that are up; a fault where one is given twice, or is of no run and no dry piece."""
    for i, mark in enumerate(plan.fitted):
        if mark in plan.fitted[:i]:
            reading.fault_in_list(plan, "fitted", i, f"'{mark}' is given twice")
        else:
            _check(reading, plan, mark, "", "fitted", i)
    return plan.fitted


def _check(reading: Reading, plan: PlanInPart, mark: str, key: str, holder: str, number: int | None = None) -> None:
    """Pieces are marked by their run and counted from the valve (A-1, A-2, ...); a dry piece by its id."""
    runs = [name for name in reading.ids_as_written("runs") if name]
    dry = [name for name in reading.ids_as_written("dry_pieces") if name]
    run, _, count = mark.rpartition("-")
    if mark in dry or (run in runs and count.isdecimal() and int(count) > 0):
        return
    known = [f"{name}-1" for name in runs] + dry
    message = f"no piece can be marked '{mark}'{near_miss(mark, known)} (marks: a run and a number, {', '.join(known)})"
    if number is not None:
        reading.fault_in_list(plan, holder, number, message)
    else:
        given = plan.written.get(holder) if plan.written is not None else None
        reading.fault_at(given.keys_at[mark] if given is not None else plan.place(key), message)
