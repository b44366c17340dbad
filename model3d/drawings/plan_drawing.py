"""The dimensioned plan: the room as read, every piece with its mark and cut length.

To catch a mistyped room before metal is cut.
"""

from __future__ import annotations

from collections.abc import Iterator

from model3d.drawings import room_drawing, run_drawing
from model3d.drawings.labels import Page
from model3d.drawings.sheet import COLUMN_MM, MARGIN_MM, Sheet, centred, choose_sheet, number, path, text, wrapped
from model3d.families.family import Family
from model3d.layout import Layout
from model3d.rooms import CheckedPlan

STYLE = """
text { font-family: "DejaVu Sans", Arial, Helvetica, sans-serif; fill: #17212b }
text.over { paint-order: stroke; stroke: #ffffff; stroke-width: .7; stroke-linejoin: round }
.wall { fill: #cfd6db; stroke: #17212b; stroke-width: .35; stroke-linejoin: round }
.gap { fill: #ffffff; stroke: #17212b; stroke-width: .18 }
.leaf { fill: none; stroke: #43505c; stroke-width: .18; stroke-dasharray: 1.2 .8 }
.glass { stroke: #17212b; stroke-width: .18; fill: none } .blank { stroke: #ffffff; fill: none }
.piece { fill: #1e86c8; stroke: #06304d; stroke-width: .18 }
.dry { fill: #ffffff; stroke: #06304d; stroke-width: .25 }
.link { fill: none; stroke: #17212b; stroke-width: .35 }
.thing { fill: #e7d3c2; stroke: #5b3618; stroke-width: .25 }
.above { fill: none; stroke: #5b3618; stroke-width: .25; stroke-dasharray: 1.6 .8 }
.thin { fill: none; stroke: #43505c; stroke-width: .18 }
.tick { fill: none; stroke: #17212b; stroke-width: .35 }
.soft-line { stroke: #7d8892 }
path.wall-dim { stroke: #43505c } path.piece-dim { stroke: #06304d }
text.piece-dim { fill: #06304d; font-weight: bold }
.soft { fill: #43505c } .heavy { font-weight: bold }
.frame { fill: none; stroke: #17212b; stroke-width: .5 }
.front { fill: #f0a400; stroke: #5c3d00; stroke-width: .18 } .back { fill: #a23b86; stroke: #3d0f31; stroke-width: .18 }
text.on-front { fill: #17212b; font-weight: bold } text.on-back { fill: #ffffff; font-weight: bold }
.end { fill: #ffffff; stroke: #17212b; stroke-width: .35 }
"""
CAUTION = (
    "Check every figure against your own survey before cutting. Local codes, the maker's instructions and a competent "
    "person's judgement come first."
)
NOTES = (
    "Lengths in mm. Piece figures are cut lengths; wall figures are from corner to corner.",
    "As you face a wall, its first corner is on your right.",
    CAUTION,
)


def plan_svg(plan: CheckedPlan, layout: Layout, family: Family) -> str:
    """The plan as an SVG page (A4 or A3, a standard scale of ISO 5455), from numbers alone.

    Wall lengths stand outside, cut lengths and marks inside, clip faces as letters at the piece ends. Raises ValueError
    when the room fits no sheet.
    """
    sheet, _, body = composed(plan, layout, family)
    width, height = (number(x) for x in sheet.size_mm)
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}">'
        f"<title>{_plain(plan.name)}: dimensioned plan</title><style>{STYLE}</style>"
    )
    return "\n".join([head, f'<rect width="{width}" height="{height}" fill="#ffffff"/>', *body, "</svg>"]) + "\n"


def composed(plan: CheckedPlan, layout: Layout, family: Family) -> tuple[Sheet, Page, list[str]]:
    """The sheet, what stands where on it, and its SVG elements."""
    room = plan.room
    outer = [room_drawing.outer_corner(room, w) for w in room.outer.walls]
    sheet = choose_sheet([*outer, *(c.at_mm for c in room.corners)])
    page = Page(area=sheet.area)
    top = family.section.floor_gap_mm + family.section.height_mm
    below = [
        *room_drawing.walls(sheet, room, page),
        *room_drawing.openings(sheet, room, page),
        *run_drawing.pieces(sheet, layout, family, page),
        *room_drawing.things(sheet, room, page, top),
    ]
    letters = list(run_drawing.letters(sheet, layout, family, page))  # placed first, drawn over the lines
    words = [
        *room_drawing.wall_lengths(sheet, room, page),
        *run_drawing.cut_lengths(sheet, layout, page),
        *room_drawing.corner_names(sheet, room, page),
        *room_drawing.thing_names(sheet, room, page),
    ]
    body = [*below, *words, *letters, *_column(sheet, plan, family)]
    return sheet, page, body


def _plain(words: str) -> str:
    return words.replace("&", "&amp;").replace("<", "&lt;")


def _column(sheet: Sheet, plan: CheckedPlan, family: Family) -> Iterator[str]:
    """The frame, and the title column at its right: name, family, scale, what the letters mean, notes."""
    width, height = sheet.size_mm
    left, right, top, bottom = width - MARGIN_MM - COLUMN_MM, width - MARGIN_MM, MARGIN_MM, height - MARGIN_MM
    frame = [(MARGIN_MM, top), (right, top), (right, bottom), (MARGIN_MM, bottom)]
    yield f'<path class="frame" d="{path(frame, closed=True)}"/>'
    yield f'<path class="frame" d="{path([(left, top), (left, bottom)])}"/>'
    x, y, wide = left + 5.0, top + 9.0, COLUMN_MM - 10.0
    for line in wrapped(plan.name, wide, size_mm=5.0):
        yield text((x, y), line, size_mm=5.0, anchor="start")
        y += 6.5
    y += 1.0
    about = (f"Family: {family.name}", f"Scale 1:{sheet.scale} on {sheet.name}")
    for words in about:
        for line in wrapped(words, wide, size_mm=2.8):
            yield text((x, y), line, size_mm=2.8, anchor="start", css="soft")
            y += 4.2
    y += 5.0
    for css, letter, words in (("back", "B", "clip, faces back"), ("front", "F", "clip, faces front")):
        yield f'<rect class="{css}" x="{number(x + 0.6)}" y="{number(y - 1.5)}" width="3" height="3" rx=".5"/>'
        yield centred((x + 2.1, y), letter, size_mm=2.3, css=f"on-{css}")
        yield text((x + 6.5, y + 1.0), words, size_mm=2.8, anchor="start")
        y += 6.0
    for letter, words in (("V", "valve end"), ("R", "return end"), ("T", "turn-back end")):
        yield f'<circle class="end" cx="{number(x + 2.1)}" cy="{number(y)}" r="2.1"/>'
        yield centred((x + 2.1, y), letter, size_mm=2.9)
        yield text((x + 6.5, y + 1.0), words, size_mm=2.8, anchor="start")
        y += 6.0
    yield from _notes(x, bottom - 5.0, wide)


def _notes(x: float, bottom: float, wide: float) -> Iterator[str]:
    """The notes, their last line on ``bottom``."""
    lines = [(line, i == 0) for note in NOTES for i, line in enumerate(wrapped(note, wide, size_mm=2.5))]
    height = sum(3.7 + (1.6 if first else 0.0) for _, first in lines)
    y = bottom - height + 3.7 + 1.6
    for number_, (line, first) in enumerate(lines):
        y += 1.6 if first and number_ else 0.0
        yield text((x, y), line, size_mm=2.5, anchor="start", css="soft")
        y += 3.7
