"""A figure that explains itself: what a sheet shows, and how a person comes to it with a pencil."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure.

    ``name`` says what it is in trade words; ``formula`` is the sum with its values put in; ``value`` is in
    ``unit`` (empty for a pure number); ``rule`` names the formula, the standard, or the practice it
    follows.
    """

    name: str
    formula: str
    value: float
    unit: str
    rule: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureGroup:
    """Figures that belong together: what they are of, the marks of the pieces, joints and runs that are meant, and what
    no sum says, in words.
    """

    title: str
    figures: tuple[Figure, ...]
    marks: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
