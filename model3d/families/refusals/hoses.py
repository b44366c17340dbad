"""Links: the hose's length, bend and reach."""

from __future__ import annotations

import math
from collections.abc import Iterator

from model3d.families.family import Family
from model3d.families.refusals.refusal import Limits, Refusal, Sum, mm, refuse


def straight(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """At a right angle the hose's straight part holds its tail: (h - slack - R pi/2) / 2."""
    link = family.link
    arc = link.arc_radius_mm * math.pi / 2.0
    left = Sum(link.hose_length_mm, -link.slack_mm, -arc)
    if left.value / 2.0 < link.tail.length_mm:
        text = (
            f"at 90 degrees the hose lies straight for ({left}) / 2 = {mm(left.value / 2.0)} mm each side, "
            f"its tail is {mm(link.tail.length_mm)} long"
        )
        yield from refuse("hose-straight", "link.hose_length_mm", text)


def bend(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """The hose bends no tighter than it may, round its arc and, in-line, where its slack hangs.

    The slack of a hose clamped at both ends hangs in half a cosine of amplitude 2 sqrt(slack L) / pi, whose least
    radius is L^1.5 / (4 pi sqrt(slack)) (small slopes; a clamped elastic hose bends a little less).
    """
    link = family.link
    if link.arc_radius_mm < link.least_bend_radius_mm:
        text = f"the arc's radius is {mm(link.arc_radius_mm)}, the hose bears {mm(link.least_bend_radius_mm)}"
        yield from refuse("hose-arc", "link.arc_radius_mm", text)
    length = link.hose_length_mm - link.slack_mm
    hanging = max(length, 0.0) ** 1.5 / (4.0 * math.pi * math.sqrt(link.slack_mm))
    if hanging < link.least_bend_radius_mm:
        text = (
            f"in-line the slack bends the hose to {mm(length)}^1.5 / (4 pi sqrt({mm(link.slack_mm)})) = {mm(hanging)}, "
            f"it bears {mm(link.least_bend_radius_mm)}"
        )
        yield from refuse("hose-bend", "link.slack_mm", text)


def reach(family: Family, limits: Limits) -> Iterator[Refusal]:
    """In-line, the ends stand p and l apart from their place while they engage: still short of the hose's length."""
    link, bracket = family.link, family.bracket
    apart = math.hypot(link.hose_length_mm - link.slack_mm, bracket.press_mm, bracket.lift_mm)
    most = Sum(link.hose_length_mm, -limits.hose_reserve_mm)
    if apart > most.value:
        text = (
            f"engaging in-line the ends stand sqrt({mm(link.hose_length_mm - link.slack_mm)}^2 + "
            f"{mm(bracket.press_mm)}^2 + "
            f"{mm(bracket.lift_mm)}^2) = {mm(apart)} apart, at most {most}"
        )
        yield from refuse("hose-reach", "link.slack_mm", text)


def apex(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """At an external right angle the hose clears the wall's edge: R - (R - e) / cos 45."""
    link, e = family.link, family.section.bore_u_mm
    passes = link.arc_radius_mm - (link.arc_radius_mm - e) / math.cos(math.pi / 4.0)
    if passes < link.outer_radius_mm:
        text = (
            f"at an external right angle the hose's middle passes the wall's edge at {mm(link.arc_radius_mm)} - "
            f"({mm(link.arc_radius_mm)} - {mm(e)}) / cos 45 = {mm(passes)}, its radius is {mm(link.outer_radius_mm)}"
        )
        yield from refuse("hose-apex", "link.arc_radius_mm", text)


def size(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """Hose, tail and leg fit one another; two hoses and the wall leave one another free."""
    link, leg, tail = family.link, family.leg, family.link.tail
    passage, thin = min(leg.passage_width_mm, leg.passage_height_mm), min(leg.width_mm, leg.height_mm)
    pitch, e = family.section.pitch_mm, family.section.bore_u_mm
    rules = (
        (
            "hose-wall",
            "link.inner_radius_mm",
            link.inner_radius_mm < link.outer_radius_mm,
            f"the hose's inner radius {mm(link.inner_radius_mm)} is not less than its outer {mm(link.outer_radius_mm)}",
        ),
        (
            "hose-tail",
            "link.tail.radius_mm",
            tail.radius_mm >= link.inner_radius_mm,
            f"the tail's radius {mm(tail.radius_mm)} leaves the hose of {mm(link.inner_radius_mm)} loose",
        ),
        (
            "tail-passage",
            "link.tail.passage_mm",
            tail.passage_mm < min(2.0 * tail.radius_mm, passage),
            f"a passage of {mm(tail.passage_mm)} does not fit tail 2 x {mm(tail.radius_mm)}, leg {mm(passage)}",
        ),
        (
            "tail-on-leg",
            "link.tail.radius_mm",
            2.0 * tail.radius_mm < thin,
            f"a tail of 2 x {mm(tail.radius_mm)} does not fit on a leg of {mm(thin)}",
        ),
        (
            "hose-pitch",
            "link.outer_radius_mm",
            2.0 * link.outer_radius_mm < pitch,
            f"two hoses of 2 x {mm(link.outer_radius_mm)} stand only {mm(pitch)} apart",
        ),
        (
            "hose-off-wall",
            "link.outer_radius_mm",
            link.outer_radius_mm < e,
            f"a hose of radius {mm(link.outer_radius_mm)} stands {mm(e)} from the wall",
        ),
    )
    for code, key, holds, text in rules:
        if not holds:
            yield from refuse(code, key, text)


CHECKS = (straight, bend, reach, apex, size)
