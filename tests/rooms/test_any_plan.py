"""Whatever is written in a plan, it is either sound or refused with faults: it never falls over."""

from __future__ import annotations

import json
from typing import Any

from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from model3d.plans import Plan
from model3d.sources import json_schema, source_of

from .plans import FILE, GOOD, faults_of

SOUND: dict[str, Any] = json.loads(json.dumps(source_of(GOOD, FILE).data))
JUNK = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-(10**9), 10**9),
    st.floats(allow_nan=False, allow_infinity=False),
    st.sampled_from(
        ["", "w1", "w4", "column.w2", "room", "door", "A", "x y", "3 m", "-3 m", "10' 6\"", "3 mtr", "#fff"]
    ),
    st.sampled_from(
        [[], {}, [0, 0], [[0, 0]], {"wall": "w1"}, {"wall": "w2", "at": 1}, {"beside": "door", "side": "left"}]
    ),
)


def spots(node: Any, way: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """The way to every value in a plan."""
    found = [way] if way else []
    if isinstance(node, dict | list):
        for key in node if isinstance(node, dict) else range(len(node)):
            found += spots(node[key], (*way, key))
    return found


SPOTS = spots(SOUND)
REMOVED = "(removed)"
SCHEMA = Draft202012Validator(json_schema(Plan))


def change(plan: Any, way: tuple[Any, ...], value: Any) -> None:
    """Puts a value at a place, or takes away what stands there; does nothing where the place is gone."""
    for key in way[:-1]:
        plan = plan[key] if is_there(plan, key) else None
    if not is_there(plan, way[-1]):
        return
    if value == REMOVED:
        del plan[way[-1]]
    else:
        plan[way[-1]] = value


def is_there(holder: Any, key: Any) -> bool:
    """Whether a mapping has a key, or a list an entry of that number."""
    if isinstance(holder, dict):
        return key in holder
    return isinstance(holder, list) and isinstance(key, int) and key < len(holder)


@given(st.lists(st.tuples(st.sampled_from(SPOTS), st.one_of(JUNK, st.just(REMOVED))), min_size=1, max_size=4))
def test_any_plan_is_sound_or_refused(changes: list[tuple[tuple[Any, ...], Any]]) -> None:
    """A plan with any values changed or taken out is read, or refused with faults that each have a place; what is sound
    passes the JSON Schema too.
    """
    plan = json.loads(json.dumps(SOUND))
    for way, value in changes:
        change(plan, way, value)
    faults = faults_of(json.dumps(plan, indent=1))
    assert faults or SCHEMA.is_valid(plan)
    for fault in faults:
        assert fault.line > 0
        assert fault.column > 0
        assert fault.message


def test_the_changes_are_changes() -> None:
    """The plan that is changed is sound before; a value that is changed, and one taken out, are seen as faults."""
    assert faults_of(json.dumps(SOUND, indent=1)) == ()
    assert SCHEMA.is_valid(SOUND)
    assert not SCHEMA.is_valid({**SOUND, "runz": []})
    for value in ("x", REMOVED):
        plan = json.loads(json.dumps(SOUND))
        change(plan, ("openings", 0, "width"), value)
        (fault,) = faults_of(json.dumps(plan, indent=1))
        assert fault.key == "openings[door].width"
