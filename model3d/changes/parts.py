"""Pieces and joints of two layouts matched and compared."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Generic, TypeVar

from model3d.changes.values import FieldChange, PartChange, Remark
from model3d.layout import Joint, Piece

Shown = Mapping[str, str]
"""What is compared, by name, as shown."""
Part = TypeVar("Part", Piece, Joint)


def piece_shown(piece: Piece) -> Shown:
    """A piece as a fitter sees it."""
    return {
        "wall": piece.wall.id,
        "cut length": f"{piece.cut_length_mm:.1f} mm",
        "from": f"{_zero(piece.near_mm):.1f} mm",
        "to": f"{_zero(piece.far_mm):.1f} mm",
        "near end": _end(piece.start.joint, piece.start.clip),
        "far end": _end(piece.end.joint, piece.end.clip),
        "brackets": _lengths([b.from_near_mm for b in piece.brackets]),
        "up": "yes" if piece.fitted else "no",
    }


def _lengths(values_mm: Sequence[float]) -> str:
    return f"{', '.join(f'{_zero(v):.1f}' for v in values_mm)} mm" if values_mm else "none"


def _zero(value: float) -> float:
    """Without the sign of a nought."""
    return round(value, 1) + 0.0


def _end(joint: str, clip: str) -> str:
    return f"{joint}, {'no clip' if clip == 'none' else f'clip {clip}'}"


def joint_shown(joint: Joint) -> Shown:
    """A joint as a fitter sees it, the marks of its pieces aside."""
    shown = {
        "kind": joint.kind,
        "where": f"corner {joint.corner.id}" if joint.corner is not None else f"wall {joint.wall.id}",
        "turn": f"{_zero(joint.turn_deg):.1f} deg",
    }
    if joint.corner is None:
        shown["middle"] = f"{_zero(joint.middle_mm):.1f} mm"
    if joint.elbow is not None:
        shown["push home"] = f"{_zero(joint.elbow.push_home_mm):.1f} mm"
        shown["draw out to"] = f"{_zero(joint.elbow.draw_out_to_mm):.1f} mm"
    return shown


class Matching(Generic[Part]):
    """The parts of two layouts matched: alike under one mark, alike under another, differing under one mark, or
    alone.
    """

    def __init__(self, old: Sequence[Part], new: Sequence[Part], shown: Callable[[Part], Shown]) -> None:
        self.old = {p.mark: shown(p) for p in old}
        self.new = {p.mark: shown(p) for p in new}
        kept = {m for m in self.old if self.new.get(m) == self.old[m]}
        self.marks = self._moved([m for m in self.old if m not in kept], [m for m in self.new if m not in kept])
        gone = {r.old for r in self.marks} | kept
        come = {r.new for r in self.marks} | kept
        self.left = [m for m in self.old if m not in gone]
        self.right = [m for m in self.new if m not in come]

    def _moved(self, old: list[str], new: list[str]) -> tuple[Remark, ...]:
        found, free = [], list(new)
        for mark in old:
            same = next((m for m in free if self.new[m] == self.old[mark]), None)
            if same is not None:
                found.append(Remark(old=mark, new=same))
                free.remove(same)
        return tuple(found)

    def changes(self) -> tuple[PartChange, ...]:
        """What is left when the like ones are matched, in the new layout's order, then what is no more."""
        found = []
        for mark in self.right:
            if mark in self.left:
                fields = _fields(self.old[mark], self.new[mark])
                found.append(PartChange(mark=mark, kind="changed", where=_where(self.new[mark]), fields=fields))
            else:
                fields = tuple(FieldChange(name=n, old="-", new=v) for n, v in self.new[mark].items())
                found.append(PartChange(mark=mark, kind="added", where=_where(self.new[mark]), fields=fields))
        for mark in self.left:
            if mark not in self.right:
                fields = tuple(FieldChange(name=n, old=v, new="-") for n, v in self.old[mark].items())
                found.append(PartChange(mark=mark, kind="removed", where=_where(self.old[mark]), fields=fields))
        return tuple(found)


def _where(shown: Shown) -> str:
    return shown["where"] if "where" in shown else f"wall {shown['wall']}"


def _fields(old: Shown, new: Shown) -> tuple[FieldChange, ...]:
    names = [*old, *(n for n in new if n not in old)]
    return tuple(
        FieldChange(name=n, old=old.get(n, "-"), new=new.get(n, "-")) for n in names if old.get(n) != new.get(n)
    )
