"""The words of a bench page and what goes with them: flags, arrows, numbers; each in its room."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from model3d.pictures.bench.values import Bench
from model3d.pictures.labelled.tags import Face
from model3d.pictures.labelled.words import Anchor, Words, stacked, words_in
from model3d.pictures.lettering import set_text
from model3d.pictures.paper import Box, Px
from model3d.pictures.theme import Theme
from model3d.wording import Catalogue

NUMBER_PX = 15.0
ARROW_LONG, ARROW_HIGH = 66.0, 26.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Flag:
    """A name in a box above the whole piece, with a leader to what it names."""

    words: Words
    box: Box
    foot: Px
    tip: Px


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """Where an end goes, in words, and the arrow that points out of the piece there."""

    words: Words
    start: Px
    end: Px

    def box(self) -> Box:
        """The paper the arrow takes."""
        left = min(self.start[0], self.end[0])
        return Box(left=left, top=self.start[1] - ARROW_HIGH / 2, width=ARROW_LONG, height=ARROW_HIGH)


def head_words(words: Catalogue, bench: Bench, theme: Theme) -> tuple[tuple[Words, ...], Px | None]:
    """Title, how ends are named, how many O-rings are greased; the place of the sign for grease, where any are."""
    edge, right = theme.margin_px, theme.page_px[0] - theme.margin_px
    title = words_in(Box(left=edge, top=16, width=880, height=50), bench.title, theme.title_px, theme.ink, bold=True)
    named_in = Box(left=edge, top=70, width=right - edge, height=40)
    named = words_in(named_in, words.say("bench.ends-named"), theme.body_px, theme.soft_ink)
    count = bench.oring_count
    said = words.say("bench.rings", count=count) if count else words.say("bench.no-rings")
    rings_in = Box(left=980, top=24, width=right - 980, height=40)
    rings = words_in(rings_in, said, theme.body_px, theme.ink, bold=True, anchor="end", middle=True)
    drop = (rings.text.box().left - 26.0, rings_in.middle[1]) if count else None
    return (title, named, rings), drop


def cut_words(
    words: Catalogue, length_mm: float, low: float, high: float, frame: Box, theme: Theme
) -> tuple[Words, bool]:
    """The cut length on its dimension line, or beside it where the piece is drawn too short; whether it is on it."""
    text, top = words.say("bench.cut", mm=words.fixed(length_mm, 1)), frame.bottom - 42.0
    wide = set_text(text, theme.callout_px, 1e6, True).width_px
    inside = high - low > wide + 90.0
    middle = (low + high) / 2
    room = Box(left=middle - wide / 2 - 8, top=top, width=wide + 16, height=32.0)
    if not inside:
        room = Box(left=high + 42.0, top=top, width=frame.right - high - 60.0, height=32.0)
    anchor: Anchor = "middle" if inside else "start"
    return words_in(room, text, theme.callout_px, theme.ink, bold=True, anchor=anchor, middle=True), inside


def flag(name: str, x: float, tip: Px, frame: Box, theme: Theme) -> Flag:
    """A name in a box about ``x``, at the top of the frame."""
    room = Box(left=x - 118.0, top=frame.top + 6, width=236.0, height=26.0)
    words = words_in(room, name, 17.0, theme.ink, bold=True, anchor="middle", middle=True)
    box = Box(left=x - words.text.block.width_px / 2 - 7, top=room.top, width=words.text.block.width_px + 14, height=26)
    foot = min(max(tip[0], box.left + 8), box.right - 8), box.bottom
    return Flag(words=words, box=box, foot=foot, tip=tip)


def way(toward: str, frame: Box, theme: Theme, *, right: bool) -> Way:
    """Words beside the whole piece, and under them an arrow out of it."""
    left = frame.right - 244.0 if right else frame.left + 16.0
    room = Box(left=left, top=frame.top + 48.0, width=228.0, height=78.0)
    words = words_in(room, toward, theme.callout_px, theme.ink, bold=True, anchor="end" if right else "start")
    tip, y = (room.right - 4 if right else room.left + 4), words.text.box().bottom + 6.0 + ARROW_HIGH / 2
    return Way(words=words, start=(tip + (-ARROW_LONG if right else ARROW_LONG), y), end=(tip, y))


def title_words(title: str, panel: Box, high: float, theme: Theme) -> Words:
    """The title of one end, in the strip over its picture."""
    room = Box(left=panel.left + 14, top=panel.top + 4, width=panel.width - 28, height=high - 8)
    return words_in(room, title, 25.0, theme.ink, bold=True, middle=True)


def end_on_words(
    words: Catalogue, face: Face, frame: Box, *, room_right: bool, theme: Theme
) -> tuple[tuple[Words, ...], Px | None]:
    """What the view end-on is, which side of it is the wall and which the room, and which way the clip's tabs stand;
    the place of the clip's letter.
    """
    half = frame.width / 2 - 10
    head = Box(left=frame.left + 6, top=frame.top + 6, width=frame.width - 12, height=30)
    edges = (frame.left + 8, frame.right - 8 - half)
    left, right = (Box(left=x, top=frame.top + 40, width=half, height=30) for x in edges)
    wall, room = words.say("side.wall"), words.say("side.room")
    sides = (wall, room) if room_right else (room, wall)
    found = [
        words_in(head, words.say("bench.end-on"), 18.0, theme.soft_ink, anchor="middle"),
        words_in(left, f"◂ {sides[0]}", 18.0, theme.ink, bold=True),
        words_in(right, f"{sides[1]} ▸", 18.0, theme.ink, bold=True, anchor="end"),
    ]
    foot = Box(left=frame.left + 48, top=frame.bottom - 98, width=frame.width - 54, height=90)
    if face == "none":
        foot = Box(left=frame.left + 12, top=foot.top, width=frame.width - 24, height=foot.height)
    said = words.say("clip.none" if face == "none" else f"bench.tabs-{face}")
    found.append(words_in(foot, said, 17.0, theme.ink, bold=True, middle=True))
    return tuple(found), (frame.left + 27.0, foot.middle[1]) if face != "none" else None


def todo(lines: Sequence[str], panel: Box, theme: Theme) -> tuple[tuple[Words, ...], tuple[tuple[str, Px], ...]]:
    """What to do at one end, one thing a number, under its picture."""
    high = theme.page_px[1] - panel.bottom - 24
    room = Box(left=panel.left + 44, top=panel.bottom + 16, width=panel.width - 60, height=high)
    found = stacked(room, lines, theme.body_px, theme.ink, 10.0)
    places = [(panel.left + 16, words.text.top + words.text.block.size_px * 0.66) for words in found]
    return found, tuple((str(k), at) for k, at in enumerate(places, 1))
