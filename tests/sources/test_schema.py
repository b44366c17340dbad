"""JSON Schema made from the models."""

from __future__ import annotations

from typing import Any

import pytest
from jsonschema import Draft202012Validator
from pydantic import ConfigDict, Field

from model3d.sources import Distance, Entry, Length, Size, json_schema


class Board(Entry):
    """A ``board``."""

    model_config = ConfigDict(title="A board", json_schema_extra={"$id": "urn:dryfit:board:1"})

    width: Size
    at: Length = 0.0
    gap: Distance | None = Field(default=None, description="Its gap.")
    from_: Length | None = Field(default=None, alias="from")


SCHEMA = json_schema(Board)
VALIDATOR = Draft202012Validator(SCHEMA)


def test_a_schema_is_draft_2020_12_with_a_title_and_an_id() -> None:
    """A schema names its draft, its id and its title, and is itself valid."""
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert (SCHEMA["$id"], SCHEMA["title"]) == ("urn:dryfit:board:1", "A board")
    Draft202012Validator.check_schema(SCHEMA)


def test_a_length_is_a_number_or_a_text() -> None:
    """A length may be written as a number or as text with its unit."""
    assert SCHEMA["properties"]["width"]["type"] == ["number", "string"]
    assert SCHEMA["properties"]["width"]["exclusiveMinimum"] == 0
    assert SCHEMA["properties"]["gap"]["minimum"] == 0
    assert SCHEMA["properties"]["gap"]["description"].startswith("Its gap.")


GOOD: list[dict[str, Any]] = [
    {"width": 5},
    {"width": "3.2 m", "from": "10' 6\"", "at": -3},
    {"width": 1, "gap": 0},
]
BAD: list[dict[str, Any]] = [
    {}, {"width": 0}, {"width": -5}, {"width": "3"}, {"width": "3 mtr"}, {"width": True}, {"width": None},
    {"width": 5, "gap": None}, {"width": 5, "gap": -1}, {"width": 5, "from_": 1}, {"width": 5, "hight": 1},
]  # fmt: skip


@pytest.mark.parametrize("data", GOOD, ids=str)
def test_what_is_right_passes_the_schema(data: dict[str, Any]) -> None:
    """What the reader takes, the schema takes."""
    Board.model_validate(data)
    assert VALIDATOR.is_valid(data)


@pytest.mark.parametrize("data", BAD, ids=str)
def test_what_is_wrong_fails_the_schema(data: dict[str, Any]) -> None:
    """A missing or unknown key, a text without a unit and a number out of range fail the schema."""
    assert not VALIDATOR.is_valid(data)
