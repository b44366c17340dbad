"""The room on paper: walls, openings, what stands in it, and the words beside them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from model3d.drawings.boxes import Box, box, line_box
from model3d.drawings.dimensions import Line, dimension_inks, far_figure_inks, upright_deg
from model3d.drawings.labels import Ink, Page, leader, round_about
from model3d.drawings.opening_drawing import door_leaf, openers, sashes
from model3d.drawings.sheet import Sheet, centred, length_words, number, path, words_box, words_width_mm
from model3d.geometry.placement import Vec2
from model3d.rooms import Obstacle, Pipe, PipeTail, Room, Slab, Wall, Window

INSIDE_WORSE_MM = 200.0  # a wall's length belongs outside the room
CORNER_SIZE_MM, THING_SIZE_MM, OPENING_SIZE_MM = 2.4, 2.2, 2.2


def outer_corner(room: Room, wall: Wall) -> Vec2:
    """The outer corner of the wall's thickness at its first corner."""
    thickness = room.wall_thickness_mm
    turn = max(min(wall.first_corner.turn_deg, 150.0), -150.0)
    return wall.point_mm(-thickness * math.tan(math.radians(turn) / 2), -thickness)


def walls(sheet: Sheet, room: Room, page: Page) -> Iterator[str]:
    """The walls in their thickness, and the columns."""
    outer = [outer_corner(room, w) for w in room.outer.walls]
    inner = [c.at_mm for c in room.outer.corners]
    rings = [path([sheet.at(p) for p in ring], closed=True) for ring in (outer, inner)]
    yield f'<path class="wall" fill-rule="evenodd" d="{" ".join(rings)}"/>'
    for i, wall in enumerate(room.outer.walls):
        far = outer[(i + 1) % len(outer)]
        page.solids.append(box([sheet.at(p) for p in (wall.start_mm, wall.end_mm, far, outer[i])]))
    for ring in room.islands:
        yield f'<path class="wall" d="{path([sheet.at(c.at_mm) for c in ring.corners], closed=True)}"/>'
        page.solids += [_behind(sheet, w) for w in ring.walls]


def _behind(sheet: Sheet, wall: Wall) -> Box:
    """The strip of a column behind one of its walls, as deep as a line of words."""
    a, b = sheet.at(wall.start_mm), sheet.at(wall.end_mm)
    back = (-wall.normal[0] * 1.2, wall.normal[1] * 1.2)
    return box([a, b, (b[0] + back[0], b[1] + back[1]), (a[0] + back[0], a[1] + back[1])])


def openings(sheet: Sheet, room: Room, page: Page) -> Iterator[str]:
    """Doors with their leaves' swings, windows with their sashes', and their names in the wall."""
    thickness = room.wall_thickness_mm
    for opening in room.openings:
        wall = room.wall(opening.wall_id)
        ends = (
            (opening.from_mm, 0.0),
            (opening.to_mm, 0.0),
            (opening.to_mm, -thickness),
            (opening.from_mm, -thickness),
        )
        yield f'<path class="gap" d="{path([sheet.at(wall.point_mm(a, o)) for a, o in ends], closed=True)}"/>'
        if isinstance(opening, Window):
            middle = [sheet.at(wall.point_mm(a, -thickness / 2)) for a in (opening.from_mm, opening.to_mm)]
            yield f'<path class="glass" d="{path(middle)}"/>'
            yield from sashes(sheet, wall, opening, page)
        else:
            yield from door_leaf(sheet, wall, opening, page)
        centre = sheet.at(wall.point_mm((opening.from_mm + opening.to_mm) / 2, -thickness / 2))
        size = min(OPENING_SIZE_MM, 0.8 * thickness / sheet.scale)
        turn = upright_deg(wall.direction)
        if isinstance(opening, Window):  # the glass does not run through its name
            width = words_width_mm(opening.id, size_mm=size) / 2 * sheet.scale + 20.0
            middle_mm = (opening.from_mm + opening.to_mm) / 2
            blank = [sheet.at(wall.point_mm(middle_mm + a, -thickness / 2)) for a in (-width, width)]
            yield f'<path class="blank" stroke-width="{number(0.6 * size)}" d="{path(blank)}"/>'
        yield centred(centre, opening.id, size_mm=size, turn_deg=turn, css="soft over")


def things(sheet: Sheet, room: Room, page: Page, low_under_mm: float) -> Iterator[str]:
    """Obstacles: filled where they begin lower than ``low_under_mm``, dashed where they hang above it; what opens."""
    for thing in room.obstacles:
        css = "thing" if thing.low_mm[2] < low_under_mm else "above"
        corners = _footprint(sheet, thing)
        if css == "thing":
            page.solids.append(box(corners))
        else:
            page.lines += [line_box(a, b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)]
        if isinstance(thing, Pipe | PipeTail) and _upright(thing):
            x, y = (sum(c[i] for c in corners) / 4 for i in (0, 1))
            radius = number(thing.diameter_mm / 2 / sheet.scale)
            yield f'<circle class="{css}" cx="{number(x)}" cy="{number(y)}" r="{radius}"/>'
        else:
            yield f'<path class="{css}" d="{path(corners, closed=True)}"/>'
        if isinstance(thing, Slab):
            yield from openers(sheet, thing, page)


def _upright(pipe: Pipe | PipeTail) -> bool:
    return isinstance(pipe, PipeTail) or pipe.from_mm[0] == pipe.to_mm[0]


def _footprint(sheet: Sheet, thing: Obstacle) -> list[Vec2]:
    """The four corners of what stands out of the wall, on paper."""
    low, high = thing.low_mm, thing.high_mm
    near = max(low[1], 0.0) if thing.wall_id is not None else low[1]
    ends = ((low[0], near), (high[0], near), (high[0], high[1]), (low[0], high[1]))
    return [sheet.at(thing.frame.point((x, y, 0.0))[:2]) for x, y in ends]


