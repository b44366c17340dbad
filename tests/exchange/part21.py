"""A reader of ISO 10303-21 exchange structures, from its grammar: no CAD kernel, nothing of model3d."""

from __future__ import annotations

import re
from dataclasses import dataclass

_TOKEN = re.compile(
    r"""(?P<skip>\s+|/\*.*?\*/)
      | (?P<string>'(?:[^']|'')*')
      | (?P<ref>\#\d+)
      | (?P<enum>\.[A-Z0-9_]+\.)
      | (?P<real>[+-]?\d+\.\d*(?:E[+-]?\d+)?)
      | (?P<integer>[+-]?\d+)
      | (?P<word>[A-Z][A-Z0-9_-]*)
      | (?P<sign>[=(),;$*])""",
    re.VERBOSE | re.DOTALL,
)


@dataclass(frozen=True)
class Ref:
    """``#12``: a reference to an entity instance."""

    number: int


@dataclass(frozen=True)
class Enum:
    """``.MILLI.``: a value of an enumeration."""

    name: str


@dataclass(frozen=True)
class Typed:
    """``LENGTH_MEASURE(1.)``: a value with its type, or one record of an entity."""

    kind: str
    values: tuple[object, ...]


@dataclass(frozen=True)
class Exchange:
    """A whole file: the header's records by kind, and for each entity its records by kind."""

    header: dict[str, tuple[object, ...]]
    entities: dict[int, dict[str, tuple[object, ...]]]

    def of(self, kind: str) -> list[int]:
        """The numbers of all entities that have a record of this kind, in the order of their numbers."""
        return sorted(number for number, records in self.entities.items() if kind in records)

    def get(self, ref: object, kind: str) -> tuple[object, ...]:
        """The values of the record of this kind of the entity that ``ref`` names."""
        if not isinstance(ref, Ref):
            raise ValueError(f"{ref} is no reference")
        return self.entities[ref.number][kind]


def parse(text: str) -> Exchange:
    """Read a whole exchange structure; ValueError where it breaks the grammar or names an unknown entity."""
    if not text.isascii():
        raise ValueError("an exchange structure is plain ASCII")
    reader = _Reader(text)
    reader.expect("ISO-10303-21", ";", "HEADER", ";")
    header = {}
    while not reader.at("ENDSEC"):
        record = reader.record()
        header[record.kind] = record.values
        reader.expect(";")
    reader.expect("ENDSEC", ";", "DATA", ";")
    entities: dict[int, dict[str, tuple[object, ...]]] = {}
    while not reader.at("ENDSEC"):
        number = reader.value()
        reader.expect("=")
        records = reader.records()
        reader.expect(";")
        if not isinstance(number, Ref) or number.number in entities:
            raise ValueError(f"{number} is no new entity name")
        entities[number.number] = {record.kind: record.values for record in records}
    reader.expect("ENDSEC", ";", "END-ISO-10303-21", ";")
    reader.finish()
    for each in entities.values():
        _refuse_unknown(list(each.values()), entities)
    return Exchange(header, entities)


def decoded(body: str) -> str:
    r"""The text of a string between its quotes, doubled signs and directives of the standard read."""
    body = body.replace("\r", "").replace("\n", "")

    def text_of(found: re.Match[str]) -> str:
        if found["wide"] is not None:
            size = 4 if found["wide_kind"] == "2" else 8
            digits = found["wide"]
            if len(digits) % size:
                raise ValueError(f"{found[0]} is cut short")
            return "".join(chr(int(digits[at : at + size], 16)) for at in range(0, len(digits), size))
        if found["byte"] is not None:
            return chr(int(found["byte"], 16))
        if found["shift"] is not None:
            return chr(ord(found["shift"]) + 128)
        return {"''": "'", "\\\\": "\\"}[found[0]]

    pattern = re.compile(
        r"''|\\\\|\\X(?P<wide_kind>[24])\\(?P<wide>[0-9A-F]*)\\X0\\|\\X\\(?P<byte>[0-9A-F]{2})|\\S\\(?P<shift>.)"
    )
    if "\\" in pattern.sub("", body) or "'" in pattern.sub("", body):
        raise ValueError(f"{body!r} has a stray quote or backslash")
    return pattern.sub(text_of, body)


def _refuse_unknown(values: object, entities: dict[int, dict[str, tuple[object, ...]]]) -> None:
    if isinstance(values, Ref) and values.number not in entities:
        raise ValueError(f"#{values.number} is named but not there")
    if isinstance(values, Typed):
        values = values.values
    if isinstance(values, list | tuple):
        for value in values:
            _refuse_unknown(value, entities)


class _Reader:
    def __init__(self, text: str) -> None:
        self._tokens: list[tuple[str, str]] = []
        at = 0
        while at < len(text):
            found = _TOKEN.match(text, at)
            if found is None:
                raise ValueError(f"cannot read {text[at : at + 40]!r}")
            at = found.end()
            if found.lastgroup is not None and found.lastgroup != "skip":
                self._tokens.append((found.lastgroup, found[0]))
        self._at = 0

    def at(self, word: str) -> bool:
        return self._at < len(self._tokens) and self._tokens[self._at][1] == word

    def expect(self, *words: str) -> None:
        for word in words:
            if not self.at(word):
                got = self._tokens[self._at][1] if self._at < len(self._tokens) else "the end"
                raise ValueError(f"{word} was due, not {got}")
            self._at += 1

    def finish(self) -> None:
        if self._at != len(self._tokens):
            raise ValueError("there is more after the end")

    def records(self) -> list[Typed]:
        """One record, or the several of a complex entity in their brackets."""
        if not self.at("("):
            return [self.record()]
        self.expect("(")
        records = []
        while not self.at(")"):
            records.append(self.record())
        self.expect(")")
        return records

    def record(self) -> Typed:
        kind, text = self._next()
        if kind != "word":
            raise ValueError(f"{text!r} is no keyword")
        values = self.value()
        if not isinstance(values, tuple):
            raise ValueError(f"{text} has no values")
        return Typed(text, values)

    def value(self) -> object:
        kind, text = self._next()
        match kind:
            case "string":
                return decoded(text[1:-1])
            case "ref":
                return Ref(int(text[1:]))
            case "enum":
                return Enum(text[1:-1])
            case "real":
                return float(text)
            case "integer":
                return int(text)
            case "word":
                self._at -= 1
                return self.record()
        if text in "$*":
            return None
        if text != "(":
            raise ValueError(f"a value was due, not {text}")
        values: list[object] = []
        while not self.at(")"):
            values.append(self.value())
            if not self.at(")"):
                self.expect(",")
        self.expect(")")
        return tuple(values)

    def _next(self) -> tuple[str, str]:
        if self._at >= len(self._tokens):
            raise ValueError("the file ends too early")
        self._at += 1
        return self._tokens[self._at - 1]
