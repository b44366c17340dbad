"""What each step says. An end is named by where it goes, never by left or right: on the bench they swap."""

from __future__ import annotations

from collections.abc import Sequence

from model3d.families.elbow_corner import pressed_together_below_mm
from model3d.families.family import Family
from model3d.layout import End, Joint, Piece
from model3d.steps.values import Action, Approach, MoveLeg

TOWARD = {"start": "toward the valve", "end": "toward the return"}
APPROACHES = {
    "straight": "straight from the room",
    "slanted": "slanting in, held back from the far corner at first",
    "above": "from above",
    "along": "from along the wall",
    "swing": "swinging in about its near end",
}


SCREWS = {"above": "screw heads up", "front": "screw heads to the front"}
END_FITTINGS = {"valve": "valve end", "return": "return end", "turn-back": "turn-back end"}


def bench_actions(
    family: Family, piece: Piece, near: Joint | None, far: Joint | None, *, alone: bool
) -> list[Action]:
    """What each end of a piece gets on the bench: its clip, its end fitting, its elbows, its couplers. One line an
    end.

    Couplers come with the later piece, when both clips are in. ``alone`` False puts the piece's mark first, where
    several go up as one.
    """
    rings = 4 * len(family.oring.from_tip_mm)
    actions = []
    for name, end in (("start", piece.start), ("end", piece.end)):
        said = [f"clip {end.clip.upper()}, tapped in flush" if end.clip != "none" else "no clip"]
        if end.joint in END_FITTINGS:
            said.append(f"grease {rings // 2} O-rings, {END_FITTINGS[end.joint]} in until it clicks")
        if name == "start" and near is not None and near.kind == "coupler":
            said.append(f"grease {rings} O-rings, couple it to {near.earlier} until it clicks; they go up as one")
        if name == "end" and far is not None:
            said += _far_fitting(far, rings)
        mark = "" if alone else f"{piece.mark}, "
        actions.append(Action(kind="bench", text=f"On the bench, {mark}end {TOWARD[name]}: {'; '.join(said)}."))
    return actions


def _far_fitting(far: Joint, rings: int) -> list[str]:
    if far.kind == "elbow" and far.elbow is not None:
        home = f"pushed right home ({far.elbow.push_home_mm:g} mm past working)"
        return [f"grease {rings} O-rings, long legs in, worked in and out a few times, then {home}"]
    return ["the links go in once it is up"] if far.kind == "link" else []


def move_actions(family: Family, group: Sequence[Piece], approach: Approach, legs: Sequence[MoveLeg]) -> list[Action]:
    """The legs of what goes up as one, in order, numbered as their arrows are."""
    short = sum(p.cut_length_mm for p in group) < together_below_mm(family)
    return [
        Action(kind="move", text=_leg_text(approach, leg, short=short), label=str(i)) for i, leg in enumerate(legs, 1)
    ]


def together_below_mm(family: Family) -> float:
    """A piece shorter than p / tan(play) cannot be pressed one end after the other; 0 in a family without elbows,
    whose hoses give.
    """
    return 0.0 if family.elbow is None else pressed_together_below_mm(family)


def _leg_text(approach: Approach, leg: MoveLeg, *, short: bool) -> str:
    click = " until it clicks" if leg.click else ""
    if leg.name == "offer":
        return f"Offer it up {APPROACHES[approach.name]}."
    if leg.name == "raise":
        return f"Raise {leg.length_mm:g} mm onto the ramps."
    if leg.name == "slide":
        return f"Slide {leg.length_mm:g} mm toward the valve onto the short legs{click}."
    if leg.name == "engage":
        return f"Hold the hose ends, push {leg.length_mm:g} mm toward the valve onto the links{click}."
    both = " at both ends together" if short else ""
    return f"Press {leg.length_mm:g} mm to the wall{both}{click}."


def after_actions(family: Family, far: Joint | None, end: End, label: str) -> list[Action]:
    """What is done at the far end once the piece is up, numbered on from the moves."""
    if far is None:
        return []
    if far.kind == "elbow" and far.elbow is not None:
        by = end.insertion_mm + far.elbow.push_home_mm - far.elbow.draw_out_to_mm
        stand = f"the short legs then stand {far.elbow.press_draws_mm:g} mm in front of the next piece's place"
        text = f"Draw the elbows out {by:g} mm: {stand}."
        return [Action(kind="after", label=label, text=text)]
    if far.kind == "link":
        screws = SCREWS[family.link.screw_access]
        text = f"Grease the links, push them in at the end toward the return, {screws}, until they click."
        return [Action(kind="after", label=label, text=text)]
    return []
