"""The numbers of an elbow corner: how deep the long leg may stand and does stand, how far it is pushed home and drawn
out.

Insertions are of the long leg in the earlier piece's bore, mm from the cut face to the leg's tip. Plane geometry of the
corner and the fittings' own lengths.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from model3d.families.family import Family


@dataclass(frozen=True, slots=True, kw_only=True)
class ElbowCorner:
    """One elbow corner.

    ``least_mm`` and ``most_mm`` are the window: the O-ring nearest the bend past the lead-in and a margin; the shoulder
    of the bend a margin off the cut face. ``cold_mm`` (as fitted), ``hot_mm``, ``frost_mm`` and ``pushed_home_mm`` are
    the four states. ``push_needed_mm`` is what the slide asks, ``push_allowed_mm`` what the stub leaves; elbows are
    always pushed right home, by ``push_home_by_mm``, which leaves ``to_far_wall_mm`` beside the far wall while the
    piece is offered. ``draw_out_to_mm`` is where the hand draws them to, ``press_draws_mm`` what pressing the next
    piece draws, back to ``cold_mm``.
    """

    least_mm: float
    most_mm: float
    cold_mm: float
    hot_mm: float
    frost_mm: float
    pushed_home_mm: float
    push_needed_mm: float
    push_allowed_mm: float
    push_home_by_mm: float
    to_far_wall_mm: float
    draw_out_to_mm: float
    press_draws_mm: float

    @property
    def states_mm(self) -> dict[str, float]:
        """The four insertions by name."""
        return {
            "cold": self.cold_mm,
            "hot": self.hot_mm,
            "frost": self.frost_mm,
            "pushed home": self.pushed_home_mm,
        }

    @property
    def outside_window(self) -> tuple[str, ...]:
        """The states whose insertion leaves the window, by a thousandth or more."""
        return tuple(
            name for name, value in self.states_mm.items() if not self.least_mm - 1e-3 <= value <= self.most_mm + 1e-3
        )


def elbow_corner(
    family: Family,
    *,
    hot_growth_mm: float = 0.0,
    frost_growth_mm: float = 0.0,
    slide_mm: float | None = None,
    cut_mm: float = 0.0,
) -> ElbowCorner:
    """The numbers of an elbow corner whose earlier piece grows at this end by ``hot_growth_mm`` and ``frost_growth_mm``
    (negative: shrinks).

    ``slide_mm`` is how far the earlier piece slides to engage its near end: of itself the short leg's depth of
    engagement and 2 mm, 0 for a run's first piece. ``cut_mm`` is by how much its cut face stands nearer the corner than
    laid out (negative: further), because of how it was cut. Raises ValueError for a family without elbows.
    """
    elbow = family.elbow
    if elbow is None:
        raise ValueError(f"family {family.id} has no elbow")
    slide = short_leg_slide_mm(family) if slide_mm is None else slide_mm
    e, half = family.section.bore_u_mm, elbow.body_width_mm / 2.0
    cold, most = elbow.long_leg_mm - elbow.stub_mm + cut_mm, elbow.long_leg_mm - elbow.margin_mm
    allowed = elbow.stub_mm - elbow.margin_mm - cut_mm
    return ElbowCorner(
        least_mm=max(family.oring.from_tip_mm) + family.section.lead_in.length_mm + elbow.margin_mm,
        most_mm=most,
        cold_mm=cold,
        hot_mm=cold + hot_growth_mm,
        frost_mm=cold + frost_growth_mm,
        pushed_home_mm=cold + allowed,
        push_needed_mm=max(0.0, slide - e + half),
        push_allowed_mm=allowed,
        push_home_by_mm=allowed,
        to_far_wall_mm=e + allowed - half - slide,
        draw_out_to_mm=cold + family.bracket.press_mm,
        press_draws_mm=family.bracket.press_mm,
    )


def short_leg_slide_mm(family: Family, margin_mm: float = 2.0) -> float:
    """d: the short leg's depth of engagement and the margin. Raises ValueError for a family without elbows."""
    if family.elbow is None:
        raise ValueError(f"family {family.id} has no elbow")
    return family.elbow.short_leg_mm - family.elbow.stub_mm + margin_mm


def shortest_piece_mm(family: Family, margin_mm: float = 2.0) -> float:
    """The least length of a piece between two elbow corners: the long leg pushed home, the short leg's insertion, and
    the margin."""
    return elbow_corner(family).pushed_home_mm + short_leg_slide_mm(family, margin_mm)


def pressed_together_below_mm(family: Family) -> float:
    """A piece shorter than p / tan(play) is pressed at both ends together; endless without play. Raises ValueError
    without elbows."""
    if family.elbow is None:
        raise ValueError(f"family {family.id} has no elbow")
    if family.elbow.play_deg == 0.0:
        return math.inf
    return family.bracket.press_mm / math.tan(math.radians(family.elbow.play_deg))
