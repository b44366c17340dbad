"""Walls that bow, drawn: faces as they were read, packers between them and the brackets, nothing in anything."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

import pytest

from model3d.families.family import Family
from model3d.families.reading import find_family, read_family
from model3d.layout import Layout, lay_out
from model3d.parts.fixings import PackerSpec
from model3d.parts.room import WallSpec
from model3d.rooms import CheckedPlan, DryPlan, SocketOutlet, WallBow
from model3d.scene import Part, Scene, compose
from model3d.solids.build import solid
from model3d.solids.joining import overlap_mm3
from model3d.solids.placing import located
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over

RING = ring_of([(0.0, 0.0), (3600.0, 0.0), (3600.0, 3000.0), (0.0, 3000.0)])
WAVY = ((500.0, 8.0), (1800.0, 3.0), (2500.0, -6.0), (3000.0, 4.0))


@pytest.fixture(scope="module")
def family_a() -> Family:
    """Reference family (a)."""
    return read_family(find_family("a-square"))


def bowed(*readings: tuple[float, float], sense: Literal[1, -1] = 1) -> CheckedPlan:
    """A run over three walls, w1 in the middle with a face of its own."""
    bow = WallBow(wall_id="w1", readings=((0.0, 0.0), *readings, (3600.0, 0.0)))
    return replace(plan_of(RING, run_over(RING, 4 if sense > 0 else 2, 3, sense=sense)), bows=(bow,))


def drawn(plan: CheckedPlan, family: Family) -> tuple[Layout, Scene]:
    """The layout and its scene."""
    layout = lay_out(plan, family)
    return layout, compose(plan.room, layout, family, plan.bows)


def wall_spec(scene: Scene, wall: str = "w1") -> WallSpec:
    """A wall as drawn."""
    spec = scene.part(f"room/{wall}").spec
    assert isinstance(spec, WallSpec)
    return spec


def shared_mm3(one: Part, other: Part) -> float:
    """Volume that two placed parts share."""
    a, b = (located(solid(p.spec), p.placement) for p in (one, other))
    return overlap_mm3(a, b)


def on_the_wall(scene: Scene) -> list[Part]:
    """Brackets, packers and cradle on w1."""
    return [p for p in scene.fitted if p.wall == "w1" and p.role in ("bracket", "packer", "cradle")]


def test_the_face_goes_through_the_readings(family_a: Family) -> None:
    """A wall that is packed out is drawn through its readings; every other wall straight."""
    _, scene = drawn(bowed(*WAVY), family_a)
    assert wall_spec(scene).face == ((0.0, 0.0), *WAVY, (3600.0, 0.0))
    assert wall_spec(scene, "w2").face == ()


@pytest.mark.parametrize("sense", [1, -1])
def test_packers_fill_what_is_behind_the_brackets(family_a: Family, sense: Literal[1, -1]) -> None:
    """One packer behind each bracket that stands off the wall, as thick as the layout says; nothing on the wall is in
    it, and packers half a millimetre thicker would all be.
    """
    layout, scene = drawn(bowed(*WAVY, sense=sense), family_a)
    (held,) = layout.on_walls
    packers = {p.id: p for p in scene.fitted if p.role == "packer"}
    assert len(packers) == sum(t > 0.0 for t in held.packers_mm) > 4
    wall = scene.part("room/w1")
    assert all(shared_mm3(wall, part) < 1e-3 for part in on_the_wall(scene))
    for number, thickness in enumerate(held.packers_mm, 1):
        if thickness > 0.0:
            part = packers[f"{held.mark}/packer-{number}"]
            assert isinstance(part.spec, PackerSpec)
            assert part.spec.thickness_mm == thickness
            assert part.placement == scene.part(f"{held.mark}/bracket-{number}").placement
            thicker = replace(part, spec=replace(part.spec, thickness_mm=thickness + 0.5))
            assert shared_mm3(wall, thicker) > 0.01


def test_a_wall_that_pieces_follow_is_drawn_straight(family_a: Family) -> None:
    """On a belly of 1.5 in 3.6 m the piece follows the wall: no packers, and both are drawn straight."""
    _, scene = drawn(bowed((1800.0, 1.5)), family_a)
    assert wall_spec(scene).face == ()
    assert not [p for p in scene.fitted if p.role == "packer"]


def test_a_dry_piece_that_follows_beside_one_that_is_packed(family_a: Family) -> None:
    """Where a dry piece follows the stretch of wall behind it and the run beyond is packed out, the face is straight
    behind the dry piece only.
    """
    run = run_over(RING, 1, 2, start_at=2000.0)
    bow = WallBow(wall_id="w1", readings=((0.0, 0.0), (800.0, 0.4), (2600.0, 9.0), (3000.0, -3.0), (3600.0, 0.0)))
    dry = DryPlan(id="dry", wall=RING.walls[0], from_mm=300.0, to_mm=1200.0)
    layout, scene = drawn(replace(plan_of(RING, run, dry=(dry,)), bows=(bow,)), family_a)
    assert [(h.mark, h.packed) for h in layout.on_walls] == [("r-1", True), ("dry", False)]
    low, high = layout.dry_pieces[0].low_mm - 100.0, layout.dry_pieces[0].high_mm + 100.0
    assert wall_spec(scene).face == ((0.0, 0.0), (low, 0.0), (high, 0.0), *bow.readings[2:])
    wall = scene.part("room/w1")
    assert all(shared_mm3(wall, part) < 1e-3 for part in on_the_wall(scene))


def test_the_valve_cradle_is_packed_too(family_a: Family) -> None:
    """A cradle on a bowed wall stands with its piece: as far out as the wall is behind it at least, packed where it is
    less.
    """
    run = run_over(RING, 1, 2, start_at=1000.0)
    for readings, packed in (((1050.0, 9.0), (1500.0, 2.0)), False), (((1050.0, 2.0), (1500.0, 9.0)), True):
        bow = WallBow(wall_id="w1", readings=((0.0, 0.0), *readings, (3600.0, 0.0)))
        layout, scene = drawn(replace(plan_of(RING, run), bows=(bow,)), family_a)
        (held,) = layout.on_walls
        assert held.cradle_packers_mm == (5.0 if packed else 0.0)
        assert [p.id for p in scene.fitted if p.id == "r-1/packer-cradle"] == ["r-1/packer-cradle"] * packed
        assert held.stand_out_mm >= bow.proudest_mm(1000.0 + 59.0, 1000.0 + 87.0) - 1e-9
        wall = scene.part("room/w1")
        assert all(shared_mm3(wall, part) < 1e-3 for part in on_the_wall(scene))


def test_what_hangs_on_a_bowed_wall_stands_on_its_face(family_a: Family) -> None:
    """A socket-outlet on a belly stands as far out as the wall's face there, its box in a pocket as deep as it is."""
    plan = bowed((1800.0, 9.0))
    socket = SocketOutlet(
        id="s",
        wall_id="w1",
        frame=RING.walls[0].frame,
        along_mm=900.0,
        up_mm=450.0,
        plate_width_mm=86.0,
        plate_height_mm=86.0,
        plate_proud_mm=9.0,
        box_width_mm=70.0,
        box_height_mm=70.0,
        box_depth_mm=35.0,
    )
    plan = replace(plan, room=replace(plan.room, obstacles=(socket,)))
    _, scene = drawn(plan, family_a)
    straight = compose(plan.room, lay_out(plan, family_a), family_a)
    for part in ("room/s/plate", "room/s/back-box"):
        moved, was = scene.part(part).placement.origin_mm, straight.part(part).placement.origin_mm
        assert (moved[0], moved[1] - was[1], moved[2]) == pytest.approx((was[0], 4.5, was[2]))
    assert wall_spec(scene).recesses == ((865.0, 935.0, 415.0, 485.0, 30.5),)
    assert shared_mm3(scene.part("room/w1"), scene.part("room/s/back-box")) < 1e-3
