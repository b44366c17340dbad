"""What each step says. An end is named by where it goes, never by left or right: on the bench they swap."""

from __future__ import annotations

from collections.abc import Sequence

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


def bench_actions(family: Family, piece: Piece, far: Joint | None) -> list[Action]:
    """Clips, end fittings and elbows that go on before the piece goes up."""
    actions = [
        Action(kind="bench", text=f"{piece.mark}: clip {end.clip.upper()} at the end {TOWARD[name]}: tap it in flush.")
        for name, end in (("start", piece.start), ("end", piece.end)) if end.clip != "none"
    ]
    rings = 4 * len(family.oring.from_tip_mm)
    ends = {"valve": "valve end", "return": "return end", "turn-back": "turn-back end"}
    for end in (piece.start, piece.end):
        if end.joint in ends:
            actions.append(Action(kind="bench", text=f"{piece.mark}: grease {rings // 2} O-rings, push the {ends[end.joint]} in until it clicks."))
    if far is not None and far.kind == "elbow" and far.elbow is not None:
        home = far.elbow
        actions.append(Action(kind="bench", text=(
            f"{piece.mark}: grease {rings} O-rings; long legs into the end toward the return, no clip there; "
            f"push the elbows right home, {home.push_home_mm:g} mm past working."
        )))
    if far is not None and far.kind == "coupler":
        actions.append(Action(kind="bench", text=f"Couple {far.earlier} and {far.later} (grease {rings} O-rings, click), lift them as one."))
    return actions


def move_actions(piece: Piece, approach: Approach, legs: Sequence[MoveLeg]) -> list[Action]:
    """The legs in order, numbered as their arrows are."""
    return [Action(kind="move", text=_leg_text(piece, approach, leg), label=str(i)) for i, leg in enumerate(legs, 1)]


def _leg_text(piece: Piece, approach: Approach, leg: MoveLeg) -> str:
    click = " until it clicks" if leg.click else ""
    if leg.name == "offer":
        return f"Offer it up {APPROACHES[approach.name]}."
    if leg.name == "raise":
        return f"Raise {leg.length_mm:g} mm onto the ramps."
    if leg.name == "slide":
        return f"Slide {leg.length_mm:g} mm toward the valve onto the short legs{click}."
    if leg.name == "engage":
        return f"Hold the hose ends, push {leg.length_mm:g} mm toward the valve onto the links{click}."
    both = " at both ends together" if piece.cut_length_mm < SHORT_PIECE_MM else ""
    return f"Press {leg.length_mm:g} mm to the wall{both}{click}."


SHORT_PIECE_MM = 230.0  # p / tan(play): below it a piece cannot be pressed one end after the other


def after_actions(far: Joint | None, end: End) -> list[Action]:
    """What is done at the far end once the piece is up."""
    if far is None:
        return []
    if far.kind == "elbow" and far.elbow is not None:
        by = end.insertion_mm + far.elbow.push_home_mm - far.elbow.draw_out_to_mm
        return [Action(kind="after", text=f"Draw the elbows out {by:g} mm: short legs {far.elbow.press_draws_mm:g} mm in front of the next line.")]
    if far.kind == "link":
        return [Action(kind="after", text="Grease the links and push them into the end toward the return, screw heads up, until they click.")]
    return []
