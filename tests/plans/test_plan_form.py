"""The form of a plan: what it must say, what it may leave out, and its JSON Schema."""

from __future__ import annotations

from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from model3d.plans import Plan, PlanInPart
from model3d.plans.colours import NAMED, rgb
from model3d.sources import json_schema, salvage, source_of

MINIMAL = """\
version: 1
family: a-square
room:
  corners: [[0, 0], [4 m, 0], [4 m, 3 m], [0, 3 m]]
runs:
  - {id: A, start: w1, end: w3}
"""


def test_a_minimal_plan_is_under_twenty_lines() -> None:
    """Room corners, a family and one run are a plan; the rest has its usual value."""
    plan = salvage(source_of(MINIMAL, Path("plan.yaml")), Plan, PlanInPart).value
    assert MINIMAL.count("\n") < 20
    assert isinstance(plan, Plan)
    assert (plan.room.height, plan.room.wall_thickness, plan.room.closing_tolerance) == (2400.0, 100.0, 2.0)
    assert (plan.water.flow, plan.water.return_, plan.install, plan.frost) == (55.0, 45.0, 18.0, 5.0)
    run = plan.runs[0]
    assert (run.direction, run.start_fitting, run.end_fitting, run.return_fixed) == (
        "with-walls",
        "valve",
        "return",
        False,
    )


@pytest.mark.parametrize("key", ["version", "family", "room", "runs"])
def test_a_plan_without_what_it_needs_is_refused(key: str) -> None:
    """The version, the family, the room and the runs must be given."""
    lines = MINIMAL.split("\n")
    start = next(i for i, line in enumerate(lines) if line.startswith(key))
    length = {"version": 1, "family": 1, "room": 2, "runs": 2}[key]
    text = "\n".join(lines[:start] + lines[start + length :])
    (fault,) = salvage(source_of(text, Path("plan.yaml")), Plan, PlanInPart).faults
    assert fault.message == f"'{key}' is missing"


def test_the_schema_of_a_plan_is_valid_and_named() -> None:
    """The schema made from the code is draft 2020-12, with a title, an id, and every key described by its type."""
    schema = json_schema(Plan)
    Draft202012Validator.check_schema(schema)
    assert (schema["title"], schema["$id"]) == ("Run plan", "urn:dryfit:plan:1")
    assert set(schema["required"]) == {"version", "family", "room", "runs"}
    assert set(schema["properties"]) == set(Plan.known_keys())
    assert "return" in schema["$defs"]["WrittenWater"]["properties"]


def test_a_named_colour_is_the_colour_of_its_hexadecimal() -> None:
    """A colour is a known name, in any case, or #rrggbb; red, green and blue go from 0 to 1."""
    assert rgb("#ff8000") == (1.0, 128 / 255, 0.0)
    assert all(rgb(name.upper()) == rgb(value) for name, value in NAMED.items())


@pytest.mark.parametrize("colour", ["#ff80", "#ff80zz", "blurple", "ff8000", ""])
def test_what_is_no_colour_is_refused(colour: str) -> None:
    """A name that is not known, and a number that is not #rrggbb, is no colour."""
    with pytest.raises(KeyError):
        rgb(colour)
