"""What each step says, in the words of a catalogue. An end is named by where it goes, never by left or right: on the
bench they swap.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from model3d.families.elbow_corner import pressed_together_below_mm
from model3d.families.family import Family
from model3d.layout import End, Joint, Piece
from model3d.steps.values import Action, Approach, MoveLeg
from model3d.wording import ENGLISH, Catalogue

END_FITTINGS = ("valve", "return", "turn-back")
DRAWN_MM = 0.05  # less is not drawn out by hand


def bench_actions(
    family: Family, piece: Piece, near: Joint | None, far: Joint | None, *, alone: bool, words: Catalogue = ENGLISH
) -> list[Action]:
    """What each end of a piece gets on the bench: its clip, its end fitting, its elbows, its couplers. One line an
    end.

    Couplers come with the later piece, when both clips are in. ``alone`` False puts the piece's mark first, where
    several go up as one.
    """
    rings = 4 * len(family.oring.from_tip_mm)
    actions = []
    ends: tuple[tuple[Literal["start", "end"], End], ...] = (("start", piece.start), ("end", piece.end))
    for name, end in ends:
        clip = words.say("bench.no-clip")
        if end.clip != "none":
            clip = words.say("bench.clip", face=words.say(f"face.{end.clip}"))
        said = [clip]
        if end.joint in END_FITTINGS:
            said.append(words.say("bench.end-fitting", count=rings // 2, fitting=words.say(f"fitting.{end.joint}")))
        if name == "start" and near is not None and near.kind == "coupler":
            said.append(words.say("bench.couple", count=rings, mark=near.earlier))
        if name == "end" and far is not None:
            said += _far_fitting(far, rings, words)
        key, toward = "bench.end" if alone else "bench.end-of", words.say(f"toward.{name}")
        text = words.say(key, mark=piece.mark, toward=toward, what="; ".join(said))
        actions.append(Action(kind="bench", text=text, piece=piece.mark, end=name, parts=tuple(said)))
    return actions


def _far_fitting(far: Joint, rings: int, words: Catalogue) -> list[str]:
    if far.kind == "elbow" and far.elbow is not None:
        home = far.elbow.push_home_mm
        return [words.say("bench.elbow" if home >= 0.0 else "bench.elbow-short", count=rings, mm=abs(home))]
    return [words.say("bench.links-later")] if far.kind == "link" else []


def move_actions(
    family: Family,
    group: Sequence[Piece],
    approach: Approach,
    legs: Sequence[MoveLeg],
    words: Catalogue = ENGLISH,
) -> list[Action]:
    """The legs of what goes up as one, in order, numbered as their arrows are."""
    short = pressed_together(family, group)
    return [
        Action(kind="move", text=_leg_text(approach, leg, words, short=short), label=str(i))
        for i, leg in enumerate(legs, 1)
    ]


def pressed_together(family: Family, group: Sequence[Piece]) -> bool:
    """Whether what goes up as one is too short to be pressed one end after the other."""
    return sum(p.cut_length_mm for p in group) < together_below_mm(family)


def together_below_mm(family: Family) -> float:
    """A piece shorter than p / tan(play) cannot be pressed one end after the other; 0 in a family without elbows,
    whose hoses give.
    """
    return 0.0 if family.elbow is None else pressed_together_below_mm(family)


def _leg_text(approach: Approach, leg: MoveLeg, words: Catalogue, *, short: bool) -> str:
    click = "-click" if leg.click else ""
    if leg.name == "offer":
        return _offer_text(approach, leg, words)
    if leg.name == "raise":
        return words.say("move.raise", mm=leg.length_mm)
    if leg.name in ("slide", "engage"):
        return words.say(f"move.{leg.name}{click}", mm=leg.length_mm)
    return words.say(f"move.press{'-both' if short else ''}{click}", mm=leg.length_mm)


def _offer_text(approach: Approach, leg: MoveLeg, words: Catalogue) -> str:
    """How it comes; a slanting offer says at which end it is held back at first, and by how much."""
    if approach.name == "slanted":
        back = leg.to_mm[0] - leg.from_mm[0]
        return words.say("offer.slanted-near" if back >= 0 else "offer.slanted-far", mm=abs(back))
    return words.say(f"offer.{approach.name}", deg=abs(approach.turn_deg))


def after_actions(family: Family, far: Joint | None, end: End, label: str, words: Catalogue = ENGLISH) -> list[Action]:
    """What is done at the far end once the piece is up, numbered on from the moves."""
    if far is None:
        return []
    if far.kind == "elbow" and far.elbow is not None:
        by = drawn_by_mm(far, end)
        key = "after.elbow" if by > DRAWN_MM else "after.elbow-home" if by > -DRAWN_MM else "after.elbow-too-far-out"
        text = words.say(key, by=abs(by), stand=far.elbow.press_draws_mm)
        return [Action(kind="after", label=label, text=text)]
    if far.kind == "link":
        text = words.say(f"after.link-{family.link.screw_access}", count=4 * len(family.oring.from_tip_mm))
        return [Action(kind="after", label=label, text=text)]
    return []


def drawn_by_mm(far: Joint, end: End) -> float:
    """How far a corner's elbows are drawn out by hand once their piece is up; below 0 they stand too far out already,
    by so much, since the piece was cut too long. Raises ValueError where the joint has none.
    """
    if far.elbow is None:
        raise ValueError(f"joint {far.mark} has no elbow")
    return end.insertion_mm + far.elbow.push_home_mm - far.elbow.draw_out_to_mm
