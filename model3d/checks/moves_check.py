"""Whether every piece can be moved into place in the usual order: each leg of each step against everything
that stands by then.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np

from model3d.families.family import Family
from model3d.families.rules import ApproachData, move_sum
from model3d.findings import Finding
from model3d.geometry.placement import Placement, Vec3, add
from model3d.layout import Layout, Piece
from model3d.motion.mesh import MotionMesh, drawn_in
from model3d.motion.way import Blocked, Memo, MotionBody, blocked, turned_about, turning_steps
from model3d.parts.kinds import Spec
from model3d.scene import Part, Scene
from model3d.solids.build import solid
from model3d.solids.mesh import solid_mesh
from model3d.steps import Approach, Step, up_already
from model3d.steps.moves import move_names
from model3d.steps.poses import LegPoses, leg_poses

Tick = Callable[[str, int, int], None]
DEFLECTION_MM, ANGLE_DEG = 0.03, 12.0
SKIN_MM = 0.04  # contact is no collision: movers are drawn in by this much
SAGITTA_MM = 0.02
FLEXIBLE = frozenset({"o-ring", "hose"})  # squeezed in their bores; bent by hand
NOT_STANDING = frozenset({"door-swing"})


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveVerdict:
    """What came of a step's moves: the approach that got through (None when none did), and what stopped the
    first one tried, on which leg.
    """

    step: int
    approach: str | None
    leg: str = ""
    stopped: Blocked | None = None
    done_mm: float = 0.0


@dataclass(slots=True)
class _Meshes:
    """Meshes for motion, each distinct shape once: as it is to stand, drawn in to move."""

    standing: dict[Spec, MotionMesh] = field(default_factory=dict)
    moving: dict[Spec, MotionMesh] = field(default_factory=dict)

    def stand(self, part: Part) -> MotionMesh:
        if part.spec not in self.standing:
            made = solid_mesh(
                solid(part.spec).wrapped, part.id, deflection_mm=DEFLECTION_MM, angle_deg=ANGLE_DEG
            )
            self.standing[part.spec] = MotionMesh(
                points=made.vertices_mm, triangles=made.triangles.astype(np.int64)
            )
        return self.standing[part.spec]

    def move(self, part: Part) -> MotionMesh:
        if part.spec not in self.moving:
            self.moving[part.spec] = drawn_in(self.stand(part), SKIN_MM)
        return self.moving[part.spec]


def check_moves(
    layout: Layout, scene: Scene, steps: Sequence[Step], family: Family, *, tick: Tick | None = None
) -> tuple[tuple[MoveVerdict, ...], tuple[Finding, ...]]:
    """A verdict for every step that moves a piece, and a finding for each that no approach of the family gets
    through.
    """
    meshes, memo = _Meshes(), Memo()
    by_mark = {p.mark: p for p in layout.pieces}
    verdicts: list[MoveVerdict] = []
    findings: list[Finding] = []
    up = list(up_already(layout, scene))
    for step in steps:
        if step.kind == "piece":
            if tick is not None:
                tick(f"moves of {' + '.join(step.pieces)}", step.number, len(steps))
            piece = by_mark[step.pieces[0]]
            standing = [p for p in (*scene.room, *(scene.part(i) for i in up)) if p.role not in NOT_STANDING]
            verdict = _verdict(family, scene, step, piece, standing, meshes, memo)
            verdicts.append(verdict)
            if verdict.stopped is not None:
                findings.append(_finding(scene, step, piece, verdict))
        up += [*step.travels, *step.follows]
    return tuple(verdicts), tuple(findings)


def _verdict(
    family: Family,
    scene: Scene,
    step: Step,
    piece: Piece,
    standing: Sequence[Part],
    meshes: _Meshes,
    memo: Memo,
) -> MoveVerdict:
    """Try the family's approaches in order; the first that is free is the answer, else what stopped the
    first.
    """
    listed = family.approaches.any
    if piece.end.joint == "elbow-long" and family.approaches.far_elbow_long:
        listed = family.approaches.far_elbow_long
    first: MoveVerdict | None = None
    for data in listed:
        verdict = _tried(family, scene, step, piece, data, standing, meshes, memo)
        if verdict.stopped is None:
            return verdict
        first = first or verdict
    assert first is not None
    return first


def _tried(
    family: Family,
    scene: Scene,
    step: Step,
    piece: Piece,
    data: ApproachData,
    standing: Sequence[Part],
    meshes: _Meshes,
    memo: Memo,
) -> MoveVerdict:
    names = move_names(family, piece)
    offer = step.legs[0].to_mm
    by: Vec3 = (0.0, 0.0, 0.0)
    if data.by is not None:
        t, u, v = (move_sum(s, names) for s in data.by)
        by = (t, u, v)
    approach = Approach(name=data.approach, from_mm=add(offer, by), turn_deg=data.turn_deg or 0.0)
    for poses in leg_poses(scene, step, piece, approach):
        turn = approach.turn_deg if poses.leg.name == "offer" and approach.name == "swing" else 0.0
        stopped = _leg_blocked(scene, piece, poses, turn, standing, meshes, memo)
        if stopped is not None:
            start = approach.from_mm if poses.leg.name == "offer" else poses.leg.from_mm
            way = float(np.linalg.norm(np.subtract(poses.leg.to_mm, start)))
            return MoveVerdict(
                step=step.number,
                approach=None,
                leg=poses.leg.name,
                stopped=stopped,
                done_mm=way * stopped.contact.share,
            )
    return MoveVerdict(step=step.number, approach=approach.name)


def _leg_blocked(
    scene: Scene,
    piece: Piece,
    poses: LegPoses,
    turn_deg: float,
    standing: Sequence[Part],
    meshes: _Meshes,
    memo: Memo,
) -> Blocked | None:
    parts = {i: scene.part(i) for i in poses.before}
    movers = [p for p in parts.values() if p.role not in FLEXIBLE]
    others = [
        MotionBody(
            id=p.id,
            mesh=meshes.stand(p),
            placement=p.placement.moved(poses.standing.get(p.id, (0.0, 0.0, 0.0))),
        )
        for p in standing
        if p.id not in parts and p.role not in FLEXIBLE
    ]
    wanted = _wanted(scene, poses)
    for start, end in _steps_of(piece, poses, movers, turn_deg):
        pairs = [(MotionBody(id=p.id, mesh=meshes.move(p), placement=start[p.id]), end[p.id]) for p in movers]
        found = blocked(pairs, others, wanted=wanted, memo=memo)
        if found is not None:
            return found
    return None


def _steps_of(
    piece: Piece, poses: LegPoses, movers: Sequence[Part], turn_deg: float
) -> list[tuple[dict[str, Placement], dict[str, Placement]]]:
    """The straight leg as one step, or a swing cut fine."""
    before = {p.id: p.placement.moved(poses.before[p.id]) for p in movers}
    after = {p.id: p.placement.moved(poses.after[p.id]) for p in movers}
    if turn_deg == 0.0:
        return [(before, after)]
    x, y = piece.wall.point_mm(piece.near_mm)
    about = add((x, y, 0.0), poses.after[f"{piece.mark}/piece"])
    away = -turn_deg * piece.sense  # the far end swings out into the room
    reach = piece.cut_length_mm + 200.0
    fine = {
        i: turning_steps(turned_about(p, about, -away), about, away, reach, SAGITTA_MM)
        for i, p in after.items()
    }
    count = len(next(iter(fine.values()))) - 1
    return [
        ({i: f[k] for i, f in fine.items()}, {i: f[k + 1] for i, f in fine.items()}) for k in range(count)
    ]


def _wanted(scene: Scene, poses: LegPoses) -> Callable[[str, str], bool]:
    """Pairs that count: all but those that are meant to touch hard on this leg (a clip and the nib that snaps
    into it, the latch that bends, the cradle that is eased back).
    """

    def wanted(mover: str, other: str) -> bool:
        a, b = scene.part(mover), scene.part(other)
        roles = {a.role, b.role}
        if roles == {"clip", "bridge"} or (roles == {"cradle", "valve-end"} and a.run == b.run):
            return False
        latch = roles == {"bracket", "piece"} or roles == {"bracket", "dry-piece"}
        return not (latch and poses.leg.name == "press" and a.piece == b.piece)

    return wanted


def _finding(scene: Scene, step: Step, piece: Piece, verdict: MoveVerdict) -> Finding:
    stopped = verdict.stopped
    assert stopped is not None
    mover, other = scene.part(stopped.mover), scene.part(stopped.standing)
    x, y, z = stopped.contact.place_mm
    message = (
        f"step {step.number}: {' + '.join(step.pieces)} cannot go up: on the {verdict.leg}, "
        f"after {verdict.done_mm:.1f} mm, {mover.name} meets {other.name} at ({x:.0f}, {y:.0f}, {z:.0f})"
    )
    return Finding(
        code="move-blocked",
        severity="error",
        where=f"piece {piece.mark}, wall {piece.wall.id}",
        message=message,
        remedy=_remedy(piece, mover, other),
        parts=(mover.id, other.id),
        measured=verdict.done_mm,
        limit=None,
        place_mm=stopped.contact.place_mm,
    )


def _remedy(piece: Piece, mover: Part, other: Part) -> str:
    if other.role == "wall" and mover.role in ("return-end", "turn-back-end", "piece"):
        return "Keep the slide's room free beyond the end: end the run at the corner itself, or further back from it."
    if other.role == "obstacle":
        return f"Take {other.obstacle} out of the way while {piece.mark} goes up, or end the run before it."
    if other.piece is not None and other.piece != piece.mark:
        return f"Fit {piece.mark} before {other.piece}, or take {other.name} off first."
    return "Use a link at the corner, or another end for the run."