def thing_names(sheet: Sheet, room: Room, page: Page) -> Iterator[str]:
    """The name of each obstacle beside it."""
    for thing in room.obstacles:
        corners = _footprint(sheet, thing)
        middle = ((corners[2][0] + corners[3][0]) / 2, (corners[2][1] + corners[3][1]) / 2)
        away, along = thing.frame.y_axis[:2], thing.frame.x_axis[:2]
        yield from page.place(_beside(middle, away, along, thing.id), _far_from(middle, thing.id, THING_SIZE_MM))


def _beside(point: Vec2, away: Vec2, along: Vec2, words: str) -> Iterator[Ink]:
    """Words beside a point, away from a wall: along the wall or square to it, at growing distances, with a line from
    afar.
    """
    for turn in (upright_deg(along), upright_deg(away)):
        flat = turn == upright_deg(along)
        half = 0.38 * THING_SIZE_MM if flat else words_width_mm(words, size_mm=THING_SIZE_MM) / 2
        for step in range(10):
            reach = 1.4 + half + 2.5 * step
            for slide in (0.0, 6.0, -6.0, 12.0, -12.0):
                centre = (point[0] + away[0] * reach + along[0] * slide, point[1] - away[1] * reach - along[1] * slide)
                near = (centre[0] - away[0] * (half + 0.3), centre[1] + away[1] * (half + 0.3))
                led = step > 0 or slide != 0.0
                yield Ink(
                    svg=(
                        *((f'<path class="thin soft-line" d="{path([point, near])}"/>',) if led else ()),
                        centred(centre, words, size_mm=THING_SIZE_MM, turn_deg=turn, css="soft over"),
                    ),
                    words=(words_box(centre, words, size_mm=THING_SIZE_MM, turn_deg=turn),),
                    lines=(line_box(point, near),) if led else (),
                    away_mm=reach + abs(slide) + (0.0 if flat else 4.0),
                )


def corner_names(sheet: Sheet, room: Room, page: Page) -> Iterator[str]:
    """The name of every corner, with its interior angle where it is not square, outside the walls."""
    for ring in room.rings:
        for wall in ring.walls:
            corner = wall.first_corner
            square = abs(abs(corner.turn_deg) - 90) < 0.005
            words = corner.id if square else f"{corner.id} {length_words(180 - corner.turn_deg)}°"
            outer = corner.at_mm if ring.is_island else outer_corner(room, wall)
            near = _by_corner(sheet, wall, outer, words, island=ring.is_island)
            yield from page.place(near, _far_from(sheet.at(outer), words, CORNER_SIZE_MM))


def _far_from(point: Vec2, words: str, size_mm: float) -> Iterator[Ink]:
    """Words anywhere about a point, at the end of a leader."""
    for centre, reach in round_about(point, first_mm=8.0, rings=10):
        around = words_box(centre, words, size_mm=size_mm)
        led, led_box = leader(point, around)
        yield Ink(
            svg=(led, centred(centre, words, size_mm=size_mm, css="soft over")),
            words=(around,),
            lines=(led_box,),
            away_mm=20.0 + reach,
        )


def _by_corner(sheet: Sheet, wall: Wall, outer: Vec2, words: str, *, island: bool) -> Iterator[Ink]:
    """Words round an outer corner, nearest the line from the corner outward."""
    half_turn = math.radians(wall.first_corner.turn_deg) / 2
    n, t = wall.normal, wall.direction
    c, s = math.cos(half_turn), math.sin(half_turn)
    x, y = sheet.at(outer)
    bearing = math.atan2(n[1] * c + t[1] * s, -n[0] * c - t[0] * s)  # outward, y down
    if island:  # into the room
        bearing += math.pi
    wide, high = words_width_mm(words, size_mm=CORNER_SIZE_MM) / 2, 0.38 * CORNER_SIZE_MM
    for gap in (1.0, 2.5, 4.5, 7.0, 10.0):
        for off in (0.0, 0.35, -0.35, 0.7, -0.7, 1.05, -1.05):
            ux, uy = math.cos(bearing + off), math.sin(bearing + off)
            reach = gap + abs(ux) * wide + abs(uy) * high
            centre = (x + ux * reach, y + uy * reach)
            yield Ink(
                svg=(centred(centre, words, size_mm=CORNER_SIZE_MM, css="soft over"),),
                words=(words_box(centre, words, size_mm=CORNER_SIZE_MM),),
                away_mm=4.0 * gap + 8.0 * abs(off),
            )


def wall_lengths(sheet: Sheet, room: Room, page: Page) -> Iterator[str]:
    """The length of every wall: outside the room, or in it where there is no place outside. Short walls first."""
    for wall in sorted(room.walls, key=lambda w: w.length_mm):
        behind = 0.0 if wall.ring != room.outer.id else room.wall_thickness_mm / sheet.scale
        outward = (-wall.normal[0], -wall.normal[1])
        words = f"{wall.id} {length_words(wall.length_mm)}"
        outside = Line(
            start_mm=wall.start_mm,
            end_mm=wall.end_mm,
            normal=outward,
            off_mm=behind + 5.0,
            from_mm=behind + 1.0,
            css="wall-dim",
            words=words,
        )
        inside = replace(outside, normal=wall.normal, off_mm=14.0, from_mm=8.0)
        within = (replace(ink, away_mm=ink.away_mm + INSIDE_WORSE_MM) for ink in dimension_inks(sheet, inside, 3))
        yield from page.place([*dimension_inks(sheet, outside, 3), *within], far_figure_inks(sheet, outside))
