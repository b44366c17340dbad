"""What pydantic found, said so that a fitter can mend it."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from model3d.sources.entries import NAME_PATTERN
from model3d.sources.faults import near_miss

_KINDS = {
    "float_type": "a number",
    "int_type": "a whole number",
    "int_from_float": "a whole number",
    "bool_type": "true or false",
    "string_type": "text",
    "tuple_type": "a list",
    "list_type": "a list",
    "model_type": "a mapping of keys to values",
    "dict_type": "a mapping of keys to values",
    "model_attributes_type": "a mapping of keys to values",
}
_LIMITS = {
    "greater_than": ("more than", "gt"),
    "greater_than_equal": ("at least", "ge"),
    "less_than": ("less than", "lt"),
    "less_than_equal": ("at most", "le"),
}


def shown(value: Any) -> str:
    """A value as a message names it."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return f"the text '{value if len(value) <= 40 else value[:37] + '...'}'"
    if isinstance(value, int | float):
        return f"{value:g}" if isinstance(value, float) else str(value)
    if isinstance(value, Mapping):
        return "a mapping"
    if isinstance(value, Sequence):
        return "a list"
    return "nothing"


def message_of(error: Mapping[str, Any]) -> str:
    """The message for one pydantic error other than a missing or an unknown key."""
    kind, given, context = error["type"], error.get("input"), error.get("ctx", {})
    if kind in _KINDS:
        return f"must be {_KINDS[kind]}, not {shown(given)}{_hint(kind, given)}"
    if kind in _LIMITS:
        words, limit = _LIMITS[kind]
        return f"must be {words} {context[limit]:g}, not {shown(given)}"
    if kind == "literal_error":
        return _not_one_of(given, re.findall(r"'([^']*)'", context["expected"]) or [context["expected"]])
    if kind == "union_tag_invalid":
        return _not_one_of(context["tag"], re.findall(r"'([^']*)'", context["expected_tags"]))
    if kind == "string_pattern_mismatch" and context["pattern"] == NAME_PATTERN:
        return f"must be a letter and then letters, digits, - or _, not {shown(given)}"
    if kind in ("too_short", "too_long"):
        limit = context.get("min_length") if kind == "too_short" else context.get("max_length")
        words = "at least" if kind == "too_short" else "at most"
        comma = "; decimals take a point, not a comma" if kind == "too_long" and limit == 2 else ""
        return f"must hold {words} {limit}, not {context['actual_length']}{comma}"
    return str(error["msg"]).removeprefix("Value error, ")


def unknown_key(key: str, known: Sequence[str]) -> str:
    """The message for a key that has no meaning where it stands."""
    return f"unknown key '{key}'{near_miss(key, known)} (known here: {', '.join(known)})"


def _not_one_of(given: Any, known: Sequence[str]) -> str:
    near = near_miss(given, known) if isinstance(given, str) else ""
    return f"must be {' or '.join(known)}, not {shown(given)}{near}"


def _hint(kind: str, given: Any) -> str:
    if not isinstance(given, str):
        return ": put it in quotes" if kind == "string_type" and isinstance(given, int | float) else ""
    if kind == "bool_type" and given.lower() in ("yes", "no", "on", "off", "y", "n"):
        return ": write true or false"
    if kind in ("float_type", "int_type") and re.match(r"[-+]?0[0-9]", given):
        return ": write it without the leading nought"
    return ""
