"""Families changed in one place or a few: a profile's file read, altered and written again."""

from __future__ import annotations

import copy
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from model3d.families.reading import find_family

NAMES = ("a-square", "b-moulded", "c-low")
GONE = "(gone)"
DUMPER = getattr(yaml, "CSafeDumper", yaml.SafeDumper)


@cache
def plain(name: str) -> dict[str, Any]:
    """A packaged family's file as plain data, not to be changed."""
    data: dict[str, Any] = yaml.safe_load(find_family(name).read_text(encoding="utf-8"))
    return data


def changed(name: str, changes: Mapping[str, Any]) -> dict[str, Any]:
    """A family's data with values put at dotted keys (whole numbers count list entries from 0); ``(gone)`` takes one
    out."""
    data = copy.deepcopy(plain(name))
    for dotted, value in changes.items():
        *way, last = [int(step) if step.isdigit() else step for step in dotted.split(".")]
        holder: Any = data
        for step in way:
            holder = holder[step]
        if value == GONE:
            del holder[last]
        else:
            holder[last] = copy.deepcopy(value)
    return data


def written(folder: Path, name: str, changes: Mapping[str, Any]) -> Path:
    """The file of a changed family."""
    path = folder / "own.yaml"
    text = yaml.dump(changed(name, changes), Dumper=DUMPER, sort_keys=False, allow_unicode=True)
    path.write_text(text, encoding="utf-8", newline="\n")
    return path
