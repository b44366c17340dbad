"""How the engine decides, and what it does when the kernel does not."""

from __future__ import annotations

import math
import textwrap

import cadquery as cq
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial import ConvexHull, HalfspaceIntersection

from model3d.checks import engine
from model3d.checks.engine import (
    Body,
    Clash,
    Memory,
    Overlap,
    Tolerance,
    clashes,
    part_overlap,
    skins,
    verdict,
)
from model3d.geometry.placement import Placement, at, turned_about_z
from tests.checks.known_solids import box, less, middle_box, ring, rod


def met(
    a: cq.Solid, b: cq.Solid, b_at: Placement, *, allowed_mm: float = 0.0, memory: Memory | None = None
) -> list[Clash]:
    """What the engine says of two solids."""
    bodies = [Body(id="a", shape_key="a", placement=Placement()), Body(id="b", shape_key="b", placement=b_at)]
    shapes = {"a": a, "b": b}
    return list(
        clashes(bodies, shapes, allowed_mm=lambda _a, _b: allowed_mm, tolerance=Tolerance(), memory=memory)
    )


@pytest.mark.parametrize(
    ("allowed_mm", "clash"), [(0.0, True), (1.0, True), (2.95, True), (2.99, False), (4.0, False)]
)
def test_a_meant_overlap_has_a_greatest_depth(allowed_mm: float, clash: bool) -> None:
    """Bodies may overlap as deep as they are meant to, and contact more; deeper is found."""
    assert bool(met(box(30, 20, 10), box(30, 20, 10), at(27, 0, 0), allowed_mm=allowed_mm)) == clash


def test_pairs_that_are_not_asked_for_are_left_out() -> None:
    """A pair for which no depth is given is not compared."""
    bodies = [Body(id=i, shape_key="box", placement=at(x, 0, 0)) for i, x in (("a", 0), ("b", 5), ("c", 10))]
    asked = {("a", "b"): None, ("a", "c"): 0.0, ("b", "c"): 0.0}
    found = clashes(
        bodies, {"box": box(30, 20, 10)}, allowed_mm=lambda a, b: asked[(a.id, b.id)], tolerance=Tolerance()
    )
    assert [(c.first, c.second) for c in found] == [("a", "c"), ("b", "c")]


def test_equal_pairs_are_worked_out_once() -> None:
    """Pairs of equal shapes in the same place to one another have one verdict, the other way round too, and
    each its own place.
    """
    memory = Memory()
    poses = [at(0, 0, 0), at(200, 0, 0), turned_about_z(30.0, (0, 300, 0))]
    bodies = []
    for k, pose in enumerate(poses):
        pair = [
            Body(id=f"post {k}", shape_key="post", placement=pose),
            Body(id=f"bar {k}", shape_key="bar", placement=pose @ at(3, 0, 5)),
        ]
        bodies += pair if k % 2 else pair[::-1]
    shapes = {"post": middle_box(10, 10, 40), "bar": middle_box(60, 6, 6)}
    found = list(clashes(bodies, shapes, allowed_mm=lambda _a, _b: 0.0, tolerance=Tolerance(), memory=memory))
    assert len(found) == 3
    assert len(memory.verdicts) == 1
    for clash, pose in zip(found, poses, strict=True):
        assert clash.overlap.volume_mm3 == pytest.approx(360.0)
        assert clash.place_mm == pytest.approx(pose.point((0.0, 0.0, 5.0)), abs=0.05)


def test_a_kernel_that_fails_is_made_up_for(monkeypatch: pytest.MonkeyPatch) -> None:
    """When the kernel's boolean fails both ways round, the overlap of the skins is given, and said not to be
    exact.
    """

    def failing(*_: object, **_more: object) -> None:
        raise RuntimeError("no")

    monkeypatch.setattr(verdict, "exact_overlap", failing)
    (clash,) = met(box(30, 20, 10), rod(4, 40), at(15, 10, -20))
    assert not clash.overlap.exact
    assert clash.overlap.volume_mm3 == pytest.approx(math.pi * 16 * 10, rel=0.1)
    assert clash.overlap.depth_mm == pytest.approx(8.0, rel=0.05)


