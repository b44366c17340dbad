"""Faults of a bench page, measured on its boxes, arrows and what is seen in its pictures."""

from __future__ import annotations

from collections.abc import Iterator

from model3d.pictures.bench.page import WHOLE, BenchPage
from model3d.pictures.labelled.judging import hidden_faults, label_faults, said, word_faults
from model3d.pictures.paper import Box, crossing
from model3d.pictures.theme import Theme


def bench_faults(page: BenchPage, theme: Theme) -> tuple[str, ...]:
    """What is wrong with a page: a label lost, over another, off its picture or pointing elsewhere, leaders that cross,
    words that leave their room, an arrow or a number under something or without its words.
    """
    return (
        *(fault for end in page.ends for fault in label_faults(end.end.tags, end.tags, end.picture)),
        *word_faults(page.words(), theme.page_px),
        *_arrows(page),
        *_flags(page),
        *_numbers(page),
    )


def _arrows(page: BenchPage) -> Iterator[str]:
    """Arrows that say where an end goes: each in the frame, outside the piece, pointing out of it, under nothing."""
    (low, _), (high, _) = page.near_px
    words = [(said(w), w.text.box()) for w in page.words()] + [(said(f.words), f.box) for f in page.flags]
    yield from hidden_faults([(f"the arrow {said(w.words)}", w.box()) for w in page.ways], words)
    for way, outward in zip(page.ways, (-1.0, 1.0), strict=True):
        if not WHOLE.holds(way.box()):
            yield f"the arrow {said(way.words)} leaves its picture"
        if (way.end[0] - way.start[0]) * outward <= 0 or low < way.start[0] < high:
            yield f"the arrow {said(way.words)} does not point out of the piece"


def _flags(page: BenchPage) -> Iterator[str]:
    one, other = page.flags
    if crossing((one.foot, one.tip), (other.foot, other.tip)):
        yield f"the leader of {said(one.words)} crosses that of {said(other.words)}"
    for each in page.flags:
        if not WHOLE.holds(each.box) or not each.box.holds(each.words.text.box()):
            yield f"{said(each.words)} leaves its box"


def _numbers(page: BenchPage) -> Iterator[str]:
    """Numbers of things to do: as many as there are, each beside its words and on no others."""
    for end in page.ends:
        if len(end.todo) != len(end.end.todo) or len(end.numbers) != len(end.todo):
            yield f"something to do is lost: {end.end.title}"
        for (number, (x, y)), words in zip(end.numbers, end.todo, strict=False):
            box = words.text.box()
            if not (box.left - 40 < x < box.left - 12 and box.top < y < box.top + 30):
                yield f"number {number} is not beside {said(words)}"
    discs = [
        (f"number {number}", Box(left=x - 15, top=y - 15, width=30, height=30))
        for end in page.ends
        for number, (x, y) in end.numbers
    ]
    yield from hidden_faults(discs, [(said(w), w.text.box()) for w in page.words()])
