"""Swept contact against plane geometry: where a moving box or bar must first meet a rod, and where it must not."""

from __future__ import annotations

import math
import sys
from collections import Counter

import numpy as np
import pytest

from model3d.geometry.placement import Placement
from model3d.motion.mesh import MotionMesh, drawn_in
from model3d.motion.sweep import between, first_contact, stands_in
from model3d.motion.way import Memo, MotionBody, Moving, blocked, contacts, turned_about, turning_steps

from .shapes import bar, box, here, rod, tube

SKIN_MM = 0.02
WAY_MM = 200.0
BOX = drawn_in(box(100.0, 20.0, 20.0), SKIN_MM)


def test_first_contact_of_a_box_with_a_rod() -> None:
    """A box moved along y meets an upright rod in its way where faces say: rod distance less half width less radius;
    the place told lies between the two.
    """
    post = MotionBody(id="rod", mesh=rod(1.5, 300.0), placement=here(10.0, 100.0))
    found = blocked([Moving(id="box", mesh=box(100.0, 20.0, 20.0), poses=(here(), here(0.0, WAY_MM)))], [post])
    assert found is not None
    assert found.contact.share * WAY_MM == pytest.approx(100.0 - 10.0 - 1.5, abs=0.06)
    assert found.place_mm == pytest.approx((10.0, 98.5, found.place_mm[2]), abs=0.3)
    assert -10.0 <= found.place_mm[2] <= 10.0


def straight_case(rng: np.random.Generator) -> tuple[float, float, float, float]:
    """Radius, x, y, z of a thin rod beside the box's way: within 2 mm of grazing it, on either side."""
    radius = float(rng.uniform(0.3, 3.0))
    gap = float(rng.uniform(0.05, 2.0)) * (1 if rng.random() < 0.5 else -1)
    side = 1 if rng.random() < 0.5 else -1
    return radius, side * (50.0 + radius + gap), float(rng.uniform(30.0, 190.0)), gap


def straight_answers(count: int, seed: int) -> Counter[tuple[bool, bool]]:
    """(should meet, does meet) over random thin rods."""
    rng, answers = np.random.default_rng(seed), Counter[tuple[bool, bool]]()
    for _ in range(count):
        radius, x, y, gap = straight_case(rng)
        met = first_contact(BOX, here(), here(0.0, WAY_MM), rod(radius, 300.0, 64), here(x, y)) is not None
        answers[gap < 0, met] += 1
    return answers


def turning_answers(count: int, seed: int) -> Counter[tuple[bool, bool]]:
    """(should meet, does meet) for a bar that swings 15 degrees past random thin rods."""
    half, turn = 10.0, 15.0
    steps = tuple(turning_steps(here(), (0.0, 0.0, 0.0), turn, 1000.0, SKIN_MM))
    swinging = Moving(id="bar", mesh=bar(1000.0, half, 20.0), poses=steps)
    rng, answers = np.random.default_rng(seed), Counter[tuple[bool, bool]]()
    for _ in range(count):
        radius, reach = float(rng.uniform(0.3, 3.0)), float(rng.uniform(300.0, 990.0))
        gap = float(rng.uniform(0.05, 2.0)) * (1 if rng.random() < 0.5 else -1)
        bearing = math.radians(turn) + math.asin((half + radius + gap) / reach)
        place = here(reach * math.cos(bearing), reach * math.sin(bearing))
        post = MotionBody(id="rod", mesh=rod(radius, 300.0, 64), placement=place)
        answers[gap < 0, blocked([swinging], [post], skin_mm=SKIN_MM) is not None] += 1
    return answers


def assert_all_right(answers: Counter[tuple[bool, bool]]) -> None:
    """None missed, no false alarm, and enough of both kinds among them."""
    assert answers[True, False] == 0, answers  # missed
    assert answers[False, True] == 0, answers  # false alarms
    total = sum(answers.values())
    assert answers[True, True] >= 0.4 * total
    assert answers[False, False] >= 0.3 * total


def test_thin_rods_beside_a_straight_way() -> None:
    """Rods that a straight move grazes by .05 to 2 mm are met, those it clears by as much are not: none missed, none
    false.
    """
    assert_all_right(straight_answers(120, seed=7))


def test_thin_rods_beside_a_swing() -> None:
    """The same for a bar that swings: the rod's distance from the bar's middle line at the end of the turn decides."""
    assert_all_right(turning_answers(40, seed=11))


@pytest.mark.slow
def test_ten_thousand_thin_rods(capsys: pytest.CaptureFixture[str]) -> None:
    """Ten thousand rods, four in five beside straight ways, the rest beside swings: none missed, none false."""
    for name, answers in (("straight", straight_answers(8000, seed=1)), ("turning", turning_answers(2000, seed=2))):
        with capsys.disabled():
            counts = {
                ("hit" if should else "miss", "met" if met else "free"): n for (should, met), n in answers.items()
            }
            sys.stdout.write(f"\n{name}: {counts}")
        assert_all_right(answers)


def test_sampling_would_miss_what_the_sweep_finds() -> None:
    """Looking every 8 mm only, as a wrong engine would, misses thin rods that the sweep meets."""
    thin, blade = rod(0.4, 300.0), drawn_in(box(100.0, 0.6, 20.0), SKIN_MM)
    missed = 0
    for y in np.linspace(42.0, 157.0, 16):
        assert first_contact(blade, here(), here(0.0, WAY_MM), thin, here(10.0, float(y))) is not None
        missed += not any(stands_in(blade, here(-10.0, 8.0 * k - float(y)), thin) for k in range(26))
    assert missed >= 8


