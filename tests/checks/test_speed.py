"""How fast the interference engine is: ratios within one run, on rooms fitted by the program itself."""

from __future__ import annotations

import subprocess
import sys
import time
from collections.abc import Callable
from typing import TypeVar

import numpy as np
import pytest

from model3d.checks.engine import Clash, Memory, Tolerance, clashes
from tests.checks.box_common import common_volumes
from tests.checks.many_rooms import ROOMS, Model, piece_moved, rooms, without_repeats

T = TypeVar("T")
GROWTH_ROOMS = (4, 6, 8, 12, 16)
SLIVER_MM3 = 0.1
MOST_BYTES = 2 * 1024**3
PEAK = """
import resource
from tests.checks.many_rooms import rooms
from tests.checks.test_speed import found
print(len(found(rooms(16))), resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024)
"""


def found(model: Model, memory: Memory | None = None) -> list[Clash]:
    """What the engine finds; nothing known before unless a memory is given."""
    return list(
        clashes(
            model.bodies, model.shapes, allowed_mm=model.allowed_mm, tolerance=Tolerance(), memory=memory or Memory()
        )
    )


def timed(work: Callable[[], T]) -> tuple[float, T]:
    """Seconds that a piece of work takes, and what it gives."""
    began = time.perf_counter()
    given = work()
    return time.perf_counter() - began, given


def models() -> list[object]:
    """About 100, 400 and 1,500 solids, with shapes that repeat as in rooms, and 100 and 400 without."""
    return [
        *(pytest.param(number, False, id=f"{size}") for size, number in ROOMS.items()),
        *(pytest.param(number, True, id=f"{size}-no-repeats") for size, number in ROOMS.items() if number <= 4),
    ]


def model_of(number: int, unlike: bool) -> Model:
    """The rooms, each shape once for every body when none may repeat."""
    model = rooms(number)
    return without_repeats(model) if unlike else model


@pytest.mark.benchmark
@pytest.mark.parametrize(("number", "unlike"), models())
def test_against_boxes_and_the_kernel(number: int, unlike: bool, capsys: pytest.CaptureFixture[str]) -> None:
    """What the engine finds the kernel's booleans of all pairs whose boxes meet find as well, with the same volumes;
    and they find nothing else that is not meant, but for slivers where shapes that differ by a hair touch.
    """
    found(rooms(1))  # what loads late is loaded
    model = model_of(number, unlike)
    cold, met = timed(lambda: found(model))
    peer, volumes = timed(lambda: common_volumes(model))
    with capsys.disabled():
        sys.stdout.write(f"\n{len(model.bodies)} solids of {len(model.shapes)} shapes, {len(met)} clashes: ")
        sys.stdout.write(f"cold {cold:.2f} s; boxes + Common {peer:.1f} s, {peer / cold:.1f} times as long\n")
    by_id = {body.id: body for body in model.bodies}
    meant = {pair for pair in volumes if model.allowed_mm(*(by_id[name] for name in pair))}
    slivers = {pair for pair, volume in volumes.items() if unlike and volume < SLIVER_MM3}
    assert {(c.first, c.second) for c in met} == set(volumes) - meant - slivers
    for clash in met:
        assert clash.overlap.exact
        assert clash.overlap.volume_mm3 == pytest.approx(volumes[clash.first, clash.second], rel=1e-5)


@pytest.mark.benchmark
@pytest.mark.parametrize(("number", "unlike"), models())
def test_against_ifcopenshell(number: int, unlike: bool, capsys: pytest.CaptureFixture[str]) -> None:
    """IfcOpenShell's clash finds what the engine finds."""
    pytest.importorskip("ifcopenshell")
    from tests.checks.ifc_clash import ifc_of, intersections, tree_of

    found(rooms(1))
    model = model_of(number, unlike)
    cold, met = timed(lambda: found(model))
    write, file = timed(lambda: ifc_of(model))
    build, tree = timed(lambda: tree_of(file))
    clash, pairs = timed(lambda: intersections(model, file, tree))
    with capsys.disabled():
        sys.stdout.write(f"\n{len(model.bodies)} solids of {len(model.shapes)} shapes: cold {cold:.2f} s; ")
        sys.stdout.write(f"IfcOpenShell mesh + model {write:.2f}, tree {build:.2f}, clash {clash:.2f} s: clash alone ")
        sys.stdout.write(f"{clash / cold:.2f}, tree + clash {(build + clash) / cold:.2f}, ")
        sys.stdout.write(f"from the solids {(write + build + clash) / cold:.2f} times as long\n")
    assert {frozenset((c.first, c.second)) for c in met} <= pairs


@pytest.mark.benchmark
@pytest.mark.parametrize(("number", "unlike"), models())
def test_one_piece_moved(number: int, unlike: bool, capsys: pytest.CaptureFixture[str]) -> None:
    """One piece moved, with a memory of the rest: the same is found as with none."""
    found(rooms(1))
    model = model_of(number, unlike)
    memories = Memory(), Memory()
    cold, met = timed(lambda: found(model, memories[0]))
    found(model, memories[1])
    for memory, into in zip(memories, (False, True), strict=True):
        there = piece_moved(model, into_others=into)
        again, now = timed(lambda m=memory, t=there: found(t, m))
        with capsys.disabled():
            sys.stdout.write(f"\n{len(model.bodies)} solids, cold {cold:.2f} s; one piece moved, ")
            sys.stdout.write(f"{len(now) - len(met)} more clashes: {again * 1000:.0f} ms, {again / cold:.1%}\n")
        assert (len(now) > len(met)) == into
        if number == 1:
            assert now == found(there)


@pytest.mark.benchmark
def test_growth_with_rooms(capsys: pytest.CaptureFixture[str]) -> None:
    """The exponent by which time grows from 4 to 16 rooms of one model: the slope of its logarithm over theirs."""
    found(rooms(1))
    seconds = []
    for number in GROWTH_ROOMS:
        model = rooms(number)
        seconds.append(timed(lambda model=model: found(model))[0])
    slope = np.polyfit(np.log(GROWTH_ROOMS), np.log(seconds), 1)[0]
    with capsys.disabled():
        told = ", ".join(f"{n}: {s:.2f}" for n, s in zip(GROWTH_ROOMS, seconds, strict=True))
        sys.stdout.write(f"\nseconds by rooms {told}: exponent {slope:.2f}\n")
    assert len(seconds) == len(GROWTH_ROOMS)


@pytest.mark.benchmark
def test_memory_of_1500_solids(capsys: pytest.CaptureFixture[str]) -> None:
    """A process that checks about 1,500 solids takes less than 2 GiB at its peak."""
    out = subprocess.run([sys.executable, "-c", PEAK], check=True, capture_output=True, text=True).stdout
    peak = int(out.split()[-1])
    with capsys.disabled():
        sys.stdout.write(f"\npeak {peak / 1024**3:.2f} GiB\n")
    assert peak < MOST_BYTES


def test_rooms_without_repeats_find_the_same() -> None:
    """Shapes that differ by a hair find what those that repeat find: the volumes agree to the hair."""
    model = rooms(1)
    same, unlike = found(model), found(without_repeats(model))
    assert len(same) == 1
    assert [(c.first, c.second) for c in unlike] == [(c.first, c.second) for c in same]
    assert unlike[0].overlap.volume_mm3 == pytest.approx(same[0].overlap.volume_mm3, rel=1e-5)
