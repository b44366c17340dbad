"""Faults of a finished page, measured on id maps and on the paper its marks take."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from model3d.pictures.page import DrawnInset, Page, crossed_leaders, overlaps
from model3d.pictures.paper import FINE_PX, Box, Disc, Mask, Px, Shape, Stroke, drawn
from model3d.pictures.sight import NOTHING, IdMap, only
from model3d.pictures.stage import Stage
from model3d.pictures.viewpoint import LEAST_SHARE

LEAST_JOINT_PX = 400
_SLACK_PX = 24.0
_NEAR_PX = 6


def page_faults(stage: Stage, page: Page) -> tuple[str, ...]:
    """What is wrong with a page: the new part hidden, a joint too small or closed, a mark missing, hidden, off the page
    or over another, leaders that cross each other or a close-up, words that leave their box.
    """
    return (
        *_hidden(stage, page),
        *_small_joints(stage, page),
        *_lost(stage, page),
        *overlaps(page),
        *crossed_leaders(page),
        *_covered(page),
        *_off_the_clip(page),
        *_overflowing(page),
    )


def _hidden(stage: Stage, page: Page) -> Iterator[str]:
    """The new part's silhouette, alone from the same camera, against what is seen of it on the page: not behind other
    parts, nor under close-ups, words and letters.
    """
    if stage.subjects and seen_share(stage, page) < LEAST_SHARE:
        yield f"only {seen_share(stage, page):.0%} of the new part is seen"


def seen_share(stage: Stage, page: Page) -> float:
    """Share of the subject's silhouette that is seen on the finished page, 0 to 1; 1 without a subject. Arrows are
    meant to lie on it and hide nothing here.
    """
    if not stage.subjects:
        return 1.0
    panel, scene = page.bands.panel, page.view.scene
    size = round(panel.width) // FINE_PX, round(panel.height) // FINE_PX
    alone = only(page.view.solids, stage.subjects).id_map(page.view.camera, size) != NOTHING
    own = np.isin(scene.id_map(page.view.camera, size), scene.numbers(stage.subjects))
    left, top = round(panel.left / FINE_PX), round(panel.top / FINE_PX)
    over = drawn(page.size, _lying_over(page))[top : top + size[1], left : left + size[0]]
    return float((own & alone & ~over).sum() / max(int(alone.sum()), 1))


def _lying_over(page: Page) -> Iterator[Shape]:
    """What hides the picture: close-ups with their titles, words, letters, the map."""
    if page.map_box is not None:
        yield page.map_box
    for inset in page.insets:
        yield Disc(at=inset.centre, radius=inset.radius)
        yield inset.title_box
    for marks in (page.marks, *(inset.marks for inset in page.insets)):
        yield from (label.box for label in marks.tied())


def inset_ids(inset: DrawnInset) -> IdMap:
    """The id map of a close-up, as many pixels as it takes on the page; what the ring cuts off is nothing."""
    side = round(2 * inset.radius)
    cells = inset.view.scene.id_map(inset.view.camera, (side, side))
    y, x = np.mgrid[0:side, 0:side] + 0.5 - side / 2
    return np.where(np.hypot(x, y) < inset.radius - 2, cells, NOTHING)


def _small_joints(stage: Stage, page: Page) -> Iterator[str]:
    """Joints that take less than 400 pixels of their close-up, and snapped ones that are neither cut open nor drawn
    apart.
    """
    for inset, close_up in zip(stage.insets, page.insets, strict=True):
        numbers = close_up.view.scene.numbers(set(inset.subject_ids))
        seen = int(np.isin(inset_ids(close_up), numbers).sum())
        if inset.subject_ids and seen < LEAST_JOINT_PX:
            yield f"{inset.title}: {seen} pixels of the joint are seen"
        if inset.face is not None and not (inset.notch or inset.cut or inset.guides):
            yield f"{inset.title}: the joint is closed"


def _lost(stage: Stage, page: Page) -> Iterator[str]:
    """Numbers without an arrow, and marks that were asked for and are not drawn."""
    everywhere = (page.marks, *(inset.marks for inset in page.insets))
    numbers = {arrow.label for marks in everywhere for arrow in marks.arrows}
    for caption in stage.frame.captions:
        if caption.label and caption.label not in numbers:
            yield f"no arrow for {caption.label}"
    wanted = [arrow.label for arrow in stage.arrows] + [swing.label for swing in stage.swings]
    if sorted(wanted) != sorted(arrow.label for arrow in page.marks.arrows):
        yield "an arrow of the main picture is lost"
    if len(page.insets) != len(stage.insets):
        yield "a close-up is lost"
    for inset, close_up in zip(stage.insets, page.insets, strict=False):
        if len(close_up.marks.arrows) != len(inset.arrows):
            yield f"{inset.title}: an arrow is lost"
        if inset.badges is not None and len(close_up.marks.badges) != len(inset.badges):
            yield f"{inset.title}: the letter of a clip is lost"
        if len(close_up.marks.callouts) != len(inset.callouts):
            yield f"{inset.title}: words are lost"


def _covered(page: Page) -> Iterator[str]:
    """Arrows, places ringed and close-ups that lie under a close-up or its title; leaders that run through one."""
    for k, inset in enumerate(page.insets):
        name = " ".join(inset.title.block.lines)
        body: list[Shape] = [Disc(at=inset.centre, radius=inset.radius), inset.title_box]
        paper = drawn(page.size, body)
        for arrow in page.marks.arrows:
            if _shared(page, paper, arrow.shapes()):
                yield f"arrow {arrow.label} lies under {name}"
        for j, other in enumerate(page.insets):
            other_name = " ".join(other.title.block.lines)
            if _shared(page, paper, [Disc(at=other.spot, radius=other.spot_radius)]):
                yield f"the place of {other_name} lies under {name}"
            if j != k and _shared(page, paper, [Disc(at=other.centre, radius=other.radius)]):
                yield f"{other_name} lies over {name}"
            if j != k and _shared(page, paper, [_stroke(other.leader())]):
                yield f"the leader of {other_name} runs through {name}"


def _stroke(line: tuple[Px, Px]) -> Stroke:
    return Stroke(start=line[0], end=line[1], width=4.0)


def _shared(page: Page, paper: Mask, shapes: list[Shape] | tuple[Shape, ...]) -> bool:
    return float((paper & drawn(page.size, shapes)).sum()) * FINE_PX**2 > _SLACK_PX


def _off_the_clip(page: Page) -> Iterator[str]:
    """Letters whose dot stands on something else than a clip of their face."""
    for inset in page.insets:
        cells = inset_ids(inset)
        for badge in inset.marks.badges:
            column, row = (round(badge.tip[i] - inset.centre[i] + inset.radius) for i in (0, 1))
            near = cells[max(row - _NEAR_PX, 0) : row + _NEAR_PX + 1, max(column - _NEAR_PX, 0) : column + _NEAR_PX + 1]
            looks = {inset.view.solids[k].look for k in np.unique(near) if k != NOTHING}
            if badge.look not in looks:
                yield f"{' '.join(inset.title.block.lines)}: the dot of {badge.letter} is not on the clip"


def _overflowing(page: Page) -> Iterator[str]:
    """Words that are wider or higher than their box, or run past the margin."""
    for text in page.bands.texts:
        if text.box().right > page.size[0] - 8 or text.box().left < 0 or text.box().bottom > page.size[1]:
            yield f"{' '.join(text.block.lines)} runs off the page"
    boxes = [(inset.title.box(), inset.title_box) for inset in page.insets]
    for marks in (page.marks, *(inset.marks for inset in page.insets)):
        boxes += [(callout.text.box(), callout.box) for callout in marks.callouts]
    for words, box in boxes:
        if not _holds(box, words):
            yield f"words overflow their box by {_overhang(box, words):.0f} pixels"


def _holds(box: Box, words: Box) -> bool:
    return box.grown(1.0).holds(words)


def _overhang(box: Box, words: Box) -> float:
    return math.ceil(
        max(box.left - words.left, words.right - box.right, box.top - words.top, words.bottom - box.bottom)
    )
