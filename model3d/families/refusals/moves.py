"""Moves as data: chains that begin with the offer and end in place, each leg along its own axis; approaches that come
from outside."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from model3d.families.family import Family
from model3d.families.refusals.refusal import Limits, Refusal, mm, refuse
from model3d.families.rules import LegData, move_sum

AXES: Mapping[str, tuple[int, str]] = {
    "raise": (2, "up"),
    "slide": (0, "along the run"),
    "engage": (0, "along the run"),
    "press": (1, "toward the wall"),
}


def _names(family: Family, engaged_mm: float, limits: Limits) -> dict[str, float]:
    return {"d": engaged_mm + limits.slide_margin_mm, "p": family.bracket.press_mm, "l": family.bracket.lift_mm}


def chains(family: Family, limits: Limits) -> Iterator[Refusal]:
    """Each chain: the offer first, p in front and l low; then legs along their axes; the last ends at 0, 0, 0."""
    elbow = family.elbow
    yield from _chain("moves.first", family.moves.first, _names(family, family.end_insertion_mm, limits), 0.0)
    names = _names(family, family.link.insertion_mm, limits)
    yield from _chain("moves.link", family.moves.link, names, names["d"])
    if elbow is not None and family.moves.elbow_short is not None:
        names = _names(family, elbow.short_leg_mm - elbow.stub_mm, limits)
        yield from _chain("moves.elbow-short", family.moves.elbow_short, names, names["d"])


def _chain(key: str, legs: tuple[LegData, ...], names: Mapping[str, float], along_mm: float) -> Iterator[Refusal]:
    if not legs:
        yield from refuse("moves-empty", key, "no move is given")
        return
    poses = [tuple(move_sum(text, names) for text in leg.to) for leg in legs]
    if legs[0].leg != "offer":
        yield from refuse("offer-first", f"{key}.0.leg", f"the first move is '{legs[0].leg}', not the offer")
    wanted = (along_mm, names["p"], -names["l"])
    if poses[0] != wanted:
        text = f"the offer stands at {_shown(poses[0])}, not at {_shown(wanted)}"
        yield from refuse("offer-place", f"{key}.0.to", text)
    if poses[-1] != (0.0, 0.0, 0.0):
        yield from refuse(
            "moves-end", f"{key}.{len(legs) - 1}.to", f"the last move ends at {_shown(poses[-1])}, not at 0, 0, 0"
        )
    for i, leg in enumerate(legs[1:], start=1):
        if leg.leg == "offer":
            yield from refuse("offer-first", f"{key}.{i}.leg", "a second offer: a chain has one, at its beginning")
            continue
        axis, words = AXES[leg.leg]
        moved = [b - a for a, b in zip(poses[i - 1], poses[i], strict=True)]
        if any(abs(by) > 1e-9 for j, by in enumerate(moved) if j != axis) or abs(moved[axis]) <= 1e-9:
            text = f"'{leg.leg}' goes {words} but moves by {_shown(moved)} (along, out, up)"
            yield from refuse("move-axis", f"{key}.{i}.to", text)


def _shown(pose: tuple[float, ...] | list[float]) -> str:
    return ", ".join(mm(value + 0.0) for value in pose)


def approaches(family: Family, limits: Limits) -> Iterator[Refusal]:
    """Each approach says where it comes from, as its name has it; a swing says its turn."""
    names = _names(family, family.link.insertion_mm, limits)
    lists = (
        ("approaches.any", family.approaches.any),
        ("approaches.far-elbow-long", family.approaches.far_elbow_long or ()),
    )
    for key, listed in lists:
        for i, approach in enumerate(listed):
            where = f"{key}.{i}"
            if approach.approach == "swing":
                if approach.turn_deg is None or approach.by is not None:
                    yield from refuse("approach", where, "a swing needs 'turn_deg' and no 'by'")
                continue
            if approach.by is None or approach.turn_deg is not None:
                yield from refuse("approach", where, f"'{approach.approach}' needs 'by' and no 'turn_deg'")
                continue
            along, out, up = (move_sum(text, names) for text in approach.by)
            fits = {
                "straight": along == 0.0 and out > 0.0 and up == 0.0,
                "slanted": along != 0.0 and out > 0.0,
                "above": up > 0.0,
                "along": along > 0.0,
            }[approach.approach]
            if not fits:
                text = f"'{approach.approach}' cannot come from {_shown([along, out, up])} (along, out, up)"
                yield from refuse("approach", f"{where}.by", text)


CHECKS = (chains, approaches)
