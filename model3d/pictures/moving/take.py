"""One take: a camera, what stands still, and the phases of a step; and what stands where in each of its frames."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from model3d.geometry.placement import Placement, Vec3, subtract
from model3d.parts.fittings import HoseSpec
from model3d.pictures.moving.bending import bent_line, tube
from model3d.pictures.moving.timeline import REST_S, Phase, eased
from model3d.pictures.solids import PlacedMesh, moved
from model3d.pictures.stage import Camera, Look, Mesh
from model3d.scene import Part
from model3d.wording import Catalogue

FRAMES_A_SECOND = 12


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Player:
    """A part that is not where it will end all along: its mesh and look."""

    part: Part
    mesh: Mesh
    look: Look


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Lens:
    """A round close-up in the picture: the middle of its ring, and the camera for each phase by name; the first phases
    may have none.
    """

    centre_px: tuple[float, float]
    radius_px: int
    cameras: Mapping[str, Camera]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Take:
    """A step as it is filmed, with words in its language. ``still`` stands all along; ``hoses`` are the ids of those
    that bend.
    """

    title: str
    words: Catalogue
    camera: Camera
    size_px: tuple[int, int]
    facing: Vec3
    shade_mm: float
    still: tuple[PlacedMesh, ...]
    players: tuple[Player, ...]
    hoses: frozenset[str]
    phases: tuple[Phase, ...]
    lens: Lens | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Frame:
    """One picture of a take: what stands where, the phase it belongs to, and how long it is shown."""

    solids: tuple[PlacedMesh, ...]
    phase: Phase
    milliseconds: int


def frames(take: Take) -> Iterator[Frame]:
    """The frames of a take: each phase in even steps of time, a rest after each, a longer one at the end."""
    step_ms = round(1000 / FRAMES_A_SECOND)
    for number, phase in enumerate(take.phases, 1):
        count = max(round(phase.seconds * FRAMES_A_SECOND), 2)
        for k in range(count + 1):
            last = k == count
            rest = round(1000 * REST_S * (3 if number == len(take.phases) else 1))
            shown = rest if last else step_ms
            yield Frame(solids=(*take.still, *_placed(take, phase, eased(k / count))), phase=phase, milliseconds=shown)


def _placed(take: Take, phase: Phase, share: float) -> Iterator[PlacedMesh]:
    for player in take.players:
        if player.part.id in phase.hidden:
            continue
        if player.part.id in take.hoses:
            yield _hose(player, phase, share)
            continue
        place = phase.move(player.part.id, share) @ player.part.placement
        yield _standing(player.part.id, player.look, player.mesh, place)


def standing(player: Player) -> PlacedMesh:
    """A part where it will end."""
    return _standing(player.part.id, player.look, player.mesh, player.part.placement)


def _standing(part_id: str, look: Look, mesh: Mesh, place: Placement) -> PlacedMesh:
    return PlacedMesh(id=part_id, look=look, mesh=mesh, placement=place, vertices_mm=moved(mesh.vertices_mm, place))


def _hose(player: Player, phase: Phase, share: float) -> PlacedMesh:
    own = phase.shift(player.part.id, share)
    spec, place = player.part.spec, player.part.placement.moved(own)
    by = subtract(phase.shift(phase.hose_end, share), own) if phase.hose_end is not None else (0.0, 0.0, 0.0)
    if not isinstance(spec, HoseSpec) or max(abs(c) for c in by) < 1e-9:
        return _standing(player.part.id, player.look, player.mesh, place)
    mesh = tube(bent_line(spec, place.inverse().vector(by)), spec.outer_radius_mm)
    return _standing(player.part.id, player.look, mesh, place)


def players(parts: Sequence[Part], meshes: Mapping[str, Mesh], looks: Mapping[str, Look]) -> tuple[Player, ...]:
    """Parts with their meshes and looks by id."""
    return tuple(Player(part=p, mesh=meshes[p.id], look=looks[p.id]) for p in parts)
