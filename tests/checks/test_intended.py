"""What is meant to overlap, by role, owner and greatest depth, is let be; a wrong overlap of the same parts is found.

Each beside its clean neighbour, and on the same cases a rule that goes by role alone.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from model3d.checks import check_scene, trial
from model3d.checks.engine import Memory
from model3d.geometry.outline import Outline
from model3d.geometry.placement import Placement
from model3d.parts.fixings import BracketSpec
from model3d.scene import Part, Scene
from tests.checks.small_rooms import plan, scene_of, with_part

RING = "r-J1/elbow/o-ring-end-lower-1"  # of the elbow's long leg, in the bore of r-1
OTHER_RING = "r-J1/elbow/o-ring-start-lower-1"  # of its short leg, in the bore of r-2
PIECE, NEXT_PIECE = "r-1/piece", "r-2/piece"
CLIP, NEXT_CLIP = "r-1/clip-start", "r-2/clip-end"
BRACKET = "r-1/bracket-3"

Change = Callable[[Scene], Scene]


def pushed(name: str, by_mm: tuple[float, float, float]) -> Change:
    """A part moved in the room's frame."""
    return lambda scene: with_part(
        scene, replace(scene.part(name), placement=scene.part(name).placement.moved(by_mm))
    )


def seated_as(name: str, like: str) -> Change:
    """A part in the place of another, which is left out."""

    def change(scene: Scene) -> Scene:
        moved = replace(scene.part(name), placement=scene.part(like).placement)
        return Scene(parts=tuple(moved if p.id == name else p for p in scene.parts if p.id != like))

    return change


def clip_in(name: str, like: str, along_mm: float) -> Change:
    """A clip plate ``along_mm`` beyond where another one is tapped in, which stays."""

    def change(scene: Scene) -> Scene:
        place = scene.part(like).placement @ Placement(origin_mm=(along_mm, 0.0, 0.0))
        return with_part(scene, replace(scene.part(name), placement=place))

    return change


def owned_by(name: str, piece: str) -> Change:
    """An O-ring that is meant for the bore of a piece."""
    return lambda scene: with_part(scene, replace(scene.part(name), presses_on=(piece,)))


def latched(deeper_mm: float) -> Change:
    """A bracket whose latch comes down lower."""

    def change(scene: Scene) -> Scene:
        part = scene.part(BRACKET)
        assert isinstance(part.spec, BracketSpec)
        outline = part.spec.outline
        under = max(a[1] for a, e in outline.edges if a[1] == e.to[1] and a[0] < e.to[0])  # the latch's underside
        lower = tuple(
            replace(e, to=(e.to[0], e.to[1] - deeper_mm)) if e.to[1] == under else e for e in outline.segments
        )
        spec = replace(part.spec, outline=Outline(start=outline.start, segments=lower))
        return with_part(scene, replace(part, spec=spec))

    return change


def both(*changes: Change) -> Change:
    """One change after another."""

    def change(scene: Scene) -> Scene:
        for each in changes:
            scene = each(scene)
        return scene

    return change


WRONG: dict[str, tuple[Change, str, str]] = {
    "an O-ring pressed half a millimetre deeper": (pushed(RING, (0.0, 0.0, 0.5)), RING, PIECE),
    "an O-ring pressed a twentieth deeper": (pushed(RING, (0.0, 0.0, 0.05)), RING, PIECE),
    "an O-ring of another joint in the bore": (seated_as(OTHER_RING, RING), OTHER_RING, PIECE),
    "an O-ring meant for the next piece": (owned_by(RING, NEXT_PIECE), RING, PIECE),
    "a clip plate on top of the next piece's own": (clip_in(CLIP, NEXT_CLIP, 0.0), CLIP, NEXT_CLIP),
    "a clip plate in the next piece, past its grooves": (clip_in(CLIP, NEXT_CLIP, 60.0), CLIP, NEXT_PIECE),
    "a latch four tenths too deep": (latched(2.0), BRACKET, PIECE),
    "a latch pressed in from behind": (pushed(BRACKET, (0.0, 0.05, 0.0)), BRACKET, PIECE),
}
CLEAN: dict[str, Change] = {
    "as laid out": lambda scene: scene,
    "an O-ring off by less than contact": pushed(RING, (0.0, 0.0, 0.015)),
    "an O-ring of another joint, meant for this bore": both(seated_as(OTHER_RING, RING), owned_by(OTHER_RING, PIECE)),
    "a latch that all but touches": latched(1.55),
    "a bracket off by less than contact": pushed(BRACKET, (0.0, 0.015, 0.0)),
}


def found(scene: Scene, memory: Memory) -> set[frozenset[str]]:
    """The parts of each finding."""
    return {frozenset(f.parts) for f in check_scene(scene, memory=memory)}


@pytest.mark.parametrize("name", WRONG)
def test_a_wrong_overlap_is_found(name: str, memory: Memory) -> None:
    """Deeper than meant, in the wrong piece, or of another joint: found, and told of both parts."""
    change, one, other = WRONG[name]
    assert any({one, other} <= parts for parts in found(change(scene_of(plan())), memory))


@pytest.mark.parametrize("name", CLEAN)
def test_its_neighbour_is_clean(name: str, memory: Memory) -> None:
    """What is meant, and what only touches, is let be."""
    assert found(CLEAN[name](scene_of(plan())), memory) == set()


@pytest.mark.parametrize("name", [name for name in WRONG if "O-ring" in name])
def test_a_rule_by_role_alone_is_seen(name: str, memory: Memory, monkeypatch: pytest.MonkeyPatch) -> None:
    """A rule that lets any O-ring overlap any piece, however deep, finds none of the wrong ones."""
    right = trial.meant_mm

    def by_role(a: Part, b: Part) -> float | None:
        return None if {a.role, b.role} == {"o-ring", "piece"} else right(a, b)

    monkeypatch.setattr(trial, "meant_mm", by_role)
    change, one, other = WRONG[name]
    assert not any({one, other} <= parts for parts in found(change(scene_of(plan())), memory) if len(parts) == 2)
    monkeypatch.setattr(trial, "meant_mm", right)
    assert any({one, other} <= parts for parts in found(change(scene_of(plan())), memory))


@pytest.mark.parametrize("name", [name for name in WRONG if "O-ring" not in name])
def test_a_rule_that_lets_clips_and_latches_be_is_seen(
    name: str, memory: Memory, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A rule that lets a clip or a bracket overlap what it holds finds none of the wrong ones."""

    def by_role(a: Part, b: Part) -> float | None:
        return None if {a.role, b.role} <= {"clip", "bracket", "piece"} else 0.0

    monkeypatch.setattr(trial, "meant_mm", by_role)
    change, one, other = WRONG[name]
    scene = change(scene_of(plan()))
    few = Scene(parts=tuple(p for p in scene.parts if p.id in (one, other)))
    assert found(few, memory) == set()
