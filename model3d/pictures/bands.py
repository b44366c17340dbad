"""The bands above and below the picture: step, title, notes; numbered captions; legend."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from model3d.pictures.lettering import balanced, set_text, width_px
from model3d.pictures.page import DISC_PX, Bands, PlacedText, Swatch
from model3d.pictures.paper import Box, Px
from model3d.pictures.stage import CalloutKind, Caption, LegendEntry, Look, Stage
from model3d.pictures.theme import Theme

_LEGEND_ORDER: tuple[Look, ...] = (
    "new",
    "valve",
    "fitting",
    "hose",
    "o-ring",
    "clip-back",
    "clip-front",
    "trim",
    "fitted",
    "bracket",
    "obstacle",
    "ghost",
)
_SWATCH = (34.0, 23.0)
_SWATCH_GAP = 10.0
_LEAST_PANEL_PX = 360.0
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


def bands(stage: Stage, theme: Theme) -> Bands:
    """Set every word round the picture; what is left between the bands is the panel.

    Raises ValueError when the words leave less than 360 pixels of height for the picture.
    """
    width, height = theme.page_px
    before, numbered, after = split_captions(stage.frame.captions)
    top = _heading(stage, before, theme)
    moves = _below(_captions(numbered, theme), after, theme)
    legend = _legend(legend_of(stage, theme), theme)
    bottom = moves.height + legend.height
    panel = Box(left=0.0, top=top.height, width=float(width), height=height - top.height - bottom)
    if panel.height < _LEAST_PANEL_PX:
        left, least = f"{panel.height:.0f}", f"{_LEAST_PANEL_PX:.0f}"
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
    )


def legend_of(stage: Stage, theme: Theme) -> tuple[LegendEntry, ...]:
    """The frame's own legend, or one line for every look on the stage and one for the moves."""
    if stage.frame.legend is not None:
        return stage.frame.legend
    there = {actor.look for actor in stage.actors}
    for inset in stage.insets:
        there |= {actor.look for actor in inset.actors or ()}
    lines = [LegendEntry(look=look, text=theme.names[look]) for look in _LEGEND_ORDER if look in there]
    if stage.arrows or stage.swings:
        lines.append(LegendEntry(look="move", text=theme.names["move"]))
    return tuple(lines)


def _heading(stage: Stage, notes: Sequence[Caption], theme: Theme) -> _Strip:
    frame, edge = stage.frame, theme.margin_px
    words = f"Step {frame.step} of {frame.steps}"
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
    return _below(_Strip(height=top, texts=tuple(texts), chip=chip), notes, theme)


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


def _captions(captions: Sequence[Caption], theme: Theme) -> _Strip:
    """The numbered lines, in as many columns, up to five, as make them take the least height."""
    if not captions:
        return _Strip(height=10.0)
    return min((_rows(captions, columns, theme) for columns in range(1, 6)), key=lambda strip: strip.height)


def _rows(captions: Sequence[Caption], columns: int, theme: Theme) -> _Strip:
    gap, hang = 30.0, 2 * DISC_PX + 12
    columns = min(columns, len(captions))
    wide = (theme.page_px[0] - 2 * theme.margin_px - gap * (columns - 1)) / columns
    texts: list[PlacedText] = []
    discs: list[tuple[str, Px]] = []
    top = 20.0
    for start in range(0, len(captions), columns):
        row = captions[start : start + columns]
        blocks = [set_text(caption.text, theme.body_px, wide - hang) for caption in row]
        for k, (caption, block) in enumerate(zip(row, blocks, strict=True)):
            left = theme.margin_px + k * (wide + gap)
            discs.append((caption.label, (left + DISC_PX, top + theme.body_px * 0.68)))
            texts.append(PlacedText(block=block, left=left + hang, top=top, colour=theme.ink))
        top += max(2 * DISC_PX, *(block.height_px for block in blocks)) + 8
    return _Strip(height=top, texts=tuple(texts), discs=tuple(discs))


def _legend(entries: tuple[LegendEntry, ...], theme: Theme) -> _Strip:
    """Swatches with their words, set a little closer when that saves a line."""
    return min((_legend_set(entries, gap, theme) for gap in (26.0, 18.0, 12.0)), key=lambda strip: strip.height)


def _legend_set(entries: tuple[LegendEntry, ...], gap: float, theme: Theme) -> _Strip:
    edge, top, left = theme.margin_px, 10.0, theme.margin_px
    line = theme.legend_px * 1.28 + 10
    texts: list[PlacedText] = []
    swatches: list[Swatch] = []
    for entry in entries:
        block = set_text(entry.text, theme.legend_px, theme.page_px[0] - 2 * edge - _SWATCH[0] - _SWATCH_GAP)
        wide = _SWATCH[0] + _SWATCH_GAP + block.width_px
        if left > edge and left + wide > theme.page_px[0] - edge:
            left, top = edge, top + line
        middle = top + (theme.legend_px * 1.28 - _SWATCH[1]) / 2
        patch = Box(left=left, top=middle, width=_SWATCH[0], height=_SWATCH[1])
        swatches.append(Swatch(look=entry.look, box=patch))
        texts.append(PlacedText(block=block, left=patch.right + _SWATCH_GAP, top=top, colour=theme.soft_ink))
        left += wide + gap
    return _Strip(height=top + line + 8, texts=tuple(texts), swatches=tuple(swatches))


def _down(strip: _Strip, by: float) -> _Strip:
    return replace(
        strip,
        texts=tuple(replace(text, top=text.top + by) for text in strip.texts),
        discs=tuple((label, (x, y + by)) for label, (x, y) in strip.discs),
        marks=tuple((kind, (x, y + by)) for kind, (x, y) in strip.marks),
        swatches=tuple(replace(s, box=replace(s.box, top=s.box.top + by)) for s in strip.swatches),
    )
