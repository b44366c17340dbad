"""Whether the joints of a run hold, hot and cold, with pieces of other lengths, and where these then stand best."""

from __future__ import annotations

from collections.abc import Container, Iterator
from dataclasses import dataclass, replace

from model3d.as_cut.placing import Lengths, off_mm, placed
from model3d.families.family import Family
from model3d.findings import Finding
from model3d.layout import Layout, Piece, RunLayout
from model3d.layout.run import LEAST_PIECE_MARGIN_MM
from model3d.rooms import CheckedPlan
from model3d.thermal import thermal_report
from model3d.thermal.growing import coupled_groups

SAWN_WITHIN_MM = 0.5  # a growth gap may fall short by what a saw leaves (common practice, no source)
TIGHTEST = ("at rest", "hot at both")
"""The states of a hose that are looked at while a floating piece finds its place."""
_SHARES = tuple(i / 8.0 for i in range(9))


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """A run with its pieces placed, and what is wrong with it that was not wrong as laid out."""

    layout: Layout
    faults: tuple[Finding, ...]

    @property
    def badness_mm(self) -> float:
        """By how much all limits are passed, together."""
        return sum(abs((f.measured or 0.0) - (f.limit or 0.0)) for f in self.faults)


class RunJudge:
    """One run of a plan, judged for any lengths of its pieces."""

    def __init__(self, plan: CheckedPlan, layout: Layout, family: Family, run: RunLayout) -> None:
        self.family, self.run = family, run
        self.plan = replace(plan, runs=tuple(r for r in plan.runs if r.id == run.id))
        self.layout = replace(layout, runs=(run,), dry_pieces=(), findings=())
        self.before = {(f.code, f.parts) for f in self._found(self.layout)}
        self._known: dict[tuple[float | None, ...], Outcome] = {}

    def outcome(self, lengths: Lengths) -> Outcome:
        """The run with its pieces placed as well as they can be."""
        key = tuple(lengths.get(p.mark) for p in self.run.pieces)
        if key not in self._known:
            self._known[key] = self._placed(lengths)
        return self._known[key]

    def _placed(self, lengths: Lengths) -> Outcome:
        """Pieces that float are shifted, at first by the tightest states alone, then judged in all."""
        shifts: dict[str, float] = {}
        best, floating = self._at(lengths, shifts, TIGHTEST), self._floating()
        for _ in range(min(len(floating), 2)):
            for group in floating:
                if abs(off_mm(group, lengths)) > 0.0 or self._touched(group, best):
                    best, shifts = self._shifted(lengths, shifts, group, best)
            if not best.faults:
                break
        return self._at(lengths, shifts)

    def _touched(self, group: tuple[Piece, ...], outcome: Outcome) -> bool:
        """Whether something is wrong at either end of a group."""
        marks = {p.mark for p in group}
        beside = {j.mark for j in self.run.joints if j.earlier in marks or j.later in marks}
        return any(beside & set(f.parts) for f in outcome.faults)

    def _floating(self) -> list[tuple[Piece, ...]]:
        """The groups that can shift along their wall: a link at the near end, and a far end that is not held."""
        fixed = self.run.return_fixed
        return [
            g
            for g in coupled_groups(self.run)
            if g[0].start.joint == "link" and not (g[-1].end.joint == "return" and fixed)
        ]

    def _shifted(
        self, lengths: Lengths, shifts: dict[str, float], group: tuple[Piece, ...], best: Outcome
    ) -> tuple[Outcome, dict[str, float]]:
        """The best place of one group, the others as they are: half of what it is too long at each end, if it does."""
        off, mark = off_mm(group, lengths), group[0].mark
        widest = max((abs(p.near_out_mm) + abs(p.far_out_mm) for p in best.layout.pieces), default=0.0)
        tries = [off * share for share in _SHARES]
        tries += [off / 2.0 + sign * widest * share for share in (0.25, 0.5, 1.0) for sign in (-1.0, 1.0)]
        found, kept = best, shifts
        least = float("inf")
        for shift in sorted(set(tries), key=lambda t: abs(t - off / 2.0)):
            outcome = self._at(lengths, {**shifts, mark: shift}, TIGHTEST)
            if outcome.badness_mm < least - 1e-6:
                least, found, kept = outcome.badness_mm, outcome, {**shifts, mark: shift}
            if least == 0.0:
                break
        return found, kept

    def _at(self, lengths: Lengths, shifts: dict[str, float], states: Container[str] | None = None) -> Outcome:
        layout = placed(self.layout, lengths, shifts)
        found = self._found(layout, states)
        return Outcome(layout=layout, faults=tuple(f for f in found if (f.code, f.parts) not in self.before))

    def _found(self, layout: Layout, states: Container[str] | None = None) -> list[Finding]:
        report = thermal_report(self.plan, layout, self.family, shaped=states)
        found = [f for f in report.findings if not _sawn(f)]
        return [*found, *_too_short(layout)]


def _sawn(finding: Finding) -> bool:
    short = (finding.limit or 0.0) - (finding.measured or 0.0)
    return finding.code == "growth-gap-too-small" and short <= SAWN_WITHIN_MM


def _too_short(layout: Layout) -> Iterator[Finding]:
    for piece in layout.pieces:
        least = piece.start.most_insertion_mm + piece.end.most_insertion_mm + LEAST_PIECE_MARGIN_MM
        if piece.planned_mm is not None and piece.cut_length_mm < least:
            yield Finding(
                code="piece-too-short",
                severity="error",
                where=f"piece {piece.mark}",
                message=f"{piece.cut_length_mm:.1f} mm: the fittings at its ends need {least:.1f} mm",
                remedy="Cut a new piece.",
                parts=(piece.mark,),
                measured=piece.cut_length_mm,
                limit=least,
            )
