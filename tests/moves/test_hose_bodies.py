"""Bent hoses as bodies: rods where only the hose passes are met, rods half a millimetre clear of it are not; the hose's
line is worked out again by a general solver of boundary value problems (scipy's ``solve_bvp``).
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import numpy as np
import numpy.typing as npt
import pytest
from scipy.integrate import solve_bvp

from model3d.layout import Joint
from model3d.moves import Shapes, check_moves
from model3d.moves.bent_lines import bendings
from model3d.moves.hose_bodies import hose_meets, hose_stop
from model3d.moves.sites import sites
from model3d.moves.ways import Site
from model3d.scene import Part
from tests.layout.every_joint import every_joint_plan, family_of
from tests.moves.rooms import ROD_MM, Fitting, lying_rod, rod, three_walls
from tests.steps.planned import planned

Line = npt.NDArray[np.float64]
MARK, CLEAR_MM = "r-2", 0.5
LOW, HIGH = 0.0, 400.0


def room() -> Fitting:
    """Three walls in the family without elbows, a link at each internal right angle."""
    return three_walls("c-low")


def joint_of(fitting: Fitting) -> Joint:
    """The link that the second piece is pushed onto."""
    joint = fitting.site(MARK).near
    assert joint is not None
    return joint


@cache
def elastic_line(length_mm: float, end_mm: tuple[float, float], turn_deg: float) -> Line:
    """Points (n, 2) of the plane elastica of this length from the origin along +x to ``end_mm``, its direction turned
    by ``turn_deg`` there: theta'' = fx sin theta - fy cos theta with two unknown forces (Euler), scipy's collocation.
    """
    turn = math.radians(turn_deg)

    def rates(_s: Line, y: Line, force: Line) -> Line:
        return np.stack([np.cos(y[2]), np.sin(y[2]), y[3], force[0] * np.sin(y[2]) - force[1] * np.cos(y[2])])

    def misses(a: Line, b: Line, _force: Line) -> Line:
        return np.array([a[0], a[1], a[2], b[0] - end_mm[0] / length_mm, b[1] - end_mm[1] / length_mm, b[2] - turn])

    s = np.linspace(0.0, 1.0, 41)
    guess = np.stack([np.sin(turn * s) / turn, (1.0 - np.cos(turn * s)) / turn, turn * s, np.full_like(s, turn)])
    found = solve_bvp(rates, misses, s, guess, p=[0.0, 0.0], tol=1e-8, max_nodes=20000)
    assert found.success
    return np.asarray(found.sol(np.linspace(0.0, 1.0, 2001))[:2].T * length_mm)


def line_at(fitting: Fitting, out_mm: float) -> Line:
    """The hose with its later end ``out_mm`` from its wall, as seen from where it begins on the first piece."""
    link, joint = fitting.family.link, joint_of(fitting)
    side = link.arc_radius_mm + joint.straight_mm
    return elastic_line(link.hose_length_mm, (round(side - out_mm, 6), round(side, 6)), joint.turn_deg)


def planted(fitting: Fitting, x_mm: float, y_mm: float) -> Part:
    """An upright rod at a place seen from where the hose begins."""
    piece = fitting.piece("r-1")
    along = piece.cut_length_mm + fitting.family.link.stub_mm + x_mm
    return rod(piece, along, fitting.family.section.bore_u_mm + y_mm, low_mm=LOW, high_mm=HIGH)


def gap_mm(fitting: Fitting, at: Line, out_mm: float) -> float:
    """Between the outsides of an upright rod and of the hose with its end so far out."""
    apart = np.linalg.norm(line_at(fitting, out_mm) - at, axis=1).min()
    return float(apart) - ROD_MM - fitting.family.link.outer_radius_mm


def beside(line: Line, k: int, apart_mm: float) -> Line:
    """The place so far to the left (the room's side) of a point of a line."""
    way = line[k + 1] - line[k - 1]
    left = np.array([-way[1], way[0]]) / np.linalg.norm(way)
    return np.asarray(line[k] + left * apart_mm)


def test_the_line_is_the_elastic_one() -> None:
    """The line of every pose is that of the general solver to a fiftieth of a millimetre, those between included."""
    fitting = room()
    ((_, (way,)),) = bendings(fitting.site(MARK))
    press = next(leg for leg in way.legs if leg.name == "press")
    for share, line in zip(press.shares[::3], press.lines[::3], strict=True):
        want = line_at(fitting, float(round(fitting.family.bracket.press_mm * (1.0 - share), 6)))
        off = [distance_to(point[:2], want) for point in line]
        assert max(off) < 0.02


def test_a_rod_that_only_the_waiting_hose_meets() -> None:
    """A rod beside the hose as it is held for the piece to meet it, half a millimetre in, clear of where it comes to
    lie, is met while the piece is pushed onto the links, in that step and no other; half a millimetre off it is not.
    """
    fitting, r = room(), room().family.link.outer_radius_mm
    press = fitting.family.bracket.press_mm
    line = line_at(fitting, press)
    for apart, met in ((r + ROD_MM - CLEAR_MM, True), (r + ROD_MM + CLEAR_MM, False)):
        at = beside(line, 1600, apart)
        assert gap_mm(fitting, at, press) == pytest.approx(-CLEAR_MM if met else CLEAR_MM, abs=0.02)
        assert all(gap_mm(fitting, at, out) > CLEAR_MM for out in np.linspace(press / 2.0, 0.0, 5))
        with_rod = fitting.beside(planted(fitting, *at))
        verdicts, findings = check_moves(
            with_rod.layout, with_rod.scene, with_rod.steps, with_rod.family, shapes=with_rod.shapes, clearances=False
        )
        assert [v.step for v in verdicts if not v.free] == ([fitting.site(MARK).step.number] if met else [])
        assert [(f.code, f.severity) for f in findings] == ([("move-blocked", "error")] if met else [])
        if met:
            (found,) = findings
            assert found.parts[0] in {"r-J1/link-hose-upper", "r-J1/link-hose-lower"}
            assert found.parts[1] == "room/rod"
            assert found.message.startswith("step 3: while it is pushed onto the links, from the start, Link hose")
            assert "0.5 mm deep on the way" in found.message
            assert found.remedy.startswith("Move rod")


def test_a_rod_that_the_hose_comes_to_as_the_piece_is_pressed() -> None:
    """A rod on the far side of the hose is met while the piece is pressed, after as far as the general solver says, at
    the place where the two outsides touch.
    """
    fitting, r = room(), room().family.link.outer_radius_mm
    press = fitting.family.bracket.press_mm
    at = beside(line_at(fitting, press / 3.0), 1400, -(r + ROD_MM))
    stop = hose_stop(fitting.beside(planted(fitting, *at)).site(MARK))
    assert stop is not None
    assert (stop.leg, stop.standing, stop.lasting) == ("press", "room/rod", True)
    out = [float(o) for o in np.linspace(press, 0.0, 81) if gap_mm(fitting, at, float(round(o, 6))) <= -0.04]
    assert stop.done_mm == pytest.approx(press - out[0], abs=0.3)
    piece = fitting.piece("r-1")
    along = piece.near_mm + piece.sense * (piece.cut_length_mm + fitting.family.link.stub_mm + float(at[0]))
    x, y = piece.wall.point_mm(along, fitting.family.section.bore_u_mm + float(at[1]))
    assert math.dist(stop.place_mm[:2], (x, y)) == pytest.approx(ROD_MM, abs=0.2)


def test_what_hoses_meet_bars_the_way_up() -> None:
    """For taking apart, the rod is named among what has to be gone, and without it the hoses bend."""
    fitting = room()
    at = beside(line_at(fitting, fitting.family.bracket.press_mm), 1000, fitting.family.link.outer_radius_mm)
    site = fitting.beside(planted(fitting, *at)).site(MARK)
    assert hose_meets(site) == frozenset({"room/rod"})
    assert hose_stop(site, {"room/rod"}) is None
    assert hose_meets(fitting.site(MARK)) == frozenset()


@cache
def every_joint(name: str, sense: int = 1) -> Fitting:
    """A run over all joints of a family: an in-line link, an external corner, a bay."""
    family, layout, scene, steps = planned(every_joint_plan(sense), family_of(name))
    return Fitting(family=family, layout=layout, scene=scene, steps=steps, shapes=Shapes(family=family))


def link_sites(fitting: Fitting) -> list[Site]:
    """The steps whose piece is pushed onto a link."""
    every = sites(fitting.layout, fitting.scene, fitting.steps, fitting.shapes)
    return [s for s in every if s.near is not None and s.near.kind == "link"]


@pytest.mark.slow
@pytest.mark.parametrize("sense", [1, -1])
def test_a_thick_hose_meets_the_edge_of_an_external_corner(sense: int) -> None:
    """At an external corner the walls' edge counts: a hose just thin enough for the least gap between its line and the
    edge passes, one that is half a millimetre thicker meets it.
    """
    fitting = every_joint("a-square", sense)
    site = next(s for s in link_sites(fitting) if s.near is not None and s.near.turn_deg < 0.0)
    assert site.near is not None
    ((_, (way,)),) = bendings(site)
    hose = next(p for p in fitting.scene.fitted if p.joint == site.near.mark and p.role == "hose")
    first, last = (site.pieces[m].wall for m in (site.near.earlier, site.near.later))
    corner = first.last_corner if sense > 0 else first.first_corner
    assert corner.id in {last.first_corner.id, last.last_corner.id}
    edge = np.array(hose.placement.inverse().point((*corner.at_mm, hose.placement.origin_mm[2])))[:2]
    lines = np.concatenate([leg.lines for leg in way.legs])[:, :, :2] * [1.0, 1.0]
    off = min(distance_to(edge, line) for line in lines)
    for radius, met in ((off - CLEAR_MM, False), (off + CLEAR_MM, True)):
        link = fitting.family.link.model_copy(update={"outer_radius_mm": radius})
        thick = fitting.family.model_copy(update={"link": link})
        stop = hose_stop(replace(site, family=thick, shapes=Shapes(family=thick, meshes=site.shapes.meshes)))
        assert (stop is not None) == met
        assert stop is None or stop.standing in {f"room/{first.id}", f"room/{last.id}"}


def distance_to(point: Line, line: Line) -> float:
    """From a point to a line of segments, in a plane."""
    a, way = line[:-1], np.diff(line, axis=0)
    share = np.clip(np.einsum("ij,ij->i", point - a, way) / np.einsum("ij,ij->i", way, way), 0.0, 1.0)
    return float(np.linalg.norm(point - a - share[:, None] * way, axis=1).min())


@pytest.mark.slow
def test_an_in_line_hose_gives_its_slack_where_there_is_room() -> None:
    """In-line the slack goes into the room; with a rod there, down or up; only with rods before, below and above the
    hoses are they stopped.
    """
    fitting = every_joint("a-square")
    site = next(s for s in link_sites(fitting) if s.near is not None and s.near.turn_deg == 0.0)
    assert site.near is not None
    piece = fitting.piece(site.near.earlier)
    middle = piece.cut_length_mm + fitting.family.link.stub_mm + site.near.straight_mm
    section, radius = fitting.family.section, fitting.family.link.outer_radius_mm
    heights = [section.floor_gap_mm + w.centre[1] for w in section.waterways]
    front = rod(piece, middle, section.bore_u_mm + radius + ROD_MM + 8.0, name="front")
    below = [lying_rod(piece, middle, 2.0, h - radius - ROD_MM - 2.0, 40.0) for h in heights]
    above = [lying_rod(piece, middle, 2.0, h + radius + ROD_MM + 2.0, 40.0) for h in heights]
    rods = {"front": [front], "below": below, "above": above}
    rods = {n: [replace(p, id=f"room/{n}{k}") for k, p in enumerate(parts)] for n, parts in rods.items()}
    ((_, sides),) = bendings(site)
    assert len(sides) == 3
    for names in (("front",), ("below",), ("above",), ("front", "below"), ("front", "below", "above")):
        there = [p for name in names for p in rods[name]]
        by_id = {**site.by_id, **{p.id: p for p in there}}
        stop = hose_stop(replace(site, standing=(*site.standing, *there), by_id=by_id))
        assert (stop is None) == (len(names) < 3)
