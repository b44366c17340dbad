"""The dimensioned plan: the room as read, every piece with its mark and cut length. To catch a mistyped room before metal is cut."""

from __future__ import annotations

import math
from collections.abc import Iterator

from model3d.drawings.dimensions import Line, boxes_meet, dimension, figure_box, upright_deg, wall_line
from model3d.drawings.sheet import FOOT_MM, MARGIN_MM, Sheet, choose_sheet, number, path, text
from model3d.families.family import Family
from model3d.geometry.placement import Vec2
from model3d.layout import Layout, Piece
from model3d.rooms import CheckedPlan, Door, Room, Wall, Window

STYLE = """
text { font-family: "DejaVu Sans", Arial, Helvetica, sans-serif; fill: #17212b }
.wall { fill: #cfd6db; stroke: #17212b; stroke-width: .35 }
.gap { fill: #ffffff; stroke: #17212b; stroke-width: .18 }
.leaf { fill: none; stroke: #43505c; stroke-width: .18; stroke-dasharray: 1.2 .8 }
.glass { stroke: #17212b; stroke-width: .18; fill: none }
.piece { fill: #1e86c8; stroke: #06304d; stroke-width: .18 }
.dry { fill: #ffffff; stroke: #06304d; stroke-width: .25 }
.link { fill: none; stroke: #17212b; stroke-width: .35 }
.thing { fill: #e7d3c2; stroke: #5b3618; stroke-width: .25 }
.thin { fill: none; stroke: #43505c; stroke-width: .18 }
.tick { fill: none; stroke: #17212b; stroke-width: .35 }
.wall-dim { stroke: #43505c } text.wall-dim { stroke: none }
.piece-dim { stroke: #06304d } text.piece-dim { stroke: none; fill: #06304d; font-weight: bold }
.soft { fill: #43505c }
.front { fill: #f0a400; stroke: #5c3d00; stroke-width: .18 } .back { fill: #a23b86; stroke: #3d0f31; stroke-width: .18 }
text.on-front { fill: #17212b; font-weight: bold } text.on-back { fill: #ffffff; font-weight: bold }
.end { fill: #ffffff; stroke: #17212b; stroke-width: .35 }
"""
CAUTION = "Check every figure against your own survey before cutting. Local codes, the maker's instructions and a competent person's judgement come first."


def plan_svg(plan: CheckedPlan, layout: Layout, family: Family) -> str:
    """The plan as an SVG page (A4 or A3, a standard scale of ISO 5455), from numbers alone.

    Wall lengths stand outside, cut lengths and marks inside, clip faces as letters at the piece ends. Raises ValueError when the room fits no sheet.
    """
    room = plan.room
    outer = [_offset(room, w, c) for w, c in _outer_corners(room)]
    sheet = choose_sheet([*outer, *(c.at_mm for c in room.corners)])
    width, height = sheet.size_mm
    body = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{number(width)}mm" height="{number(height)}mm" '
        f'viewBox="0 0 {number(width)} {number(height)}"><title>{_plain(plan.name)}: dimensioned plan</title><style>{STYLE}</style>',
        f'<rect width="{number(width)}" height="{number(height)}" fill="#ffffff"/>',
        *_walls(sheet, room, outer), *_openings(sheet, room), *_things(sheet, room),
        *_pieces(sheet, layout, family), *_dimensions(sheet, room, layout), *_corners(sheet, room),
        *_frame(sheet, plan, family), "</svg>",
    ]
    return "\n".join(body) + "\n"


def _plain(words: str) -> str:
    return words.replace("&", "&amp;").replace("<", "&lt;")


def _outer_corners(room: Room) -> Iterator[tuple[Wall, float]]:
    for wall in room.outer.walls:
        yield wall, wall.first_corner.turn_deg


def _offset(room: Room, wall: Wall, turn_deg: float) -> Vec2:
    """The outer corner of the wall's thickness at its first corner."""
    thickness = room.wall_thickness_mm
    return wall.point_mm(-thickness * math.tan(math.radians(max(min(turn_deg, 150), -150)) / 2), -thickness)


def _walls(sheet: Sheet, room: Room, outer: list[Vec2]) -> Iterator[str]:
    rings = [path([sheet.at(p) for p in outer], closed=True)]
    rings.append(path([sheet.at(c.at_mm) for c in room.outer.corners], closed=True))
    yield f'<path class="wall" fill-rule="evenodd" d="{" ".join(rings)}"/>'
    for ring in room.islands:
        yield f'<path class="wall" d="{path([sheet.at(c.at_mm) for c in ring.corners], closed=True)}"/>'


