"""The layout as written out: its schema, its figures, and what a wrong file is told."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from model3d.families.family import Family
from model3d.layout import Layout, lay_out, layout_data, layout_schema

from .every_joint import FAMILIES, every_joint_plan, family_of
from .random_rooms import rectilinear_points, skew_points
from .rooms_by_hand import plan_of, ring_of, run_over

Points = list[tuple[float, float]]


def as_json(layout: Layout) -> Any:
    """The layout through JSON and back. A number that is not finite is refused."""
    return json.loads(json.dumps(layout_data(layout), allow_nan=False))


def validator() -> Draft202012Validator:
    """The validator of a written layout; the schema itself is checked first."""
    schema = layout_schema()
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


@pytest.mark.parametrize("sense", [1, -1])
@pytest.mark.parametrize("name", FAMILIES)
def test_a_written_layout_is_as_its_schema_says(name: str, sense: int) -> None:
    """What is written for a run with every joint is valid under the schema generated from the code."""
    errors = [e.message for e in validator().iter_errors(as_json(lay_out(every_joint_plan(sense), family_of(name))))]
    assert errors == []


@given(points=st.one_of(rectilinear_points(), skew_points()), sense=st.sampled_from([1, -1]))
def test_any_layout_is_as_its_schema_says(family_a: Family, points: Points, sense: int) -> None:
    """So is the layout of any room, findings and all."""
    ring = ring_of(points)
    run = run_over(ring, 1 if sense > 0 else len(points) - 1, len(points) - 1, sense=sense)
    assert validator().is_valid(as_json(lay_out(plan_of(ring, run), family_a)))


SPOILT: list[tuple[tuple[str | int, ...], Any]] = [
    (("pieces", 0, "start", "joint"), "tap"),
    (("pieces", 0, "start", "clip"), "left"),
    (("pieces", 0, "cut_length_mm"), "3 m"),
    (("pieces", 0, "sense"), 1),
    (("pieces", 0, "brackets", 0, "along_wall_mm"), None),
    (("joints", 0, "kind"), "weld"),
    (("joints", 0, "long_leg"), 3.0),
    (("length_unit",), "in"),
    (("schema",), "dryfit-layout-2"),
    (("findings",), {}),
]


@pytest.mark.parametrize(("way", "value"), SPOILT)
def test_a_wrong_value_is_refused_by_the_schema(family_a: Family, way: tuple[str | int, ...], value: Any) -> None:
    """The schema refuses a layout with one value that is no such thing, at that value."""
    data = as_json(lay_out(every_joint_plan(1), family_a))
    here = data
    for step in way[:-1]:
        here = here[step]
    here[way[-1]] = value
    assert {tuple(error.absolute_path) for error in validator().iter_errors(data)} == {way}


def test_a_missing_value_is_refused_by_the_schema(family_a: Family) -> None:
    """The schema refuses a layout whose piece lacks its cut length."""
    data = as_json(lay_out(every_joint_plan(1), family_a))
    del data["pieces"][0]["cut_length_mm"]
    assert not validator().is_valid(data)


@pytest.mark.parametrize("sense", [1, -1])
def test_pieces_as_written(family_a: Family, sense: int) -> None:
    """A piece is written with mark, run, wall, sense, and joint, clip and allowance at each end, in order."""
    layout = lay_out(every_joint_plan(sense), family_a)
    written = as_json(layout)["pieces"]
    for data, piece in zip(written, layout.pieces, strict=True):
        assert (data["mark"], data["run"], data["wall"]) == (piece.mark, piece.run, piece.wall.id)
        assert data["sense"] == ("with-walls" if piece.sense > 0 else "against-walls")
        assert data["heated"] is (piece.run is not None)
        assert data["cut_length_mm"] == pytest.approx(piece.cut_length_mm, abs=5e-4)
        assert (data["near_mm"], data["far_mm"]) == pytest.approx((piece.near_mm, piece.far_mm), abs=5e-4)
        for name, end in (("start", piece.start), ("end", piece.end)):
            assert (data[name]["joint"], data[name]["clip"]) == (end.joint, end.clip)
            assert data[name]["allowance_mm"] == pytest.approx(sum(t.value_mm for t in end.terms), abs=5e-4)
            assert [t["name"] for t in data[name]["terms"]] == [t.name for t in end.terms]
        assert [b["from_near_end_mm"] for b in data["brackets"]] == pytest.approx(
            [abs(b["along_wall_mm"] - data["near_mm"]) for b in data["brackets"]], abs=2e-3
        )


def test_joints_as_written(family_a: Family) -> None:
    """A joint is written with its kind, pieces and corner; an elbow with its long leg's figures, a link with its
    straight part.
    """
    joints = as_json(lay_out(every_joint_plan(1), family_a))["joints"]
    assert [(j["kind"], j["corner"], j["turn_deg"]) for j in joints] == [
        ("link", None, 0.0),
        ("elbow", "c2", 90.0),
        ("elbow", "c3", 90.0),
        ("coupler", None, 0.0),
        ("link", "c4", -90.0),
        ("elbow", "c5", 90.0),
        ("link", "c6", 45.0),
        ("link", "c7", 45.0),
    ]
    assert [(j["earlier"], j["later"]) for j in joints] == [(f"r-{i}", f"r-{i + 1}") for i in range(1, 9)]
    long_leg = {"insertion_mm": 34.0, "push_home_by_mm": 18.0, "draw_out_to_mm": 42.0, "press_draws_mm": 8.0}
    assert [j["long_leg"] for j in joints] == [long_leg if j["kind"] == "elbow" else None for j in joints]
    assert [j["hose_straight_mm"] for j in joints] == [40.0, None, None, None, 8.584, None, 24.292, 24.292]


ODD = [(0.0, 0.0), (3001.23456789, 17.7654321), (2999.87654321, 2500.1234567), (77.1234567, 2600.7654321)]


@pytest.mark.parametrize("sense", [1, -1])
def test_figures_are_rounded_to_a_thousandth(family_a: Family, sense: int) -> None:
    """Lengths and angles, those of findings too, are written to a thousandth, nought never as minus nought."""
    ring = ring_of(ODD)
    layout = lay_out(plan_of(ring, run_over(ring, 1 if sense > 0 else 4, 4, sense=sense)), family_a)
    assert layout.findings
    text = json.dumps(layout_data(layout))
    numbers: list[float] = []

    def kept(written: str) -> float:
        numbers.append(float(written))
        assert len(written.partition(".")[2]) <= 3, written
        assert not written.startswith("-0.0") or float(written) != 0.0
        return float(written)

    json.loads(text, parse_float=kept)
    assert len(numbers) > 80
