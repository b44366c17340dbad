"""Tries ways against what stands: free, or what stops them."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace

from manifold3d import Manifold

from model3d.checks.engine.bodies import matrix
from model3d.checks.engine.overlap import mesh_overlap
from model3d.geometry.placement import Placement
from model3d.motion import Blocked, Contact, Give, MotionBody, Moving, Nearest, blocked, contacts, nearest
from model3d.motion.from_solids import as_manifold
from model3d.motion.sweep import stands_in
from model3d.motion.way import SKIN_MM, Meant
from model3d.moves.meant import beside_the_point, meant_on
from model3d.moves.shapes import part_id
from model3d.moves.values import Stop
from model3d.moves.ways import Site, Way

NEAR_MM = 20.0  # clearances wider than this are not told
MOST_POSES = 8
ON_THE_WAY = 12  # places on a way that are looked at for a depth that is over at its end


def first_stop(site: Site, ways: Iterable[Way], gone: Collection[str] = ()) -> Stop | None:
    """What stops the first of the ways that is not free; parts that are ``gone`` stop nothing."""
    for way in ways:
        found = blocked(
            way.movers,
            [b for b in way.standing if part_id(b.id) not in gone],
            meant=meant_on(site.family, site.find, way.name, site.marks),
            memo=site.shapes.memo,
        )
        if found is not None:
            return _stop(site, way, found)
    return None


def goes(site: Site, ways: Iterable[Way], gone: Collection[str] = ()) -> bool:
    """Whether nothing stops any of the ways; parts that are ``gone`` stop nothing."""
    return all(next(_contacts(site, way, gone), None) is None for way in ways)


def _contacts(site: Site, way: Way, gone: Collection[str]) -> Iterator[Contact]:
    return contacts(
        way.movers,
        [b for b in way.standing if part_id(b.id) not in gone],
        meant=meant_on(site.family, site.find, way.name, site.marks),
        memo=site.shapes.memo,
    )


def least_clearance(site: Site, ways: Iterable[Way]) -> Nearest | None:
    """How near the movers come, on ways that are free, to what they are not meant to touch."""
    found = narrowest(site, ways)
    return None if found is None else found[1]


def narrowest(site: Site, ways: Iterable[Way]) -> tuple[str, Nearest] | None:
    """The leg on which the movers come nearest to what they are not meant to touch, on ways that are free, and how
    near; None when they come near nothing.
    """
    best: tuple[str, Nearest] | None = None
    for way in ways:
        within = NEAR_MM if best is None else best[1].distance_mm
        found = nearest(_thinned(way.movers), way.standing, meant=_to_the_point(site, way), within_mm=within)
        best = best if found is None else (way.name, found)
    return best


def _thinned(movers: Iterable[Moving]) -> list[Moving]:
    """Movers in no more than ``MOST_POSES`` steps: a swing of 15 degrees then leaves its arcs by less than half a
    millimetre at 3 m, which no line of the table of difficulties turns on.
    """
    return [replace(m, poses=_some(m.poses)) for m in movers]


def _some(poses: tuple[Placement, ...]) -> tuple[Placement, ...]:
    apart = math.ceil((len(poses) - 1) / MOST_POSES)
    return (*poses[:-1:apart], poses[-1])


def _to_the_point(site: Site, way: Way) -> Meant:
    meant = meant_on(site.family, site.find, way.name, site.marks)
    walls = {site.group[0].wall.id, site.pieces[site.near.earlier].wall.id if site.near is not None else ""}

    def counted(mover: str, standing: str) -> Give | None:
        a, b = site.find(part_id(mover)), site.find(part_id(standing))
        return None if beside_the_point(a, b, walls) else meant(mover, standing)

    return counted


def _stop(site: Site, way: Way, found: Blocked) -> Stop:
    contact = found.contact
    mover = next(m for m in way.movers if m.id == contact.mover)
    body = next(b for b in way.standing if b.id == contact.standing)
    at_end = _depth_mm(_shared(mover, body, 1.0))
    depth = at_end or _depth_on_the_way_mm(mover, body, contact.share)
    return Stop(
        leg=way.name,
        done_mm=way.length_mm * contact.share,
        mover=part_id(contact.mover),
        standing=part_id(contact.standing),
        place_mm=found.place_mm,
        depth_mm=depth,
        deepest="at the end" if at_end > 0.0 else "on the way",
        lasting=_lasts(site, body),
    )


def _depth_on_the_way_mm(mover: Moving, body: MotionBody, begun: float) -> float:
    """The widest ball in the largest piece of space that the two would share at any of some places on the way."""
    shares = (begun + (1.0 - begun) * k / ON_THE_WAY for k in range(ON_THE_WAY))
    return _depth_mm(max((_shared(mover, body, s) for s in shares), key=lambda m: m.volume()))


def _shared(mover: Moving, body: MotionBody, share: float) -> Manifold:
    """What the two would share with so much of the way done."""
    there = matrix(mover.at(share).inverse() @ body.placement)
    standing = as_manifold(body.mesh.points, body.mesh.triangles).transform(there)
    return as_manifold(mover.mesh.points, mover.mesh.triangles) ^ standing


def _depth_mm(shared: Manifold) -> float:
    """The widest ball in what two share."""
    met = None if shared.is_empty() else mesh_overlap(shared)
    return 0.0 if met is None else met.depth_mm


def _lasts(site: Site, body: MotionBody) -> bool:
    """Whether any part of the step stands in the body in its final place."""
    mine = site.parts((*site.step.travels, *site.step.follows))
    there = [(p, body.placement.inverse() @ p.placement) for p in mine]
    skinned = [(site.shapes.mesh(p).drawn(SKIN_MM), at) for p, at in there]
    return any(stands_in(mesh, at, body.mesh) for mesh, at in skinned)
