"""From a scene to the assembly that files carry: plan / run / wall / piece / part, and the room beside the runs."""

from __future__ import annotations

from collections.abc import Hashable, Mapping

from model3d.exchange.assembly import Colour, Node, with_distinct_names
from model3d.parts.kinds import Spec
from model3d.rooms import Finish
from model3d.scene import Part, Scene
from model3d.scene.values import ROOM_ROLES, SWEPT_ROLES

NOT_BODIES = SWEPT_ROLES  # room that something sweeps is no part of the building
ALUMINIUM: Colour = (0.78, 0.80, 0.82)
COLOURS: Mapping[str, Colour] = {
    "elbow": (0.72, 0.56, 0.30),
    "coupler": (0.72, 0.56, 0.30),
    "spigot": (0.72, 0.56, 0.30),
    "bridge": (0.25, 0.27, 0.30),
    "o-ring": (0.10, 0.10, 0.10),
    "hose": (0.20, 0.30, 0.35),
    "valve-end": (0.88, 0.88, 0.86),
    "cradle": (0.45, 0.47, 0.50),
    "return-end": (0.88, 0.88, 0.86),
    "turn-back-end": (0.88, 0.88, 0.86),
    "bracket": (0.45, 0.47, 0.50),
    "packer": (0.62, 0.50, 0.34),
    "casing": (0.93, 0.92, 0.89),
    "sill": (0.93, 0.92, 0.89),
    "window-frame": (0.93, 0.92, 0.89),
    "glass": (0.62, 0.76, 0.82),
    "door-leaf": (0.80, 0.72, 0.60),
    "obstacle": (0.60, 0.55, 0.50),
}
CLIP_FACE_COLOURS: Mapping[str, Colour] = {"front": (0.941, 0.643, 0.0), "back": (0.635, 0.231, 0.525)}


def part_colour(part: Part, finish: Finish) -> Colour:
    """The colour of a part: clips by the way they face, the skirting and the room by the plan's finish."""
    if part.face is not None:
        return CLIP_FACE_COLOURS[part.face]
    by_finish = {
        "piece": finish.skirting,
        "dry-piece": finish.skirting,
        "trim": finish.skirting,
        "end-cap": finish.skirting,
        "floor": finish.floor,
        "wall": finish.walls,
    }
    return by_finish.get(part.role) or COLOURS.get(part.role, ALUMINIUM)


def scene_tree(scene: Scene, name: str, finish: Finish) -> Node:
    """The assembly of a scene; a leaf's shape key is its part's spec. Dry pieces stand in a group of their own."""
    bodies = [p for p in scene.parts if p.role not in NOT_BODIES]
    groups = [Node(name="Room", children=_leaves([p for p in scene.room if p.role not in NOT_BODIES], finish))]
    fitted = [p for p in bodies if p.role not in ROOM_ROLES]
    for run in dict.fromkeys(p.run for p in fitted):
        walls = _by(fitted, run, finish)
        groups.append(Node(name=f"Run {run}" if run else "Dry pieces", children=walls))
    return Node(name=name, children=tuple(groups))


def _by(parts: list[Part], run: str | None, finish: Finish) -> tuple[Node, ...]:
    """The walls of a run, each with its pieces, each with its parts, which stand with the wall of their piece."""
    mine = [p for p in parts if p.run == run]
    wall_of = {p.piece: p.wall for p in mine if p.role in ("piece", "dry-piece")}
    walls: list[Node] = []
    for wall in dict.fromkeys(wall_of.values()):
        marks = [mark for mark, on in wall_of.items() if on == wall]
        pieces = tuple(
            Node(name=f"Piece {mark}", children=_leaves([p for p in mine if p.piece == mark], finish)) for mark in marks
        )
        walls.append(Node(name=f"Wall {wall}", children=pieces))
    return tuple(walls)


def _leaves(parts: list[Part], finish: Finish) -> tuple[Node, ...]:
    return with_distinct_names(
        Node(name=p.name, placement=p.placement, shape_key=p.spec, colour=part_colour(p, finish)) for p in parts
    )


def shape_names(scene: Scene) -> dict[Hashable, str]:
    """A name for each distinct shape, after its kind and what tells it from others of its kind."""
    first: dict[Spec, Part] = {}
    for part in scene.parts:
        if part.role not in NOT_BODIES:
            first.setdefault(part.spec, part)
    counts: dict[str, int] = {}
    names: dict[Hashable, str] = {}
    for spec, part in first.items():
        kind = part.role.replace("-", " ").capitalize() if part.role != "o-ring" else "O-ring"
        counts[kind] = counts.get(kind, 0) + 1
        names[spec] = f"{kind} {counts[kind]:02d}"
    return names
