"""What differs between two layouts of a plan and their steps."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

ChangeKind = Literal["added", "removed", "changed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldChange:
    """One thing that differs, as shown: lengths to a tenth of a millimetre."""

    name: str
    old: str
    new: str

    def __str__(self) -> str:
        return f"{self.name} {self.old} -> {self.new}"


@dataclass(frozen=True, slots=True, kw_only=True)
class PartChange:
    """A piece or a joint that is there no more, is new, or differs in ``fields``. ``mark`` is the new mark, of what
    was removed the old one.
    """

    mark: str
    kind: ChangeKind
    where: str
    fields: tuple[FieldChange, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Remark:
    """The same piece or joint under another mark."""

    old: str
    new: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StepChange:
    """A step that is no more, is new, comes at another place among those kept (``moved``), or says other things.
    Numbers are 0 where the step is not.
    """

    title: str
    kind: ChangeKind
    old_number: int
    new_number: int
    moved: bool = False
    gone: tuple[str, ...] = ()
    come: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """All that differs; ``recut`` are the marks (new) of pieces whose cut length is another or that are new."""

    pieces: tuple[PartChange, ...]
    joints: tuple[PartChange, ...]
    marks: tuple[Remark, ...]
    steps: tuple[StepChange, ...]
    new_findings: tuple[str, ...]
    gone_findings: tuple[str, ...]

    @property
    def none(self) -> bool:
        """Whether nothing differs."""
        found = (self.pieces, self.joints, self.marks, self.steps, self.new_findings, self.gone_findings)
        return not any(found)

    @property
    def recut(self) -> tuple[str, ...]:
        """Marks of the pieces to cut that were not cut so for the old layout."""
        return tuple(
            p.mark
            for p in self.pieces
            if p.kind == "added" or (p.kind == "changed" and any(f.name == "cut length" for f in p.fields))
        )
