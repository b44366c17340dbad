"""A house of fitted rooms in one model, of as many solids as asked for; in some a pipe stands in a piece."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass, replace

import cadquery as cq
from OCP.BRepBuilderAPI import BRepBuilderAPI_Transform
from OCP.gp import gp_Pnt, gp_Trsf

from model3d.checks.engine import Body
from model3d.checks.trial import meant_mm
from model3d.geometry.placement import turned_about_z
from model3d.layout import lay_out
from model3d.rooms import DryPlan, Pipe
from model3d.scene import Part, compose
from model3d.solids.build import solid
from tests.layout.every_joint import family_of
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over

APART_MM = 7000.0
ROOMS_A_ROW = 4
WING = 8  # rooms from here on stand in a wing
WING_DEG = 30.0
HAIR = 1e-6  # of a size: the most by which shapes without repeats differ, a few thousandths of a millimetre
ROOMS = {100: 1, 400: 4, 1500: 16}


@dataclass(frozen=True, slots=True, kw_only=True)
class Model:
    """Bodies, their solids, and how deep each pair may overlap; the pairs of things of the room are not asked."""

    bodies: tuple[Body, ...]
    shapes: Mapping[Hashable, cq.Solid]
    parts: Mapping[str, Part]

    def allowed_mm(self, a: Body, b: Body) -> float | None:
        """As the check of a scene has it."""
        return meant_mm(self.parts[a.id], self.parts[b.id])

    def solid(self, body: Body) -> cq.Solid:
        """The body's solid in its own frame."""
        return self.shapes[body.shape_key]


def rooms(number: int, family: str = "a-square") -> Model:
    """So many rooms side by side, no two alike in size, turned by quarters and in the wing by 30 degrees more."""
    parts = [part for k in range(number) for part in _room(k, family)]
    return Model(
        bodies=tuple(Body(id=p.id, shape_key=p.spec, placement=p.placement) for p in parts),
        shapes={p.spec: solid(p.spec) for p in parts},
        parts={p.id: p for p in parts},
    )


def without_repeats(model: Model) -> Model:
    """The same bodies, each with a solid of its own that differs from all others by a hair."""
    keys = {body.id: (body.shape_key, k) for k, body in enumerate(model.bodies)}
    return replace(
        model,
        bodies=tuple(replace(body, shape_key=keys[body.id]) for body in model.bodies),
        shapes={
            keys[body.id]: _scaled(model.solid(body), 1.0 - HAIR * (k + 1) / len(model.bodies))
            for k, body in enumerate(model.bodies)
        },
    )


def piece_moved(model: Model, *, into_others: bool) -> Model:
    """The last piece of the first room, with all that is fitted with it, moved: along its run by .2 mm, which leaves
    everything free, or 1.5 mm off its wall into what joins it.
    """
    parts = [p for p in model.parts.values() if p.id.startswith("R0/")]
    last = [p for p in parts if p.role == "piece"][-1]
    x, y, z = last.placement.y_axis if into_others else last.placement.x_axis
    by = 1.5 if into_others else 0.2
    moved = {
        p.id: replace(p, placement=p.placement.moved((by * x, by * y, by * z))) for p in parts if p.piece == last.piece
    }
    bodies = tuple(
        replace(body, placement=moved[body.id].placement) if body.id in moved else body for body in model.bodies
    )
    return replace(model, bodies=bodies, parts={**model.parts, **moved})


def _room(number: int, family_name: str) -> list[Part]:
    """One room, L-shaped, with a run over four walls and a dry piece; in every fourth a pipe stands in the second
    piece, each elsewhere.
    """
    family = family_of(family_name)
    long_mm, deep_mm = 4000.0 + 37.0 * number, 4000.0 + 23.0 * (number % 5)
    nook_mm = 2400.0 + 11.0 * (number % 7)
    points = [(0.0, 0.0), (long_mm, 0.0), (long_mm, 2600.0), (nook_mm, 2600.0), (nook_mm, deep_mm), (0.0, deep_mm)]
    ring = ring_of(points)
    wall, off_mm = ring.walls[1], 22.0 + 0.3 * number if number % 4 == 0 else 60.0
    pipe = Pipe(
        id="riser",
        wall_id=wall.id,
        frame=wall.frame,
        from_mm=(1200.0 + 7.0 * number, off_mm, 0.0),
        to_mm=(1200.0 + 7.0 * number, off_mm, 2300.0),
        diameter_mm=15.0,
    )
    run = run_over(ring, 1, 4, start_at=300.0)
    dry = DryPlan(id="D1", wall=ring.walls[5], from_mm=400.0, to_mm=1900.0)
    plan = plan_of(ring, run, dry=(dry,), obstacles=(pipe,))
    scene = compose(plan.room, lay_out(plan, family), family)
    return [_placed(part, number) for part in scene.parts]


def _placed(part: Part, number: int) -> Part:
    """A part of a room where the room stands."""
    row, column = divmod(number, ROOMS_A_ROW)
    turn = 90.0 * number + (WING_DEG if number >= WING else 0.0)
    return replace(
        part,
        id=f"R{number}/{part.id}",
        presses_on=tuple(f"R{number}/{other}" for other in part.presses_on),
        placement=turned_about_z(turn, (APART_MM * 1.5 * column, APART_MM * 1.5 * row, 0.0)) @ part.placement,
    )


def _scaled(shape: cq.Solid, by: float) -> cq.Solid:
    turn = gp_Trsf()
    turn.SetScale(gp_Pnt(0.0, 0.0, 0.0), by)
    return cq.Solid(BRepBuilderAPI_Transform(shape.wrapped, turn, True).Shape())
