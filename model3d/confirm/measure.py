"""Measuring placed solids on their boundaries, from the corners of the room alone: no length, position or
size is taken from anywhere else.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from model3d.confirm.square_faces import SquareFace, square_faces
from model3d.confirm.values import CutFaces, Gap, Insertion, Measured, PlacedBody, WallLine
from model3d.geometry.placement import Vec3, cross, dot, subtract

PIECES = ("piece", "dry-piece")
LEGGED = ("elbow", "spigot", "coupler", "valve-end", "return-end", "turn-back-end")
UP: Vec3 = (0.0, 0.0, 1.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Line:
    """A wall's line with its direction and the way into the room, as vectors."""

    wall: WallLine
    start_mm: Vec3
    along: Vec3
    length_mm: float

    def off_mm(self, point_mm: Vec3) -> float:
        """How far a point stands in front of the wall."""
        return dot(subtract(point_mm, self.start_mm), cross(UP, self.along))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Piece:
    """A piece as measured: its cut faces along its line, and how far in front of the wall and how high it
    reaches.
    """

    id: str
    mark: str
    line: _Line
    low_mm: float
    high_mm: float
    front_mm: float
    top_mm: float


def measure(bodies: Iterable[PlacedBody], walls: Iterable[WallLine]) -> Measured:
    """The cut faces of every piece, the insertion of every leg, and the gap at every joint."""
    lines = {wall.id: _line(wall) for wall in walls}
    listed = tuple(bodies)
    pieces: list[_Piece] = []
    unfound: list[str] = []
    for body in (b for b in listed if b.role in PIECES):
        piece = _piece(body, lines)
        if piece is None:
            unfound.append(body.piece or body.id)
        else:
            pieces.append(piece)
    insertions: list[Insertion] = []
    gaps = list(_between_pieces(pieces))
    for body in listed:
        if body.role in (*LEGGED, "hose"):
            for line, own in _by_line(pieces).values():
                faces = square_faces(body.solid, body.placement, line.start_mm, line.along)
                if body.role in LEGGED:
                    insertions += _insertions(body, faces, own)
                gaps += _shoulders(body, faces, own)
    cut = tuple(
        CutFaces(
            piece=p.mark,
            wall=p.line.wall.id,
            to_first_mm=p.low_mm,
            to_last_mm=p.line.length_mm - p.high_mm,
            length_mm=p.high_mm - p.low_mm,
        )
        for p in pieces
    )
    return Measured(cut_faces=cut, insertions=tuple(insertions), gaps=tuple(gaps), unfound=tuple(unfound))


def _line(wall: WallLine) -> _Line:
    (ax, ay), (bx, by) = wall.first_mm, wall.last_mm
    length = math.dist(wall.first_mm, wall.last_mm)
    return _Line(
        wall=wall,
        start_mm=(ax, ay, 0.0),
        along=((bx - ax) / length, (by - ay) / length, 0.0),
        length_mm=length,
    )


def _by_line(pieces: Sequence[_Piece]) -> dict[str, tuple[_Line, list[_Piece]]]:
    found: dict[str, tuple[_Line, list[_Piece]]] = {}
    for piece in pieces:
        found.setdefault(piece.line.wall.id, (piece.line, []))[1].append(piece)
    return found


def _piece(body: PlacedBody, lines: Mapping[str, _Line]) -> _Piece | None:
    """The outermost plane faces square to the wall that look outward; None when an end has none."""
    line = lines[body.wall or ""]
    faces = square_faces(body.solid, body.placement, line.start_mm, line.along)
    low = [f.along_mm for f in faces if f.looks < 0]
    high = [f.along_mm for f in faces if f.looks > 0]
    if not low or not high or min(low) >= max(high):
        return None
    box = body.solid.BoundingBox()
    corners = [
        body.placement.point((x, y, z))
        for x in (box.xmin, box.xmax)
        for y in (box.ymin, box.ymax)
        for z in (box.zmin, box.zmax)
    ]
    return _Piece(
        id=body.id,
        mark=body.piece or body.id,
        line=line,
        low_mm=min(low),
        high_mm=max(high),
        front_mm=max(line.off_mm(c) for c in corners),
        top_mm=max(c[2] for c in corners),
    )


