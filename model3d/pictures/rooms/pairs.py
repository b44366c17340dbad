"""Two pictures side by side from the same eye, each with its caption under it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt
from PIL import Image, ImageDraw, ImageFont

from model3d.pictures.lettering import font_paths, width_px

U8 = npt.NDArray[np.uint8]
PAPER, INK = (255, 255, 255), (45, 49, 54)
"""Dark on white: contrast over 12:1 (WCAG 2.2 asks 4.5:1)."""

_MARGIN, _GUTTER, _TYPE, _LEAST_TYPE_PX = 0.028, 0.018, 0.030, 11.0


def side_by_side(pictures: Sequence[tuple[U8, str]]) -> U8:
    """The pictures in a row on white, a caption under each, letters in proportion to the picture's width.

    Raises ValueError when the pictures differ in size, or there is none.
    """
    if len({picture.shape for picture, _ in pictures}) != 1:
        raise ValueError("pictures side by side must be of one size, and there must be one")
    high, wide = pictures[0][0].shape[:2]
    margin, gutter = round(_MARGIN * wide), round(_GUTTER * wide)
    sizes = [_type_px(caption, wide) for _, caption in pictures]
    band = round(2.0 * _TYPE * wide)
    page = Image.new("RGB", (len(pictures) * (wide + gutter) - gutter + 2 * margin, high + 2 * margin + band), PAPER)
    draw = ImageDraw.Draw(page)
    for number, ((picture, caption), size) in enumerate(zip(pictures, sizes, strict=True)):
        left = margin + number * (wide + gutter)
        page.paste(Image.fromarray(picture), (left, margin))
        font = ImageFont.truetype(str(font_paths()[0]), size, layout_engine=ImageFont.Layout.BASIC)
        draw.text((left, margin + high + 0.55 * _TYPE * wide), caption, font=font, fill=INK)
    return np.asarray(page, np.uint8)


def _type_px(caption: str, wide_px: int) -> float:
    """Type size: in proportion to the picture, less where the caption would be wider than it."""
    size = max(_TYPE * wide_px, _LEAST_TYPE_PX)
    return max(_LEAST_TYPE_PX, min(size, size * wide_px / max(width_px(caption, size), 1.0)))
