"""Whether two solids share more than they may: cheap and sure answers first, the kernel's exact boolean last.

Convex hulls apart along an axis of either; skins that hold the solids share nothing deep enough, coarse, then
fine; a slight overlap looked at closer, which says whether it is one; and only then the kernel for how much, whose
volume must lie within what the skins allow, and its depth be what was seen.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass, field, replace

import cadquery as cq
import manifold3d
import numpy as np

from model3d.checks.engine.bodies import Overlap, matrix
from model3d.checks.engine.closer import NOTHING, Seen, no_deeper, seen_closer
from model3d.checks.engine.cut_to_box import Looked
from model3d.checks.engine.depth import widest_ball
from model3d.checks.engine.facets import Facets
from model3d.checks.engine.neighbourhood import Boundary, Told, boundary, told
from model3d.checks.engine.overlap import exact_overlap, mesh_overlap, region_of
from model3d.checks.engine.skins import Skin, faces_of, meshed, skin
from model3d.geometry.placement import Placement

COARSE_MM, FINE_MM = 0.1, 0.005
NOTHING_MM3 = 1e-12
INSET_SHARE = 0.3  # of contact, each: half, less a fifth that the second order of a coarse skin may miss
HARDLY_MORE = 1.01  # times as many triangles: what is refined with the rest
AS_SEEN, AS_SEEN_MM = 0.05, 0.001
SAME_VOLUME = 1.0 + 1e-6
MOST_TRIANGLES = 12000  # of a skin worth refining to: past it the exact boolean is cheaper


@dataclass(slots=True)
class Memory:
    """What the engine has worked out, for the next time: meshes, skins and faces by shape, verdicts by pair of shapes
    and place. Keys must go on meaning the same solids.
    """

    meshes: dict[Hashable, tuple[Facets, ...] | None] = field(default_factory=dict)
    skins: dict[Hashable, Skin] = field(default_factory=dict)
    verdicts: dict[Hashable, Overlap | None] = field(default_factory=dict)
    boundaries: dict[Hashable, Boundary] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Solids:
    """The solids by key, with what is remembered of them."""

    shapes: Mapping[Hashable, cq.Solid]
    memory: Memory
    contact_mm: float

    def skin(self, key: Hashable) -> Skin:
        """The coarse skin of a shape, drawn in by a share of what counts as contact, made once."""
        return self._coarse(key, INSET_SHARE * self.contact_mm)

    def outside(self, key: Hashable) -> Skin:
        """The coarse skin of a shape, not drawn in: it holds the whole solid."""
        return self._coarse(key, 0.0)

    def _coarse(self, key: Hashable, inset_mm: float) -> Skin:
        name = (key, inset_mm)
        if name not in self.memory.skins:
            self.memory.skins[name] = skin(
                self.shapes[key].wrapped, self._mesh(key), inset_mm=inset_mm, deflection_mm=COARSE_MM
            )
        return self.memory.skins[name]

    def _mesh(self, key: Hashable) -> tuple[Facets, ...] | None:
        if key not in self.memory.meshes:
            self.memory.meshes[key] = meshed(self.shapes[key].wrapped, deflection_mm=COARSE_MM)
        return self.memory.meshes[key]

    def boundary(self, key: Hashable) -> Boundary:
        """The faces of a shape, read once."""
        if key not in self.memory.boundaries:
            self.memory.boundaries[key] = boundary(self.shapes[key].wrapped)
        return self.memory.boundaries[key]

    def finer(self, key: Hashable, faces: tuple[int, ...]) -> Skin:
        """The skin of a shape refined on some of its faces, made once."""
        rough = self.skin(key)
        if not faces:
            return rough
        every = tuple(range(len(rough.bows_mm)))
        if rough.count_at(every, FINE_MM) <= HARDLY_MORE * rough.count_at(faces, FINE_MM):
            faces = every  # one skin for all that asks for some of them
        name = (key, INSET_SHARE * self.contact_mm, faces)
        if name not in self.memory.skins:
            self.memory.skins[name] = skin(
                self.shapes[key].wrapped,
                self._mesh(key),
                inset_mm=INSET_SHARE * self.contact_mm,
                deflection_mm=COARSE_MM,
                refined=faces,
                refined_mm=FINE_MM,
            )
        return self.memory.skins[name]


def overlap_beyond(solids: Solids, a: Hashable, b: Hashable, b_in_a: Placement, *, allowed_mm: float) -> Overlap | None:
    """What two solids share when it goes deeper than ``allowed_mm`` and contact, else None.

    Raises RuntimeError when neither the kernel nor the meshes can say.
    """
    one, other = solids.skin(a), solids.skin(b)
    if hull_overlap_mm(one, other, b_in_a) <= 0.0:
        return None
    shared: manifold3d.Manifold | None = None
    surely = False
    for last in (False, True):
        if one.manifold is None or other.manifold is None:
            break
        shared = one.manifold ^ other.manifold.transform(matrix(b_in_a))
        parts = deep_parts(shared, allowed_mm)
        slack = one.slack_mm + other.slack_mm
        if not parts or (
            allowed_mm > 0.0 and slack < solids.contact_mm and depth_up_to(parts, allowed_mm) <= allowed_mm
        ):
            return None
        enough = allowed_mm + 2.0 * slack + solids.contact_mm
        surely = (allowed_mm == 0.0 or slack < solids.contact_mm) and depth_up_to(parts, enough) > enough
        if last or surely:
            break
        faces, others = faces_of(shared, one), faces_of(shared, other)
        if max(one.count_at(faces, FINE_MM), other.count_at(others, FINE_MM)) > MOST_TRIANGLES:
            break
        one, other = solids.finer(a, faces), solids.finer(b, others)
    seen = None
    if shared is not None and allowed_mm == 0.0 and not surely:
        deeper = _deeper_parts(solids, one, other, b_in_a, shared)
        if not deeper:
            return None
        seen = _seen(solids, a, b, b_in_a, deeper, to_mm=solids.contact_mm)
        if seen is not None and seen.off_mm <= solids.contact_mm:
            return None
    limit = allowed_mm + solids.contact_mm
    met = _confirmed(solids, a, b, b_in_a, shared, seen, least_mm=limit if surely else 0.0)
    return met if met is not None and met.depth_mm > limit else None


def _deeper_parts(
    solids: Solids, one: Skin, other: Skin, b_in_a: Placement, shared: manifold3d.Manifold
) -> list[manifold3d.Manifold]:
    """The connected parts of what two skins share that are drawn in, but for those so slight that the solids share no
    more than contact there; the greatest first.
    """
    parts = [part for part in shared.decompose() if part.volume() > NOTHING_MM3]
    parts.sort(key=lambda part: -part.volume())
    if one.manifold is None or other.manifold is None:
        return parts
    first, second = one.manifold, other.manifold.transform(matrix(b_in_a))
    limit = (1.0 - 2.0 * INSET_SHARE) * solids.contact_mm
    return [part for part in parts if not no_deeper(first, second, part, limit)]


def _seen(
    solids: Solids, a: Hashable, b: Hashable, b_in_a: Placement, parts: list[manifold3d.Manifold], *, to_mm: float
) -> Seen | None:
    """What two solids share looked at closer, where skins share some parts: the deepest, with the volume of all; no
    further than to find one deeper than ``to_mm``. None when it cannot be said of every part.
    """
    here, there = (
        Looked(solid=solids.shapes[key], skin=solids.outside(key), at=at)
        for key, at in ((a, Placement()), (b, b_in_a))
    )
    deepest, volume, whole = NOTHING, 0.0, True
    for part in parts:
        box = np.array(part.bounding_box()).reshape(2, 3)
        found = seen_closer(here, there, box, contact_mm=solids.contact_mm, enough_mm=to_mm)
        if found is None:
            return None
        volume, whole = volume + found.volume_mm3, whole and found.whole
        deepest = max(deepest, found, key=lambda seen: seen.off_mm)
        if deepest.off_mm > to_mm:
            break
    return replace(deepest, volume_mm3=volume, whole=whole)


def near_of(solids: Solids, large: Hashable, small: Hashable, small_in_large: Placement) -> Told | None:
    """What of the larger of two solids comes near the smaller, seen from that; None when it cannot be told."""
    there, held = matrix(small_in_large), solids.skin(small)
    points = held.hull @ there[:, :3].T + there[:, 3]
    spare = held.slack_mm + solids.contact_mm
    box = np.array([points.min(axis=0) - spare, points.max(axis=0) + spare])
    return told(solids.boundary(large), box, matrix(small_in_large.inverse()))


def size_mm(solids: Solids, key: Hashable) -> float:
    """The diagonal of the box round a solid."""
    return float(np.linalg.norm(np.ptp(solids.skin(key).hull, axis=0)))


def hull_overlap_mm(a: Skin, b: Skin, b_in_a: Placement) -> float:
    """How far the convex hulls overlap along that axis of either body along which they do so least; negative
    when they are apart.
    """
    to_a = matrix(b_in_a)
    axes, origin = to_a[:, :3], to_a[:, 3]
    b_there, a_there = b.hull @ axes.T + origin, (a.hull - origin) @ axes
    least = np.inf
    for one, other in ((a.hull, b_there), (b.hull, a_there)):
        shared = np.minimum(one.max(axis=0), other.max(axis=0)) - np.maximum(one.min(axis=0), other.min(axis=0))
        least = min(least, float(shared.min()))
    return least


def deep_parts(shared: manifold3d.Manifold, limit_mm: float) -> list[manifold3d.Manifold]:
    """The connected parts that might hold a ball wider than the limit, by their volumes and the boxes round
    them.
    """
    least = np.pi * limit_mm**3 / 6.0 + NOTHING_MM3
    if shared.is_empty() or shared.volume() <= least:
        return []
    if limit_mm == 0.0:
        return [shared]
    found = []
    for part in shared.decompose():
        box = part.bounding_box()
        if part.volume() > least and min(box[k + 3] - box[k] for k in range(3)) > limit_mm:
            found.append(part)
    return found


def depth_up_to(parts: list[manifold3d.Manifold], limit_mm: float) -> float:
    """How deep the parts are, sought no further than to say whether that is past a limit."""
    deepest = 0.0
    for part in parts:
        deepest = max(deepest, widest_ball(region_of(part), floor_mm=limit_mm, enough_mm=limit_mm).diameter_mm)
        if deepest > limit_mm:
            break
    return deepest


def _confirmed(
    solids: Solids,
    a: Hashable,
    b: Hashable,
    b_in_a: Placement,
    shared: manifold3d.Manifold | None,
    seen: Seen | None,
    *,
    least_mm: float,
) -> Overlap | None:
    """The kernel's overlap, asked both ways, if its volume is no less than what the skins drawn in share, but
    for their slack, and no more than what those share that hold the solids, and it is as deep as was seen; else what
    these share.
    """
    least, nothing = 0.0, False
    if shared is not None:
        slack = sum(solids.skin(k).slack_mm for k in (a, b))
        least = shared.volume() - 2.0 * slack * shared.surface_area()
    for turned in (False, True):
        try:
            met = _asked(solids, a, b, b_in_a, turned=turned)
        except RuntimeError:
            continue
        if met is None:
            nothing = nothing or (least <= 0.0 and least_mm == 0.0 and seen is None)
        elif (
            max(least, 0.0) <= met.volume_mm3
            and _held(solids, a, b, b_in_a, met)
            and met.depth_mm >= least_mm
            and (seen is None or _as_seen(met, seen))
        ):
            slight = seen is not None and met.depth_mm <= solids.contact_mm
            return replace(met, depth_mm=seen.off_mm) if seen is not None and slight else met
    if nothing:
        return None  # both ways: asked one way, the kernel can miss a small meeting of two round faces
    most = _all_shared(solids, a, b, b_in_a)
    if most is None:
        raise RuntimeError("neither the kernel nor the meshes can say whether two solids overlap")
    parts = [] if shared is None else [part for part in shared.decompose() if part.volume() > NOTHING_MM3]
    closer = _seen(solids, a, b, b_in_a, parts, to_mm=np.inf) if parts else None
    if closer is None:
        return mesh_overlap(most)
    volume = closer.volume_mm3 if closer.whole else most.volume()
    return Overlap(volume_mm3=volume, depth_mm=closer.off_mm, place_mm=closer.ball.centre_mm, exact=False)


def _as_seen(met: Overlap, seen: Seen) -> bool:
    """Whether an overlap is as deep as it was seen to be, where no more was to be seen."""
    wide, spare = seen.ball.diameter_mm, AS_SEEN_MM + seen.within_mm
    low, high = (1.0 - AS_SEEN) * wide - spare, (1.0 + AS_SEEN) * wide + spare
    return low <= met.depth_mm and (not seen.whole or met.depth_mm <= high)


def _held(solids: Solids, a: Hashable, b: Hashable, b_in_a: Placement, met: Overlap) -> bool:
    """Whether an overlap is no more than what the skins share that hold the solids."""
    most = _all_shared(solids, a, b, b_in_a)
    return most is None or met.volume_mm3 <= most.volume() * SAME_VOLUME + NOTHING_MM3


def _all_shared(solids: Solids, a: Hashable, b: Hashable, b_in_a: Placement) -> manifold3d.Manifold | None:
    """What two skins share that hold their solids whole; None when a mesh does not close."""
    one, other = solids.outside(a).manifold, solids.outside(b).manifold
    return None if one is None or other is None else one ^ other.transform(matrix(b_in_a))


def _asked(solids: Solids, a: Hashable, b: Hashable, b_in_a: Placement, *, turned: bool) -> Overlap | None:
    if not turned:
        return exact_overlap(solids.shapes[a], solids.shapes[b], b_in_a)
    met = exact_overlap(solids.shapes[b], solids.shapes[a], b_in_a.inverse())
    if met is None:
        return None
    return Overlap(volume_mm3=met.volume_mm3, depth_mm=met.depth_mm, place_mm=b_in_a.point(met.place_mm))
