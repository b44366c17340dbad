"""The interference of a scene in trade words: parts against parts, against the room, against what stands or
moves in it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Sequence

from model3d.checks.engine import Body, Clash, Memory, Tolerance, clashes
from model3d.findings import Finding, Severity
from model3d.parts.room import SectorSpec
from model3d.scene import Part, Scene
from model3d.scene.values import ROOM_ROLES
from model3d.solids.build import solid

Tick = Callable[[str, int, int], None]
CONTACT = Tolerance()


def check_scene(
    scene: Scene, *, tolerance: Tolerance = CONTACT, memory: Memory | None = None, tick: Tick | None = None
) -> tuple[Finding, ...]:
    """Clashes between everything fitted and everything else, one finding for each thing in the way of a run,
    worst first.

    An O-ring may overlap the bore it seals as far as it is meant to be squeezed, no further.
    """
    by_id = {p.id: p for p in scene.parts}
    shapes: dict[Hashable, object] = {}
    specs = list(dict.fromkeys(p.spec for p in scene.parts))
    for number, spec in enumerate(specs):
        if tick is not None:
            tick("solids", number, len(specs))
        shapes[spec] = solid(spec)

    def allowed_mm(a: Body, b: Body) -> float | None:
        return meant_mm(by_id[a.id], by_id[b.id])

    met = clashes(
        (Body(id=p.id, shape_key=p.spec, placement=p.placement) for p in scene.parts),
        shapes,
        allowed_mm=allowed_mm,
        tolerance=tolerance,
        memory=memory,
        tick=None if tick is None else lambda done, of: tick("pairs", done, of),
    )
    return tuple(_findings(list(met), by_id))


def meant_mm(a: Part, b: Part) -> float | None:
    """How deep two parts are meant to overlap: an O-ring in the bore that squeezes it; None for two things of
    the room.
    """
    if a.role in ROOM_ROLES and b.role in ROOM_ROLES:
        return None
    return max(a.presses_mm if b.id in a.presses_on else 0.0, b.presses_mm if a.id in b.presses_on else 0.0)


def _findings(met: list[Clash], by_id: dict[str, Part]) -> list[Finding]:
    groups: dict[tuple[str, str | None], list[Clash]] = {}
    for clash in met:
        a, b = by_id[clash.first], by_id[clash.second]
        thing, part = (a, b) if a.role in ROOM_ROLES else (b, a)
        if thing.role in ROOM_ROLES:
            key = (f"{thing.obstacle or thing.id}{'/swing' if thing.role == 'door-swing' else ''}", part.run)
        else:
            key = (f"{clash.first} {clash.second}", None)
        groups.setdefault(key, []).append(clash)
    found = [_finding(group, by_id) for group in groups.values()]
    return sorted(found, key=lambda f: -(f.measured or 0.0))


def _finding(group: list[Clash], by_id: dict[str, Part]) -> Finding:
    worst = max(group, key=lambda c: c.overlap.volume_mm3)
    a, b = by_id[worst.first], by_id[worst.second]
    thing, part = (a, b) if a.role in ROOM_ROLES else (b, a)
    code, what, remedy = _words(thing, part, group, by_id)
    more = len({c.first for c in group} | {c.second for c in group}) - 2
    message = (
        f"{what}: {worst.overlap.volume_mm3:.1f} mm3 overlap, {worst.overlap.depth_mm:.2f} mm deep"
        f"{f', and {more} more part(s)' if more > 0 else ''}"
    )
    severity: Severity = "error"
    parts = (
        part.id,
        thing.id,
        *sorted({i for c in group for i in (c.first, c.second)} - {part.id, thing.id}),
    )
    return Finding(
        code=code,
        severity=severity,
        where=_where(part),
        message=message,
        remedy=remedy,
        parts=parts,
        measured=worst.overlap.volume_mm3,
        limit=0.0,
        unit="mm3",
        place_mm=worst.place_mm,
    )


def _where(part: Part) -> str:
    places = [f"piece {part.piece}" if part.piece else "", f"wall {part.wall}" if part.wall else ""]
    return ", ".join(p for p in places if p) or part.name


def _words(thing: Part, part: Part, group: list[Clash], by_id: dict[str, Part]) -> tuple[str, str, str]:
    if thing.role == "door-swing":
        angle = _free_angle_deg(thing, group, by_id)
        return (
            "door-leaf-on-run",
            f"the leaf of door {thing.obstacle} swings over {part.name}",
            f"Stop the door at {angle:.0f} degrees, hang it on the other side, or end the run clear of its swing.",
        )
    if thing.role == "obstacle":
        return (
            "obstacle-in-run",
            f"{thing.obstacle} stands in {part.name}",
            f"Move {thing.obstacle} clear of the run, or end the run before it and start another after it.",
        )
    if thing.role in ROOM_ROLES:
        return (
            "room-in-run",
            f"{thing.name} stands in {part.name}",
            "Check the room's figures, or end the run clear of it.",
        )
    return "clash", f"{part.name} and {thing.name} overlap", "Check the family's figures for these two parts."


def _free_angle_deg(swing: Part, group: list[Clash], by_id: dict[str, Part]) -> float:
    """The angle at which the leaf still stands clear of every part it would meet, 3 degrees short of the
    first touch.

    Each part is taken as the box round it, seen from above, its edges sampled.
    """
    spec = swing.spec
    if not isinstance(spec, SectorSpec):
        raise TypeError(f"{swing.id} is no swing")
    start, sign = math.radians(spec.start_deg), math.copysign(1.0, spec.sweep_deg)
    angles = [spec.sweep_deg * sign]
    for part in (by_id[i] for c in group for i in (c.first, c.second) if i != swing.id):
        box = solid(part.spec).BoundingBox()
        low, high = (box.xmin, box.ymin, box.zmin), (box.xmax, box.ymax, box.zmax)
        for x, y in _edge_points(low, high):
            there = swing.placement.inverse().point(part.placement.point((x, y, float(low[2]))))
            if math.hypot(there[0], there[1]) <= spec.radius_mm:
                angles.append(math.degrees(sign * (math.atan2(there[1], there[0]) - start) % (2 * math.pi)))
    return max(0.0, math.floor(min(angles) - 3.0))


def _edge_points(low: Sequence[float], high: Sequence[float]) -> list[tuple[float, float]]:
    steps = [i / 200.0 for i in range(201)]
    xs, ys = (float(low[0]), float(high[0])), (float(low[1]), float(high[1]))
    along = [(xs[0] + s * (xs[1] - xs[0]), y) for s in steps for y in ys]
    across = [(x, ys[0] + s * (ys[1] - ys[0])) for s in steps for x in xs]
    return along + across
