"""SVG elements as text: names with hyphens, numbers to a tenth, every value escaped."""

from __future__ import annotations

from xml.sax.saxutils import escape, quoteattr

Value = str | float


def element(tag: str, *inside: str, **attributes: Value) -> str:
    """One SVG element around ``inside`` (markup already made); ``stroke_width`` is written ``stroke-width``."""
    written = "".join(f" {name.replace('_', '-')}={quoteattr(_value(v))}" for name, v in attributes.items())
    body = "".join(inside)
    return f"<{tag}{written}>{body}</{tag}>" if body else f"<{tag}{written}/>"


def words(text: str) -> str:
    """Plain text made safe to stand inside an element."""
    return escape(text)


def _value(value: Value) -> str:
    return value if isinstance(value, str) else f"{round(value, 1):g}"
