"""Rooms put together by hand for the layout's tests: corners in, checked plan out."""

from __future__ import annotations

import math
from collections.abc import Sequence
from pathlib import Path

from model3d.geometry.placement import Placement
from model3d.rooms import (
    CheckedPlan,
    Corner,
    CornerPass,
    DryPlan,
    Finish,
    InLineJoint,
    Ring,
    Room,
    RunPlan,
    RunSpan,
    Temperatures,
    Wall,
)
from model3d.rooms.runs import CutLength

GREY = (0.8, 0.8, 0.8)


def ring_of(points: Sequence[tuple[float, float]], ring_id: str = "room", *, island: bool = False) -> Ring:
    """A ring through the points, walls w1.., corners c1.., turns measured."""
    count = len(points)
    bearings = [
        math.atan2(points[(i + 1) % count][1] - points[i][1], points[(i + 1) % count][0] - points[i][0])
        for i in range(count)
    ]
    corners = tuple(
        Corner(
            id=f"c{i + 1}", at_mm=points[i],
            turn_deg=math.degrees((bearings[i] - bearings[i - 1] + math.pi) % (2 * math.pi) - math.pi),
        )
        for i in range(count)
    )
    walls = []
    for i in range(count):
        t = (math.cos(bearings[i]), math.sin(bearings[i]))
        n = (-t[1], t[0])
        walls.append(Wall(
            id=f"w{i + 1}", ring=ring_id, first_corner=corners[i], last_corner=corners[(i + 1) % count],
            length_mm=math.dist(points[i], points[(i + 1) % count]), direction=t, normal=n,
            frame=Placement(origin_mm=(*points[i], 0.0), x_axis=(*t, 0.0), y_axis=(*n, 0.0)),
        ))
    return Ring(id=ring_id, corners=corners, walls=tuple(walls), is_island=island)


def run_over(
    ring: Ring,
    first: int,
    count: int,
    *,
    sense: int = 1,
    end_fitting: str = "return",
    start_at: float | None = None,
    end_at: float | None = None,
    uses: dict[str, str] | None = None,
    joints: dict[str, list[tuple[float, str]]] | None = None,
    cut_lengths: dict[str, list[tuple[int, float]]] | None = None,
    run_id: str = "r",
) -> RunPlan:
    """A run over ``count`` walls of a ring from wall number ``first`` (from 1)."""
    total = len(ring.walls)
    walls = [ring.walls[(first - 1 + sense * i) % total] for i in range(count)]
    spans = []
    for i, wall in enumerate(walls):
        enters, leaves = (0.0, wall.length_mm) if sense > 0 else (wall.length_mm, 0.0)
        if i == 0 and start_at is not None:
            enters = start_at
        if i == count - 1 and end_at is not None:
            leaves = end_at
        spans.append(RunSpan(
            wall=wall, enters_mm=enters, leaves_mm=leaves,
            joints=tuple(InLineJoint(at_mm=a, use=u) for a, u in (joints or {}).get(wall.id, [])),  # type: ignore[arg-type]
            cut_lengths=tuple(CutLength(piece=p, length_mm=x) for p, x in (cut_lengths or {}).get(wall.id, [])),
        ))
    corners = [w.last_corner if sense > 0 else w.first_corner for w in walls[:-1]]
    return RunPlan(
        id=run_id, ring=ring.id, sense=1 if sense > 0 else -1, spans=tuple(spans),
        corners=tuple(CornerPass(corner=c, use=(uses or {}).get(c.id)) for c in corners),  # type: ignore[arg-type]
        start_fitting="valve", end_fitting=end_fitting, return_fixed=False,  # type: ignore[arg-type]
    )


def plan_of(ring: Ring, *runs: RunPlan, dry: tuple[DryPlan, ...] = (), **room: object) -> CheckedPlan:
    """A checked plan of one ring at 55/45, installed at 18, frost 5 degrees."""
    return CheckedPlan(
        path=Path("by-hand.yaml"), name="by hand", family_path=Path("a"), runs=runs, dry_pieces=dry,
        room=Room(rings=(ring,), height_mm=2400.0, wall_thickness_mm=100.0, **room),  # type: ignore[arg-type]
        temperatures=Temperatures(flow_c=55.0, return_c=45.0, install_c=18.0, frost_c=5.0),
        finish=Finish(floor=GREY, walls=GREY, skirting=GREY),
    )
