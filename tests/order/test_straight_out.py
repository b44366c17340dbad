"""Real solids taken apart: stacks, interlocks and rings with known answers."""

from __future__ import annotations

import math

import cadquery as cq
import pytest

from model3d.geometry.placement import Placement, Vec3, at
from model3d.motion import MotionBody, mesh_of
from model3d.order.apart import take_apart
from model3d.order.get_out import get_out
from model3d.order.straight_out import straight_out

AXES: tuple[Vec3, ...] = (
    (0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, -1.0, 0.0), (0.0, 0.0, -1.0),
)  # fmt: skip


def body(name: str, solid: cq.Workplane, x: float = 0.0, y: float = 0.0, z: float = 0.0) -> MotionBody:
    """A solid standing somewhere."""
    return MotionBody(id=name, mesh=mesh_of(solid.val(), name), placement=at(x, y, z))


def box(name: str, low: Vec3, high: Vec3) -> MotionBody:
    """A box between two corners."""
    size = [b - a for a, b in zip(low, high, strict=True)]
    return body(name, cq.Workplane().box(*size, centered=False), *low)


def dovetail(gap_mm: float) -> list[MotionBody]:
    """A dovetail tongue in its groove, along x, with a gap all round."""
    tongue = cq.Workplane("YZ").polyline([(-16, 0), (16, 0), (10, 12), (-10, 12)]).close().extrude(60)
    g = gap_mm
    groove = cq.Workplane("YZ").polyline([(-16 - g, -g), (16 + g, -g), (10 + g, 12 + g), (-10 - g, 12 + g)]).close()
    outer = cq.Workplane("YZ").rect(60, 40).extrude(60)
    outer = outer.cut(groove.extrude(60))
    roof = cq.Workplane("YZ").polyline([(-30, 12 + g), (30, 12 + g), (30, 20), (-30, 20)]).close().extrude(60)
    return [body("block", outer.cut(roof)), body("tongue", tongue)]


def test_a_stack_of_plates_in_a_tray_goes_from_the_bottom() -> None:
    """Plates that touch in a tray that never goes are put in from the bottom up, whatever order they are listed in."""
    tray = cq.Workplane().box(100, 100, 60, centered=(True, True, False)).faces(">Z").shell(-5)
    plates = [box(f"plate-{k}", (-40.0, -40.0, 5.0 + 10.0 * k), (40.0, 40.0, 15.0 + 10.0 * k)) for k in (2, 0, 3, 1)]
    stack = straight_out([body("tray", tray), *plates], directions=AXES, fixed={"tray"})
    apart = take_apart(stack)
    assert [r.thing for r in apart.order] == [f"plate-{k}" for k in range(4)]
    assert {r.way for r in apart.removals} == {(0.0, 0.0, 1.0)}


def test_a_dovetail_goes_along_its_groove_alone() -> None:
    """A dovetail tongue goes out along its groove, not up, though up is preferred."""
    apart = take_apart(straight_out(dovetail(0.2), directions=AXES, fixed={"block"}))
    assert [(r.thing, r.way) for r in apart.removals] == [("tongue", (1.0, 0.0, 0.0))]
    barred = straight_out(dovetail(0.2), directions=AXES[:1], fixed={"block"})
    assert [(h.thing, h.by) for h in take_apart(barred).holds] == [("tongue", "block")]


def test_what_ends_the_groove_must_go_first() -> None:
    """With stops at both ends of the groove, one stop has to come off, and one alone, to get the tongue out."""
    stops = [
        box("stop-a", (60.5, -16.0, -5.0), (65.0, 16.0, 15.0)),
        box("stop-b", (-5.0, -16.0, -5.0), (-0.5, 16.0, 15.0)),
    ]
    out = get_out(straight_out([*dovetail(0.2), *stops], directions=AXES, fixed={"block"}), "tongue")
    assert isinstance(out, tuple)
    assert len(out) == 2
    assert out[-1].thing == "tongue"


def test_linked_rings_are_trapped() -> None:
    """Two rings linked as in a chain go nowhere straight, each held by the other; beside each other they go."""
    ring = cq.Workplane(obj=cq.Solid.makeTorus(20.0, 3.0))
    turned = Placement(
        origin_mm=(20.0, 0.0, 0.0), x_axis=(1.0, 0.0, 0.0), y_axis=(0.0, 0.0, 1.0), z_axis=(0.0, -1.0, 0.0)
    )
    mesh = mesh_of(ring.val(), "ring", deflection_mm=0.5, angle_deg=30.0)
    one = MotionBody(id="one", mesh=mesh, placement=at(0.0, 0.0, 0.0))
    other = MotionBody(id="other", mesh=mesh, placement=turned)
    apart = take_apart(straight_out([one, other], directions=AXES))
    assert apart.trapped == ("one", "other")
    assert {(h.thing, h.by) for h in apart.holds} == {("one", "other"), ("other", "one")}
    clear = MotionBody(id="other", mesh=mesh, placement=turned.moved((30.0, 0.0, 0.0)))
    assert take_apart(straight_out([one, clear], directions=AXES)).trapped == ()


def test_a_way_that_does_not_end_in_the_open_is_no_way() -> None:
    """A bead in a long tube moves freely a little way, and is trapped all the same when both ends are shut; with one
    end open it goes, however far that is.
    """
    tube = cq.Workplane("YZ").circle(10).circle(6).extrude(400)
    bead = body("bead", cq.Workplane().sphere(5), 200.0)
    lids = [
        box("lid-a", (-5.0, -10.0, -10.0), (0.0, 10.0, 10.0)),
        box("lid-b", (400.0, -10.0, -10.0), (405.0, 10.0, 10.0)),
    ]
    bodies = [body("tube", tube), bead, *lids]
    names = {"tube", "lid-a", "lid-b"}
    shut = take_apart(straight_out(bodies, directions=AXES, fixed=names))
    assert shut.trapped == ("bead",)
    opened = take_apart(straight_out(bodies, directions=AXES, fixed=names - {"lid-a"}))
    assert [r.thing for r in opened.removals] == ["lid-a", "bead"]


@pytest.mark.parametrize("gap_mm", [0.1, 0.0])
def test_bodies_that_only_touch_do_not_block(gap_mm: float) -> None:
    """A peg in a hole it fits, with a tenth to spare or none at all, goes along the hole."""
    plate = cq.Workplane().box(40, 40, 10).faces(">Z").workplane().rect(10 + 2 * gap_mm, 10 + 2 * gap_mm).cutThruAll()
    peg = box("peg", (-5.0, -5.0, -5.0), (5.0, 5.0, 5.0))
    found = take_apart(straight_out([body("plate", plate), peg], directions=AXES, fixed={"plate"}))
    assert [(r.thing, r.way) for r in found.removals] == [("peg", (0.0, 0.0, 1.0))]


def test_thirty_blocks_that_overhang_go_from_the_lowest() -> None:
    """Thirty blocks up a spiral, each over the one before, go together from the lowest on, listed from the highest."""
    blocks = []
    for k in range(30):
        x, y = (400.0 * f(2.0 * math.pi * k / 30) for f in (math.cos, math.sin))
        blocks.append(box(f"b{k:02}", (x, y, 3.0 * k), (x + 90.0, y + 90.0, 3.0 * k + 3.0)))
    apart = take_apart(straight_out(list(reversed(blocks)), directions=AXES[:1]))
    assert [r.thing for r in apart.order] == [b.id for b in blocks]
