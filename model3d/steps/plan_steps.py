"""The steps of a whole layout in the usual order: brackets, pieces from valve to return, pressure test, covers."""

from __future__ import annotations

from collections.abc import Sequence

from model3d.families.family import Family
from model3d.geometry.placement import Vec3
from model3d.layout import Joint, Layout, Piece, RunLayout
from model3d.scene import Part, Scene
from model3d.steps.handling import needs_two_people
from model3d.steps.moves import chain, room_vector
from model3d.steps.values import Action, Shift, Step
from model3d.steps.words import after_actions, bench_actions, move_actions

COVERS = ("trim", "end-cap")
BEFORE_DRILLING = Action(kind="check", text="Check for buried cables and pipes before drilling.")


def plan_steps(layout: Layout, scene: Scene, family: Family) -> tuple[Step, ...]:
    """All steps, numbered from 1: each run after the other, then the dry pieces. Pieces that are up already take no
    step.
    """
    steps: list[Step] = []
    for run in layout.runs:
        steps.append(_brackets(run, scene, len(steps) + 1))
        for group in (g for g in _groups(run) if not all(p.fitted for p in g)):
            steps.append(_piece_step(family, run, group, scene, len(steps) + 1))
        steps.append(_test(run, len(steps) + 1))
        covers = tuple(p.id for p in scene.fitted if p.run == run.id and p.role in COVERS)
        steps.append(_covers(run.id, covers, len(steps) + 1))
    if layout.dry_pieces:
        steps.append(_dry_brackets(layout.dry_pieces, scene, len(steps) + 1))
    for dry in layout.dry_pieces:
        steps.append(_dry_step(family, dry, scene, len(steps) + 1))
    return tuple(steps)


def up_already(layout: Layout, scene: Scene) -> tuple[str, ...]:
    """Ids of the parts that stand before the first step: those of the pieces fitted earlier, but covers."""
    marks = {p.mark for p in layout.pieces if p.fitted}
    return tuple(p.id for p in scene.fitted if p.piece in marks and p.role not in COVERS)


def _groups(run: RunLayout) -> list[list[Piece]]:
    """Pieces that go up together: coupled ones as one."""
    groups: list[list[Piece]] = [[run.pieces[0]]]
    for joint, piece in zip(run.joints, run.pieces[1:], strict=True):
        if joint.kind == "coupler":
            groups[-1].append(piece)
        else:
            groups.append([piece])
    return groups


def _brackets(run: RunLayout, scene: Scene, number: int) -> Step:
    up = {p.mark for p in run.pieces if p.fitted}
    found = tuple(
        p.id for p in scene.fitted if p.run == run.id and p.role in ("bracket", "cradle") and p.piece not in up
    )
    cradle = " and the valve's cradle" if any(scene.part(i).role == "cradle" for i in found) else ""
    count = sum(scene.part(i).role == "bracket" for i in found)
    fix = f"Mark, drill and fix all {count} brackets of the run{cradle}, on every wall."
    return Step(
        number=number, kind="brackets", run=run.id, title=f"Run {run.id}: all brackets first", follows=found,
        actions=(BEFORE_DRILLING, Action(kind="after", text=fix)),
    )


def _dry_brackets(dry: Sequence[Piece], scene: Scene, number: int) -> Step:
    marks = {p.mark for p in dry}
    found = tuple(p.id for p in scene.fitted if p.piece in marks and p.role == "bracket")
    fix = f"Mark, drill and fix the {len(found)} brackets of the dry pieces."
    return Step(
        number=number, kind="brackets", run=None, title="Dry pieces: all brackets first", follows=found,
        actions=(BEFORE_DRILLING, Action(kind="after", text=fix)),
    )


def _test(run: RunLayout, number: int) -> Step:
    return Step(
        number=number,
        kind="pressure-test",
        run=run.id,
        title=f"Run {run.id}: pressure test",
        actions=(
            Action(kind="check", text="Look at every joint: clip flush, fitting clicked, nothing standing proud."),
            Action(
                kind="check",
                text="Pressure-test before anything is covered, as local codes and the maker's instructions say.",
            ),
        ),
    )


