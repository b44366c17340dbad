"""Small signs that go with words: grease, screws up, click, snag, warning. Each differs in shape, not in
colour only.
"""

from __future__ import annotations

from model3d.pictures.stage import CalloutKind
from model3d.pictures.theme import Theme


def sign(kind: CalloutKind, at: tuple[float, float], radius: float, theme: Theme) -> str:
    """SVG of a sign drawn in a square of twice ``radius`` about ``at``; empty for a plain callout."""
    shapes = {
        "plain": "",
        "grease": _grease(theme),
        "screws-up": _screws_up(theme),
        "click": _click(theme),
        "snag": _snag(theme),
        "warning": _warning(theme),
    }
    if not shapes[kind]:
        return ""
    return f'<g transform="translate({at[0]:.1f} {at[1]:.1f}) scale({radius / 12:.3f})">{shapes[kind]}</g>'


def _grease(theme: Theme) -> str:
    """A drop."""
    return (
        f'<path d="M0 -12C5 -5 8 -1 8 4A8 8 0 0 1 -8 4C-8 -1 -5 -5 0 -12Z" fill="{theme.surfaces["new"].fill}" '
        f'stroke="{theme.ink}" stroke-width="1.4"/><path d="M-4 4A4 4 0 0 0 0 8" fill="none" stroke="{theme.paper}" '
        'stroke-width="2" stroke-linecap="round"/>'
    )


def _screws_up(theme: Theme) -> str:
    """A slotted screw head under an arrow that points up."""
    return (
        f'<circle cy="5.5" r="6" fill="{theme.paper}" stroke="{theme.ink}" stroke-width="1.8"/>'
        f'<path d="M-4 7.5L4 3.5" stroke="{theme.ink}" stroke-width="2"/>'
        f'<path d="M0 -12L5.5 -5.5H2V-2H-2V-5.5H-5.5Z" fill="{theme.ink}"/>'
    )


def _click(theme: Theme) -> str:
    """Two parts that meet, and sound."""
    return (
        f'<circle cx="-7" r="3.6" fill="{theme.ink}"/><g fill="none" stroke="{theme.ink}" stroke-width="2" '
        'stroke-linecap="round"><path d="M-1 -5A7 7 0 0 1 -1 5"/><path d="M3.5 -8.5A12 12 0 0 1 3.5 8.5"/>'
        '<path d="M8 -11.5A16 16 0 0 1 8 11.5"/></g>'
    )


def _snag(theme: Theme) -> str:
    """A diamond with an exclamation mark."""
    return (
        f'<path d="M0 -12L12 0L0 12L-12 0Z" fill="{theme.surfaces["clip-front"].fill}" stroke="{theme.ink}" '
        f'stroke-width="1.6" stroke-linejoin="round"/><path d="M0 -6V2" stroke="{theme.ink}" stroke-width="2.6" '
        f'stroke-linecap="round"/><circle cy="6" r="1.6" fill="{theme.ink}"/>'
    )


def _warning(theme: Theme) -> str:
    """A triangle with an exclamation mark."""
    return (
        f'<path d="M0 -11L12 10H-12Z" fill="{theme.warn}" stroke="{theme.warn}" stroke-width="2" '
        f'stroke-linejoin="round"/><path d="M0 -4V3" stroke="{theme.paper}" stroke-width="2.6" stroke-linecap="round"/>'
        f'<circle cy="7" r="1.7" fill="{theme.paper}"/>'
    )
