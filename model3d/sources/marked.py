"""YAML read to plain values that remember where they were written.

Only what is plainly meant is typed: ``true`` and ``false``, decimal whole numbers and decimal fractions. All
else that YAML 1.1 would turn into something (``no``, ``on``, ``1:30``, ``012``, ``1_000``, ``0x1f``,
``.inf``, dates) stays text.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from model3d.sources.faults import Fault, FaultyFile

_WHOLE = re.compile(r"[-+]?(0|[1-9][0-9]*)\Z")
_DECIMAL = re.compile(r"[-+]?(0|[1-9][0-9]*)?\.?[0-9]+([eE][-+]?[0-9]+)?\Z")
_LEADING_ZERO = re.compile(r"[-+]?0[0-9]")
_TEXT_TAG, _LIST_TAG, _MAP_TAG = (f"tag:yaml.org,2002:{kind}" for kind in ("str", "seq", "map"))
_MOST_VALUES = 50_000
_DEEPEST = 40


@dataclass(frozen=True, slots=True)
class Place:
    """Where something stands in a file: line and column from 1, and the key path to it (see ``Fault``)."""

    line: int
    column: int
    key: str


class MarkedMap(dict[str, Any]):
    """A mapping with the place of itself, of every key and of every value."""

    def __init__(
        self, items: dict[str, Any], place: Place, keys_at: dict[str, Place], values_at: dict[str, Place]
    ) -> None:
        super().__init__(items)
        self.place, self.keys_at, self.values_at = place, keys_at, values_at

    def without(self, key: str) -> MarkedMap:
        """A copy that lacks one key."""
        return self._copied({k: v for k, v in self.items() if k != key})

    def replaced(self, key: str, value: Any) -> MarkedMap:
        """A copy with another value at one key."""
        return self._copied({**self, key: value})

    def _copied(self, items: dict[str, Any]) -> MarkedMap:
        return MarkedMap(items, self.place, self.keys_at, self.values_at)


class MarkedList(tuple[Any, ...]):
    """A list, as a tuple, with the place of itself and of every entry.

    ``numbers`` are the entries' numbers in the file, from 0, and ``total`` how many stood there: both stay
    what they were when an entry is taken out.
    """

    place: Place
    entries_at: tuple[Place, ...]
    numbers: tuple[int, ...]
    total: int

    @classmethod
    def of(cls, items: Iterable[Any], place: Place, entries_at: Iterable[Place]) -> MarkedList:
        """A list as it stands in the file."""
        made = cls(items)
        made.place, made.entries_at, made.total = place, tuple(entries_at), len(made)
        made.numbers = tuple(range(made.total))
        return made

    def without(self, index: int) -> MarkedList:
        """A copy that lacks one entry."""
        kept = [i for i in range(len(self)) if i != index]
        made = MarkedList(self[i] for i in kept)
        made.place, made.total = self.place, self.total
        made.entries_at = tuple(self.entries_at[i] for i in kept)
        made.numbers = tuple(self.numbers[i] for i in kept)
        return made

    def replaced(self, index: int, value: Any) -> MarkedList:
        """A copy with another value at one entry."""
        made = MarkedList(value if i == index else v for i, v in enumerate(self))
        made.place, made.total, made.entries_at, made.numbers = (
            self.place,
            self.total,
            self.entries_at,
            self.numbers,
        )
        return made


def place_in(written: MarkedMap, key: str) -> Place:
    """Where the value of a key stands; of a key that is left out, where the mapping stands that lacks it."""
    if key in written.values_at:
        return written.values_at[key]
    here = written.place
    return Place(here.line, here.column, f"{here.key}.{key}" if here.key else key)


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """A YAML file as read: ``data`` are marked maps and lists of str, int, float, bool and None; ``faults``
    what YAML allows and a file of ours does not (a key given twice, a tag, an anchor inside itself).
    """

    path: Path
    data: Any
    faults: tuple[Fault, ...]


def read_source(path: Path) -> Source:
    """Reads a YAML file. Raises FaultyFile when it cannot be read, is not UTF-8 or is not YAML."""
    try:
        text = path.read_bytes().decode("utf-8-sig")
    except OSError as error:
        raise FaultyFile([_whole_file(path, f"cannot be read: {error.strerror or error}")]) from error
    except UnicodeDecodeError as error:
        raise FaultyFile([_whole_file(path, f"is not UTF-8 text (byte {error.start + 1})")]) from error
    return source_of(text, path)


def source_of(text: str, path: Path) -> Source:
    """The same from text; ``path`` is what faults name. Raises FaultyFile for a YAML syntax error, which
    stands alone.
    """
    loader = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
    try:
        root = yaml.compose(text, Loader=loader)
    except yaml.MarkedYAMLError as error:
        raise FaultyFile([_syntax_fault(path, error)]) from error
    except yaml.YAMLError as error:
        raise FaultyFile([_whole_file(path, f"is not YAML: {str(error).splitlines()[0]}")]) from error
    if root is None:
        raise FaultyFile([_whole_file(path, "is empty")])
    reading = _Reading(path)
    data = reading.value(root, _place(root, ""), frozenset())
    return Source(path=path, data=data, faults=tuple(reading.faults))


def _whole_file(path: Path, message: str) -> Fault:
    return Fault(file=path, line=0, column=0, key="", message=message)


def _syntax_fault(path: Path, error: yaml.MarkedYAMLError) -> Fault:
    mark = error.problem_mark or error.context_mark
    line, column = (mark.line + 1, mark.column + 1) if mark else (0, 0)
    problem = str(error.problem or error.context or "cannot be understood")
    if "\\t" in problem or "\t" in problem:
        problem = "a tab stands where only spaces may: indent with spaces"
    elif "single document" in str(error.context or ""):
        problem = "the file holds more than one document: take out the '---' line"
    elif error.context and error.problem:
        problem = f"{problem}, {error.context}"
    return Fault(file=path, line=line, column=column, key="", message=f"YAML syntax: {problem}")


def _place(node: yaml.Node, key: str) -> Place:
    return Place(node.start_mark.line + 1, node.start_mark.column + 1, key)


class _Reading:
    """One file on its way from nodes to values."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.faults: list[Fault] = []
        self.count = 0

    def fault(self, place: Place, message: str) -> None:
        self.faults.append(Fault(file=self.path, line=place.line, column=place.column, key=place.key, message=message))

    def value(self, node: yaml.Node, place: Place, within: frozenset[int]) -> Any:
        """The value of a node; ``within`` are the nodes it stands in."""
        self.count += 1
        if self.count > _MOST_VALUES or len(within) > _DEEPEST:
            raise FaultyFile([*self.faults, _whole_file(self.path, "holds too much, or is nested too deep")])
        if id(node) in within:
            self.fault(place, "an anchor may not stand for something that holds itself")
            return None
        if node.tag not in (_TEXT_TAG, _LIST_TAG, _MAP_TAG):
            self.fault(place, f"tags such as {node.tag.replace('tag:yaml.org,2002:', '!!')} are not used here")
        if isinstance(node, yaml.MappingNode):
            return self.mapping(node, place, within | {id(node)})
        if isinstance(node, yaml.SequenceNode):
            return self.sequence(node, place, within | {id(node)})
        quoted = isinstance(node, yaml.ScalarNode) and node.style
        return node.value if quoted else plain_value(node.value)

    def sequence(self, node: yaml.SequenceNode, place: Place, within: frozenset[int]) -> MarkedList:
        """The entries of a list; an entry with an id is named by it in key paths, others by their number from
        1.
        """
        places = [_place(c, f"{place.key}[{_id_of(c) or i}]") for i, c in enumerate(node.value, start=1)]
        found = [self.value(c, p, within) for c, p in zip(node.value, places, strict=True)]
        return MarkedList.of(found, place, places)

    def mapping(self, node: yaml.MappingNode, place: Place, within: frozenset[int]) -> MarkedMap:
        """The entries of a mapping; of a key given twice the first counts."""
        items: dict[str, Any] = {}
        keys_at: dict[str, Place] = {}
        values_at: dict[str, Place] = {}
        for key_node, value_node in node.value:
            if not isinstance(key_node, yaml.ScalarNode):
                self.fault(_place(key_node, place.key), "a key must be one word")
                continue
            key = str(key_node.value)
            path = f"{place.key}.{key}" if place.key else key
            if key in items:
                first = keys_at[key].line
                self.fault(_place(key_node, path), f"the key '{key}' is given twice (first on line {first})")
                continue
            keys_at[key], values_at[key] = _place(key_node, path), _place(value_node, path)
            items[key] = self.value(value_node, values_at[key], within)
        return MarkedMap(items, place, keys_at, values_at)


def _id_of(node: yaml.Node) -> str | None:
    """The id written in a list's entry, None when it has none."""
    if isinstance(node, yaml.MappingNode):
        for key, value in node.value:
            if key.value == "id" and isinstance(value, yaml.ScalarNode) and value.value:
                return str(value.value)
    return None


def plain_value(text: str) -> str | int | float | bool | None:
    """What an unquoted scalar means."""
    if text in ("", "~", "null"):
        return None
    if text in ("true", "false"):
        return text == "true"
    if _WHOLE.match(text) and len(text) < 20:
        return int(text)
    if _DECIMAL.match(text) and not _LEADING_ZERO.match(text):
        return float(text)
    return text
