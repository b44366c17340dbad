"""Joints and cut lengths that a plan asks for on a run, and what is wrong with where it wants them."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from model3d.families.family import Family
from model3d.plans import PlanInPart
from model3d.plans.runs import CornerJoint, InLineJoint, WrittenRun
from model3d.rooms import runs as resolved
from model3d.rooms.names import full_name
from model3d.rooms.reading import Reading
from model3d.rooms.walls_known import WallsKnown
from model3d.sources import FaultyFile, read_typed

_LEAST_MM = 1e-6


def check_in_line(reading: Reading, plan: PlanInPart, family_path: Path | None) -> None:
    """Notes every in-line joint that the plan's family does not offer. What is wrong with the family's own file is said
    when the family is read.
    """
    asked = [joint for run in plan.runs for joint in run.joints if isinstance(joint, InLineJoint)]
    if not asked or family_path is None:
        return
    try:
        family = read_typed(family_path, Family)
    except (FaultyFile, OSError):
        return
    for joint in asked:
        if joint.use not in family.in_line:
            offered = " or ".join(family.in_line)
            reading.fault(joint, f"family {family.id} joins pieces in line by {offered}, not by {joint.use}", "use")


class Stretch(NamedTuple):
    """One wall that a run passes, and where it comes on and goes off."""

    wall_id: str
    enters_mm: float
    leaves_mm: float


class AskedJoints:
    """What one run asks for, set against the walls and corners that it passes."""

    def __init__(self, reading: Reading, walls: WallsKnown, entry: WrittenRun) -> None:
        self.reading, self.walls, self.entry = reading, walls, entry

    def at_corners(self, passed: list[str]) -> dict[str, resolved.CornerUse]:
        """The joints asked for at the corners the run passes."""
        uses: dict[str, resolved.CornerUse] = {}
        for joint in self.entry.joints:
            if isinstance(joint, CornerJoint):
                corner = full_name(joint.corner, self.entry.island)
                if corner not in passed:
                    listed = f"it passes {', '.join(passed)}" if passed else "it passes none"
                    self.reading.fault(joint, f"the run does not pass the corner '{corner}': {listed}", "corner")
                elif corner in uses:
                    self.reading.fault(joint, f"a joint at corner {corner} is asked for twice", "corner")
                uses[corner] = joint.use
        return uses

    def in_line(self, stretches: list[Stretch]) -> dict[int, list[resolved.InLineJoint]]:
        """The in-line joints asked for, by the number of their span."""
        found: dict[int, list[resolved.InLineJoint]] = {}
        for joint in self.entry.joints:
            wall_id = full_name(joint.wall, self.entry.island) if isinstance(joint, InLineJoint) else ""
            if not isinstance(joint, InLineJoint) or not self.walls.has(wall_id):
                continue
            spans = [(k, s.enters_mm, s.leaves_mm) for k, s in enumerate(stretches) if s.wall_id == wall_id]
            within = [k for k, a, b in spans if min(a, b) + _LEAST_MM < joint.at < max(a, b) - _LEAST_MM]
            if not spans:
                self.reading.fault(joint, f"the run does not pass wall {wall_id}", "wall")
            elif not within:
                where = " and ".join(f"from {a:.1f} to {b:.1f}" for _, a, b in spans)
                self.reading.fault(
                    joint, f"the run goes {where} on wall {wall_id}, and {joint.at:.1f} is not within", "at"
                )
            elif any(abs(other.at_mm - joint.at) <= _LEAST_MM for other in found.get(within[0], [])):
                self.reading.fault(joint, f"a joint at {joint.at:.1f} on wall {wall_id} is asked for twice", "at")
            else:
                found.setdefault(within[0], []).append(resolved.InLineJoint(at_mm=joint.at, use=joint.use))
        return found

    def cut_lengths(self, stretches: list[Stretch]) -> dict[int, list[resolved.CutLength]]:
        """The cut lengths asked for, by the number of the first span on their wall."""
        found: dict[int, list[resolved.CutLength]] = {}
        for cut in self.entry.cut_lengths:
            wall_id = full_name(cut.wall, self.entry.island)
            spans = [k for k, s in enumerate(stretches) if s.wall_id == wall_id]
            if not spans:
                if self.walls.has(wall_id):
                    self.reading.fault(cut, f"the run does not pass wall {wall_id}", "wall")
                continue
            asked = found.setdefault(spans[0], [])
            if any(other.piece == cut.piece for other in asked):
                self.reading.fault(cut, f"piece {cut.piece} on wall {wall_id} is given two cut lengths", "piece")
            asked.append(resolved.CutLength(piece=cut.piece, length_mm=cut.length))
        return found
