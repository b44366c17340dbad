"""Rooms that must be free for the work on a run: a screwdriver's before the screws of every link, fingers' round the
head of every valve, hands' where joints are made and latches snap. Numbers only: simple bodies, placed.

Common practice names what must be reached, no source says how much room that takes: figures of the family, or ours.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from model3d.families.family import Family
from model3d.geometry.placement import Placement, at
from model3d.layout import Joint, Layout, Piece
from model3d.parts.ends import ValveEndSpec
from model3d.parts.fittings import SpigotSpec
from model3d.parts.kinds import Spec
from model3d.parts.room import BoxSpec, CylinderSpec, SectorSpec
from model3d.scene import Part, Scene
from model3d.steps import Step
from model3d.steps.difficulty import HAND_ABOVE_MM

HAND_MM = 100.0  # a hand's breadth: how much of a piece a hand takes, and how far in front of it (ours)
FINGERS_MM = 25.0  # what stands no further than this before the face of a piece is reached round (ours)
OUTWARD = Placement(x_axis=(1.0, 0.0, 0.0), y_axis=(0.0, 0.0, -1.0), z_axis=(0.0, 1.0, 0.0))
ALONG = Placement(x_axis=(0.0, 1.0, 0.0), y_axis=(0.0, 0.0, 1.0), z_axis=(1.0, 0.0, 0.0))

Code = Literal["screw-access", "valve-head-room", "hand-room"]


@dataclass(frozen=True, slots=True, kw_only=True)
class FreeRoom:
    """Room that must be free where a part is worked on, in one of ``places`` at least, the usual one first.

    ``asked_mm`` of it are needed from the part on: along the z of a place, or round that axis where it is a sector.
    ``where`` and ``who`` are words: what it is measured from, and who needs it.
    """

    code: Code
    serves: Part
    places: tuple[Part, ...]
    asked_mm: float
    where: str
    who: str


def free_rooms(layout: Layout, scene: Scene, steps: Sequence[Step], family: Family) -> tuple[FreeRoom, ...]:
    """Every room that must be free: for all links and valves of the scene, and for the pieces that the steps put up."""
    return (*screw_rooms(scene, family), *head_rooms(scene, family), *hand_rooms(layout, scene, steps, family))


def screw_rooms(scene: Scene, family: Family) -> Iterator[FreeRoom]:
    """A round bar as wide as the head from the crown of each screw along its axis. Of screws that stand one above the
    other the uppermost alone: a screwdriver comes to the lower ones from beside it.
    """
    spigots = [p for p in scene.fitted if p.role == "spigot"]
    highest: dict[tuple[str | None, str | None], float] = {}
    for part in spigots:
        key = (part.joint, part.wall)
        highest[key] = max(part.placement.origin_mm[2], highest.get(key, 0.0))
    asked, above = family.link.screw_room_mm, family.link.screw_access == "above"
    for part in spigots if asked > 0.0 else ():
        spec, lower = part.spec, part.placement.origin_mm[2] < highest[part.joint, part.wall] - 1.0
        if isinstance(spec, SpigotSpec) and not (above and lower):
            crown = at(spec.screw_x_mm, 0.0, spec.leg.outside.height_mm / 2.0 + spec.screw_height_mm)
            bar = CylinderSpec(radius_mm=spec.screw_radius_mm, length_mm=asked)
            yield FreeRoom(
                code="screw-access",
                serves=part,
                places=(_place(part, "screwdriver", bar, crown),),
                asked_mm=asked,
                where=f"{'above' if above else 'in front of'} the screws of link {part.joint}",
                who="a screwdriver needs",
            )


def head_rooms(scene: Scene, family: Family) -> Iterator[FreeRoom]:
    """Half a ring of fingers round each valve's head, on the side of the room: from below over its front to above."""
    asked = family.valve_end.head.turning_room_mm
    for part in (p for p in scene.fitted if p.role == "valve-end" and asked > 0.0):
        if isinstance(part.spec, ValveEndSpec):
            spec, block = part.spec, part.spec.block
            near = block.block_end_mm + spec.neck_length_mm
            low = -near - spec.head_length_mm if block.hand > 0 else near
            axis = Placement(
                origin_mm=(low, spec.head_u_mm, spec.head_v_mm),
                x_axis=ALONG.x_axis, y_axis=ALONG.y_axis, z_axis=ALONG.z_axis,
            )
            ring = SectorSpec(
                radius_mm=spec.head_radius_mm + asked, start_deg=-90.0, sweep_deg=180.0, height_mm=spec.head_length_mm
            )
            yield FreeRoom(
                code="valve-head-room",
                serves=part,
                places=(_place(part, "fingers", ring, axis),),
                asked_mm=asked,
                where="round the head of its valve",
                who="fingers that turn it need",
            )


