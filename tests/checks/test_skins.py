"""Skins hold their solids, flat faces where they are, and are as near as they say."""

from __future__ import annotations

import math
from collections.abc import Callable

import cadquery as cq
import manifold3d
import numpy as np
import pytest

from model3d.checks.engine import Tolerance
from model3d.checks.engine.depth import Points, Region
from model3d.checks.engine.facets import facets, joined, welded
from model3d.checks.engine.overlap import region_of
from model3d.checks.engine.skins import Skin, faces_of, skin
from model3d.checks.engine.verdict import INSET_SHARE
from model3d.layout import lay_out
from model3d.scene import compose
from model3d.solids.build import solid
from tests.checks.known_solids import ball, box, cone, drilled_plate, hook, obround_elbow, ring, rod
from tests.layout.every_joint import FAMILIES, every_joint_plan, family_of

SPARE_MM = (0.5 - INSET_SHARE) * Tolerance().contact_mm  # what the engine leaves for curves of the third order

SHAPES: dict[str, Callable[[], cq.Solid]] = {
    "box": lambda: box(30, 20, 10),
    "rod": lambda: rod(6, 40),
    "ball": lambda: ball(12),
    "ring": lambda: ring(20, 3),
    "cone": lambda: cone(17, 5, 12),
    "drilled plate": lambda: drilled_plate(8),
    "hook": hook,
    "obround elbow": obround_elbow,
}


