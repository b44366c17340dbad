"""Ids, frames, clips and nibs of placed parts."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model3d.geometry.placement import Placement, dot, subtract
from model3d.layout import lay_out
from model3d.parts.ends import ReturnEndSpec, TurnBackEndSpec, ValveEndSpec
from model3d.parts.fittings import BridgeSpec, ClipSpec
from model3d.scene import Part, Scene, compose
from tests.layout.every_joint import FAMILIES, EndFitting, every_joint_plan, family_of
from tests.scene.scenes import (
    WAYS,
    Points,
    by_role,
    cut_corner_points,
    determinant,
    end_face,
    laid,
    placed,
    room_normal,
    whole_run,
)

ENDS: tuple[EndFitting, EndFitting] = ("return", "turn-back")
NIBS = [(name, entry) for name in FAMILIES for entry in family_of(name).nib_faces]


@pytest.mark.parametrize("end_fitting", ENDS)
@pytest.mark.parametrize(("name", "sense"), WAYS)
def test_ids_are_unique_and_frames_proper(name: str, sense: int, end_fitting: EndFitting) -> None:
    """Every part has an id of its own, and is turned and moved, never reflected: determinant +1."""
    parts = laid(name, sense, end_fitting)[2].parts
    assert len({p.id for p in parts}) == len(parts) > 150
    for part in parts:
        assert determinant(part.placement) == pytest.approx(1.0, abs=1e-12)


@settings(max_examples=30)
@given(points=cut_corner_points(), sense=st.sampled_from([1, -1]), name=st.sampled_from(FAMILIES))
def test_ids_and_frames_in_any_room(points: Points, sense: int, name: str) -> None:
    """So it is in any room that can be laid out."""
    plan, family = whole_run(points, sense), family_of(name)
    if lay_out(plan, family).refused:
        return
    parts = placed(plan, family)[1].parts
    assert len({p.id for p in parts}) == len(parts)
    assert all(abs(determinant(p.placement) - 1.0) < 1e-9 for p in parts)


def test_a_reflected_frame_is_refused() -> None:
    """No placement can be made whose axes are left-handed."""
    with pytest.raises(ValueError, match="right-handed"):
        Placement(x_axis=(1.0, 0.0, 0.0), y_axis=(0.0, -1.0, 0.0), z_axis=(0.0, 0.0, 1.0))


@pytest.mark.parametrize("end_fitting", ENDS)
@pytest.mark.parametrize(("name", "sense"), WAYS)
def test_clips_face_as_laid_out(name: str, sense: int, end_fitting: EndFitting) -> None:
    """A clip lies on its cut face, its tabs reach into the piece, on the side that its face names."""
    _, layout, scene = laid(name, sense, end_fitting)
    clips = {(p.piece, p.end): p for p in by_role(scene, "clip")}
    for piece in layout.pieces:
        for end_name, end in (("start", piece.start), ("end", piece.end)):
            clip = clips.pop((piece.mark, end_name), None)
            assert (clip is None) == (end.clip == "none")
            if clip is None:
                continue
            face, into = end_face(scene, piece, end_name)
            out = room_normal(scene, piece.wall.id)
            assert isinstance(clip.spec, ClipSpec)
            assert min(clip.spec.tab_inner_mm, clip.spec.tab_length_mm) > 0.0  # the tabs stand at +x, +y of its frame
            assert dot(clip.placement.x_axis, into) == pytest.approx(1.0, abs=1e-12)
            assert dot(clip.placement.y_axis, out) == pytest.approx({"front": 1.0, "back": -1.0}[end.clip], abs=1e-12)
            assert clip.face == end.clip
            assert dot(subtract(clip.placement.origin_mm, face), into) == pytest.approx(0.0, abs=1e-6)
    assert clips == {}


def test_all_four_ways_of_a_clip_are_met() -> None:
    """Front and back, at the end toward the valve and at the one toward the return, in both senses: all met."""
    met = {
        (p.face, p.end, sense)
        for name, sense in WAYS
        for end_fitting in ENDS
        for p in by_role(laid(name, sense, end_fitting)[2], "clip")
    }
    assert met == {(face, end, sense) for face in ("front", "back") for end in ("start", "end") for sense in (1, -1)}


def nib_sides(scene: Scene) -> list[tuple[Part, float]]:
    """Every clip that a nib enters, with how the nib's side lies to the clip's: 1 on it, -1 turned away."""
    clips = {(p.piece, p.end): p for p in by_role(scene, "clip")}
    found = []
    for bridge in by_role(scene, "bridge"):
        assert isinstance(bridge.spec, BridgeSpec)
        near = [c for c in clips.values() if _lies_by(c, bridge)]
        assert len(near) == (2 if bridge.spec.both_ways else 1), bridge.id
        found += [(c, dot(bridge.placement.y_axis, c.placement.y_axis)) for c in near]
    for fitting in by_role(scene, "valve-end", "return-end", "turn-back-end"):
        assert isinstance(fitting.spec, ValveEndSpec | ReturnEndSpec | TurnBackEndSpec)
        clip = clips[fitting.piece, fitting.end]
        out = room_normal(scene, fitting.wall or "")
        found.append((clip, fitting.spec.block.nib_side * dot(out, clip.placement.y_axis)))
    return found


def _lies_by(clip: Part, bridge: Part) -> bool:
    """Whether a clip stands where a bridge's nib goes: on its datum, or half a coupler's gap beside it."""
    assert isinstance(bridge.spec, BridgeSpec)
    off = subtract(clip.placement.origin_mm, bridge.placement.origin_mm)
    reach = bridge.spec.other_face_mm / 2.0
    return abs(dot(off, off) - reach**2) < 1e-6


@pytest.mark.parametrize("end_fitting", ENDS)
@pytest.mark.parametrize(("name", "sense"), WAYS)
def test_every_nib_meets_its_clip(name: str, sense: int, end_fitting: EndFitting) -> None:
    """Every clip is entered by one nib, on the side that the clip faces: it clicks."""
    _, _, scene = laid(name, sense, end_fitting)
    found = nib_sides(scene)
    assert sorted(c.id for c, _ in found) == sorted(c.id for c in by_role(scene, "clip"))
    assert [side for _, side in found] == pytest.approx([1.0] * len(found), abs=1e-12)


@pytest.mark.parametrize(("name", "entry"), NIBS)
def test_any_changed_nib_side_is_seen(name: str, entry: str) -> None:
    """Whichever one entry of a family's table of nib sides is changed, some nib misses its clip."""
    family = family_of(name)
    other = "back" if family.nib_faces[entry] == "front" else "front"
    changed = family.model_copy(update={"nib_faces": {**family.nib_faces, entry: other}})
    missed = 0
    for end_fitting in ENDS:
        plan = every_joint_plan(1, end_fitting)
        scene = compose(plan.room, lay_out(plan, changed), changed)
        missed += sum(side < 0.0 for _, side in nib_sides(scene))
    assert missed > 0


@pytest.mark.parametrize(("name", "sense"), WAYS)
def test_a_bridge_ties_the_short_legs(name: str, sense: int) -> None:
    """An elbow has one bridge, on the short-leg side; a link one at each end; a coupler one in its gap."""
    _, layout, scene = laid(name, sense)
    for joint in layout.runs[0].joints:
        bridges = [p for p in by_role(scene, "bridge") if p.joint == joint.mark]
        later = next(p for p in layout.pieces if p.mark == joint.later)
        assert len(bridges) == {"elbow": 1, "link": 2, "coupler": 1}[joint.kind]
        if joint.kind == "elbow":
            face, into = end_face(scene, later, "start")
            assert dot(subtract(bridges[0].placement.origin_mm, face), into) == pytest.approx(0.0, abs=1e-6)
            assert dot(bridges[0].placement.x_axis, into) == pytest.approx(1.0, abs=1e-12)
