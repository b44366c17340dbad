"""Every sum that must hold: it holds in the packaged families; a family in which it fails is refused with it written
out."""

from __future__ import annotations

import ast
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
import yaml

from model3d.families import refusals as refusals_package
from model3d.families.family import Family
from model3d.families.reading import find_family, read_family
from model3d.families.refusals import Limits, refusals
from model3d.sources import FaultyFile, read_typed

from .variants import NAMES, written


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One change of a packaged family and the refusal it brings: its code, what it says, the key it stands at."""

    family: str
    changes: Mapping[str, Any]
    code: str
    says: str
    key: str


KNOWN_BAD = tuple(
    Case(**entry)
    for path in sorted(Path(__file__).with_name("known_bad").glob("*.yaml"))
    for entry in yaml.safe_load(path.read_text(encoding="utf-8"))
)


@pytest.mark.parametrize("name", NAMES)
def test_every_sum_holds_in_the_packaged_families(name: str) -> None:
    """The packaged families have numbers that work."""
    assert [str(r) for r in refusals(read_typed(find_family(name), Family))] == []


@pytest.mark.parametrize("case", KNOWN_BAD, ids=lambda case: f"{case.family[0]}-{case.code}-{'-'.join(case.changes)}")
def test_a_family_whose_sum_fails_is_refused_with_the_sum(case: Case, tmp_path: Path) -> None:
    """A family whose numbers cannot work is refused: the fault names rule, sum with its figures, key and line."""
    path = written(tmp_path, case.family, case.changes)
    with pytest.raises(FaultyFile) as refused:
        read_family(path)
    found = [f for f in refused.value.faults if f.message.startswith(f"{case.code}: ")]
    assert found, [f.message for f in refused.value.faults]
    assert any(case.says in fault.message for fault in found), [f.message for f in found]
    holder = case.key.rpartition(".")[0]
    assert {fault.key for fault in found} & ({case.key} if not _is_gone(case) else {case.key, holder})
    lines = path.read_text(encoding="utf-8").splitlines()
    assert all(0 < fault.line <= len(lines) for fault in found)


def _is_gone(case: Case) -> bool:
    """Whether the case takes out the very key the refusal names: it then stands at what should hold it."""
    return case.key in case.changes and case.changes[case.key] == "(gone)"


@pytest.mark.parametrize(
    ("limits", "code"),
    [
        (Limits(squeeze_most=0.26), "squeeze"),
        (Limits(fill_most=0.79), "gland-fill"),
        (Limits(wall_mm=1.6), "outer-wall"),
        (Limits(lift_margin_mm=4.0), "floor-gap"),
    ],
)
def test_the_limits_are_arguments(limits: Limits, code: str) -> None:
    """What a sum is held against is given to it: family (a) fails under a stricter limit, by that sum alone."""
    found = refusals(read_typed(find_family("a-square"), Family), limits)
    assert {refusal.code for refusal in found} == {code}


def codes_in(path: Path) -> set[str]:
    """The codes a module gives: first arguments of ``refuse``, or first items of the tables looped over for them."""
    found: set[str] = set()
    for function in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(function, ast.FunctionDef):
            continue
        calls = [n for n in ast.walk(function) if isinstance(n, ast.Call) and getattr(n.func, "id", "") == "refuse"]
        named = [call.args[0] for call in calls]
        found |= {str(arg.value) for arg in named if isinstance(arg, ast.Constant)}
        if any(isinstance(arg, ast.Name) for arg in named):
            rows = [n for n in ast.walk(function) if isinstance(n, ast.Tuple) and len(n.elts) > 2]
            firsts: list[Any] = [row.elts[0] for row in rows]
            found |= {str(first.value) for first in firsts if isinstance(first, ast.Constant)}
    return found


def test_every_refusal_is_shown_failing() -> None:
    """There is no refusal that no known-bad family brings out."""
    folder = Path(refusals_package.__file__).parent
    given = {code for module in folder.glob("*.py") for code in codes_in(module)}
    assert len(given) > 80
    assert given == {case.code for case in KNOWN_BAD}