def true_points(body: cq.Solid, deflection_mm: float = 0.002) -> Points:
    """Points on the true faces of a solid: five hundred nodes of a fine kernel mesh."""
    mesh = joined(facets(body.wrapped, deflection_mm=deflection_mm, angle_rad=0.1))
    return np.asarray(mesh.points[:: 1 + len(mesh.points) // 500])


def plain_region(body: cq.Solid, deflection_mm: float) -> Region:
    """A kernel mesh as it comes."""
    mesh = joined(facets(body.wrapped, deflection_mm=deflection_mm, angle_rad=0.35))
    kept, number, whole = welded(mesh)
    return Region(points=mesh.points[kept], triangles=number[mesh.triangles[whole]])


def held_region(held: Skin) -> Region:
    """A skin as a region."""
    assert held.manifold is not None
    return region_of(held.manifold)


def sticks_out_mm(points: Points, region: Region) -> float:
    """How far the furthest of the points stands outside a region."""
    outside = [p for p in points if not region.holds(p)]
    return max((region.clearance_mm(p) for p in outside), default=0.0)


@pytest.mark.parametrize("deflection_mm", [0.3, 0.1, 0.02])
@pytest.mark.parametrize("name", SHAPES)
def test_no_part_of_a_solid_is_outside_its_skin(name: str, deflection_mm: float) -> None:
    """Whatever the deflection, nothing of the solid stands outside a skin that is not drawn in."""
    body = SHAPES[name]()
    held = skin(body.wrapped, inset_mm=0.0, deflection_mm=deflection_mm)
    assert sticks_out_mm(true_points(body), held_region(held)) < 1e-6


@pytest.mark.parametrize("name", ["rod", "ball", "ring", "cone", "obround elbow"])
def test_a_plain_mesh_does_not_hold_a_round_solid(name: str) -> None:
    """The kernel's mesh as it comes fails that: a round face bulges out of it."""
    body = SHAPES[name]()
    assert sticks_out_mm(true_points(body), plain_region(body, 0.1)) > 0.015


@pytest.mark.parametrize("name", FAMILIES)
def test_parts_of_every_family_are_inside_their_skins(name: str) -> None:
    """Nothing of any fitted part of the reference families stands outside its skin, nor is the skin further
    off than it says.
    """
    plan, family = every_joint_plan(1), family_of(name)
    scene = compose(plan.room, lay_out(plan, family), family)
    kinds = {p.role: p for p in scene.fitted}
    for role, part in kinds.items():
        body = solid(part.spec)
        held = skin(body.wrapped, inset_mm=0.0, deflection_mm=0.1)
        assert held.manifold is not None, role
        assert sticks_out_mm(true_points(body, 0.02)[::2], held_region(held)) < SPARE_MM, role
        spare = held.manifold.volume() - body.Volume()
        assert -1e-6 <= spare <= held.slack_mm * body.Area() * 1.05 + 1e-6, role


@pytest.mark.parametrize("inset_mm", [0.0, 0.01])
def test_flat_faces_stay_where_they_are(inset_mm: float) -> None:
    """The skin of a box is the box, its corners drawn in by the inset and no further: by the root of a third of it on
    every side.
    """
    held = skin(box(30, 20, 10).wrapped, inset_mm=inset_mm, deflection_mm=0.1)
    assert held.manifold is not None
    assert held.manifold.volume() == pytest.approx(
        math.prod(s - 2 * inset_mm / math.sqrt(3.0) for s in (30, 20, 10)), rel=1e-9
    )


def test_a_round_edge_does_not_lift_the_flat_beside_it() -> None:
    """Where a flat face runs on smoothly into a round one, the skin slides along the flat: it does not rise
    above it.
    """
    bar = cq.Workplane().box(40, 30, 20).edges("|X and >Z").fillet(5).solids().val()
    assert isinstance(bar, cq.Solid)
    held = skin(bar.wrapped, inset_mm=0.0, deflection_mm=0.1)
    assert held.manifold is not None
    assert held.hull[:, 2].max() == pytest.approx(10.0, abs=1e-9)
    assert sticks_out_mm(true_points(bar), held_region(held)) < 1e-6


def test_refined_faces_are_nearer() -> None:
    """Refining the faces that matter brings the skin nearer there."""
    body = ring(20, 3)
    coarse = skin(body.wrapped, inset_mm=0.0, deflection_mm=0.2)
    fine = skin(body.wrapped, inset_mm=0.0, deflection_mm=0.2, refined=(0,), refined_mm=0.01)
    volumes = []
    for held in (coarse, fine):
        assert held.manifold is not None
        volumes.append(held.manifold.volume())
    assert volumes[0] > volumes[1] > body.Volume()
    assert fine.slack_mm < coarse.slack_mm / 5


def test_what_is_shared_names_its_faces() -> None:
    """The faces that bound an overlap of two skins are told, each for its own solid."""
    a, b = (
        skin(box(30, 20, 10).wrapped, inset_mm=0.0, deflection_mm=0.1),
        skin(rod(4, 40).wrapped, inset_mm=0.0, deflection_mm=0.1),
    )
    assert a.manifold is not None
    assert b.manifold is not None
    shared = a.manifold ^ b.manifold.translate((15.0, 10.0, -20.0))
    assert len(faces_of(shared, a)) == 2  # top and bottom, where the rod goes through
    assert len(faces_of(shared, b)) == 1  # its round side
    assert faces_of(shared, stranger()) == ()


def stranger() -> Skin:
    """A skin that has no part in an overlap."""
    return skin(box(1, 1, 1).wrapped, inset_mm=0.0, deflection_mm=0.1)


def test_distances_of_many_places_are_those_of_each() -> None:
    """From places within a box it is as far to its surface as to the nearest of its six sides (closed form), measured
    one by one or together, with any bound that is true.
    """
    sides = np.array([10.0, 8.0, 6.0])
    region, rng = region_of(manifold3d.Manifold.cube(sides.tolist())), np.random.default_rng(5)
    places = rng.uniform(0.01, 0.99, (200, 3)) * sides
    right = np.minimum(places, sides - places).min(axis=1)
    for spare in (1.0, 1.5, 20.0):
        assert region.clearances_mm(places, right * spare) == pytest.approx(right, abs=1e-9)
    assert [region.clearance_mm(place) for place in places] == pytest.approx(right, abs=1e-9)