@pytest.mark.parametrize("lie_mm3", [0.0, 5.0, 5000.0])
def test_a_kernel_that_is_wrong_is_not_believed(lie_mm3: float, monkeypatch: pytest.MonkeyPatch) -> None:
    """A volume that the skins do not allow is not taken from the kernel: none where they share much, more
    than they share, or less.
    """

    def lying(*_: object, **_more: object) -> Overlap | None:
        return Overlap(volume_mm3=lie_mm3, depth_mm=9.0, place_mm=(0.0, 0.0, 0.0)) if lie_mm3 else None

    monkeypatch.setattr(verdict, "exact_overlap", lying)
    (clash,) = met(box(30, 20, 10), rod(4, 40), at(15, 10, -20))
    assert not clash.overlap.exact


@pytest.mark.parametrize(("meant_mm", "clash"), [(0.0, True), (0.25, True), (0.35, False)])
def test_a_kernel_that_sees_nothing_hides_no_squeeze(
    meant_mm: float, clash: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A ring squeezed .35 in its bore, where .25 is meant, is found though the kernel sees no overlap at all, and as
    deep.
    """
    monkeypatch.setattr(verdict, "exact_overlap", lambda *_, **__: None)
    bore = less(rod(40, 30, -15), rod(23.65, 40, -20))
    found = met(bore, ring(22, 2), at(0, 0, 0), allowed_mm=meant_mm)
    assert bool(found) == clash
    for each in found:
        assert not each.overlap.exact
        assert each.overlap.depth_mm == pytest.approx(0.35, abs=0.01)


def test_one_good_answer_of_two_is_enough(monkeypatch: pytest.MonkeyPatch) -> None:
    """The kernel is asked the other way round before it is given up, and the place comes back in the right
    frame.
    """
    right = verdict.exact_overlap
    asked: list[int] = []

    def first_fails(a: cq.Solid, b: cq.Solid, b_in_a: Placement) -> Overlap | None:
        asked.append(1)
        if len(asked) == 1:
            raise RuntimeError("no")
        return right(a, b, b_in_a)

    monkeypatch.setattr(verdict, "exact_overlap", first_fails)
    (clash,) = met(box(30, 20, 10), rod(4, 40), at(15, 10, -20))
    assert clash.overlap.exact
    assert clash.place_mm == pytest.approx((15.0, 10.0, 5.0), abs=0.05)


def no_mesh(*_: object, **__: object) -> None:
    """A kernel that meshes nothing."""
    raise ValueError("the kernel could not mesh a face")


def test_a_body_that_cannot_be_meshed_is_asked_of_the_kernel(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without skins the exact boolean alone decides, and contact is still no clash."""
    monkeypatch.setattr(skins, "facets", no_mesh)
    (clash,) = met(box(30, 20, 10), rod(4, 40), at(15, 10, -20))
    assert clash.overlap.volume_mm3 == pytest.approx(math.pi * 16 * 10, rel=1e-4)
    assert met(box(30, 20, 10), rod(4, 40), at(15, 10, 10)) == []


def test_an_overlap_that_cannot_be_meshed_has_a_depth(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the kernel cannot mesh what two bodies share, the depth is told from volume and surface: no less
    than the true one.
    """
    monkeypatch.setattr(part_overlap, "facets", no_mesh)
    (clash,) = met(box(30, 20, 10), box(30, 20, 10), at(27, 0, 0))
    assert 3.0 <= clash.overlap.depth_mm <= (6 * 600 / math.pi) ** (1 / 3)
    assert clash.overlap.volume_mm3 == pytest.approx(600.0)


def test_when_nothing_can_say_it_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    """With neither meshes nor kernel the engine does not guess."""

    def failing(*_: object, **_more: object) -> None:
        raise RuntimeError("no")

    monkeypatch.setattr(skins, "facets", no_mesh)
    monkeypatch.setattr(verdict, "exact_overlap", failing)
    with pytest.raises(RuntimeError, match="neither the kernel nor the meshes"):
        met(box(30, 20, 10), rod(4, 40), at(15, 10, -20))


def unit_turn(values: tuple[float, float, float, float]) -> Placement:
    """A placement turned by a quaternion."""
    w, x, y, z = np.array(values) / np.linalg.norm(values)
    return Placement(
        x_axis=(1 - 2 * (y * y + z * z), 2 * (x * y + w * z), 2 * (x * z - w * y)),
        y_axis=(2 * (x * y - w * z), 1 - 2 * (x * x + z * z), 2 * (y * z + w * x)),
        z_axis=(2 * (x * z + w * y), 2 * (y * z - w * x), 1 - 2 * (x * x + y * y)),
    )


def shared_by_half_spaces(
    sizes: tuple[tuple[float, float, float], ...], poses: tuple[Placement, ...]
) -> tuple[float, float]:
    """Volume shared by two boxes about their origins, and the widest ball in it, by half-spaces alone (Qhull,
    and a linear program for the ball's centre): 0 and how far apart they are, negative, when they share none.
    """
    from scipy.optimize import linprog

    rows, limits = [], []
    for size, pose in zip(sizes, poses, strict=True):
        for axis, side in zip((pose.x_axis, pose.y_axis, pose.z_axis), size, strict=True):
            n = np.array(axis)
            middle = float(n @ np.array(pose.origin_mm))
            rows += [n, -n]
            limits += [middle + side / 2, -middle + side / 2]
    a, b = np.array(rows), np.array(limits)
    best = linprog(
        [0, 0, 0, -1], A_ub=np.hstack([a, np.ones((len(a), 1))]), b_ub=b, bounds=[(None, None)] * 4
    )
    radius = float(best.x[3])
    if radius <= 1e-9:
        return 0.0, 2 * radius
    corners = HalfspaceIntersection(np.hstack([a, -b[:, None]]), best.x[:3]).intersections
    return float(ConvexHull(corners).volume), 2 * radius


SIDES = st.tuples(*[st.floats(1.0, 40.0)] * 3)
TURNS = st.tuples(*[st.floats(-1.0, 1.0)] * 4).filter(lambda q: np.linalg.norm(q) > 0.2)


@settings(max_examples=60)
@given(one=SIDES, other=SIDES, turns=st.tuples(TURNS, TURNS), off=st.tuples(*[st.floats(-25.0, 25.0)] * 3))
def test_random_boxes_against_half_spaces(
    one: tuple[float, float, float],
    other: tuple[float, float, float],
    turns: tuple[tuple[float, float, float, float], tuple[float, float, float, float]],
    off: tuple[float, float, float],
) -> None:
    """Two boxes turned and placed at random overlap by what their half-spaces say, and as deep."""
    first, second = unit_turn(turns[0]), unit_turn(turns[1]).moved(off)
    volume, depth = shared_by_half_spaces((one, other), (first, second))
    if abs(depth - Tolerance().contact_mm) < 1e-3:
        return  # neither contact nor clash to a thousandth
    bodies = [Body(id="a", shape_key="a", placement=first), Body(id="b", shape_key="b", placement=second)]
    shapes = {"a": middle_box(*one), "b": middle_box(*other)}
    found = list(clashes(bodies, shapes, allowed_mm=lambda _a, _b: 0.0, tolerance=Tolerance()))
    assert bool(found) == (depth > Tolerance().contact_mm)
    for clash in found:
        assert clash.overlap.volume_mm3 == pytest.approx(volume, rel=1e-4, abs=1e-6)
        assert clash.overlap.depth_mm == pytest.approx(depth, rel=0.02, abs=1e-3)


def test_two_poses_a_little_apart_are_two() -> None:
    """A verdict is not kept for another place: a plate in contact and the same a twentieth lower differ."""
    memory = Memory()
    plate, post = box(60, 60, 10), box(10, 10, 30)
    assert met(plate, post, at(20, 20, 10), memory=memory) == []
    assert len(met(plate, post, at(20, 20, 9.95), memory=memory)) == 1
    assert met(plate, post, at(20, 20, 9.99), memory=memory) == []
    assert len(met(plate, post, at(20, 20, 9.95), memory=memory)) == 1


def test_the_engines_own_example(capsys: pytest.CaptureFixture[str]) -> None:
    """The example that the engine's documentation gives runs, and says what it should."""
    text = engine.__doc__ or ""
    example = textwrap.dedent(text.split("::\n", 1)[1])
    exec(example, {**vars(engine), "at": at, "cadquery": cq})
    first, second, volume, depth, *_ = capsys.readouterr().out.split()
    assert (first, second) == ("a", "b")
    assert (float(volume), float(depth)) == pytest.approx((100.0, 1.0))
