"""A pseudo-language for these tests: every word 40 % longer, and marked, in the place of German."""

from __future__ import annotations

import importlib
import re
from collections.abc import Iterator
from xml.sax.saxutils import unescape

import pytest

from model3d.wording import catalogue as cached

WORD = re.compile(r"\{[^}]*\}|[^\W\d_]+")
KEPT = ("number.", "letter.")


def longer(text: str) -> str:
    """Each word 40 % longer, and marked, so that it is known again."""

    def stretched(found: re.Match[str]) -> str:
        word = found.group(0)
        return word if word.startswith("{") else word + "§" * max(1, round(0.4 * (len(word) + 1)))

    return WORD.sub(stretched, text)


def pretended(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """While it lasts, the language takes the place of German."""
    module = importlib.import_module("model3d.wording.catalogue")
    english = dict(cached("en").texts)
    texts = {key: text if key.startswith(KEPT) else longer(text) for key, text in english.items()}
    monkeypatch.setattr(module, "written_texts", lambda language: texts if language == "de" else english)
    cached.cache_clear()
    yield
    monkeypatch.undo()
    cached.cache_clear()


def unmarked(text: str, least: int = 4) -> list[str]:
    """The words of so many letters and more that carry no mark; marks of pieces and corners have one letter."""
    return [found.group(0) for found in re.finditer(rf"[^\W\d_]{{{least},}}(?![^\W\d_]|§)", text)]


def in_svg(svg: str) -> list[str]:
    """The texts of a drawing, the lines of each joined."""
    found = re.findall(r"<text[^>]*>(.*?)</text>", svg, re.DOTALL)
    return [unescape(re.sub(r"\s*<[^>]*>\s*", " ", text)).strip().replace("  ", " ") for text in found]
