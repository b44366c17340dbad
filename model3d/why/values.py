"""An explanation: the sums behind one mark, in the order in which a person would do them with a pencil."""

from __future__ import annotations

from dataclasses import dataclass

from model3d.figures import Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One sum: its figure, and the same in symbols (empty where the figure is a given one)."""

    figure: Figure
    symbols: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """Sums that belong together; ``note`` says in words what no sum says, such as why a joint was taken, one thing a
    line.
    """

    title: str
    lines: tuple[Line, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Explanation:
    """How the figures of one piece or joint came about; ``result`` is what it was asked for."""

    mark: str
    title: str
    sections: tuple[Section, ...]
    result: Figure

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Every figure, in order."""
        return tuple(line.figure for section in self.sections for line in section.lines)

    def figure(self, name: str) -> Figure:
        """The figure of that name. Raises KeyError when there is none."""
        for figure in self.figures:
            if figure.name == name:
                return figure
        raise KeyError(name)
