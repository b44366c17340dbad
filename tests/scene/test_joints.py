"""Elbows, links and couplers in place: legs, hoses, O-rings, screws."""

from __future__ import annotations

import math

import pytest

from model3d.geometry.placement import Vec3, add, dot, scale, subtract
from model3d.layout import Joint, Layout, Piece, lay_out
from model3d.parts.fittings import CouplerSpec, ElbowSpec, SpigotSpec
from model3d.scene import Part, Scene, compose
from tests.layout.every_joint import EndFitting, every_joint_plan, family_of
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over
from tests.scene.scenes import (
    UP,
    WAYS,
    apart,
    by_role,
    end_face,
    hose_end,
    laid,
    long_leg_tip,
    placed,
    room_normal,
    short_leg,
)

# Working insertions and O-rings by family: long leg, short leg, link, coupler, end fittings; rings from the tip.
WORKING_MM = {
    "a-square": {"elbow": (34.0, 24.0), "link": (24.0, 24.0), "coupler": (24.0, 24.0), "end": 24.0},
    "b-moulded": {"elbow": (36.0, 27.0), "link": (27.0, 27.0), "coupler": (27.0, 27.0), "end": 27.0},
    "c-low": {"link": (28.0, 28.0), "coupler": (28.0, 28.0), "end": 28.0},
}
NEAR_MM = 1e-6  # lengths of solids are rounded to a millionth, so that like parts share one shape
FROM_TIP_MM = {"a-square": (6.0, 14.0), "b-moulded": (6.5, 15.5), "c-low": (7.0, 16.0)}


def pieces_of(layout: Layout, joint: Joint) -> tuple[Piece, Piece]:
    """The pieces before and after a joint."""
    by_mark = {p.mark: p for p in layout.pieces}
    return by_mark[joint.earlier], by_mark[joint.later]


def bores(scene: Scene, piece: Piece, end: str, name: str) -> list[tuple[Vec3, Vec3]]:
    """For each waterway of a cut face, lower first: the bore's middle on the face, and the way into the piece.

    From the placed piece's own section: u out from the back plane, v up from the underside.
    """
    face, into = end_face(scene, piece, end)
    out = room_normal(scene, piece.wall.id)
    centres = [w.centre for w in family_of(name).section.waterways]
    return [(add(face, add(scale(out, u), scale(UP, v))), into) for u, v in centres]


def depth_and_miss(tip: Vec3, bore: tuple[Vec3, Vec3]) -> tuple[float, float]:
    """How deep a leg's tip stands in a bore, and how far off the bore's middle line."""
    deep = dot(subtract(tip, bore[0]), bore[1])
    return deep, apart(tip, add(bore[0], scale(bore[1], deep)))


def of_joint(scene: Scene, joint: Joint, role: str) -> list[Part]:
    """The parts of one role of a joint."""
    return [p for p in by_role(scene, role) if p.joint == joint.mark]


@pytest.mark.parametrize(("name", "sense"), [w for w in WAYS if w[0] != "c-low"])
def test_elbow_legs(name: str, sense: int) -> None:
    """An elbow's long leg lies in the middle of the earlier piece's bore and its short leg in that of the later one's,
    to 1e-9, each at its working insertion.
    """
    _, layout, scene = laid(name, sense)
    elbows = [j for j in layout.runs[0].joints if j.kind == "elbow"]
    assert len(elbows) == 3
    for joint in elbows:
        earlier, later = pieces_of(layout, joint)
        pair = of_joint(scene, joint, "elbow")
        long_bores, short_bores = bores(scene, earlier, "end", name), bores(scene, later, "start", name)
        for part, long_bore, short_bore in zip(pair, long_bores, short_bores, strict=True):
            tip, way = short_leg(part)
            assert dot(part.placement.x_axis, long_bore[1]) == pytest.approx(-1.0, abs=1e-12)
            assert dot(way, short_bore[1]) == pytest.approx(1.0, abs=1e-12)
            want_long, want_short = WORKING_MM[name]["elbow"]
            for tip_mm, bore, want in ((long_leg_tip(part), long_bore, want_long), (tip, short_bore, want_short)):
                deep, miss = depth_and_miss(tip_mm, bore)
                assert deep == pytest.approx(want, abs=NEAR_MM)
                assert miss == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("off_deg", [-1.9, -0.5, 0.25, 1.9])