def _before(piece: _Piece, face: SquareFace) -> bool:
    """Whether a face stands in the piece's own height and depth, so that moving along the wall it would meet
    the piece.
    """
    return 0.0 < piece.line.off_mm(face.middle_mm) < piece.front_mm and 0.0 < face.middle_mm[2] < piece.top_mm


def _insertions(body: PlacedBody, faces: Sequence[SquareFace], pieces: Sequence[_Piece]) -> list[Insertion]:
    """The tips of a fitting's legs inside the pieces of a wall: rings (they go round the water's passage)
    that look into the piece, for each height the deepest.
    """
    deepest: dict[tuple[str, bool, float], Insertion] = {}
    for piece in pieces:
        for face in faces:
            first_end = face.looks > 0  # what looks along the wall has come in by its first end
            inside = piece.low_mm < face.along_mm < piece.high_mm and _before(piece, face)
            if not (face.ring and inside and _sticks_out(faces, piece, first_end)):
                continue
            depth = face.along_mm - piece.low_mm if first_end else piece.high_mm - face.along_mm
            key = (piece.mark, first_end, round(face.middle_mm[2], 3))
            if key not in deepest or depth > deepest[key].depth_mm:
                deepest[key] = Insertion(
                    part=body.id,
                    piece=piece.mark,
                    first_end=first_end,
                    height_mm=face.middle_mm[2],
                    depth_mm=depth,
                )
    return list(deepest.values())


def _sticks_out(faces: Sequence[SquareFace], piece: _Piece, first_end: bool) -> bool:
    """Whether a fitting stands out of a piece by its first end, or by its other."""
    if first_end:
        return any(f.along_mm < piece.low_mm for f in faces)
    return any(f.along_mm > piece.high_mm for f in faces)


def _shoulders(body: PlacedBody, faces: Sequence[SquareFace], pieces: Sequence[_Piece]) -> list[Gap]:
    """From each cut face to the nearest ring of an elbow or a hose outside it that looks at it."""
    if body.role not in ("elbow", "hose"):
        return []
    found: list[Gap] = []
    for piece in pieces:
        for first_end, end_mm in ((True, piece.low_mm), (False, piece.high_mm)):
            side = -1.0 if first_end else 1.0
            outside = [
                (face.along_mm - end_mm) * side
                for face in faces
                if face.ring
                and face.looks == -side
                and (face.along_mm - end_mm) * side > 0.0
                and _before(piece, face)
            ]
            if outside and _is_next(piece, pieces, first_end, min(outside)):
                found.append(
                    Gap(
                        piece=piece.mark,
                        first_end=first_end,
                        joint=body.joint,
                        to=body.id,
                        gap_mm=min(outside),
                    )
                )
    return found


def _is_next(piece: _Piece, pieces: Sequence[_Piece], first_end: bool, gap_mm: float) -> bool:
    """Whether no other piece of the wall stands between a cut face and what is ``gap_mm`` beyond it."""
    if first_end:
        return not any(
            piece.low_mm - gap_mm < other.high_mm <= piece.low_mm for other in pieces if other is not piece
        )
    return not any(
        piece.high_mm <= other.low_mm < piece.high_mm + gap_mm for other in pieces if other is not piece
    )


def _between_pieces(pieces: Sequence[_Piece]) -> Iterable[Gap]:
    """From cut face to cut face of pieces that follow each other on one wall."""
    for _, own in _by_line(pieces).values():
        ordered = sorted(own, key=lambda p: p.low_mm)
        for one, other in pairwise(ordered):
            yield Gap(
                piece=one.mark, first_end=False, joint=None, to=other.mark, gap_mm=other.low_mm - one.high_mm
            )