def test_an_edge_meets_an_edge() -> None:
    """Two boxes turned so that only edges can meet first do meet, where their edges cross."""
    diamond = drawn_in(box(20.0, 20.0, 200.0), 0.0)
    turned = turned_about(here(), (0.0, 0.0, 0.0), 45.0)
    h = math.sqrt(0.5)
    lying = Placement(origin_mm=(0.0, 100.0, 0.0), x_axis=(0.0, h, h), y_axis=(0.0, -h, h), z_axis=(1.0, 0.0, 0.0))
    found = first_contact(diamond, turned, turned.moved((0.0, 100.0, 0.0)), box(20.0, 20.0, 200.0), lying)
    assert found is not None
    assert found * 100.0 == pytest.approx(100.0 - 2 * 10.0 * math.sqrt(2.0), abs=0.02)


def test_swallowed_at_the_start() -> None:
    """What stands wholly inside the mover, or the mover inside it, is met before any move."""
    small, large = box(4.0, 4.0, 4.0), box(60.0, 60.0, 60.0)
    for mover, other in ((large, small), (small, large)):
        found = first_contact(drawn_in(mover, SKIN_MM), here(), here(0.0, 1.0), other, here(1.0, 2.0, 3.0))
        assert found == 0.0


def test_a_void_is_not_met() -> None:
    """A peg in the middle of a tube's bore stands free in it and slides along it."""
    peg, ring = drawn_in(rod(4.9, 60.0), SKIN_MM), tube(20.0, 5.0, 100.0)
    assert not stands_in(peg, here(), ring)
    assert first_contact(peg, here(), here(0.0, 0.0, 150.0), ring, here()) is None
    assert first_contact(peg, here(0.3), here(0.3, 0.0, 150.0), ring, here()) is not None


def test_sliding_along_a_face_is_no_collision() -> None:
    """A box that slides on a floor it touches runs free; one that stands .1 mm in the floor does not."""
    floor = box(500.0, 500.0, 20.0)
    assert first_contact(BOX, here(), here(150.0), floor, here(0.0, 0.0, -20.0)) is None
    assert first_contact(BOX, here(0.0, 0.0, -0.1), here(150.0), floor, here(0.0, 0.0, -20.0)) is not None


def test_far_from_the_origin() -> None:
    """Sixty metres from the origin the answers are the same."""
    far = (60000.0, -60000.0, 0.0)
    for gap, meets in ((0.06, False), (-0.06, True)):
        post = here(51.5 + gap, 100.0).moved(far)
        met = first_contact(BOX, here().moved(far), here(0.0, WAY_MM).moved(far), rod(1.5, 300.0), post)
        assert (met is not None) is meets


def test_drawing_in_moves_every_face_in() -> None:
    """A box drawn in by a skin is smaller by twice the skin each way; a rod by the skin all round."""
    assert drawn_in(box(10.0, 20.0, 30.0), 0.5).box.ravel() == pytest.approx([-4.5, -9.5, -14.5, 4.5, 9.5, 14.5])
    radii = np.linalg.norm(drawn_in(rod(5.0, 40.0), 0.1).points[:, :2], axis=1)
    assert radii.max() == pytest.approx(4.9, abs=1e-3)


def test_halfway_between_two_turned_placements() -> None:
    """A turning step's middle is turned by half."""
    end = turned_about(here(), (0.0, 0.0, 0.0), 30.0)
    assert between(here(), end, 0.5).x_axis == pytest.approx(
        (math.cos(math.radians(15)), math.sin(math.radians(15)), 0.0)
    )


def test_the_earliest_of_several_is_reported() -> None:
    """With two rods in the way the nearer is named, whatever their order; asked for all, both are told."""
    bodies = [
        MotionBody(id=name, mesh=rod(2.0, 300.0), placement=here(0.0, y))
        for name, y in (("far", 150.0), ("near", 80.0))
    ]
    mover = Moving(id="box", mesh=box(100.0, 20.0, 20.0), poses=(here(), here(0.0, WAY_MM)))
    found = blocked([mover], bodies)
    assert found is not None
    assert found.contact.standing == "near"
    met = {c.standing: c.share * WAY_MM for c in contacts([mover], bodies)}
    assert met == pytest.approx({"near": 80.0 - 12.0, "far": 150.0 - 12.0}, abs=0.1)
    assert blocked([mover], bodies, meant=lambda _a, _b: None) is None


def test_of_a_group_any_may_meet() -> None:
    """Of a group moved as one, the one that meets something is named."""
    movers = [
        Moving(id=name, mesh=box(10.0, 10.0, 10.0), poses=(here(x), here(x, WAY_MM)))
        for name, x in (("left", -50.0), ("right", 50.0))
    ]
    post = MotionBody(id="rod", mesh=rod(2.0, 300.0), placement=here(50.0, 100.0))
    found = blocked(movers, [post])
    assert found is not None
    assert found.contact.mover == "right"


def test_answers_are_kept_by_relative_place() -> None:
    """The same two meshes in the same relative places are asked once; in another, again."""
    memo: Memo = {}
    post, crate = rod(2.0, 300.0), box(100.0, 20.0, 20.0)
    for x, asked in ((0.0, 1), (500.0, 1), (500.0 + 1.0, 2)):
        mover = Moving(id="box", mesh=crate, poses=(here(x), here(x, WAY_MM)))
        body = MotionBody(id="rod", mesh=post, placement=here(x if asked == 1 else 500.0, 100.0))
        assert blocked([mover], [body], memo=memo) is not None
        assert len(memo) == asked


def test_edges_of_flat_joins_are_left_out() -> None:
    """A box has twelve edges that can touch first; the diagonals across its faces are none."""
    cube: MotionMesh = box(1.0, 1.0, 1.0)
    assert len(cube.edges) == 12
