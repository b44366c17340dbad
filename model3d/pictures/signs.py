"""Small signs that go with words: grease, screws up, click, snag, warning, how hard. They differ in shape, not only in
colour.
"""

from __future__ import annotations

from collections.abc import Iterator

from model3d.pictures.ink import rounded
from model3d.pictures.markup import element
from model3d.pictures.paper import Box
from model3d.pictures.stage import CalloutKind, Level
from model3d.pictures.theme import Theme


def sign(kind: CalloutKind, at: tuple[float, float], radius: float, theme: Theme) -> str:
    """SVG of a sign drawn in a square of twice ``radius`` about ``at``; for a plain note, a bullet."""
    makers = {
        "plain": _bullet,
        "grease": _grease,
        "screws-up": _screws_up,
        "click": _click,
        "snag": _snag,
        "warning": _warning,
    }
    place = f"translate({at[0]:.1f} {at[1]:.1f}) scale({radius / 12:.3f})"
    return element("g", *makers[kind](theme), transform=place)


def meter(level: Level, box: Box, theme: Theme) -> Iterator[str]:
    """Five bars, each higher than the one before: as many full as the level says, the others empty."""
    wide = (box.width - 4 * 3.0) / 5
    for k in range(5):
        high = box.height * (0.36 + 0.16 * k)
        left = box.left + k * (wide + 3.0)
        fill = theme.ink if k < level else theme.paper
        yield rounded(Box(left=left, top=box.bottom - high, width=wide, height=high), 1.5, fill, theme.ink, 1.4)


def _bullet(theme: Theme) -> tuple[str, ...]:
    """A small square, unlike the discs that carry numbers."""
    return (element("rect", x=-4.0, y=-4.0, width=8.0, height=8.0, rx=1.5, fill=theme.soft_ink),)


def _grease(theme: Theme) -> tuple[str, ...]:
    """A drop."""
    drop = "M0 -12C5 -5 8 -1 8 4A8 8 0 0 1 -8 4C-8 -1 -5 -5 0 -12Z"
    return (
        element("path", d=drop, fill=theme.surfaces["new"].fill, stroke=theme.ink, stroke_width=1.4),
        _line("M-4 4A4 4 0 0 0 0 8", theme.paper, 2.0),
    )


def _screws_up(theme: Theme) -> tuple[str, ...]:
    """A slotted screw head under an arrow that points up."""
    return (
        element("circle", cy=5.5, r=6.0, fill=theme.paper, stroke=theme.ink, stroke_width=1.8),
        _line("M-4 7.5L4 3.5", theme.ink, 2.0),
        element("path", d="M0 -12L5.5 -5.5H2V-2H-2V-5.5H-5.5Z", fill=theme.ink),
    )


def _click(theme: Theme) -> tuple[str, ...]:
    """A point that sounds."""
    waves = "M-1 -5A7 7 0 0 1 -1 5M3.5 -8.5A12 12 0 0 1 3.5 8.5M8 -11.5A16 16 0 0 1 8 11.5"
    return element("circle", cx=-7.0, r=3.6, fill=theme.ink), _line(waves, theme.ink, 2.0)


def _snag(theme: Theme) -> tuple[str, ...]:
    """A diamond with an exclamation mark."""
    fill = theme.surfaces["clip-front"].fill
    diamond = element("path", d="M0 -12L12 0L0 12L-12 0Z", fill=fill, stroke=theme.ink, stroke_width=1.6)
    return (
        diamond,
        _line("M0 -6V2", theme.ink, 2.6),
        element("circle", cy=6.0, r=1.6, fill=theme.ink),
    )


def _warning(theme: Theme) -> tuple[str, ...]:
    """A triangle with an exclamation mark."""
    return (
        element("path", d="M0 -11L12 10H-12Z", fill=theme.warn, stroke=theme.warn, stroke_width=2.0),
        _line("M0 -4V3", theme.paper, 2.6),
        element("circle", cy=7.0, r=1.7, fill=theme.paper),
    )


def _line(d: str, colour: str, width: float) -> str:
    return element("path", d=d, fill="none", stroke=colour, stroke_width=width, stroke_linecap="round")
