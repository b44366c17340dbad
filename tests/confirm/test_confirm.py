"""Solids that are right confirm the layout; one that is wrong by a few hundredths, anywhere, does not."""

from __future__ import annotations

import ast
from dataclasses import replace
from pathlib import Path

import pytest

from model3d.confirm import Closeness, confirm_project, measure_scene
from model3d.findings import Finding
from model3d.geometry.placement import turned_about_z
from model3d.layout import lay_out
from model3d.parts.fittings import CouplerSpec, ElbowSpec, SpigotSpec
from model3d.parts.fixings import BracketSpec
from model3d.parts.profile import PieceSpec
from model3d.scene import Scene, compose
from tests.confirm.spoilt import along_wall, codes, confirmed, project, with_other, without
from tests.layout.every_joint import FAMILIES, family_of
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over

SQUARE = [(0.0, 0.0), (3600.0, 0.0), (3600.0, 3000.0), (0.0, 3000.0)]


def only(findings: tuple[Finding, ...]) -> Finding:
    """The one finding."""
    (finding,) = findings
    return finding


@pytest.mark.parametrize("sense", [1, -1])
@pytest.mark.parametrize("name", FAMILIES)
def test_right_solids_confirm_everything(name: str, sense: int) -> None:
    """Solids built from the layout confirm every cut face, insertion, gap and volume."""
    assert confirmed(project(name, sense)) == ()


def test_what_is_measured_on_a_wall_between_elbows() -> None:
    """A 3600 wall between two internal corners of family (a), measured on its solids: 51 from each corner to
    the cut faces, 3498 between them, short legs 24 in and long legs 34, shoulders 20 off.
    """
    family, ring = family_of("a-square"), ring_of(SQUARE)
    plan = plan_of(ring, run_over(ring, 4, 3))
    scene = compose(plan.room, lay_out(plan, family), family)
    measured = measure_scene(plan.room, scene)
    piece = next(c for c in measured.cut_faces if c.wall == "w1")
    assert (piece.to_first_mm, piece.to_last_mm, piece.length_mm) == pytest.approx(
        (51.0, 51.0, 3498.0), abs=1e-5
    )
    depths = {
        (i.first_end, round(i.height_mm)): i.depth_mm for i in measured.insertions if i.piece == piece.piece
    }
    assert depths == {
        (True, 48): pytest.approx(24.0, abs=1e-5),
        (True, 118): pytest.approx(24.0, abs=1e-5),
        (False, 48): pytest.approx(34.0, abs=1e-5),
        (False, 118): pytest.approx(34.0, abs=1e-5),
    }
    gaps = [g.gap_mm for g in measured.gaps if g.piece == piece.piece]
    assert gaps == pytest.approx([20.0] * 4, abs=1e-5)


@pytest.mark.parametrize("by_mm", [0.05, -0.05])
@pytest.mark.parametrize("mark", ["r-1", "r-3", "r-9"])
def test_a_piece_five_hundredths_long_or_short(mark: str, by_mm: float) -> None:
    """A piece cut .05 mm wrong has one cut face off by that, at one end, and a joint that is off by as much."""
    of = project()
    part = of[3].part(f"{mark}/piece")
    assert isinstance(part.spec, PieceSpec)
    findings = confirmed(of, solid_of=with_other(part.spec, length_mm=part.spec.length_mm + by_mm))
    face = only(tuple(f for f in findings if f.code == "cut-face-off"))
    assert mark in face.parts
    assert face.measured is not None
    assert face.limit is not None
    assert face.measured - face.limit == pytest.approx(-by_mm, abs=1e-4)
    assert codes(findings) > {"cut-face-off"}


def test_an_elbows_long_leg_five_hundredths_long() -> None:
    """A long leg .05 mm too long stands that much deeper in the earlier piece, and nowhere else."""
    of = project()
    elbow = next(p for p in of[3].fitted if p.role == "elbow")
    assert isinstance(elbow.spec, ElbowSpec)
    findings = confirmed(of, solid_of=with_other(elbow.spec, long_leg_mm=elbow.spec.long_leg_mm + 0.05))
    off = [f for f in findings if f.code == "insertion-off"]
    assert codes(findings) == {"insertion-off", "volume-off"}
    assert [f.measured for f in off] == pytest.approx([34.05] * len(off), abs=1e-4)
    assert {f.limit for f in off} == {34.0}
    assert all("toward the return" in f.message for f in off)


def test_an_elbows_short_leg_five_hundredths_short() -> None:
    """A short leg .05 mm too short stands that much less deep in the later piece."""
    of = project()
    elbow = next(p for p in of[3].fitted if p.role == "elbow")
    assert isinstance(elbow.spec, ElbowSpec)
    findings = confirmed(of, solid_of=with_other(elbow.spec, short_leg_mm=elbow.spec.short_leg_mm - 0.05))
    off = [f for f in findings if f.code == "insertion-off"]
    assert [f.measured for f in off] == pytest.approx([23.95] * len(off), abs=1e-4)
    assert all("toward the valve" in f.message for f in off)


