"""What a bench picture says and shows of each end of a piece."""

from __future__ import annotations

import numpy as np
import pytest

from model3d.layout import lay_out
from model3d.pictures.bench.values import Bench, BenchEnd
from model3d.pictures.sight import NOTHING, RayScene
from model3d.pictures.solids import placed
from tests.layout.every_joint import FAMILIES, every_joint_plan, family_of
from tests.pictures.bench.benches import benches

RINGS_AN_END = {"valve": 4, "return": 4, "turn-back": 4, "elbow-long": 8, "elbow-short": 0, "link": 0}


@pytest.mark.parametrize("family", FAMILIES)
def test_orings(family: str) -> None:
    """The O-rings to grease on the bench are two a leg: four at an end fitting, eight on a pair of elbows or
    couplers; those of links are greased on the wall.
    """
    layout = lay_out(every_joint_plan(1), family_of(family))
    coupled = {j.later for run in layout.runs for j in run.joints if j.kind == "coupler"}
    by_mark = {b.mark: b.oring_count for b in benches(family)}
    for piece in (p for run in layout.runs for p in run.pieces):
        ends = (piece.start, piece.end)
        expected = sum(RINGS_AN_END.get(end.joint, 0) for end in ends) + (8 if piece.mark in coupled else 0)
        assert by_mark[piece.mark] == expected


@pytest.mark.parametrize("sense", [1, -1])
@pytest.mark.parametrize("family", FAMILIES)
def test_ends(family: str, sense: int) -> None:
    """Each end names where it goes and the face its clip takes; a thing to do an end at least; its clip, if it has
    one, is tagged with the letter of that face, and an end without one says so.
    """
    pieces = {p.mark: p for p in lay_out(every_joint_plan(sense), family_of(family)).pieces}
    for made in benches(family, sense):
        piece = pieces[made.mark]
        for end, laid, toward in zip(made.ends, (piece.start, piece.end), ("valve", "return"), strict=True):
            assert end.title.startswith(f"Toward the {toward}: ")
            assert end.face == laid.clip
            assert end.todo
            clips = [t for t in end.tags if t.face != "none"]
            assert [t.face for t in clips] == ([] if laid.clip == "none" else [laid.clip])
            assert any("no clip" in t.text for t in end.tags) == (laid.clip == "none")


def slot_side(made: Bench, end: BenchEnd) -> str:
    """The side on which the plate of a clip lets a ray through, halfway between the bores: room or wall."""
    solids = [s for s in placed(end.flush, made.meshes) if s.id != made.piece.id]
    scene = RayScene(solids)
    outward, to_room = np.array(end.outward), np.array(end.to_room)
    through = {}
    for side, sign in (("room", 1.0), ("wall", -1.0)):
        lifts = np.linspace(-20.0, 20.0, 81)
        start = np.array(end.centre_mm) + 50.0 * outward + sign * 4.1 * to_room + lifts[:, None] * [0.0, 0.0, 1.0]
        met = scene.hits(start, np.broadcast_to(-outward, start.shape))
        through[side] = int((met == NOTHING).sum())
    assert through["room"] != through["wall"]
    return max(through, key=lambda side: through[side])


@pytest.mark.parametrize("sense", [1, -1])
@pytest.mark.parametrize("family", FAMILIES)
def test_slot(family: str, sense: int) -> None:
    """A clip that faces front has its nib slot toward the room, one that faces back toward the wall, as is said beside
    the view end-on; measured by rays through the placed plate.
    """
    for made in benches(family, sense):
        for end in made.ends:
            if end.face != "none":
                assert slot_side(made, end) == {"front": "room", "back": "wall"}[end.face]


def test_other_step() -> None:
    """A piece that a step does not put up has no bench picture of that step."""
    from model3d.pictures.bench.staging import bench
    from model3d.pictures.staging.meshes import MeshLibrary
    from model3d.scene import compose
    from model3d.steps import plan_steps

    family, plan = family_of("a-square"), every_joint_plan(1)
    layout = lay_out(plan, family)
    scene = compose(plan.room, layout, family)
    brackets = plan_steps(layout, scene, family)[0]
    with pytest.raises(ValueError, match="does not put up piece"):
        bench(family, layout, scene, brackets, layout.pieces[0], MeshLibrary())