@pytest.mark.parametrize("sense", [1, -1])
def test_elbow_legs_within_its_play(off_deg: float, sense: int) -> None:
    """In a corner a little off square the bend takes the corner's turn, and both legs still lie in their bores."""
    turn = math.radians(90.0 + off_deg)
    away = (4000.0 + 3000.0 * math.cos(turn), 3000.0 * math.sin(turn))
    ring = ring_of([(0.0, 0.0), (4000.0, 0.0), away, (-200.0, 3200.0)])
    family = family_of("a-square")
    run = run_over(ring, 1 if sense > 0 else 2, 2, sense=sense)
    layout, scene = placed(plan_of(ring, run), family)
    (joint,) = layout.runs[0].joints
    earlier, later = pieces_of(layout, joint)
    assert joint.kind == "elbow"
    for part, long_bore, short_bore in zip(
        of_joint(scene, joint, "elbow"),
        bores(scene, earlier, "end", "a-square"),
        bores(scene, later, "start", "a-square"),
        strict=True,
    ):
        assert isinstance(part.spec, ElbowSpec)
        assert part.spec.turn_deg == pytest.approx(90.0 + off_deg, abs=1e-6)
        assert depth_and_miss(long_leg_tip(part), long_bore) == pytest.approx((34.0, 0.0), abs=1e-6)
        assert depth_and_miss(short_leg(part)[0], short_bore) == pytest.approx((24.0, 0.0), abs=1e-6)


@pytest.mark.parametrize(("name", "sense"), WAYS)
def test_hoses_meet_their_spigots(name: str, sense: int) -> None:
    """A hose runs level from the earlier piece's spigot to the later one's, and arrives in line with it."""
    family, layout, scene = laid(name, sense)
    links = [j for j in layout.runs[0].joints if j.kind == "link"]
    assert len(links) == (4 if name != "c-low" else 7)
    for joint in links:
        spigots = {p.id.rsplit("link-spigot-", 1)[1]: p for p in of_joint(scene, joint, "spigot")}
        for hose, waterway in zip(of_joint(scene, joint, "hose"), ("lower", "upper"), strict=True):
            first, last = spigots[f"end-{waterway}"], spigots[f"start-{waterway}"]
            assert apart(hose.placement.origin_mm, shoulder(first)) == pytest.approx(0.0, abs=1e-9)
            assert dot(hose.placement.x_axis, first.placement.x_axis) == pytest.approx(-1.0, abs=1e-12)
            there, way = hose_end(hose)
            assert apart(there, shoulder(last)) == pytest.approx(0.0, abs=1e-4)
            assert dot(way, last.placement.x_axis) == pytest.approx(1.0, abs=1e-9)
            assert dot(hose.placement.z_axis, UP) == 1.0
            in_plan = 2.0 * joint.straight_mm + family.link.arc_radius_mm * math.radians(abs(joint.turn_deg))
            assert in_plan == pytest.approx(family.link.hose_length_mm - family.link.slack_mm, abs=1e-9)


def shoulder(spigot: Part) -> Vec3:
    """Where a spigot's hose begins: its stub's length outside the cut face."""
    assert isinstance(spigot.spec, SpigotSpec)
    return spigot.placement.point((-spigot.spec.stub_mm, 0.0, 0.0))


@pytest.mark.parametrize(("name", "sense"), WAYS)
def test_spigots_and_couplers_stand_in_their_bores(name: str, sense: int) -> None:
    """Both ends of a link, and of a coupler, stand at their full insertion in the middle of their bores."""
    _, layout, scene = laid(name, sense)
    for joint in (j for j in layout.runs[0].joints if j.kind != "elbow"):
        earlier, later = pieces_of(layout, joint)
        sides = [*bores(scene, earlier, "end", name), *bores(scene, later, "start", name)]
        tips = [t for part in of_joint(scene, joint, "spigot") for t in [spigot_tip(part)]]
        tips += [t for part in of_joint(scene, joint, "coupler") for t in coupler_tips(part)]
        assert len(tips) == 4
        for bore in sides:
            best = min((depth_and_miss(tip, bore) for tip in tips), key=lambda found: found[1] + abs(found[0] - 25.0))
            assert best == pytest.approx((WORKING_MM[name][joint.kind][0], 0.0), abs=NEAR_MM)


def spigot_tip(part: Part) -> Vec3:
    """Where a spigot's leg ends inside the piece."""
    assert isinstance(part.spec, SpigotSpec)
    return part.placement.point((part.spec.insertion_mm, 0.0, 0.0))


def coupler_tips(part: Part) -> list[Vec3]:
    """Both ends of a coupler."""
    assert isinstance(part.spec, CouplerSpec)
    reach = part.spec.gap_mm / 2.0 + part.spec.insertion_mm
    return [part.placement.point((x, 0.0, 0.0)) for x in (-reach, reach)]