@pytest.mark.parametrize(("role", "kind"), [("spigot", SpigotSpec), ("coupler", CouplerSpec)])
def test_a_spigot_five_hundredths_long(role: str, kind: type) -> None:
    """A link's or a coupler's spigot .05 mm too long stands that much deeper, in every end that it enters."""
    of = project()
    part = next(p for p in of[3].fitted if p.role == role)
    assert isinstance(part.spec, kind)
    insertion = 24.0 + 0.05
    findings = confirmed(of, solid_of=with_other(part.spec, insertion_mm=insertion))
    off = [f for f in findings if f.code == "insertion-off"]
    users = sum(1 for p in of[3].fitted if p.spec == part.spec) * (2 if role == "coupler" else 1)
    assert len(off) == users
    assert [f.measured for f in off] == pytest.approx([insertion] * users, abs=1e-4)


@pytest.mark.parametrize("by_mm", [0.02, -0.02])
@pytest.mark.parametrize(
    ("part_id", "wanted"),
    [
        ("r-2/piece", {"cut-face-off", "insertion-off", "gap-off"}),
        ("r-J2/elbow-upper", {"insertion-off", "gap-off"}),
        ("r-J1/link-spigot-end-lower", {"insertion-off"}),
        ("r-J1/link-hose-lower", {"gap-off"}),
        ("r-1/valve-end", {"insertion-off"}),
        ("r-9/return-end", {"insertion-off"}),
        ("D1/piece", {"cut-face-off"}),
    ],
)
def test_a_part_shifted_by_two_hundredths(part_id: str, wanted: set[str], by_mm: float) -> None:
    """A part that stands .02 mm along its wall from its place is found by what it puts off."""
    assert codes(confirmed(project(), along_wall(project(), part_id, by_mm))) == wanted


@pytest.mark.parametrize("part_id", ["r-2/piece", "r-J2/elbow-upper", "r-J1/link-hose-lower"])
def test_a_part_shifted_by_half_a_hundredth(part_id: str) -> None:
    """What is within a hundredth is confirmed; asked more closely, it is not."""
    of = project()
    scene = along_wall(of, part_id, 0.005)
    assert confirmed(of, scene) == ()
    plan, _, layout, _ = of
    assert confirm_project(plan.room, layout, scene, closeness=Closeness(length_mm=0.004)) != ()


@pytest.mark.parametrize(("wider_mm", "off"), [(0.02, True), (0.002, False)])
def test_a_volume_that_is_off(wider_mm: float, off: bool) -> None:
    """A bracket 40 wide that is built .02 wider is off by 5 parts in 10000 and found; by .002, half of one
    part, it is not.
    """
    of = project()
    bracket = next(p for p in of[3].fitted if p.role == "bracket")
    assert isinstance(bracket.spec, BracketSpec)
    findings = confirmed(of, solid_of=with_other(bracket.spec, width_mm=bracket.spec.width_mm + wider_mm))
    assert codes(findings) == ({"volume-off"} if off else set())
    if off:
        found = only(findings)
        assert found.measured is not None
        assert found.limit == pytest.approx(bracket.spec.volume_mm3)
        assert found.measured > bracket.spec.volume_mm3


def test_a_leg_that_is_missing() -> None:
    """An end without one of its legs is found, with how many there are."""
    of = project()
    finding = next(
        f for f in confirmed(of, without(of[3], "r-J1/link-spigot-end-lower")) if f.code == "insertion-off"
    )
    assert (finding.measured, finding.limit) == (1.0, 2.0)


def test_a_piece_that_is_missing() -> None:
    """A piece of the layout that has no solid is found."""
    of = project()
    assert any(
        "r-4" in f.parts and f.code == "cut-face-off" for f in confirmed(of, without(of[3], "r-4/piece"))
    )


def test_a_piece_off_square() -> None:
    """A piece turned by a hundredth of a degree has no cut face square to its wall."""
    of = project()
    scene = of[3]
    part = scene.part("r-2/piece")
    turned = replace(part, placement=part.placement @ turned_about_z(0.01))
    findings = confirmed(of, Scene(parts=tuple(turned if p.id == part.id else p for p in scene.parts)))
    assert any(f.code == "cut-face-off" and "not found square" in f.message for f in findings)


def test_the_measuring_code_reads_neither_layout_nor_sizes() -> None:
    """The modules that measure import neither layout nor families, scene or specs: only geometry and the
    kernel.
    """
    folder = Path(__file__).parents[2] / "model3d" / "confirm"
    for name in ("measure.py", "square_faces.py", "values.py"):
        for node in ast.walk(ast.parse((folder / name).read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("model3d"):
                assert node.module in (
                    "model3d.geometry.placement",
                    "model3d.solids.placing",
                    "model3d.confirm.values",
                    "model3d.confirm.square_faces",
                ), f"{name} imports {node.module}"
