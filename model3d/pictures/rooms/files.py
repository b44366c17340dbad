"""A picture as a file: PNG or WebP by the name's ending."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import numpy.typing as npt
from PIL import Image

ENDINGS = (".png", ".webp")
WEBP_QUALITY = 90


def picture_bytes(picture: npt.NDArray[np.uint8], ending: str) -> bytes:
    """The file's bytes. Raises ValueError for an ending that is neither .png nor .webp."""
    held = io.BytesIO()
    if ending.lower() == ".png":
        Image.fromarray(picture).save(held, format="PNG", compress_level=6)
    elif ending.lower() == ".webp":
        Image.fromarray(picture).save(held, format="WEBP", quality=WEBP_QUALITY, method=6)
    else:
        raise ValueError(f"a picture is written as {' or '.join(ENDINGS)}, not as '{ending}'")
    return held.getvalue()


def write_picture(picture: npt.NDArray[np.uint8], path: Path) -> None:
    """Write a picture, its folder made where there is none. Raises ValueError as ``picture_bytes`` does."""
    made = picture_bytes(picture, path.suffix)
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(made)
