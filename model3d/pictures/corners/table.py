"""The table of a corner sheet: what is allowed and what every state comes to, each cell in its room."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from model3d.pictures.corners.values import HoseTable, Window, key_of
from model3d.pictures.labelled.words import Anchor, Words, words_in
from model3d.pictures.paper import Box, Px
from model3d.pictures.theme import Theme
from model3d.wording import Catalogue

SIGN_PX = 28.0
_MOST_ROW_PX = 38.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A row of the table; one that is not right carries a sign."""

    words: tuple[Words, ...]
    sign: Px | None = None


def window_rows(window: Window, table: Box, words: Catalogue, theme: Theme) -> tuple[Row, ...]:
    """What is allowed of the long legs' insertion, and every state with what it has to spare."""
    say, fixed = words.say, words.fixed
    heads = ("", say("corner.insertion"), say("corner.spare"))
    within_mm = say("corner.range", least=fixed(window.least_mm, 1), most=fixed(window.most_mm, 1))
    rows = [(say("corner.allowed"), within_mm, "", True)]
    for state in window.states:
        spare = fixed(min(state.value_mm - window.least_mm, window.most_mm - state.value_mm), 1).replace("-", "−")
        rows.append((say(f"state.{key_of(state.name)}"), fixed(state.value_mm, 1), spare, state.right))
    note = Box(left=table.left + 14, top=table.bottom - 78, width=table.width - 28, height=72)
    found = _rows(say("corner.legs"), heads, rows, replace(table, height=table.height - 84), theme)
    return (*found, Row(words=(words_in(note, say("corner.note"), 17.0, theme.soft_ink, middle=True),)))


def hose_rows(hoses: HoseTable, table: Box, words: Catalogue, theme: Theme) -> tuple[Row, ...]:
    """What is allowed of the hose, and what it is in every state."""
    say, fixed = words.say, words.fixed
    heads = ("", say("corner.apart"), say("corner.radius"))
    least, most = say("corner.at-least", mm=hoses.least_bend_mm), say("corner.at-most", mm=hoses.most_apart_mm)
    rows = [(say("corner.allowed"), most, least, True)]
    for name, apart, bend, right in hoses.rows:
        radius = say("corner.no-shape") if bend is None else fixed(bend, 1)
        rows.append((say(f"hose.{key_of(name)}"), fixed(apart, 1), radius, right))
    return _rows(say("corner.hose"), heads, rows, table, theme)


def _rows(
    head: str, heads: tuple[str, str, str], rows: Sequence[tuple[str, str, str, bool]], table: Box, theme: Theme
) -> tuple[Row, ...]:
    """A head, the heads of the columns, and the rows under them, as high as the table has room for."""
    top = table.top + 10.0
    title = Box(left=table.left + 14, top=top, width=table.width - 28, height=30)
    found = [Row(words=(words_in(title, head, theme.callout_px, theme.ink, bold=True, middle=True),))]
    top += 32.0
    high = min(_MOST_ROW_PX, (table.bottom - 6 - top) / (len(rows) + 1))
    found.append(Row(words=_cells(heads, top, high, table, theme.soft_ink, 17.0)))
    for *cells, right in rows:
        top += high
        colour = theme.ink if right else theme.warn
        sign = None if right else (table.left + 26.0, top + high / 2)
        found.append(Row(words=_cells(cells, top, high, table, colour, 18.0, bold=not right), sign=sign))
    return tuple(found)


def _cells(
    cells: Sequence[str], top: float, high: float, table: Box, colour: str, size_px: float, *, bold: bool = False
) -> tuple[Words, ...]:
    indent = SIGN_PX if bold else 0.0
    columns: tuple[tuple[float, float, Anchor], ...] = (
        (14.0 + indent, 216.0 - indent, "start"),
        (234.0, 128.0, "end"),
        (370.0, 120.0, "end"),
    )
    return tuple(
        words_in(
            Box(left=table.left + left, top=top, width=wide, height=high),
            text,
            size_px,
            colour,
            bold=bold,
            anchor=anchor,
            middle=True,
        )
        for text, (left, wide, anchor) in zip(cells, columns, strict=True)
        if text
    )
