"""The pydantic models that files are typed by: strict, frozen, without unknown keys, each knowing its place
in the file.
"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    ModelWrapValidatorHandler,
    PrivateAttr,
    ValidationInfo,
    model_validator,
)
from pydantic_core import PydanticCustomError

from model3d.sources.faults import Fault
from model3d.sources.marked import MarkedList, MarkedMap, Place, place_in

NAME_PATTERN = "^[A-Za-z][A-Za-z0-9_-]*$"
Name = Annotated[str, Field(pattern=NAME_PATTERN, max_length=40)]
"""An id: a letter, then letters, digits, - or _."""


def _no_truth(value: Any) -> Any:
    """Python takes True for 1; a file may not."""
    if isinstance(value, bool):
        raise PydanticCustomError("version", "must be 1, not {given}", {"given": str(value).lower()})
    return value


FormatOne = Annotated[Literal[1], BeforeValidator(_no_truth)]
"""The version of a file's form: 1 is the only one so far."""


class Entry(BaseModel):
    """A mapping of a file. Lists are tuples; names that Python keeps for itself (``from``, ``in``) are
    aliases.
    """

    model_config = ConfigDict(strict=True, frozen=True, extra="forbid", validate_by_alias=True, defer_build=True)

    _written: MarkedMap | None = PrivateAttr(default=None)

    @model_validator(mode="wrap")
    @classmethod
    def _remember_the_place(cls, data: Any, handler: ModelWrapValidatorHandler[Entry], info: ValidationInfo) -> Entry:
        if isinstance(info.context, dict):
            info.context[id(data)] = cls
        made = handler(data)
        if isinstance(data, MarkedMap):
            made._written = data
        return made

    @property
    def written(self) -> MarkedMap | None:
        """The mapping it was read from, None when it was made in code."""
        return self._written

    def place(self, key: str | None = None) -> Place:
        """Where the entry, or the value of one of its keys, stands; of a key left out, the entry."""
        if self._written is None:
            return Place(0, 0, key or "")
        return place_in(self._written, key) if key else self._written.place

    def fault(self, file: Path, message: str, key: str | None = None) -> Fault:
        """A fault of this entry, or of one of its keys (as written in the file)."""
        place = self.place(key)
        return Fault(file=file, line=place.line, column=place.column, key=place.key, message=message)

    def place_in_list(self, key: str, number: int) -> Place:
        """Where the entry numbered ``number`` (from 0) of the list under ``key`` stands."""
        listed = self._written.get(key) if self._written is not None else None
        if isinstance(listed, MarkedList) and number in listed.numbers:
            return listed.entries_at[listed.numbers.index(number)]
        return self.place(key)

    @classmethod
    def known_keys(cls) -> tuple[str, ...]:
        """The keys a file may give, as written."""
        return tuple(field.alias or name for name, field in cls.model_fields.items())
