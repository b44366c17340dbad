"""Bent hoses as bodies: what their outsides meet while a step bends them.

What a link's own parts, its two pieces' ends and, but at an external corner whose edge would cut it, the flat walls
behind it are to a hose is no collision: it lies against them.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from itertools import product

import numpy as np

from model3d.geometry.placement import Placement, Vec3
from model3d.layout import Joint
from model3d.motion import MotionBody
from model3d.motion.surface import gap
from model3d.motion.way import SKIN_MM
from model3d.moves.bent_lines import Bending, BentLeg, bendings, hose_frame, surface_of
from model3d.moves.values import Stop
from model3d.moves.ways import Site
from model3d.scene import Part

OWN_ENDS = frozenset({"piece", "clip"})
HALVINGS = 6
FINER = 16  # points to a segment of a line where the place of a contact is sought


def hose_stop(site: Site, gone: Collection[str] = ()) -> Stop | None:
    """What the step's bent hoses meet first; None when they, or where they can give their slack to another side those
    there, meet nothing. Parts that are ``gone`` stop nothing.
    """
    for joint, ways in bendings(site):
        first = None
        for way in ways:
            found = _first(site, joint, way, gone)
            if found is None:
                break
            first = first or found
        else:
            return first
    return None


def hose_meets(site: Site) -> frozenset[str]:
    """Ids of parts that must not be there for the step's hoses to bend as they have to: what they meet whichever side
    their slack goes to, and if that is not the same, what they meet with it on the first.
    """
    met: set[str] = set()
    for joint, ways in bendings(site):
        sets = [frozenset(part.id for _, part, _ in _met(site, joint, way, ())) for way in ways]
        if all(sets):
            met |= frozenset.intersection(*sets) or sets[0]
    return frozenset(met)


def _met(
    site: Site, joint: Joint, way: Bending, gone: Collection[str]
) -> Iterator[tuple[Part, Part, Placement]]:
    """The hose, the part and the hose's frame of every pair that meets."""
    hoses = [p for p in site.scene.fitted if p.joint == joint.mark and p.role == "hose"]
    for hose, part in product(hoses, site.standing):
        if part.id not in gone and _counts(site, joint, part):
            frame = hose_frame(site, joint, hose.placement.origin_mm)
            if _meets(site, way, frame, site.shapes.body(part)):
                yield hose, part, frame


def _counts(site: Site, joint: Joint, part: Part) -> bool:
    if not site.stands(part) or part.joint == joint.mark:
        return False
    pieces = (joint.earlier, joint.later)
    if part.role in OWN_ENDS and part.piece in pieces:
        return False
    return part.role != "wall" or joint.turn_deg < 0.0 or part.wall not in {site.pieces[m].wall.id for m in pieces}


def _meets(site: Site, way: Bending, frame: Placement, body: MotionBody) -> bool:
    """Whether a body stands within the hose's radius of all that its line passes; asked once of like places."""
    at = frame.inverse() @ body.placement
    key = (way, body.mesh, tuple(round(v, 6) + 0.0 for v in (*at.origin_mm, *at.x_axis, *at.y_axis)))
    if key not in site.shapes.memo:
        within = site.family.link.outer_radius_mm - SKIN_MM
        near = _boxes_near(way, body, at, within)
        found = gap(way.whole, body.mesh.surface, at, within_mm=within) if near else None
        site.shapes.memo[key] = None if found is None else found.distance_mm
    return site.shapes.memo[key] is not None


def _boxes_near(way: Bending, body: MotionBody, at: Placement, within_mm: float) -> bool:
    x, y, z = body.mesh.box.T.tolist()
    corners = np.array([at.point(c) for c in product(x, y, z)])
    low, high = way.box
    return bool(np.all(corners.min(axis=0) <= high + within_mm) and np.all(corners.max(axis=0) >= low - within_mm))


def _first(site: Site, joint: Joint, way: Bending, gone: Collection[str]) -> Stop | None:
    """The earliest contact of a link's hoses."""
    stops = [_stop(site, way, hose, part, frame) for hose, part, frame in _met(site, joint, way, gone)]
    order = [leg.name for leg in way.legs]
    return min(stops, key=lambda s: (order.index(s.leg), s.done_mm), default=None)


def _stop(site: Site, way: Bending, hose: Part, part: Part, frame: Placement) -> Stop:
    body = site.shapes.body(part)
    at = frame.inverse() @ body.placement
    within = site.family.link.outer_radius_mm - SKIN_MM
    for leg in way.legs:
        near = [gap(leg.at(k), body.mesh.surface, at, within_mm=within) for k in range(len(leg.lines))]
        k = next((k for k, found in enumerate(near) if found is not None), None)
        if k is not None:
            share, place = _contact(leg, k, body, at, within)
            least = min(found.distance_mm for found in near if found is not None)
            return Stop(
                leg=leg.name,
                done_mm=leg.length_mm * share,
                mover=hose.id,
                standing=part.id,
                place_mm=frame.point(place),
                depth_mm=site.family.link.outer_radius_mm - least,
                deepest="on the way",
                lasting=gap(way.legs[-1].at(-1), body.mesh.surface, at, within_mm=within) is not None,
            )
    raise ValueError(f"{hose.id} does not meet {part.id}")


def _contact(leg: BentLeg, k: int, body: MotionBody, at: Placement, within_mm: float) -> tuple[float, Vec3]:
    """The share of the leg at which line ``k``, the first that is too near, comes to be so, and the place on the body,
    in the hose's frame.
    """
    low, high = (0.0, 1.0) if k > 0 else (0.0, 0.0)
    for _ in range(HALVINGS if k > 0 else 0):
        middle = (low + high) / 2.0
        line = leg.between(k - 1, middle)[1]
        met = gap(surface_of(line[None]), body.mesh.surface, at, within_mm=within_mm) is not None
        low, high = (low, middle) if met else (middle, high)
    share, line = leg.between(k - 1, high) if k > 0 else (float(leg.shares[0]), leg.lines[0])
    found = gap(surface_of(line[None]), body.mesh.surface, at, within_mm=within_mm)
    if found is None:
        raise ValueError("no contact where there was one")
    middle_mm = np.array(found.place_mm)
    steps = np.linspace(0.0, 1.0, FINER, endpoint=False)[:, None, None]
    fine = (line[:-1] + steps * np.diff(line, axis=0)).reshape(-1, 3)
    nearest = fine[int(np.argmin(np.linalg.norm(fine - middle_mm, axis=1)))]
    x, y, z = (2.0 * middle_mm - nearest).tolist()
    return share, (x, y, z)
