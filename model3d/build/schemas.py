"""The JSON Schemas of what dryfit reads and writes, generated from the code."""

from __future__ import annotations

from typing import Any


def schema_of(what: str) -> dict[str, Any]:
    """The schema of ``plan``, ``family``, ``theme``, ``layout`` or ``findings``. Raises KeyError for anything else."""
    return {"plan": _plan, "family": _family, "theme": _theme, "layout": _layout, "findings": _findings}[what]()


def _plan() -> dict[str, Any]:
    from model3d.plans import Plan
    from model3d.sources import json_schema

    return json_schema(Plan)


def _family() -> dict[str, Any]:
    from model3d.families.family import Family
    from model3d.sources import json_schema

    return json_schema(Family)


def _theme() -> dict[str, Any]:
    from model3d.sources import json_schema
    from model3d.themes import Theme

    return json_schema(Theme)


def _layout() -> dict[str, Any]:
    from model3d.layout import layout_schema

    return layout_schema()


def _findings() -> dict[str, Any]:
    """What ``--json`` prints of a check: ``{"findings": [...]}``, each finding as its class says."""
    from pydantic import ConfigDict, TypeAdapter

    from model3d.findings import Finding
    from model3d.sources.schema import DRAFT

    always = ConfigDict(json_schema_serialization_defaults_required=True)
    made = TypeAdapter(tuple[Finding, ...], config=always).json_schema(mode="serialization")
    return {
        "$schema": DRAFT,
        "$id": "urn:dryfit:dryfit-findings-1",
        "title": "Findings",
        "type": "object",
        "properties": {"findings": {"type": "array", "items": made["items"]}},
        "required": ["findings"],
        "$defs": made["$defs"],
    }
