"""Catalogues: one file a language, each with the same keys and the same placeholders."""

from __future__ import annotations

import json
import string
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Literal, get_args

Language = Literal["en", "de"]
LANGUAGES: tuple[Language, ...] = get_args(Language)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Catalogue:
    """Every text of one language by its key."""

    language: Language
    texts: Mapping[str, str]

    def say(self, key: str, **values: str | float) -> str:
        """The text of a key with its placeholders filled; numbers are written as the language does.

        Raises KeyError for a key that is not there, or a placeholder that is given no value.
        """
        filled = {name: value if isinstance(value, str) else self.number(value) for name, value in values.items()}
        return self.texts[key].format_map(filled)

    def number(self, value: float) -> str:
        """A number with the language's decimal sign, no more digits than it needs, six at most."""
        return f"{value:g}".replace(".", self.texts["number.decimal"])

    def fixed(self, value: float, decimals: int) -> str:
        """A number with the language's decimal sign and that many decimals."""
        return f"{value:.{decimals}f}".replace(".", self.texts["number.decimal"])

    def translated(self, text: str, key: str) -> str:
        """A text from elsewhere (a family file): this language's, when the English one of ``key`` is that very text,
        else the text as it stands.
        """
        return self.texts[key] if ENGLISH.texts.get(key) == text else text


def placeholders(text: str) -> frozenset[str]:
    """The names of a text's placeholders. Raises ValueError when a brace is left open."""
    return frozenset(name for _, name, _, _ in string.Formatter().parse(text) if name is not None)


def differences(one: Mapping[str, str], other: Mapping[str, str]) -> tuple[str, ...]:
    """Keys that only one of two catalogues has, and keys whose placeholders differ."""
    lost = [f"{key}: only in one of them" for key in sorted(set(one) ^ set(other))]
    both = sorted(set(one) & set(other))
    return (
        *lost,
        *(f"{key}: placeholders differ" for key in both if placeholders(one[key]) != placeholders(other[key])),
    )


@cache
def catalogue(language: Language) -> Catalogue:
    """The catalogue of a language."""
    return Catalogue(language=language, texts=written_texts(language))


def written_texts(language: Language) -> dict[str, str]:
    """The texts of a language as its file has them."""
    found: dict[str, str] = json.loads((files("model3d.wording") / f"{language}.json").read_text(encoding="utf-8"))
    return found


ENGLISH = catalogue("en")
