"""Words that the tracked files do not use: they name where a requirement came from, not the rule itself."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

# Each word stands in two halves, so that this file does not use it either.
HALVES = [
    ("br", "ief"), ("iss", "ues?"), ("hel", "pers?"), ("check", "[ -]values"), ("engineering", "[ -]notes"),
    ("sec", "tion 12"), ("sha", "red/"), ("anth", "ropic"), ("cl", "aude"), ("language", " model"), ("c", "eo"),
    ("ll", "ms?"), ("chat", "bot"), ("sub", "agents?"),
]  # fmt: skip
FORBIDDEN = re.compile("|".join(rf"\b{a}{b}(?!\w)" for a, b in HALVES), re.IGNORECASE)


def uses(text: str) -> list[str]:
    """``line: word`` for each forbidden word in a text."""
    return [
        f"{number}: {found.group()}"
        for number, line in enumerate(text.splitlines(), start=1)
        for found in FORBIDDEN.finditer(line)
    ]


def test_tracked_files_use_no_forbidden_word(checkout: Path) -> None:
    """No tracked text file, nor its name, uses a word that names where a requirement came from."""
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=checkout, capture_output=True, text=True, check=True)
    found = []
    for name in listed.stdout.rstrip("\0").split("\0"):
        found += [f"{name}: {word}" for word in uses(name)]
        try:
            text = (checkout / name).read_text(encoding="utf-8")
        except (UnicodeDecodeError, FileNotFoundError):
            continue
        found += [f"{name}:{use}" for use in uses(text)]
    assert found == []


@pytest.mark.parametrize("halves", HALVES, ids=lambda halves: "".join(halves))
def test_a_forbidden_word_is_seen(halves: tuple[str, str]) -> None:
    """Each forbidden word is found in a line of text, whatever its case; a word that only contains it is not."""
    word = re.sub(r"s\?|\[ ", "", "".join(halves)).replace("-]", " ")
    assert uses(f"all well\nsee the {word.upper()}, there") == [f"2: {word.upper()}"]
    assert uses(f"x{word}x") == []
