"""The JSON Schemas of what dryfit reads and writes, generated from the code."""

from __future__ import annotations

from typing import Any


def schema_of(what: str) -> dict[str, Any]:
    """The schema of ``plan``, ``family`` or ``layout``. Raises KeyError for anything else."""
    return {"plan": _plan, "family": _family, "layout": _layout}[what]()


def _plan() -> dict[str, Any]:
    from model3d.plans import Plan
    from model3d.sources import json_schema

    return json_schema(Plan)


def _family() -> dict[str, Any]:
    from model3d.families.family import Family
    from model3d.sources import json_schema

    return json_schema(Family)


def _layout() -> dict[str, Any]:
    from model3d.layout import layout_schema

    return layout_schema()
