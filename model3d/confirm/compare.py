"""What was measured beside what the layout says."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from model3d.confirm.values import CutFaces, Gap, Measured
from model3d.findings import Finding
from model3d.layout import End, Joint, Layout, Piece

WATERWAYS = 2
STUB_TERMS = ("elbow-stub", "link-stub")
REMEDY = "The solids do not follow the layout: do not cut to either. Read the plan and the family again."


@dataclass(frozen=True, slots=True, kw_only=True)
class Closeness:
    """How near solids must come to the arithmetic: lengths in mm, volumes as a share."""

    length_mm: float = 0.01
    volume_share: float = 1e-4


def compare(measured: Measured, layout: Layout, closeness: Closeness) -> tuple[Finding, ...]:
    """A finding for every cut face, insertion and gap that is not where the layout has it, or was not found."""
    joints = [joint for run in layout.runs for joint in run.joints]
    found: list[Finding] = []
    for piece in layout.pieces:
        found += _cut_faces(piece, measured, closeness)
        for first_end in (True, False):
            found += _insertions(piece, first_end, measured, closeness)
            found += _stubs(piece, first_end, joints, measured, closeness)
    for joint in joints:
        found += _inline_gap(joint, layout, measured, closeness)
    return tuple(found)


def _end(piece: Piece, first_end: bool) -> End:
    """The end nearer the wall's first corner, or the other."""
    return piece.start if (piece.sense > 0) == first_end else piece.end


def _toward(piece: Piece, first_end: bool) -> str:
    if not piece.heated:
        return "toward the wall's " + ("first corner" if first_end else "last corner")
    return "toward the valve" if _end(piece, first_end) is piece.start else "toward the return"


def _cut_faces(piece: Piece, measured: Measured, closeness: Closeness) -> Iterator[Finding]:
    seen = next((c for c in measured.cut_faces if c.piece == piece.mark), None)
    if seen is None:
        yield _off(piece, "cut-face-off", "its cut faces were not found square to the wall", None, None)
        return
    for first_end, corner, mm, want in _corner_distances(piece, seen):
        if abs(mm - want) > closeness.length_mm:
            text = (
                f"the cut face {_toward(piece, first_end)} stands {mm:.3f} mm from corner {corner}, "
                f"{want:.3f} by the layout"
            )
            yield _off(piece, "cut-face-off", text, mm, want)


def _corner_distances(piece: Piece, seen: CutFaces) -> tuple[tuple[bool, str, float, float], ...]:
    wall = piece.wall
    return (
        (True, wall.first_corner.id, seen.to_first_mm, piece.low_mm),
        (False, wall.last_corner.id, seen.to_last_mm, wall.length_mm - piece.high_mm),
    )


def _insertions(piece: Piece, first_end: bool, measured: Measured, closeness: Closeness) -> Iterator[Finding]:
    end = _end(piece, first_end)
    seen = sorted(
        (i for i in measured.insertions if i.piece == piece.mark and i.first_end == first_end),
        key=lambda i: i.height_mm,
    )
    wanted = WATERWAYS if end.joint != "none" else 0
    if len(seen) != wanted:
        text = f"{len(seen)} leg(s) found in the end {_toward(piece, first_end)}, {wanted} by the layout"
        yield _off(piece, "insertion-off", text, float(len(seen)), float(wanted), unit="legs")
        return
    for insertion, name in zip(seen, ("lower", "upper"), strict=False):
        if abs(insertion.depth_mm - end.insertion_mm) > closeness.length_mm:
            text = (
                f"the {name} leg stands {insertion.depth_mm:.3f} mm in the end {_toward(piece, first_end)}, "
                f"{end.insertion_mm:.3f} by the layout"
            )
            yield _off(
                piece, "insertion-off", text, insertion.depth_mm, end.insertion_mm, part=insertion.part
            )


def _stubs(
    piece: Piece, first_end: bool, joints: list[Joint], measured: Measured, closeness: Closeness
) -> Iterator[Finding]:
    """From the cut face to an elbow's shoulder or a hose's end: the stub, less what a piece cut too long takes of an
    elbow's.
    """
    end = _end(piece, first_end)
    wanted = [t.value_mm for t in end.terms if t.name in STUB_TERMS]
    if not wanted:
        return
    taken = piece.far_out_mm if end.joint == "elbow-long" else 0.0
    mark = next(j.mark for j in joints if piece.mark == (j.earlier if end is piece.end else j.later))
    seen = [
        g for g in measured.gaps if g.piece == piece.mark and g.first_end == first_end and g.joint == mark
    ]
    if len(seen) != WATERWAYS:
        text = f"{len(seen)} shoulder(s) found beyond the end {_toward(piece, first_end)}, {WATERWAYS} by the layout"
        yield _off(piece, "gap-off", text, float(len(seen)), float(WATERWAYS), unit="shoulders")
        return
    for gap in seen:
        yield from _gap(piece, gap, sum(wanted) - taken, closeness, f"the end {_toward(piece, first_end)}")


def _inline_gap(joint: Joint, layout: Layout, measured: Measured, closeness: Closeness) -> Iterator[Finding]:
    """From cut face to cut face at a joint within a wall."""
    if joint.corner is not None:
        return
    both = {p.mark: p for p in layout.pieces if p.mark in (joint.earlier, joint.later)}
    first, last = sorted(both.values(), key=lambda p: p.low_mm)
    seen = [g for g in measured.gaps if g.piece == first.mark and g.to == last.mark]
    if not seen:
        yield _off(first, "gap-off", f"no cut face of {last.mark} was found next to it", None, None)
    for gap in seen:
        yield from _gap(first, gap, last.low_mm - first.high_mm, closeness, f"{first.mark} and {last.mark}")


def _gap(piece: Piece, gap: Gap, want: float, closeness: Closeness, where: str) -> Iterator[Finding]:
    if abs(gap.gap_mm - want) > closeness.length_mm:
        text = f"the gap at {where} is {gap.gap_mm:.3f} mm, {want:.3f} by the layout"
        yield _off(piece, "gap-off", text, gap.gap_mm, want, part=gap.to)


def _off(
    piece: Piece,
    code: str,
    text: str,
    measured: float | None,
    limit: float | None,
    *,
    part: str | None = None,
    unit: str = "mm",
) -> Finding:
    return Finding(
        code=code,
        severity="error",
        where=f"piece {piece.mark}, wall {piece.wall.id}",
        message=text,
        remedy=REMEDY,
        parts=(piece.mark,) if part is None else (piece.mark, part),
        measured=measured,
        limit=limit,
        unit=unit,
        place_mm=(*piece.wall.point_mm((piece.near_mm + piece.far_mm) / 2.0), 0.0),
    )
