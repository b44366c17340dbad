"""Words measured and broken into lines with the font that travels in the package. Sizes in page mm."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from PIL import ImageFont

from model3d.illustrations.sheet import LetterSize
from model3d.themes import Theme

FAMILY = "DejaVu Sans"
LEADING = 1.3
MIDDLE = 0.364  # of its size, a capital's middle stands above the base line
_MEASURED_AT = 200.0


def font_paths() -> tuple[Path, Path]:
    """Files of the shipped font: regular, bold."""
    folder = Path(__file__).resolve().parent.parent / "pictures" / "fonts"
    return folder / "DejaVuSans.ttf", folder / "DejaVuSans-Bold.ttf"


@lru_cache(maxsize=2)
def _font(bold: bool) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(str(font_paths()[bold]), _MEASURED_AT, layout_engine=ImageFont.Layout.BASIC)


def size_mm(theme: Theme, size: LetterSize) -> float:
    """Size of letters, mm."""
    return float(getattr(theme.letters, size))


def width_mm(text: str, letters_mm: float, *, bold: bool = False) -> float:
    """Width of one line of text."""
    return float(_font(bold).getlength(text)) * letters_mm / _MEASURED_AT


def broken(text: str, letters_mm: float, most_mm: float, *, bold: bool = False) -> tuple[str, ...]:
    """Text broken at spaces into lines no wider than ``most_mm``; a word wider by itself stands alone."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_mm(longer, letters_mm, bold=bold) <= most_mm:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)
