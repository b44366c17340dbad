"""A YAML file read into a typed model, or all that is wrong with it, each fault with its line and key.

``read_typed`` is for files that are right or refused. ``salvage`` keeps what is right of a faulty file, so
that checks of meaning can still be made on the rest and reported together with the faults of form.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any, Generic, TypeVar

from pydantic import ValidationError

from model3d.sources.entries import Entry
from model3d.sources.faults import Fault, FaultyFile
from model3d.sources.marked import MarkedList, MarkedMap, Place, Source, place_in, read_source
from model3d.sources.messages import message_of, shown, unknown_key

Model = TypeVar("Model", bound=Entry)
Steps = tuple[str | int, ...]
_MOST_ROUNDS = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Salvage(Generic[Model]):
    """What could be kept of a file: ``value`` without its faulty parts (None when nothing holds), the
    ``faults`` of form, and the key paths that were ``dropped``.
    """

    source: Source
    value: Model | None
    faults: tuple[Fault, ...]
    dropped: frozenset[str]

    def lost(self, under: str) -> bool:
        """Whether anything at or under a key path was dropped."""
        return any(key == under or key.startswith((under + ".", under + "[")) for key in self.dropped)


def read_typed(path: Path, model: type[Model]) -> Model:
    """The file as a ``model``. Raises FaultyFile with every fault of form when it does not fit."""
    found = salvage(read_source(path), model)
    if found.faults or found.value is None:
        raise FaultyFile(found.faults)
    return found.value


def salvage(source: Source, model: type[Model], in_part: type[Model] | None = None) -> Salvage[Model]:
    """As much of a file as fits ``model``, or else ``in_part``: the same with nothing required at its top."""
    dropping = _Dropping(source)
    dropping.drop_empty_values()
    shape = model
    value: Model | None = None
    for _ in range(_MOST_ROUNDS):
        classes: dict[int, type[Entry]] = {}
        try:
            value = shape.model_validate(dropping.data, context=classes)
            break
        except ValidationError as error:
            errors = error.errors(include_url=False)
        shape = in_part or model
        if not dropping.take_out(errors, classes, top_may_lack=in_part is not None):
            break
    faults = (*source.faults, *dropping.faults)
    return Salvage(source=source, value=value, faults=faults, dropped=frozenset(dropping.dropped))


class _Dropping:
    """The data of one file while its faulty parts are taken out, round by round."""

    def __init__(self, source: Source) -> None:
        self.file = source.path
        self.data: Any = source.data
        self.faults: list[Fault] = []
        self.dropped: set[str] = set()
        self.gone: set[Place] = set()
        self.shortened: set[Place] = set()

    def drop_empty_values(self) -> None:
        """Keys and entries with nothing after them are faults: a key is given a value or left out."""
        empty = list(_empty(self.data, ()))
        for steps in empty:
            self.note(
                self.place_of(steps),
                "has no value: give it one, or leave it out (a value that begins with # needs quotes)",
            )
        self.remove(empty)

    def take_out(self, errors: list[Any], classes: dict[int, type[Entry]], *, top_may_lack: bool) -> bool:
        """Notes the errors of one round and removes what they fall on. False when nothing can be kept."""
        removals: list[Steps] = []
        hopeless = False
        for error in errors:
            steps, rest = _steps(self.data, error["loc"])
            if error["type"] == "missing":
                self.note_missing(steps, rest)
                hopeless = hopeless or (not steps and not top_may_lack)
                removals += [steps] if steps else []
                continue
            place, message = self.described(error, steps, classes)
            self.note(place, message)
            hopeless = hopeless or not steps
            removals.append(steps)
        self.remove(removals)
        return not hopeless

    def described(self, error: Any, steps: Steps, classes: dict[int, type[Entry]]) -> tuple[Place, str]:
        """Where an error stands and what is to be said of it."""
        if error["type"] == "extra_forbidden":
            holder = _at(self.data, steps[:-1])
            known = classes[id(holder)].known_keys() if id(holder) in classes else ()
            return holder.keys_at[str(steps[-1])], unknown_key(str(steps[-1]), known)
        if error["type"].startswith("union_tag"):
            return self.described_kind(error, steps)
        return self.place_of(steps), message_of(error)

    def described_kind(self, error: Any, steps: Steps) -> tuple[Place, str]:
        """The same for an entry whose kind is not given or not known."""
        entry = _at(self.data, steps)
        key = str(error.get("ctx", {}).get("discriminator", "")).strip("'")
        if not isinstance(entry, MarkedMap):
            return self.place_of(steps), f"must be a mapping of keys to values, not {shown(entry)}"
        if not key.isidentifier():
            return self.place_of(steps), message_of(error)
        message = f"'{key}' is missing" if error["type"] == "union_tag_not_found" else message_of(error)
        return place_in(entry, key), message

    def note_missing(self, steps: Steps, rest: Steps) -> None:
        """Notes that a key is not there, unless it was taken out because it was faulty."""
        holder = _at(self.data, steps)
        if isinstance(holder, MarkedMap):
            place = place_in(holder, str(rest[-1]))
            if place not in self.gone:
                self.note(Place(holder.place.line, holder.place.column, place.key), f"'{rest[-1]}' is missing")
        elif self.place_of(steps) not in self.shortened:
            self.note(self.place_of(steps), f"must hold more than {len(holder)}")

    def note(self, place: Place, message: str) -> None:
        """One more fault."""
        self.faults.append(Fault(file=self.file, line=place.line, column=place.column, key=place.key, message=message))

    def place_of(self, steps: Steps) -> Place:
        """Where the value at these steps stands."""
        if not steps:
            return self.data.place if isinstance(self.data, MarkedMap | MarkedList) else Place(1, 1, "")
        holder, last = _at(self.data, steps[:-1]), steps[-1]
        return holder.values_at[str(last)] if isinstance(holder, MarkedMap) else holder.entries_at[last]

    def remove(self, removals: list[Steps]) -> None:
        """Takes values out, the last ones first so that the numbers of the others stay right."""
        kept: list[Steps] = []
        for steps in sorted(set(removals), key=len):
            if steps and not any(steps[: len(k)] == k for k in kept):
                kept.append(steps)
        for steps in sorted(kept, key=lambda s: tuple((str(x), 0) if isinstance(x, str) else ("", x) for x in s))[::-1]:
            place = self.place_of(steps)
            self.gone.add(place)
            if isinstance(_at(self.data, steps[:-1]), MarkedList):
                self.shortened.add(self.place_of(steps[:-1]))
            self.dropped.add(place.key)
            self.data = _without(self.data, steps)


def _empty(data: Any, steps: Steps) -> list[Steps]:
    """The steps to every value that is nothing."""
    if isinstance(data, MarkedMap):
        return [s for key, value in data.items() for s in _empty(value, (*steps, key))]
    if isinstance(data, MarkedList):
        return [s for i, value in enumerate(data) for s in _empty(value, (*steps, i))]
    return [steps] if data is None and steps else []


def _steps(data: Any, loc: Steps) -> tuple[Steps, Steps]:
    """A pydantic location as steps into the data, and what of it is not there; the tags of unions are passed
    over.
    """
    steps: Steps = ()
    rest: Steps = ()
    for part in loc:
        here = _at(data, steps)
        there = isinstance(here, MarkedMap) and part in here
        if there or (isinstance(here, MarkedList) and isinstance(part, int) and part < len(here)):
            steps, rest = (*steps, part), ()
        else:
            rest = (*rest, part)
    return steps, rest


def _at(data: Any, steps: Steps) -> Any:
    for step in steps:
        data = data[step]
    return data


def _without(data: Any, steps: Steps) -> Any:
    first, others = steps[0], steps[1:]
    return data.without(first) if not others else data.replaced(first, _without(data[first], others))
