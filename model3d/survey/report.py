"""What an adjusted survey says, in plain numbers."""

from __future__ import annotations

import math
from dataclasses import dataclass

from model3d.geometry.placement import Vec2
from model3d.survey.readings import Reading, Unit

WELL_CHECKED = 0.1  # redundancy number; under it an error is hardly seen (common practice of surveyors, no source)
NOTHING = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgedReading:
    """One reading after the adjustment; figures in its ``unit``.

    ``residual`` is adjusted less read. ``standardised`` is the residual by its own standard error (w-test), 0 where
    nothing checks the reading. ``redundancy`` is the share of an error that shows in the reading's own residual, 0 to
    1; all together they make the survey's redundancy. ``least_error`` is the least error that the w-test at alpha
    .001 finds with a power of .95, infinite where nothing checks the reading. ``ties`` are the readings whose
    residuals go with this one's so closely that an error cannot be told from one in them.
    """

    reading: Reading
    adjusted: float
    residual: float
    standardised: float
    redundancy: float
    least_error: float
    ties: tuple[str, ...]

    @property
    def name(self) -> str:
        """The reading's name."""
        return self.reading.name

    @property
    def unit(self) -> Unit:
        """Unit of the figures."""
        return self.reading.unit

    @property
    def unchecked(self) -> bool:
        """Whether no other reading checks this one."""
        return self.redundancy < NOTHING

    @property
    def hardly_checked(self) -> bool:
        """Whether the others check it too little for an error to be seen."""
        return self.redundancy < WELL_CHECKED

    @property
    def by_others(self) -> float:
        """What the other readings say it should read; itself where nothing checks it."""
        return self.reading.value + (0.0 if self.unchecked else self.residual / self.redundancy)


@dataclass(frozen=True, slots=True, kw_only=True)
class SurveyedCorner:
    """An adjusted corner, with the standard errors of its coordinates and of its turn (positive internal)."""

    at_mm: Vec2
    sigma_mm: Vec2
    turn_deg: float
    turn_sigma_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SurveyedWall:
    """An adjusted wall: its length and the length's standard error."""

    length_mm: float
    sigma_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspicion:
    """The reading most likely wrong, those that cannot be told from it, what the others say it should read, and
    whether they agree without it.
    """

    name: str
    ties: tuple[str, ...]
    should_read: float
    others_agree: bool

    @property
    def names(self) -> tuple[str, ...]:
        """The reading and those that tie with it."""
        return (self.name, *self.ties)


@dataclass(frozen=True, slots=True, kw_only=True)
class SurveyReport:
    """A survey adjusted.

    ``misclosure_mm`` is by how far walls and corner angles as read (adjusted where not read) end from where they
    began; ``angle_misclosure_deg`` by how much the interior angles miss their sum, None unless all are read.
    ``squares`` is the weighted sum of squared residuals, ``limit`` what it stays under in 95 of 100 honest surveys
    (chi-square at 5 %; 0 without redundancy). ``suspicion`` is given when it does not, or when a w-test is passed.
    """

    redundancy: int
    squares: float
    limit: float
    misclosure_mm: Vec2
    angle_misclosure_deg: float | None
    readings: tuple[JudgedReading, ...]
    corners: tuple[SurveyedCorner, ...]
    walls: tuple[SurveyedWall, ...]
    suspicion: Suspicion | None

    @property
    def accepted(self) -> bool:
        """Whether the readings agree within their standard errors."""
        return self.redundancy == 0 or self.squares <= self.limit

    @property
    def points(self) -> tuple[Vec2, ...]:
        """The corners, the first at (0, 0), the first wall along x."""
        return tuple(c.at_mm for c in self.corners)

    @property
    def gap_mm(self) -> float:
        """Length of the misclosure."""
        return math.hypot(*self.misclosure_mm)

    @property
    def worst(self) -> JudgedReading:
        """The reading with the greatest standardised residual."""
        return max(self.readings, key=lambda r: abs(r.standardised))

    def reading(self, name: str) -> JudgedReading:
        """The reading of that name. Raises KeyError when there is none."""
        for judged in self.readings:
            if judged.name == name:
                return judged
        raise KeyError(name)
