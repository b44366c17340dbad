"""The steps of a whole layout in the usual order: brackets, pieces from valve to return, pressure test, covers."""

from __future__ import annotations

from collections.abc import Sequence

from model3d.families.family import Family
from model3d.geometry.placement import Vec3
from model3d.layout import Joint, Layout, Piece, RunLayout
from model3d.scene import Part, Scene
from model3d.steps.dry_ends import dry_places
from model3d.steps.handling import needs_two_people
from model3d.steps.moves import chain, room_vector
from model3d.steps.values import Action, Shift, Snag, Step
from model3d.steps.whole_run import COVERS, ON_WALL, bracket_step, cover_step, dry_bracket_step, pressure_step
from model3d.steps.words import after_actions, bench_actions, move_actions
from model3d.wording import ENGLISH, Catalogue


def plan_steps(layout: Layout, scene: Scene, family: Family, words: Catalogue = ENGLISH) -> tuple[Step, ...]:
    """All steps, numbered from 1: each run after the other, then the dry pieces. Pieces that are up already take no
    step. What they say is in the language of ``words``.
    """
    steps: list[Step] = []
    for run in layout.runs:
        steps.append(bracket_step(run, scene, len(steps) + 1, words))
        for group in (g for g in _groups(run) if not all(p.fitted for p in g)):
            steps.append(_piece_step(family, run, group, scene, len(steps) + 1, words))
        steps.append(pressure_step(run, len(steps) + 1, words))
        steps.append(cover_step(run, scene, len(steps) + 1, words))
    if layout.dry_pieces:
        steps.append(dry_bracket_step(layout.dry_pieces, scene, len(steps) + 1, words))
    for dry in layout.dry_pieces:
        steps.append(_dry_step(family, dry, scene, len(steps) + 1, words))
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


def _piece_step(
    family: Family, run: RunLayout, group: Sequence[Piece], scene: Scene, number: int, words: Catalogue
) -> Step:
    first, last = group[0], group[-1]
    marks = tuple(p.mark for p in group)
    near, far = _joint_before(run, first), _joint_after(run, last)
    approach, legs = chain(family, group)
    parts = [p for p in scene.fitted if p.piece in marks and p.role not in (*COVERS, *ON_WALL)]
    far_parts = [p for p in parts if far is not None and p.joint == far.mark]
    late = far_parts if far is not None and far.kind == "link" else []
    actions: list[Action] = []
    for piece in group:
        actions += bench_actions(
            family, piece, _joint_before(run, piece), _joint_after(run, piece), alone=len(group) == 1, words=words
        )
    actions += move_actions(family, group, approach, legs, words)
    actions += after_actions(family, far, last.end, str(len(legs) + 1), words)
    return Step(
        number=number,
        kind="piece",
        run=run.id,
        title=_title(group, near, words),
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
        snags=_snags(family, group, words),
        language=words.language,
    )


def _title(group: Sequence[Piece], near: Joint | None, words: Catalogue) -> str:
    what = "title.piece" if len(group) == 1 else "title.pieces"
    marks = " + ".join(p.mark for p in group)
    if near is None:
        return words.say(f"{what}-valve", mark=marks)
    if near.corner is None:
        return words.say(f"{what}-in-line", mark=marks)
    kind = "internal" if near.turn_deg > 0 else "external"
    return words.say(f"{what}-{kind}", mark=marks, id=near.corner.id)


def _snags(family: Family, group: Sequence[Piece], words: Catalogue) -> tuple[Snag, ...]:
    """Each snag of the family once, at the first end that has it."""
    ends = [e for p in group for e in (("start", p.start), ("end", p.end))]
    found: list[Snag] = []
    for snag in family.snags:
        names = [name for name, end in ends if end.joint == snag.at]
        if names:
            text = words.translated(snag.text, f"snag.{family.id}.{snag.at}")
            found.append(Snag(text=text, end="start" if names[0] == "start" else "end", during=snag.during))
    return tuple(found)


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


def _dry_step(family: Family, dry: Piece, scene: Scene, number: int, words: Catalogue) -> Step:
    approach, legs = chain(family, (dry,))
    parts = [p for p in scene.of_piece(dry.mark) if p.role not in ON_WALL]
    one, other = dry_places(dry, scene, words)
    return Step(
        number=number,
        kind="piece",
        run=None,
        title=words.say("title.dry-between", mark=dry.mark, one=one, other=other),
        pieces=(dry.mark,),
        approach=approach,
        legs=legs,
        actions=(
            *move_actions(family, (dry,), approach, legs, words),
            Action(kind="after", label=str(len(legs) + 1), text=words.say("after.caps-at", one=one, other=other)),
        ),
        travels=tuple(p.id for p in parts if p.role == "dry-piece"),
        follows=tuple(p.id for p in parts if p.role != "dry-piece"),
        two_people=needs_two_people(family, (dry,)),
        language=words.language,
    )
