"""The rule tables: clips face their nibs, joints have their allowances, no word of elbows without elbows."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import get_args

from model3d.families.family import Family
from model3d.families.refusals.refusal import Limits, Refusal, Sum, mm, refuse
from model3d.families.rules import AllowanceOf, AllowanceTerm

# Which fitting's nibs enter the clip at a kind of end.
NIB_AT: Mapping[str, str] = {
    "valve": "valve",
    "link": "link",
    "elbow-short": "elbow",
    "return": "return",
    "coupler": "coupler",
    "turn-back": "turn-back",
}
# The terms whose sum is each joint's distance from cut face to corner: plane geometry and the fittings' own lengths.
TERMS: Mapping[AllowanceOf, frozenset[AllowanceTerm]] = {
    "valve": frozenset({"valve-length"}),
    "return": frozenset({"return-length", "slide-room"}),
    "turn-back": frozenset({"turn-back-length", "slide-room"}),
    "elbow": frozenset({"bend-tangent", "elbow-stub"}),
    "link": frozenset({"arc-tangent", "hose-straight", "link-stub"}),
    "coupler": frozenset({"half-gap"}),
    "none": frozenset({"cap-plate"}),
}


def _has_elbows(family: Family) -> bool:
    return family.elbow is not None


def clip_faces(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """At every joint the clip faces the side the fitting's nibs stand toward, else nothing clicks; a long leg has no
    clip."""
    faces = {str(end): str(face) for end, face in family.clip_faces.items()}
    nibs = {str(fitting): str(side) for fitting, side in family.nib_faces.items()}
    for end, fitting in NIB_AT.items():
        if end == "elbow-short" and not _has_elbows(family):
            continue
        face, nib = faces.get(end), nibs.get(fitting)
        if face is None:
            yield from refuse("clip-face-missing", "clip_faces", f"no clip face is given for {end}")
        if nib is None:
            yield from refuse("nib-face-missing", "nib_faces", f"no side is given for the nibs of {fitting}")
        if face is not None and nib is not None and face != nib:
            text = f"at {end} the clip faces {face}, the nibs of {fitting} stand toward the {nib}: nothing clicks"
            yield from refuse("clip-faces-nib", f"clip_faces.{end}", text)
    for end, why in (("elbow-long", "the long leg must slide"), ("none", "nothing is held there")):
        face = faces.get(end)
        if face is not None and face != "none":
            yield from refuse("clip-on-sliding-end", f"clip_faces.{end}", f"a clip facing {face} at {end}: {why}")
    if _has_elbows(family) and faces.get("elbow-long") is None:
        yield from refuse("clip-face-missing", "clip_faces", "no clip face is given for elbow-long")


def elbows_or_none(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """A family has an elbow and everything that goes with it, or no word of one."""
    spacing = family.bracket.spacing
    entries = (
        ("clip_faces.elbow-long", "elbow-long" in family.clip_faces),
        ("clip_faces.elbow-short", "elbow-short" in family.clip_faces),
        ("nib_faces.elbow", "elbow" in family.nib_faces),
        ("allowances.elbow", "elbow" in family.allowances),
        ("moves.elbow-short", family.moves.elbow_short is not None),
        ("approaches.far-elbow-long", family.approaches.far_elbow_long is not None),
        ("bracket.spacing.elbow_least_mm", spacing.elbow_least_mm is not None),
        ("bracket.spacing.elbow_most_mm", spacing.elbow_most_mm is not None),
    )
    for key, given in entries:
        if given and not _has_elbows(family):
            yield from refuse("elbow-entry", key, f"{key} is given but the family has no elbow")
        if not given and _has_elbows(family):
            yield from refuse("elbow-entry", key, f"the family has an elbow but no {key}")
    if family.corner_joints.internal == "elbow" and not _has_elbows(family):
        yield from refuse(
            "elbow-entry", "corner_joints.internal", "internal corners take an elbow but the family has none"
        )
    if family.corner_joints.internal == "link" and _has_elbows(family):
        yield from refuse(
            "elbow-entry", "corner_joints.internal", "internal corners take a link but the family has an elbow"
        )
    for i, snag in enumerate(family.snags):
        if snag.at.startswith("elbow") and not _has_elbows(family):
            yield from refuse("elbow-entry", f"snags.{i}.at", f"a snag at {snag.at} but the family has no elbow")


def allowances(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """Every joint's allowance is the sum of exactly the terms its geometry has."""
    for fitting in get_args(AllowanceOf):
        given = family.allowances.get(fitting)
        if given is None:
            if fitting != "elbow":
                yield from refuse("allowance-missing", "allowances", f"no allowance is given for {fitting}")
            continue
        twice = sorted({term for term in given if given.count(term) > 1})
        missing, odd = sorted(TERMS[fitting] - set(given)), sorted(set(given) - TERMS[fitting])
        for words, terms in (
            ("counts {} twice", twice),
            ("leaves out {}", missing),
            ("has {}, which is no part of it", odd),
        ):
            if terms:
                text = (
                    f"the allowance of {fitting}, {' + '.join(given) or 'nothing'}, {words.format(' and '.join(terms))}"
                )
                yield from refuse("allowance-terms", f"allowances.{fitting}", text)


def in_line(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """The joint taken within a wall is one of those that may stand there."""
    if family.inline_joint not in family.in_line:
        text = f"a wall is divided by a {family.inline_joint}, and in_line offers {' and '.join(family.in_line)}"
        yield from refuse("in-line-joint", "inline_joint", text)


def stock(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """Stock lengths rise, each once."""
    for i, (shorter, longer) in enumerate(zip(family.stock_lengths_mm, family.stock_lengths_mm[1:], strict=False)):
        if longer <= shorter:
            text = f"{mm(longer)} comes after {mm(shorter)}: {Sum(longer, -shorter)}"
            yield from refuse("stock-lengths", f"stock_lengths_mm.{i + 1}", text)


CHECKS = (clip_faces, elbows_or_none, allowances, in_line, stock)
