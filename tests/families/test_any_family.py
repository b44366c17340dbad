"""A family with any one figure changed is read, or refused with line and key: nothing else happens."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model3d.families.reading import read_family
from model3d.sources import Fault, FaultyFile

from .variants import NAMES, plain, written


def figures(data: Any, way: tuple[str, ...] = ()) -> Iterator[tuple[str, float]]:
    """Every number of a family's file with its dotted key."""
    if isinstance(data, bool) or data is None:
        return
    if isinstance(data, int | float):
        yield ".".join(way), float(data)
    elif isinstance(data, dict):
        for key, value in data.items():
            yield from figures(value, (*way, str(key)))
    elif isinstance(data, list):
        for i, value in enumerate(data):
            yield from figures(value, (*way, str(i)))


FIGURES = [(name, key, value) for name in NAMES for key, value in figures(plain(name))]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder for the changed families."""
    return tmp_path_factory.mktemp("any-family")


@settings(max_examples=200)
@given(st.sampled_from(FIGURES), st.sampled_from([-1.0, 0.0, 1e-3, 0.5, 0.9, 1.1, 2.0, 1e3]))
def test_any_one_figure_changed_is_read_or_refused(folder: Path, figure: tuple[str, str, float], factor: float) -> None:
    """Scaled by any factor, a figure leaves a family that is read, or one that is refused with a line for every
    fault."""
    name, key, value = figure
    path = written(folder, name, {key: value * factor})
    faults: tuple[Fault, ...] | None = None
    try:
        read_family(path)
    except FaultyFile as refused:
        faults = refused.faults
    assert faults is None or (faults and all(fault.line > 0 and fault.message for fault in faults))
