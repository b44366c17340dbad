"""The runs on paper: pieces, the lines through their joints, clip faces, ends, and cut lengths."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial

from model3d.drawings.boxes import box, turned_box
from model3d.drawings.dimensions import Line, dimension_inks, far_figure_inks
from model3d.drawings.labels import Ink, Page, leader, round_about
from model3d.drawings.sheet import Sheet, centred, number, path
from model3d.families.family import Family
from model3d.geometry.placement import Vec2
from model3d.layout import End, Layout, Piece

CLIP_MM, END_RADIUS_MM = 3.0, 2.1
FIRST_LINE_MM, FIRST_LINE_FROM_MM = 8.5, 2.2
OUT_MM = (2.3, 5.9, 9.5, 13.1)
CLIP_ALONG_MM, END_ALONG_MM = (1.9, 5.2, 8.5), (-2.6, 5.7, 2.6, 9.0)  # from the cut face into the piece, best first
END_LETTERS = {"valve": "V", "return": "R", "turn-back": "T"}


def pieces(sheet: Sheet, layout: Layout, family: Family, page: Page) -> Iterator[str]:
    """Each piece as a band at its true place and depth, joints as lines between."""
    back, front = family.section.stand_off_mm, family.section.front_u_mm
    for run in layout.runs:
        line = [p.wall.point_mm(s, family.section.bore_u_mm) for p in run.pieces for s in (p.near_mm, p.far_mm)]
        yield f'<path class="link" d="{path([sheet.at(p) for p in line])}"/>'
    for piece in layout.pieces:
        ends = ((piece.low_mm, back), (piece.high_mm, back), (piece.high_mm, front), (piece.low_mm, front))
        corners = [sheet.at(piece.wall.point_mm(s, u)) for s, u in ends]
        page.solids.append(box(corners))
        yield f'<path class="{"piece" if piece.heated else "dry"}" d="{path(corners, closed=True)}"/>'


def letters(sheet: Sheet, layout: Layout, family: Family, page: Page) -> Iterator[str]:
    """At every piece end the face of its clip, at the ends of a run what ends it."""
    front = family.section.front_u_mm
    for piece in layout.pieces:
        for end, along, toward in ((piece.start, piece.near_mm, piece.sense), (piece.end, piece.far_mm, -piece.sense)):
            point = sheet.at(piece.wall.point_mm(along, front))
            into = (piece.wall.direction[0] * toward, -piece.wall.direction[1] * toward)
            out = (piece.wall.normal[0], -piece.wall.normal[1])
            if end.clip != "none":
                spots = [(x, y, 3.0 * (x + y)) for x in CLIP_ALONG_MM for y in OUT_MM]
                draw = partial(_clip_ink, end)
                inks = [draw(_from(point, into, x, out, y), away) for x, y, away in spots]
                yield from page.place(inks, _far_inks(point, draw))
            if end.joint in END_LETTERS:
                spots = [(x, y, 3.0 * (abs(x - END_ALONG_MM[0]) + y)) for x in END_ALONG_MM for y in OUT_MM]
                draw = partial(_end_ink, END_LETTERS[end.joint])
                inks = [draw(_from(point, into, x, out, y + 0.7), away) for x, y, away in spots]
                yield from page.place(inks, _far_inks(point, draw))


def _clip_ink(end: End, centre: Vec2, away_mm: float) -> Ink:
    x, y = (c - CLIP_MM / 2 for c in centre)
    return Ink(
        svg=(
            f'<rect class="{end.clip}" x="{number(x)}" y="{number(y)}" width="3" height="3" rx=".5"/>',
            centred(centre, end.clip[0].upper(), size_mm=2.3, css=f"on-{end.clip}"),
        ),
        words=(turned_box(centre, CLIP_MM, CLIP_MM),),
        away_mm=away_mm,
    )


def _end_ink(letter: str, centre: Vec2, away_mm: float) -> Ink:
    return Ink(
        svg=(
            f'<circle class="end" cx="{number(centre[0])}" cy="{number(centre[1])}" r="{END_RADIUS_MM}"/>',
            centred(centre, letter, size_mm=2.9),
        ),
        words=(turned_box(centre, 2 * END_RADIUS_MM, 2 * END_RADIUS_MM),),
        away_mm=away_mm,
    )


def _far_inks(point: Vec2, ink: Callable[[Vec2, float], Ink]) -> Iterator[Ink]:
    """A letter anywhere about the end it stands for, at the end of a leader."""
    for centre, reach in round_about(point, first_mm=6.0, rings=10):
        near = ink(centre, 60.0 + 2.0 * reach)
        led, led_box = leader(point, near.words[0])
        yield replace(near, svg=(led, *near.svg), lines=(led_box,))


def _from(point: Vec2, into: Vec2, along: float, out: Vec2, off: float) -> Vec2:
    return (point[0] + into[0] * along + out[0] * off, point[1] + into[1] * along + out[1] * off)


def cut_lengths(sheet: Sheet, layout: Layout, page: Page) -> Iterator[str]:
    """Mark and cut length of every piece, on a dimension line in the room. Short pieces have the least choice, so they
    come first.
    """
    for piece in sorted(layout.pieces, key=lambda p: p.cut_length_mm):
        line = _cut_line(piece)
        yield from page.place(dimension_inks(sheet, line, 9), far_figure_inks(sheet, line))


def _cut_line(piece: Piece) -> Line:
    return Line(
        start_mm=piece.wall.point_mm(piece.low_mm),
        end_mm=piece.wall.point_mm(piece.high_mm),
        normal=piece.wall.normal,
        off_mm=FIRST_LINE_MM,
        from_mm=FIRST_LINE_FROM_MM,
        words=f"{piece.mark} {piece.cut_length_mm:.1f}",
        css="piece-dim",
        bold=True,
    )