@pytest.mark.parametrize(("name", "sense"), WAYS)
def test_screws_can_be_reached(name: str, sense: int) -> None:
    """The screw heads of links face up, in family (c) the room, at both ends of every link."""
    _, layout, scene = laid(name, sense)
    for joint in (j for j in layout.runs[0].joints if j.kind == "link"):
        for part in of_joint(scene, joint, "spigot"):
            toward = room_normal(scene, part.wall or "") if name == "c-low" else UP
            assert dot(part.placement.z_axis, toward) == pytest.approx(1.0, abs=1e-12)


@pytest.mark.parametrize("sense", [1, -1])
def test_front_screws_need_opposite_turns(sense: int) -> None:
    """With screws to the room, the spigots at a link's two ends are turned a quarter the one and the other way."""
    _, layout, scene = laid("c-low", sense)
    for joint in (j for j in layout.runs[0].joints if j.kind == "link"):
        ends = {p.id.split("spigot-")[1].split("-")[0]: p.placement.y_axis[2] for p in of_joint(scene, joint, "spigot")}
        assert sorted(ends.values()) == pytest.approx([-1.0, 1.0])


def test_turning_screws_leaves_the_rest_alone() -> None:
    """Screws to the room instead of up turn the spigots about their own axes, and nothing else."""
    family = family_of("c-low")
    up = family.model_copy(update={"link": family.link.model_copy(update={"screw_access": "above"})})
    front = laid("c-low", 1)[2]
    plan = every_joint_plan(1)
    above = compose(plan.room, lay_out(plan, up), up)
    for a, b in zip(front.parts, above.parts, strict=True):
        assert (a.id, a.spec, a.placement.origin_mm, a.placement.x_axis) == (
            b.id,
            b.spec,
            b.placement.origin_mm,
            b.placement.x_axis,
        )
        assert (a.placement == b.placement) == (a.role != "spigot")


@pytest.mark.parametrize("end_fitting", ["return", "turn-back"])
@pytest.mark.parametrize(("name", "sense"), WAYS)
def test_orings(name: str, sense: int, end_fitting: EndFitting) -> None:
    """Each leg carries its O-rings, at their distances from the tip, in the bore of the piece that they press on:
    eight to a joint, four to an end fitting.
    """
    _, layout, scene = laid(name, sense, end_fitting)
    rings = by_role(scene, "o-ring")
    joints = layout.runs[0].joints
    assert len(rings) == 8 * len(joints) + 4 + 4
    wanted: list[Vec3] = []
    for joint in joints:
        for piece, end, depth in zip(
            pieces_of(layout, joint), ("end", "start"), WORKING_MM[name][joint.kind], strict=True
        ):
            wanted += seats(scene, piece, end, name, depth)
    runs = layout.runs[0].pieces
    for piece, end in ((runs[0], "start"), (runs[-1], "end")):
        wanted += seats(scene, piece, end, name, WORKING_MM[name]["end"])
    for ring in rings:
        assert min(apart(ring.placement.origin_mm, seat) for seat in wanted) < NEAR_MM, ring.id
        (bore,) = ring.presses_on
        assert scene.part(bore).role == "piece"
        assert apart_along(scene, bore, ring) < 1e-9
    assert len({tuple(round(x, 3) for x in ring.placement.origin_mm) for ring in rings}) == len(wanted)


def seats(scene: Scene, piece: Piece, end: str, name: str, depth_mm: float) -> list[Vec3]:
    """Where the O-rings of legs stand that reach so deep into an end."""
    return [
        add(face, scale(into, depth_mm - from_tip))
        for face, into in bores(scene, piece, end, name)
        for from_tip in FROM_TIP_MM[name]
    ]


def apart_along(scene: Scene, piece_id: str, ring: Part) -> float:
    """How far an O-ring's axis is from being the piece's own."""
    return 1.0 - abs(dot(scene.part(piece_id).placement.x_axis, ring.placement.x_axis))


@pytest.mark.parametrize("name", ["a-square", "b-moulded"])
def test_a_wrong_insertion_is_seen(name: str) -> None:
    """An elbow pushed a hundredth of a millimetre too deep is told from one in its place."""
    _, layout, scene = laid(name, 1)
    joint = next(j for j in layout.runs[0].joints if j.kind == "elbow")
    part = of_joint(scene, joint, "elbow")[0]
    bore = bores(scene, pieces_of(layout, joint)[0], "end", name)[0]
    moved = add(long_leg_tip(part), scale(bore[1], 0.01))
    assert depth_and_miss(moved, bore)[0] != pytest.approx(WORKING_MM[name]["elbow"][0], abs=1e-3)
