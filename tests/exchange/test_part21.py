"""The parser that the STEP tests rest on: it reads what the grammar allows, and refuses what it does not."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model3d.exchange.step_text import distinct_ids, mark, quoted, with_names

from .part21 import Enum, Ref, Typed, decoded, parse

_FILE = "ISO-10303-21;\nHEADER;\nFILE_SCHEMA(('A'));\nENDSEC;\nDATA;\n{}ENDSEC;\nEND-ISO-10303-21;\n"


def test_values_of_every_kind() -> None:
    """Strings, references, enumerations, numbers, lists, typed values, $ and * are read as what they are."""
    exchange = parse(_FILE.format("#1 = A('x''y',#2,.T.,-1,2.5E-3,($,*),M(1.));\n#2 = (B(1) /* note */ C(2.));\n"))
    assert exchange.header["FILE_SCHEMA"] == (("A",),)
    assert exchange.entities[1]["A"] == (
        "x'y",
        Ref(2),
        Enum("T"),
        -1,
        0.0025,
        (None, None),
        Typed("M", (1.0,)),
    )
    assert exchange.entities[2] == {"B": (1,), "C": (2.0,)}
    assert exchange.of("C") == [2]


@pytest.mark.parametrize(
    ("data", "message"),
    [
        ("#1 = A(#2);\n", "#2 is named but not there"),
        ("#1 = A((M(#7)));\n", "#7 is named but not there"),
        ("#1 = A(1)\n", "; was due"),
        ("#1 = A(1;\n", ", was due"),
        ("#1 = A('x);\n", "cannot read"),
        ("#1 = A(1);\n#1 = A(2);\n", "no new entity"),
        ("#1 = A('é');\n", "plain ASCII"),
        ("#1 = A('\\X2\\00E\\X0\\');\n", "cut short"),
        ("#1 = A('\\q');\n", "stray"),
    ],
)
def test_broken_files_are_refused(data: str, message: str) -> None:
    """A dangling reference, a lost sign, an open string, a name given twice or a bad character is refused."""
    with pytest.raises(ValueError, match=message):
        parse(_FILE.format(data))


def test_end_must_be_there() -> None:
    """A file that was cut off is refused."""
    with pytest.raises(ValueError, match=r"too early|was due"):
        parse(_FILE.format("#1 = A(1);\n")[:-30])


@given(st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\r\n")))
def test_any_text_survives(text: str) -> None:
    """Law: what is quoted is ASCII, and decodes to what it was."""
    written = quoted(text)
    assert written.isascii()
    assert decoded(written[1:-1]) == text


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("plain", "'plain'"),
        ("it's", "'it''s'"),
        ("a\\b", "'a\\\\b'"),
        ("Süd", "'S\\X2\\00FC\\X0\\d'"),
        ("水路", "'\\X2\\6C348DEF\\X0\\'"),
        ("😀!", "'\\X4\\0001F600\\X0\\!'"),
        ("a', b", "'a\\X2\\0027\\X0\\, b'"),
    ],
)
def test_strings_as_the_standard_writes_them(text: str, written: str) -> None:
    """Strings of ISO 10303-21:2002 as worked out by hand from its rules."""
    assert quoted(text) == written


def test_products_of_one_name_get_ids_of_their_own() -> None:
    """A product's id is its name where that is unique, else its place, numbered where even that is taken."""
    products = {
        0: ("tube", "tube"),
        1: ("wall 1", "run 1 / wall 1"),
        2: ("wall 1", "run 2 / wall 1"),
        3: ("wall 1", "run 1 / wall 1"),
        4: ("run 2 / wall 1", "odd"),
    }
    assert distinct_ids(products) == {
        0: "tube",
        1: "run 1 / wall 1",
        2: "run 2 / wall 1 (2)",
        3: "run 1 / wall 1 (2)",
        4: "run 2 / wall 1",
    }


def test_marks_become_names() -> None:
    """Marks are exchanged for names and ids, also across a line break, whatever the ids were."""
    text = (
        f"#1 = PRODUCT('{mark(0)}','{mark(0)}','',(#2));\n"
        f"#3 = NEXT_ASSEMBLY_USAGE_OCCURRENCE('41',\n  '{mark(1)}','',#1,#1,$);\n"
        f"#4 = NEXT_ASSEMBLY_USAGE_OCCURRENCE(\n'42','{mark(2)}','',#1,#1,$);\n"
    )
    assert with_names(text, ["wall", "é", "~1~"], {0: "id", 1: "a'b", 2: "~2~"}) == (
        "#1 = PRODUCT('id','wall','',(#2));\n"
        "#3 = NEXT_ASSEMBLY_USAGE_OCCURRENCE('a''b',\n  '\\X2\\00E9\\X0\\','',#1,#1,$);\n"
        "#4 = NEXT_ASSEMBLY_USAGE_OCCURRENCE(\n'~2~','~1~','',#1,#1,$);\n"
    )
