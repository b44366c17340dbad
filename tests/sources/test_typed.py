"""Files typed by a model, with all their faults at once."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import Field

from model3d.sources import Entry, FaultyFile, FormatOne, Length, Name, Size, read_typed, salvage, source_of

FILE = Path("shop.yaml")


class Cup(Entry):
    """A cup."""

    id: Name
    kind: Literal["cup"]
    width: Size
    handle: Literal["left", "right"] = "left"


class Tray(Entry):
    """A tray."""

    id: Name
    kind: Literal["tray"]
    corners: tuple[tuple[Length, Length], ...] = ()
    from_: Length = Field(default=0.0, alias="from")


class ShopInPart(Entry):
    """A shop of which anything may be missing."""

    version: FormatOne | None = None
    things: tuple[Annotated[Cup | Tray, Field(discriminator="kind")], ...] = ()
    heated: bool = False
    warm: float = Field(default=20.0, ge=-40, le=60)
    count: int = 1
    owner: Cup | None = None


class Shop(ShopInPart):
    """A shop."""

    version: FormatOne


GOOD = """\
version: 1
things:
  - {id: a, kind: cup, width: 3 in, handle: right}
  - {id: b, kind: tray, corners: [[0, 0], [1 m, 0]], from: 5}
heated: true
warm: 21.5
count: 4
"""


def faults_of(text: str) -> list[tuple[int, str, str]]:
    """Line, key and message of every fault of form."""
    found = salvage(source_of(text, FILE), Shop, ShopInPart)
    return [(f.line, f.key, f.message) for f in FaultyFile(found.faults).faults]


def test_a_good_file_is_read_to_its_model(tmp_path: Path) -> None:
    """A file that fits its model is read whole, lengths in millimetres and lists as tuples."""
    path = tmp_path / "shop.yaml"
    path.write_text(GOOD, encoding="utf-8", newline="\n")
    shop = read_typed(path, Shop)
    cup, tray = shop.things
    assert isinstance(cup, Cup)
    assert isinstance(tray, Tray)
    assert cup.width == pytest.approx(76.2, abs=1e-12)
    assert tray.corners == ((0.0, 0.0), (1000.0, 0.0))
    assert (shop.heated, shop.warm, shop.count, tray.from_) == (True, 21.5, 4, 5.0)


def test_an_entry_knows_where_its_values_stand() -> None:
    """An entry tells the place of each of its values, and its own for one that is left out."""
    shop = salvage(source_of(GOOD, FILE), Shop).value
    assert shop is not None
    width = shop.things[0].place("width")
    assert (width.line, width.column, width.key) == (3, 31, "things[a].width")
    left_out = shop.place("owner")
    assert (left_out.line, left_out.key) == (1, "owner")


# Each known-bad change to the good file, with the one fault it must give.
PLANTED = {
    "unknown key": ("count: 4", "cuont: 4", 7, "cuont", "unknown key 'cuont'; did you mean 'count'?"),
    "wrong type": ("count: 4", "count: four", 7, "count", "must be a whole number, not the text 'four'"),
    "a fraction": ("count: 4", "count: 4.5", 7, "count", "must be a whole number, not 4.5"),
    "leading nought": ("warm: 21.5", "warm: 021", 6, "warm", "without the leading nought"),
    "truth": ("heated: true", "heated: no", 5, "heated", "must be true or false, not the text 'no'"),
    "number for truth": ("heated: true", "heated: 1", 5, "heated", "must be true or false, not 1"),
    "truth for number": ("warm: 21.5", "warm: true", 6, "warm", "must be a number, not true"),
    "limit": ("warm: 21.5", "warm: 61", 6, "warm", "must be at most 60, not 61"),
    "bad unit": ("3 in", "3 inn", 3, "things[a].width", "unknown unit 'inn' in '3 inn'; did you mean 'in"),
    "negative": ("3 in", "-3 in", 3, "things[a].width", "must be more than 0, not -76.2"),
    "far": ("3 in", "2000 m", 3, "things[a].width", "more than a kilometre"),
    "choice": ("right", "rigth", 3, "things[a].handle", "not the text 'rigth'; did you mean 'right'"),
    "missing": (", width: 3 in", "", 3, "things[a].width", "'width' is missing"),
    "kind": ("kind: cup", "kind: cop", 3, "things[a].kind", "not the text 'cop'; did you mean 'cup'"),
    "no kind": ("kind: cup, ", "", 3, "things[a].kind", "'kind' is missing"),
    "numeric id": ("id: a", "id: 7", 3, "things[7].id", "must be text, not 7: put it in quotes"),
    "odd id": ("id: a", "id: a b", 3, "things[a b].id", "must be a letter and then letters"),
    "too short": ("[0, 0]", "[0]", 4, "things[b].corners[1]", "must hold more than 1"),
    "too long": ("[0, 0]", "[0, 0, 0]", 4, "things[b].corners[1]", "must hold at most 2, not 3"),
    "inside": ("[1 m, 0]", "[1 m, x]", 4, "things[b].corners[2][2]", "'x' is not a length"),
    "no list": ("[[0, 0], [1 m, 0]]", "5", 4, "things[b].corners", "must be a list, not 5"),
    "alias": ("from: 5", "form: 5", 4, "things[b].form", "unknown key 'form'; did you mean 'from'?"),
    "no value": ("count: 4", "count:", 7, "count", "has no value"),
    "version": ("version: 1", "version: 2", 1, "version", "must be 1, not 2"),
    "version true": ("version: 1", "version: true", 1, "version", "must be 1, not true"),
    "no version": ("version: 1\n", "", 1, "version", "'version' is missing"),
    "no map": ("{id: a, kind: cup, width: 3 in, handle: right}", "cup", 3, "things[1]", "must be a mapping"),
    "twice": ("count: 4", "count: 4\ncount: 5", 8, "count", "given twice"),
    "infinite": ("warm: 21.5", "warm: .inf", 6, "warm", "must be a number, not the text '.inf'"),
}  # fmt: skip


def test_the_good_file_has_no_fault() -> None:
    """The file that faults are planted in is sound before."""
    assert faults_of(GOOD) == []


@pytest.mark.parametrize("name", PLANTED)
def test_a_planted_fault_is_found_with_its_line_and_key(name: str) -> None:
    """A fault of form gives one message, with the line and the key it stands at, and nothing else."""
    old, new, line, key, said = PLANTED[name]
    assert old in GOOD
    ((found_line, found_key, message),) = faults_of(GOOD.replace(old, new, 1))
    assert (found_line, found_key) == (line, key)
    assert said in message


TOGETHER = ["wrong type", "truth", "limit", "bad unit", "choice", "too short", "inside", "alias", "version"]


@given(st.sets(st.sampled_from(TOGETHER), min_size=1))
def test_no_fault_hides_another(names: set[str]) -> None:
    """Any number of faults in one file give a message each."""
    text = GOOD
    for name in names:
        text = text.replace(PLANTED[name][0], PLANTED[name][1], 1)
    assert sorted(key for _, key, _ in faults_of(text)) == sorted(PLANTED[name][3] for name in names)


def test_what_is_right_is_kept_of_a_faulty_file() -> None:
    """What is faulty is dropped and named; the rest can still be checked for its meaning."""
    found = salvage(
        source_of(GOOD.replace("3 in", "3 inn").replace("version: 1", "version: 9"), FILE), Shop, ShopInPart
    )
    assert found.value is not None
    assert [thing.id for thing in found.value.things] == ["b"]
    assert found.value.count == 4
    assert found.lost("things")
    assert found.lost("things[a]")
    assert not found.lost("things[b]")
    assert not found.lost("count")


def test_a_file_without_what_it_needs_is_not_read(tmp_path: Path) -> None:
    """A file with any fault is refused, and the exception carries all of them in the order of their lines."""
    path = tmp_path / "shop.yaml"
    path.write_text("count: x\nversion: 3\nthings: 7\n", encoding="utf-8", newline="\n")
    with pytest.raises(FaultyFile) as caught:
        read_typed(path, Shop)
    assert [f.key for f in caught.value.faults] == ["count", "version", "things"]
    assert str(path) in str(caught.value)


def test_a_file_that_is_a_list_is_refused() -> None:
    """A file that is no mapping at all is one fault."""
    assert faults_of("- 1\n- 2\n") == [(1, "", "must be a mapping of keys to values, not a list")]
