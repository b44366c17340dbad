"""The bands above and below the picture: step, title, notes; numbered captions; legend."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from model3d.pictures.lettering import PlacedText, balanced, set_text, width_px
from model3d.pictures.page import DISC_PX, Bands, Swatch
from model3d.pictures.paper import Box, Px
from model3d.pictures.stage import CalloutKind, Caption, Hardness, LegendEntry, Level, Look, Stage
from model3d.pictures.theme import Theme
from model3d.wording import catalogue

_LEGEND_ORDER: tuple[Look, ...] = (
    "new",
    "valve",
    "fitting",
    "waiting",
    "hose",
    "o-ring",
    "clip-back",
    "clip-front",
    "trim",
    "end-cap",
    "fitted",
    "bracket",
    "cradle",
    "obstacle",
    "ghost",
)
_SWATCH = (34.0, 23.0)
_SIDE_VIEW = (34.0, 46.0)
_SWATCH_GAP = 10.0
_METER = (54.0, 20.0)
CLIPS = ("clip-front", "clip-back")
_LEAST_PANEL_PX = 360.0
_WANTED_PANEL_PX = 440.0
_SMALL = 0.88  # 9 point type
_HANG_PX = 38.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Strip:
    """Part of a band: what is in it, with tops counted from zero, and its height."""

    height: float
    texts: tuple[PlacedText, ...] = ()
    discs: tuple[tuple[str, Px], ...] = ()
    marks: tuple[tuple[CalloutKind, Px], ...] = ()
    swatches: tuple[Swatch, ...] = ()
    chip: Box | None = None
    meter: tuple[Level, Box] | None = None


def bands(stage: Stage, theme: Theme, seen: Collection[str] | None = None) -> Bands:
    """Set every word round the picture; what is left between the bands is the panel.

    ``seen``: the looks that are seen, which the legend then keeps to; the panel is the same with it and without.
    Words that would leave less than 440 pixels of height for the picture are set smaller. Raises ValueError when even
    so they leave less than 360.
    """
    try:
        return _bands(stage, theme, seen, _WANTED_PANEL_PX)
    except ValueError:
        small = replace(theme, body_px=theme.body_px * _SMALL, legend_px=theme.legend_px * _SMALL)
        return _bands(stage, small, seen, _LEAST_PANEL_PX)


def _bands(stage: Stage, theme: Theme, seen: Collection[str] | None, least_px: float) -> Bands:
    width, height = theme.page_px
    before, numbered, after = split_captions(stage.frame.captions)
    top = _heading(stage, before, theme)
    moves = _below(_captions(numbered, theme), after, theme)
    legend = _legend(legend_of(stage), stage, theme)
    if seen is not None:
        kept = tuple(entry for entry in legend_of(stage) if entry.look in ("move", "bench", *seen))
        legend = replace(_legend(kept, stage, theme), height=legend.height)
    bottom = moves.height + legend.height
    panel = Box(left=0.0, top=top.height, width=float(width), height=height - top.height - bottom)
    if panel.height < least_px:
        left, least = f"{panel.height:.0f}", f"{least_px:.0f}"
        raise ValueError(f"the words leave {left} pixels for the picture; {least} are needed")
    placed = (_down(top, 0.0), _down(moves, panel.bottom), _down(legend, panel.bottom + moves.height))
    assert top.chip is not None
    return Bands(
        panel=panel,
        chip=top.chip,
        texts=tuple(text for strip in placed for text in strip.texts),
        discs=tuple(disc for strip in placed for disc in strip.discs),
        marks=tuple(mark for strip in placed for mark in strip.marks),
        swatches=tuple(swatch for strip in placed for swatch in strip.swatches),
        meter=top.meter,
    )


def legend_of(stage: Stage) -> tuple[LegendEntry, ...]:
    """The frame's own legend, or one line for every look on the stage, one for the moves, one for what is done on the
    bench.
    """
    if stage.frame.legend is not None:
        return stage.frame.legend
    there = {actor.look for actor in stage.actors}
    for inset in stage.insets:
        there |= {actor.look for actor in inset.actors or ()}
    say = catalogue(stage.frame.language).say
    lines = [LegendEntry(look=look, text=say(f"legend.{look}")) for look in _LEGEND_ORDER if look in there]
    if stage.arrows or stage.swings:
        lines.append(LegendEntry(look="move", text=say("legend.move")))
    if any(not arrow.label for inset in stage.insets for arrow in inset.arrows):
        lines.append(LegendEntry(look="bench", text=say("legend.bench")))
    return tuple(lines)


def _heading(stage: Stage, notes: Sequence[Caption], theme: Theme) -> _Strip:
    frame, edge = stage.frame, theme.margin_px
    words = catalogue(frame.language).say("page.step", step=frame.step, steps=frame.steps)
    wide = width_px(words, theme.legend_px, True) + 32
    chip = Box(left=edge, top=24.0, width=wide, height=theme.legend_px * 1.28 + 14)
    label = set_text(words, theme.legend_px, 1e6, True)
    left = chip.right + 22
    title = balanced(frame.title, theme.title_px, theme.page_px[0] - edge - left, True)
    texts = [
        PlacedText(block=label, left=chip.middle[0], top=chip.top + 7, colour=theme.paper, anchor="middle"),
        PlacedText(block=title, left=left, top=chip.middle[1] - theme.title_px * 0.64, colour=theme.ink),
    ]
    top = max(chip.bottom, texts[1].box().bottom) + 10
    meter = None
    if frame.hardness is not None:
        words_at, meter = _hardness(frame.hardness, top, theme)
        texts.append(words_at)
        top = words_at.box().bottom + 7
    return _below(_Strip(height=top, texts=tuple(texts), chip=chip, meter=meter), notes, theme)


def _hardness(hard: Hardness, top: float, theme: Theme) -> tuple[PlacedText, tuple[Level, Box]]:
    """How hard the step is, in words beside five bars, as many of them full."""
    wide = theme.page_px[0] - 2 * theme.margin_px - _METER[0] - 12
    block = set_text(hard.text, theme.note_px, wide)
    at = Box(left=theme.margin_px, top=top + theme.note_px * 0.66 - _METER[1] / 2, width=_METER[0], height=_METER[1])
    return PlacedText(block=block, left=at.right + 12, top=top, colour=theme.ink), (hard.level, at)


def _notes(notes: Sequence[Caption], theme: Theme) -> _Strip:
    """Unnumbered lines, each with its mark, in two columns from three lines on, read from left to right."""
    columns, gap = (1 if len(notes) < 3 else 2), 40.0
    wide = (theme.page_px[0] - 2 * theme.margin_px - gap * (columns - 1)) / columns
    texts: list[PlacedText] = []
    marks: list[tuple[CalloutKind, Px]] = []
    top = 0.0
    for start in range(0, len(notes), columns):
        row = notes[start : start + columns]
        blocks = [set_text(note.text, theme.body_px, wide - _HANG_PX) for note in row]
        for k, (note, block) in enumerate(zip(row, blocks, strict=True)):
            left = theme.margin_px + k * (wide + gap)
            marks.append((note.kind, (left + 13, top + theme.body_px * 0.66)))
            texts.append(PlacedText(block=block, left=left + _HANG_PX, top=top, colour=theme.soft_ink))
        top += max(block.height_px for block in blocks) + 5
    return _Strip(height=top + 8 if notes else 0.0, texts=tuple(texts), marks=tuple(marks))


def _below(upper: _Strip, notes: Sequence[Caption], theme: Theme) -> _Strip:
    """A strip with notes under it."""
    lower = _down(_notes(notes, theme), upper.height)
    return replace(
        upper,
        height=upper.height + lower.height,
        texts=upper.texts + lower.texts,
        marks=upper.marks + lower.marks,
    )


def split_captions(
    captions: Sequence[Caption],
) -> tuple[tuple[Caption, ...], tuple[Caption, ...], tuple[Caption, ...]]:
    """What is said before the numbered moves, the moves, and what is said after them; without moves, all before."""
    numbered = [k for k, caption in enumerate(captions) if caption.label]
    first = numbered[0] if numbered else len(captions)
    before = tuple(captions[:first])
    after = tuple(caption for caption in captions[first:] if not caption.label)
    return before, tuple(caption for caption in captions if caption.label), after


def _with_snags(captions: Sequence[Caption]) -> list[tuple[Caption, tuple[Caption, ...]]]:
    """Each numbered line with what stands under it: the lines of the same number that carry a mark."""
    marked = [caption for caption in captions if caption.kind != "plain"]
    plain = [caption for caption in captions if caption.kind == "plain"]
    return [(caption, tuple(m for m in marked if m.label == caption.label)) for caption in plain]


def _captions(captions: Sequence[Caption], theme: Theme) -> _Strip:
    """The numbered lines, in as many columns, up to five, as make them take the least height."""
    if not captions:
        return _Strip(height=10.0)
    return min((_rows(captions, columns, theme) for columns in range(1, 6)), key=lambda strip: strip.height)


def _rows(captions: Sequence[Caption], columns: int, theme: Theme) -> _Strip:
    gap, hang = 30.0, 2 * DISC_PX + 12
    lines = _with_snags(captions)
    columns = min(columns, len(lines))
    wide = (theme.page_px[0] - 2 * theme.margin_px - gap * (columns - 1)) / columns
    texts: list[PlacedText] = []
    discs: list[tuple[str, Px]] = []
    marks: list[tuple[CalloutKind, Px]] = []
    top = 20.0
    for start in range(0, len(lines), columns):
        lowest = top + 2 * DISC_PX
        for k, (caption, under) in enumerate(lines[start : start + columns]):
            left, down = theme.margin_px + k * (wide + gap), top
            discs.append((caption.label, (left + DISC_PX, top + theme.body_px * 0.68)))
            for part in (caption, *under):
                block = set_text(part.text, theme.body_px, wide - hang)
                colour = theme.ink if part is caption else theme.soft_ink
                texts.append(PlacedText(block=block, left=left + hang, top=down, colour=colour))
                if part is not caption:
                    marks.append((part.kind, (left + DISC_PX, down + theme.body_px * 0.68)))
                down = max(down + block.height_px + 4, top + 2 * DISC_PX + 4)
            lowest = max(lowest, down - 4)
        top = lowest + 8
    return _Strip(height=top, texts=tuple(texts), discs=tuple(discs), marks=tuple(marks))


def _legend(entries: tuple[LegendEntry, ...], stage: Stage, theme: Theme) -> _Strip:
    """Swatches with their words, set a little closer when that saves a line."""
    gaps = (26.0, 18.0, 12.0)
    return min((_legend_set(entries, gap, stage, theme) for gap in gaps), key=lambda strip: strip.height)


def _legend_set(entries: tuple[LegendEntry, ...], gap: float, stage: Stage, theme: Theme) -> _Strip:
    edge, left = theme.margin_px, theme.margin_px
    tall = stage.side_view is not None and any(entry.look in CLIPS for entry in entries)
    line = max(theme.legend_px * 1.28, _SIDE_VIEW[1] if tall else 0.0) + 8
    top = 10.0 + (line - theme.legend_px * 1.28 - 8) / 2
    texts: list[PlacedText] = []
    swatches: list[Swatch] = []
    for entry in entries:
        block = set_text(entry.text, theme.legend_px, theme.page_px[0] - 2 * edge - _SWATCH[0] - _SWATCH_GAP)
        size = _SIDE_VIEW if tall and entry.look in CLIPS else _SWATCH
        wide = size[0] + _SWATCH_GAP + block.width_px
        if left > edge and left + wide > theme.page_px[0] - edge:
            left, top = edge, top + line
        middle = top + (theme.legend_px * 1.28 - size[1]) / 2
        patch = Box(left=left, top=middle, width=size[0], height=size[1])
        swatches.append(Swatch(look=entry.look, box=patch))
        texts.append(PlacedText(block=block, left=patch.right + _SWATCH_GAP, top=top, colour=theme.soft_ink))
        left += wide + gap
    return _Strip(height=top + theme.legend_px * 1.28 + 18, texts=tuple(texts), swatches=tuple(swatches))


def _down(strip: _Strip, by: float) -> _Strip:
    return replace(
        strip,
        texts=tuple(replace(text, top=text.top + by) for text in strip.texts),
        discs=tuple((label, (x, y + by)) for label, (x, y) in strip.discs),
        marks=tuple((kind, (x, y + by)) for kind, (x, y) in strip.marks),
        swatches=tuple(replace(s, box=replace(s.box, top=s.box.top + by)) for s in strip.swatches),
    )