def _covers(run_id: str, covers: tuple[str, ...], number: int) -> Step:
    action = Action(
        kind="after",
        text="Only after the pressure test: push the trims over the joints and the end caps over the free ends.",
    )
    return Step(
        number=number,
        kind="covers",
        run=run_id,
        title=f"Run {run_id}: trims and end caps last",
        actions=(action,),
        follows=covers,
    )


def _piece_step(family: Family, run: RunLayout, group: Sequence[Piece], scene: Scene, number: int) -> Step:
    first, last = group[0], group[-1]
    marks = tuple(p.mark for p in group)
    near, far = _joint_before(run, first), _joint_after(run, last)
    approach, legs = chain(family, group)
    parts = [p for p in scene.fitted if p.piece in marks and p.role not in (*COVERS, "bracket", "cradle")]
    far_parts = [p for p in parts if far is not None and p.joint == far.mark]
    late = far_parts if far is not None and far.kind == "link" else []
    actions: list[Action] = []
    for piece in group:
        actions += bench_actions(
            family, piece, _joint_before(run, piece), _joint_after(run, piece), alone=len(group) == 1
        )
    actions += move_actions(family, group, approach, legs)
    actions += after_actions(family, far, last.end, str(len(legs) + 1))
    return Step(
        number=number,
        kind="piece",
        run=run.id,
        title=_title(group, near),
        actions=tuple(actions),
        pieces=marks,
        travels=tuple(p.id for p in parts if p not in late),
        follows=tuple(p.id for p in late),
        approach=approach,
        legs=legs,
        pushed_home=_elbow_shifts(far, last, far_parts, home=True),
        drawn_out=_elbow_shifts(far, last, far_parts, home=False),
        waiting=_waiting(run, near, scene),
        two_people=needs_two_people(family, group),
        snags=tuple(s.text for s in family.snags if s.at in {e.joint for p in group for e in (p.start, p.end)}),
    )


def _title(group: Sequence[Piece], near: Joint | None) -> str:
    first = group[0]
    what = f"Piece {first.mark}" if len(group) == 1 else "Pieces " + " + ".join(p.mark for p in group)
    if near is None:
        return f"{what}, with the valve end"
    kind = (
        "in-line link"
        if near.corner is None
        else f"{'internal' if near.turn_deg > 0 else 'external'} corner {near.corner.id}"
    )
    return f"{what}, after the {kind}"


def _joint_before(run: RunLayout, piece: Piece) -> Joint | None:
    return next((j for j in run.joints if j.later == piece.mark), None)


def _joint_after(run: RunLayout, piece: Piece) -> Joint | None:
    return next((j for j in run.joints if j.earlier == piece.mark), None)


def _elbow_shifts(joint: Joint | None, piece: Piece, parts: Sequence[Part], *, home: bool) -> tuple[Shift, ...]:
    if joint is None or joint.elbow is None:
        return ()
    back = joint.elbow.push_home_mm if home else joint.elbow.press_draws_mm
    by: Vec3 = room_vector(piece, (-back, 0.0, 0.0))
    return tuple(Shift(part=p.id, by_mm=by) for p in parts)


def _waiting(run: RunLayout, near: Joint | None, scene: Scene) -> tuple[Shift, ...]:
    if near is None or near.elbow is None:
        return ()
    earlier = next(p for p in run.pieces if p.mark == near.earlier)
    parts = [p for p in scene.fitted if p.joint == near.mark and p.role not in COVERS]
    return _elbow_shifts(near, earlier, parts, home=False)


def _dry_step(family: Family, dry: Piece, scene: Scene, number: int) -> Step:
    approach, legs = chain(family, (dry,))
    parts = [p for p in scene.of_piece(dry.mark) if p.role != "bracket"]
    return Step(
        number=number,
        kind="piece",
        run=None,
        title=f"Dry piece {dry.mark}",
        pieces=(dry.mark,),
        approach=approach,
        legs=legs,
        actions=(
            *move_actions(family, (dry,), approach, legs),
            Action(kind="after", text="Push the end caps on."),
        ),
        travels=tuple(p.id for p in parts if p.role == "dry-piece"),
        follows=tuple(p.id for p in parts if p.role != "dry-piece"),
        two_people=needs_two_people(family, (dry,)),
    )
