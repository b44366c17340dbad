"""How hot the skirting is to the touch, and for how long it may be touched."""

from __future__ import annotations

from dataclasses import dataclass

from model3d.figures import Figure
from model3d.findings import Finding
from model3d.rooms import Heat, Temperatures

CARE_LIMIT_C = 43.0
"""Where vulnerable people live (NHS and HSE guidance)."""
_TIMES = ("8 hours and more", "10 minutes", "1 minute", "1 second")
BURN_LIMITS = tuple(zip((43.0, 48.0, 51.0, 65.0), _TIMES, strict=True))
"""Bare metal, ISO 13732-1: skin bears each for that long (ends read, middle from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Touch:
    """The hottest surface, and how long skin bears it: the last of the times whose limit is not passed, None
    past all.
    """

    surface: Figure
    bears: str | None

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Its figures."""
        return (self.surface,)


def bears_for(surface_c: float) -> str | None:
    """How long skin may touch bare metal of a temperature without a burn; None when not even for a second."""
    return next((time for limit, time in BURN_LIMITS if surface_c <= limit), None)


def touch_of(temperatures: Temperatures) -> Touch:
    """Bare aluminium is as hot as the water in it, within a degree or two: the flow temperature is taken."""
    flow = temperatures.flow_c
    surface = Figure(
        name="hottest surface",
        formula=f"{flow:g}",
        value=flow,
        unit="C",
        rule="as hot as the flow, on the safe side",
    )
    return Touch(surface=surface, bears=bears_for(flow))


def touch_findings(heat: Heat, touch: Touch) -> tuple[Finding, ...]:
    """Past 43 C where vulnerable people live is an error; past what skin bears for a second, anywhere, a
    warning.
    """
    surface, last = touch.surface.value, BURN_LIMITS[-1][0]
    if heat.vulnerable and surface > CARE_LIMIT_C:
        return (
            Finding(
                code="surface-too-hot",
                severity="error",
                where="the whole room",
                message=f"it reaches {surface:g} C near vulnerable people, at most {CARE_LIMIT_C:g} C",
                remedy=f"Mix the flow down to {CARE_LIMIT_C:g} C, or guard the skirting from touch.",
                measured=surface,
                limit=CARE_LIMIT_C,
                unit="C",
            ),
        )
    if touch.bears is None:
        return (
            Finding(
                code="surface-burns",
                severity="warning",
                where="the whole room",
                message=f"it reaches {surface:g} C, past {last:g} it burns in a second (ISO 13732-1)",
                remedy="Mix the flow down, or tell the customer.",
                measured=surface,
                limit=last,
                unit="C",
            ),
        )
    return ()
