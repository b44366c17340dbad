"""JSON Schema of a model of a file, for editors that complete and check while one types."""

from __future__ import annotations

from typing import Any

from model3d.sources.entries import Entry

DRAFT = "https://json-schema.org/draft/2020-12/schema"


def json_schema(model: type[Entry]) -> dict[str, Any]:
    """The schema, draft 2020-12. Its title and ``$id`` are the model's ``title`` and ``json_schema_extra``
    settings.

    A key is given a value or left out: what may be left out is not required, and nothing may be null.
    """
    made = _tidied(model.model_json_schema(by_alias=True))
    return {"$schema": DRAFT, "$id": made.pop("$id", f"urn:dryfit:{model.__name__.lower()}"), **made}


def _tidied(node: Any) -> Any:
    """Without null among the choices, and without the marks of our docstrings."""
    if isinstance(node, list):
        return [_tidied(item) for item in node]
    if isinstance(node, str):
        return node.replace("``", "`")
    if not isinstance(node, dict):
        return node
    made = {key: _tidied(value) for key, value in node.items() if not (key == "default" and value is None)}
    choices = made.get("anyOf")
    if isinstance(choices, list) and {"type": "null"} in choices:
        left = [choice for choice in choices if choice != {"type": "null"}]
        del made["anyOf"]
        made = {**left[0], **made} if len(left) == 1 else {**made, "anyOf": left}
    return made