def hand_rooms(layout: Layout, scene: Scene, steps: Sequence[Step], family: Family) -> Iterator[FreeRoom]:
    """Room for a hand over the top edge and in front of a piece at every joint that is made on the wall, and in front
    of it, or a hand's breadth beside, where a bracket's latch snaps.
    """
    pieces = {p.mark: p for p in layout.pieces}
    joints = [j for run in layout.runs for j in run.joints]
    for step in steps:
        clicks = {leg.name for leg in step.legs if leg.click}
        group = [pieces[m] for m in step.pieces]
        ends = list(_ends(group, joints, made=bool(clicks - {"press"})))
        for piece, joint, end in ends:
            yield from _at_joint(scene, family, piece, joint, end)
        for piece in group if "press" in clicks else ():
            yield from _at_latches(scene, family, piece)


def _ends(
    group: Sequence[Piece], joints: Sequence[Joint], *, made: bool
) -> Iterator[tuple[Piece, Joint, Literal["start", "end"]]]:
    """The ends at which hands are: the near one when it snaps on as the piece goes up, the far one where links are
    pushed in or elbows drawn out.
    """
    for joint in joints if group else ():
        if joint.later == group[0].mark and made:
            yield group[0], joint, "start"
        if joint.earlier == group[-1].mark:
            yield group[-1], joint, "end"


def _at_joint(
    scene: Scene, family: Family, piece: Piece, joint: Joint, end: Literal["start", "end"]
) -> Iterator[FreeRoom]:
    body, length = scene.part(f"{piece.mark}/piece"), piece.cut_length_mm
    hand = min(HAND_MM, length)
    low, high = (0.0, hand) if (end == "start") == (piece.sense > 0) else (length - hand, length)
    made = f"{piece.mark} where joint {joint.mark} is made"
    yield _over(body, family, low, high, made, end)
    yield _before(body, family, [(low, high)], made, end)


def _at_latches(scene: Scene, family: Family, piece: Piece) -> Iterator[FreeRoom]:
    body, length = scene.part(f"{piece.mark}/piece"), piece.cut_length_mm
    for number, mark in enumerate(piece.brackets, 1):
        middle = mark.along_mm - piece.low_mm
        reach = [(max(m - HAND_MM / 2.0, 0.0), min(m + HAND_MM / 2.0, length)) for m in _beside(middle)]
        spans = [reach[0], *(s for s in reach[1:] if s[1] - s[0] > HAND_MM - 1.0)]
        yield _before(body, family, spans, f"{piece.mark} where bracket {number} latches", f"bracket-{number}")


def _beside(middle_mm: float) -> tuple[float, float, float]:
    return (middle_mm, middle_mm - HAND_MM, middle_mm + HAND_MM)


def _over(body: Part, family: Family, low: float, high: float, made: str, name: str) -> FreeRoom:
    section = family.section
    box = BoxSpec(size_mm=(high - low, HAND_MM - FINGERS_MM, HAND_ABOVE_MM))
    place = at(low, section.depth_mm + FINGERS_MM, section.height_mm)
    return FreeRoom(
        code="hand-room", serves=body, places=(_place(body, f"hand-over-{name}", box, place),), asked_mm=HAND_ABOVE_MM,
        where=f"above {made}", who="hands need",
    )


def _before(
    body: Part, family: Family, spans: Sequence[tuple[float, float]], made: str, name: str
) -> FreeRoom:
    section = family.section
    places = []
    for number, (low, high) in enumerate(spans):
        box = BoxSpec(size_mm=(high - low, section.height_mm, HAND_MM))
        place = at(low, section.depth_mm, section.height_mm) @ OUTWARD
        places.append(_place(body, f"hand-before-{name}-{number}", box, place))
    return FreeRoom(
        code="hand-room", serves=body, places=tuple(places), asked_mm=HAND_MM, where=f"in front of {made}",
        who="hands need",
    )


def _place(part: Part, name: str, spec: Spec, there: Placement) -> Part:
    """A room as a part, where it stands in the frame of the part that it serves."""
    return Part(
        id=f"{part.id}/{name}", name=name, role=part.role, spec=spec, placement=part.placement @ there, run=part.run,
        wall=part.wall, piece=part.piece, joint=part.joint,
    )


def by_place(rooms: Sequence[FreeRoom]) -> Mapping[str, FreeRoom]:
    """The rooms by the ids of their places."""
    return {place.id: room for room in rooms for place in room.places}