def _openings(sheet: Sheet, room: Room) -> Iterator[str]:
    for opening in room.openings:
        wall, th = room.wall(opening.wall_id), room.wall_thickness_mm
        corners = [wall.point_mm(a, o) for a, o in ((opening.from_mm, 0), (opening.to_mm, 0), (opening.to_mm, -th), (opening.from_mm, -th))]
        yield f'<path class="gap" d="{path([sheet.at(p) for p in corners], closed=True)}"/>'
        if isinstance(opening, Window):
            middle = [wall.point_mm(opening.from_mm, -th / 2), wall.point_mm(opening.to_mm, -th / 2)]
            yield f'<path class="glass" d="{path([sheet.at(p) for p in middle])}"/>'
        else:
            yield from _leaf(sheet, wall, opening)
        inner = wall.point_mm((opening.from_mm + opening.to_mm) / 2, -th / 2)
        size = min(2.2, 0.8 * th / sheet.scale)
        x, y = sheet.at(inner)
        turn = upright_deg(wall.direction)
        down = (-math.sin(math.radians(turn)) * size * 0.36, math.cos(math.radians(turn)) * size * 0.36)
        yield text((x + down[0], y + down[1]), opening.id, size_mm=size, turn_deg=turn, css="soft")


def _leaf(sheet: Sheet, wall: Wall, door: Door) -> Iterator[str]:
    """The leaf open and the arc it sweeps."""
    sign = 1.0 if door.hinge == "right" else -1.0
    side = 1.0 if door.swing == "in" else -1.0
    points = []
    for i in range(33):
        angle = math.radians(door.opens_deg * i / 32)
        points.append(sheet.at(wall.point_mm(door.hinge_mm + sign * door.width_mm * math.cos(angle), side * door.width_mm * math.sin(angle))))
    yield f'<path class="leaf" d="{path([*points, sheet.at(wall.point_mm(door.hinge_mm))])}"/>'


def _things(sheet: Sheet, room: Room) -> Iterator[str]:
    for thing in room.obstacles:
        low, high = thing.low_mm, thing.high_mm
        corners = [thing.frame.point((x, y, 0.0)) for x, y in ((low[0], max(low[1], 0.0)), (high[0], max(low[1], 0.0)), (high[0], high[1]), (low[0], high[1]))]
        yield f'<path class="thing" d="{path([sheet.at((p[0], p[1])) for p in corners], closed=True)}"/>'
        middle = thing.frame.point(((low[0] + high[0]) / 2, high[1], 0.0))
        away = thing.frame.vector((0.0, 1.0, 0.0))
        x, y = sheet.at((middle[0], middle[1]))
        across = upright_deg((away[0], away[1]))
        start = "start" if math.cos(math.radians(across)) * away[0] - math.sin(math.radians(across)) * away[1] > 0 else "end"
        yield text((x + away[0] * 1.2, y - away[1] * 1.2), thing.id, size_mm=2.2, turn_deg=across, anchor=start, css="soft")


def _pieces(sheet: Sheet, layout: Layout, family: Family) -> Iterator[str]:
    """Each piece as a band at its true place and depth, joints as lines between, clip faces as letters, ends as V and R."""
    back, front = family.section.stand_off_mm, family.section.front_u_mm
    for run in layout.runs:
        line = [p.wall.point_mm(s, family.section.bore_u_mm) for p in run.pieces for s in (p.near_mm, p.far_mm)]
        yield f'<path class="link" d="{path([sheet.at(p) for p in line])}"/>'
    for piece in layout.pieces:
        corners = [piece.wall.point_mm(s, u) for s, u in ((piece.low_mm, back), (piece.high_mm, back), (piece.high_mm, front), (piece.low_mm, front))]
        yield f'<path class="{"piece" if piece.heated else "dry"}" d="{path([sheet.at(p) for p in corners], closed=True)}"/>'
        yield from _letters(sheet, piece, front)


def _letters(sheet: Sheet, piece: Piece, front: float) -> Iterator[str]:
    for end, along, toward in ((piece.start, piece.near_mm, piece.sense), (piece.end, piece.far_mm, -piece.sense)):
        x, y = sheet.at(piece.wall.point_mm(along, front))
        into = (piece.wall.direction[0] * toward, -piece.wall.direction[1] * toward)
        out = (piece.wall.normal[0], -piece.wall.normal[1])
        if end.clip != "none":
            cx, cy = x + into[0] * 1.9 + out[0] * 2.3, y + into[1] * 1.9 + out[1] * 2.3
            yield f'<rect class="{end.clip}" x="{number(cx - 1.5)}" y="{number(cy - 1.5)}" width="3" height="3" rx=".5"/>'
            yield text((cx, cy + 0.85), end.clip[0].upper(), size_mm=2.3, css=f"on-{end.clip}")
        letter = {"valve": "V", "return": "R", "turn-back": "T"}.get(end.joint)
        if letter:
            cx, cy = x - into[0] * 2.6 + out[0] * 3.0, y - into[1] * 2.6 + out[1] * 3.0
            yield f'<circle class="end" cx="{number(cx)}" cy="{number(cy)}" r="2.1"/>'
            yield text((cx, cy + 1.05), letter, size_mm=2.9)


