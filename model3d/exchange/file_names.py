"""File names that every common file system takes: plain ASCII, none reserved, distinct whatever the case."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Hashable, Mapping
from typing import TypeVar

Key = TypeVar("Key", bound=Hashable)

_LONGEST = 60
_RESERVED = re.compile(r"con|prn|aux|nul|com\d|lpt\d")
# Letters that Unicode does not take apart into a plain letter and an accent.
_PLAIN = str.maketrans(
    {
        "ß": "ss",
        "æ": "ae",
        "Æ": "AE",
        "ø": "o",
        "Ø": "O",
        "đ": "d",
        "Đ": "D",
        "ł": "l",
        "Ł": "L",
        "œ": "oe",
        "Œ": "OE",
        "þ": "th",
        "Þ": "Th",
        "ð": "d",
        "ı": "i",
    }
)


def portable_stems(names: Mapping[Key, str], *, taken: frozenset[str] = frozenset()) -> dict[Key, str]:
    """A file name without its ending for each name, in the same order.

    Letters lose their accents; spaces and all other characters become one hyphen; a name of which nothing
    is left is ``part``. Names that come out alike, or are in ``taken`` (lower case), are numbered:
    ``elbow``, ``elbow-2``.
    """
    used = set(taken)
    stems: dict[Key, str] = {}
    for key, name in names.items():
        plain = _plain(name)
        number, stem = 1, plain
        while stem.lower() in used:
            number += 1
            stem = f"{plain}-{number}"
        used.add(stem.lower())
        stems[key] = stem
    return stems


def _plain(name: str) -> str:
    letters = unicodedata.normalize("NFKD", name.translate(_PLAIN)).encode("ascii", "ignore").decode("ascii")
    stem = re.sub(r"[^A-Za-z0-9.]+|\.{2,}", "-", letters).strip("-.")[:_LONGEST].rstrip("-.") or "part"
    return f"part-{stem}" if _RESERVED.fullmatch(stem.lower().split(".")[0]) else stem
