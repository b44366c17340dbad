"""Words tied to parts of a shaded picture: where their leaders end, and where they stand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from model3d.geometry.placement import Vec3
from model3d.pictures.labelled.seats import Seat, SeenMap, seated
from model3d.pictures.labelled.words import block_in
from model3d.pictures.lettering import TextBlock
from model3d.pictures.paper import Box, Px
from model3d.pictures.solids import PlacedMesh
from model3d.pictures.stage import CalloutKind, Camera
from model3d.pictures.theme import Theme
from model3d.pictures.views import project

LABEL_PAD, SIGN_PX = 9.0, 30.0
MOST_PX = 248.0  # two such labels stand side by side in a bench picture
Face = Literal["front", "back", "none"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tag:
    """Words tied to a part: to what is seen of the actors ``on``, as near to ``at_mm`` as may be; where nothing of them
    is seen, of the actors ``or_on``.

    ``kind`` puts a sign before the words, ``face`` the letter of a clip's face.
    """

    on: tuple[str, ...]
    at_mm: Vec3
    text: str
    kind: CalloutKind = "plain"
    face: Face = "none"
    or_on: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Picture:
    """A shaded picture and its place on the page."""

    solids: tuple[PlacedMesh, ...]
    camera: Camera
    frame: Box

    def pixel(self, at_mm: tuple[float, float, float]) -> Px:
        """Where a point falls on the page."""
        x, y, _ = project(self.camera, np.array([at_mm]), round(self.frame.width), round(self.frame.height))[0]
        return float(x) + self.frame.left, float(y) + self.frame.top


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DrawnTag:
    """A label: its words, box, and the leader from its foot to the tip on the part."""

    tag: Tag
    block: TextBlock
    seat: Seat
    tip: Px

    def words_box(self) -> Box:
        """The rectangle its words fill, right of its sign or letter."""
        box = self.seat.box
        left = box.left + LABEL_PAD + _sign_px(self.tag)
        top = box.middle[1] - self.block.height_px / 2
        return Box(left=left, top=top, width=self.block.width_px, height=self.block.height_px)


def drawn_tags(tags: Sequence[Tag], picture: Picture, theme: Theme) -> tuple[DrawnTag, ...]:
    """The tags in two rows along the picture's top and bottom; one whose part is not seen is left out."""
    seen = SeenMap(picture.solids, picture.camera, (round(picture.frame.width), round(picture.frame.height)))
    kept: list[tuple[Tag, Px, TextBlock]] = []
    for tag in tags:
        found = seen.point(tag.on, tag.at_mm) or seen.point(tag.or_on, tag.at_mm)
        if found is not None:
            tip = found[0] + picture.frame.left, found[1] + picture.frame.top
            kept.append((tag, tip, _block(tag, theme)))
    sizes = [_label_size(tag, block) for tag, _, block in kept]
    seats = seated(sizes, [tip for _, tip, _ in kept], picture.frame.grown(-8.0))
    return tuple(
        DrawnTag(tag=tag, block=block, seat=seat, tip=tip) for (tag, tip, block), seat in zip(kept, seats, strict=True)
    )


def tallest_px(tags: Sequence[Tag], theme: Theme) -> float:
    """Height of the tallest label, which stands between the frame and the parts."""
    return max((_label_size(tag, _block(tag, theme))[1] for tag in tags), default=0.0)


def _block(tag: Tag, theme: Theme) -> TextBlock:
    """A label's words, no wider than 248 pixels with what stands before them, in no more than three lines."""
    wide = MOST_PX - _sign_px(tag)
    return block_in(tag.text, theme.callout_px, (wide, 3 * theme.callout_px * 1.28))


def _label_size(tag: Tag, block: TextBlock) -> tuple[float, float]:
    return block.width_px + 2 * LABEL_PAD + _sign_px(tag), max(block.height_px, SIGN_PX) + LABEL_PAD


def _sign_px(tag: Tag) -> float:
    return SIGN_PX if tag.kind != "plain" or tag.face != "none" else 0.0