def _dimensions(sheet: Sheet, room: Room, layout: Layout) -> Iterator[str]:
    for wall in room.walls:
        island = wall.ring != room.outer.id
        off = -4.0 if island else room.wall_thickness_mm / sheet.scale + 6.0
        if not island or not any(p.wall.id == wall.id for p in layout.pieces):
            yield from dimension(sheet, wall_line(wall, off))
    taken = [figure_box(sheet, wall_line(w, room.wall_thickness_mm / sheet.scale + 6.0)) for w in room.outer.walls]
    taken += [_wall_box(sheet, w) for w in room.walls]
    for piece in sorted(layout.pieces, key=lambda p: -p.cut_length_mm):
        line = _piece_line(sheet, piece, taken)
        taken.append(figure_box(sheet, line))
        yield from dimension(sheet, line)


def _wall_box(sheet: Sheet, wall: Wall) -> tuple[Vec2, ...]:
    """The strip along a wall that figures keep clear of: the skirting's own depth and the letters of its clips."""
    reach = 4.5 * sheet.scale
    return tuple(sheet.at(wall.point_mm(s, u)) for s, u in ((0.0, 0.0), (wall.length_mm, 0.0), (wall.length_mm, reach), (0.0, reach)))


def _piece_line(sheet: Sheet, piece: Piece, taken: list[tuple[Vec2, ...]]) -> Line:
    """The dimension of a piece, as near its wall as its figure stands clear of the others; the nearest when none does."""
    lines = [
        Line(
            start_mm=piece.wall.point_mm(piece.low_mm), end_mm=piece.wall.point_mm(piece.high_mm), normal=piece.wall.normal,
            off_mm=off, words=f"{piece.mark}  {piece.cut_length_mm:.1f}", size_mm=3.0, css="piece-dim",
        )
        for off in (8.5, 13.0, 17.5, 22.0, 26.5, 31.0)
    ]
    clear = (x for x in lines if not any(boxes_meet(figure_box(sheet, x), box) for box in taken))
    return next(clear, lines[0])


def _corners(sheet: Sheet, room: Room) -> Iterator[str]:
    for wall in room.outer.walls:
        corner = wall.first_corner
        point = _offset(room, wall, corner.turn_deg)
        x, y = sheet.at(point)
        inner = sheet.at(corner.at_mm)
        away = math.dist((x, y), inner) or 1.0
        ux, uy = (x - inner[0]) / away, (y - inner[1]) / away
        words = f"{corner.id}" if abs(abs(corner.turn_deg) - 90) < 0.005 else f"{corner.id}, {180 - corner.turn_deg:.1f} deg"
        anchor = "middle" if abs(ux) < 0.4 else "start" if ux > 0 else "end"
        yield text((x + ux * 2.4, y + uy * 2.4 + 0.8), words, size_mm=2.4, anchor=anchor, css="soft")


def _frame(sheet: Sheet, plan: CheckedPlan, family: Family) -> Iterator[str]:
    width, height = sheet.size_mm
    yield text((MARGIN_MM, MARGIN_MM + 6), plan.name, size_mm=6.0, anchor="start")
    about = f"Family: {family.name}. Scale 1:{sheet.scale} on {'A4' if width < 300 else 'A3'}. Lengths in mm; piece figures are cut lengths."
    yield text((MARGIN_MM, MARGIN_MM + 11.5), about, size_mm=3.0, anchor="start", css="soft")
    y = height - MARGIN_MM - FOOT_MM + 14
    keys = (("back", "B", "clip, faces back"), ("front", "F", "clip, faces front"))
    x = MARGIN_MM
    for css, letter, words in keys:
        yield f'<rect class="{css}" x="{number(x)}" y="{number(y - 2.4)}" width="3" height="3" rx=".5"/>'
        yield text((x + 1.5, y - 0.05), letter, size_mm=2.3, css=f"on-{css}")
        yield text((x + 4.5, y), words, size_mm=2.8, anchor="start")
        x += 40
    for letter, words in (("V", "valve end"), ("R", "return end"), ("T", "turn-back end")):
        yield f'<circle class="end" cx="{number(x + 1.6)}" cy="{number(y - 0.9)}" r="2.1"/>'
        yield text((x + 1.6, y + 0.1), letter, size_mm=2.8)
        yield text((x + 5.2, y), words, size_mm=2.8, anchor="start")
        x += 34
    yield text((MARGIN_MM, y + 7), CAUTION, size_mm=2.6, anchor="start", css="soft")
