"""File names made from the names of shapes."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model3d.exchange.file_names import portable_stems


@pytest.mark.parametrize(
    ("name", "stem"),
    [
        ("Piece 1200.5", "Piece-1200.5"),
        ("Stück Ø20 – süß", "Stuck-O20-suss"),
        ('a/b\\c:d*?"<>|', "a-b-c-d"),
        ("../../etc/passwd", "etc-passwd"),
        ("水路", "part"),
        ("...", "part"),
        ("CON", "part-CON"),
        ("lpt1.old", "part-lpt1.old"),
        ("console", "console"),
        ("name.", "name"),
        ("-x-", "x"),
        ("x" * 80, "x" * 60),
    ],
)
def test_names_become_portable(name: str, stem: str) -> None:
    """Accents go, other characters become a hyphen, reserved names get a prefix, long ones are cut."""
    assert portable_stems({1: name}) == {1: stem}


def test_like_names_are_numbered() -> None:
    """Names that come out alike on a file system without case are numbered, as are those already taken."""
    names = {1: "Elbow", 2: "elbow", 3: "elbow-2", 4: "ELBOW!", 5: "Model"}
    assert portable_stems(names, taken=frozenset({"model"})) == {
        1: "Elbow",
        2: "elbow-2",
        3: "elbow-2-2",
        4: "ELBOW-3",
        5: "Model-2",
    }


@given(st.lists(st.text(max_size=70) | st.sampled_from(["a", "A", "a-2", "nul", "aux.x"]), max_size=8))
def test_any_names_give_distinct_portable_stems(names: list[str]) -> None:
    """Law: every stem is short, ASCII, without separators, not reserved, and distinct in lower case."""
    stems = list(portable_stems(dict(enumerate(names)), taken=frozenset({"model"})).values())
    assert len({stem.lower() for stem in stems} | {"model"}) == len(names) + 1
    for stem in stems:
        assert re.fullmatch(r"[A-Za-z0-9]([A-Za-z0-9.-]{0,66}[A-Za-z0-9])?", stem)
        assert not re.fullmatch(r"(con|prn|aux|nul|com\d|lpt\d)(\..*)?", stem.lower())
