"""Rooms given by a survey: read from the plan, adjusted, and refused with the reading that is wrong."""

from __future__ import annotations

import math

import pytest

from model3d.survey import survey_data, survey_findings, survey_text

from .plans import faults_of, read, with_room

# A room of 4 m by 3 m whose third corner stands 20 mm out of square; lengths to a tenth of a millimetre.
CORNERS = [(0.0, 0.0), (4000.0, 0.0), (4020.0, 3000.0), (0.0, 3000.0)]


def flat(i: int, j: int, off: float = 0.0) -> str:
    """The distance of two corners as written, wrong by ``off``."""
    return f"{math.dist(CORNERS[i], CORNERS[j]) + off:.1f}"


def room(*, off: dict[str, float] | None = None, diagonals: int = 2, angles: str = "", turn: str = "") -> str:
    """The room's survey in the flow style; ``off`` are errors by the name of the reading."""
    wrong = off or {}
    walls = [f"{{length: {flat(i, (i + 1) % 4, wrong.get(f'w{i + 1}', 0.0))}{turn}}}" for i in range(4)]
    across = [
        f"{{from: c{i + 1}, to: c{j + 1}, length: {flat(i, j, wrong.get(f'c{i + 1}-c{j + 1}', 0.0))}}}"
        for i, j in ((0, 2), (1, 3))[:diagonals]
    ]
    return f"{{walls: [{', '.join(walls)}], survey: {{diagonals: [{', '.join(across)}], angles: [{angles}]}}}}"


ANGLES = (
    "{corner: c1, interior: 90, sigma: 0.05}, {corner: c2, turn: 89.62, sigma: 0.05}, "
    "{corner: c3, interior: 89.62, sigma: 0.05}, {corner: c4, interior: 90, sigma: 0.05}"
)


def test_a_survey_gives_the_room() -> None:
    """Walls, diagonals and angles give the corners, from a sketch whose turns are all square."""
    plan = read(with_room(room(angles=ANGLES)))
    for corner, true in zip(plan.room.outer.corners, CORNERS, strict=True):
        assert corner.at_mm == pytest.approx(true, abs=0.6)
    assert plan.survey is not None
    assert (plan.survey.redundancy, len(plan.survey.readings)) == (5, 10)
    assert plan.survey.points == tuple(c.at_mm for c in plan.room.outer.corners)
    assert survey_findings(plan.survey) == ()


def test_a_room_without_a_survey_has_no_report() -> None:
    """A room by its corners, or by walls and turns alone, is taken as it is."""
    assert read(with_room("{corners: [[0, 0], [4000, 0], [4000, 3000], [0, 3000]]}")).survey is None


@pytest.mark.parametrize(
    ("name", "key"),
    [("w2", "room.walls[2].length"), ("c1-c3", "room.survey.diagonals[1].length")],
)
def test_a_wrong_reading_is_refused_by_name(name: str, key: str) -> None:
    """A survey worse than its standard errors is refused where the likely wrong reading stands, with what the others
    say.
    """
    (fault,) = faults_of(with_room(room(off={name: 30.0}, angles=ANGLES)))
    assert fault.key == key
    assert fault.line > 0
    for words in ("do not agree", "Likely wrong", "30", "less, and agree without it"):
        assert words in fault.message


def test_what_cannot_be_told_apart_is_all_named() -> None:
    """With one reading too many, all readings tie, and all are named."""
    (fault,) = faults_of(with_room(room(off={"w2": 30.0})))
    for name in ("wall w1", "wall w2", "wall w3", "wall w4", "diagonal c1 to c3", "diagonal c2 to c4"):
        assert name in fault.message
    assert "cannot be told from" in fault.message


def test_errors_that_would_not_be_seen_are_said() -> None:
    """Where nothing checks the readings, the plan is taken and a finding says so."""
    report = read(with_room(room(diagonals=1))).survey
    assert report is not None
    (finding,) = survey_findings(report)
    assert finding.code == "survey-unchecked"
    assert "wall w1, wall w2, wall w3, wall w4, diagonal c1 to c3" in finding.message
    assert "just enough" in survey_text(report)


def test_hardly_checked_readings_are_said_with_what_would_be_seen() -> None:
    """An exact length beside a rough angle is hardly checked: a finding gives the least error that would be found."""
    report = read(with_room(room(diagonals=1, angles="{corner: c1, interior: 90, sigma: 3}"))).survey
    assert report is not None
    codes = {f.code: f for f in survey_findings(report)}
    finding = codes["survey-hardly-checked"]
    assert set(codes) == {"survey-unchecked", "survey-hardly-checked"}
    assert codes["survey-unchecked"].parts == ("wall w1", "wall w4")
    assert f"wall w2 {report.reading('wall w2').least_error:.1f} mm" in finding.message


@pytest.mark.parametrize(
    ("text", "key", "words"),
    [
        (room(diagonals=0), "room.survey", "do not fix the room"),
        (room(angles="{corner: c9, interior: 90}"), "room.survey.angles[1].corner", "there is no corner 'c9'"),
        (room(angles="{corner: c1}"), "room.survey.angles[1].interior", "'interior' or by 'turn'"),
        (
            room(angles="{corner: c1, interior: 90}, {corner: c1, turn: 90}"),
            "room.survey.angles[2].turn",
            "the angle at c1 is given twice",
        ),
        (
            room().replace("to: c3", "to: c2"),
            "room.survey.diagonals[1].to",
            "no diagonal goes from c1 to c2: a wall joins them",
        ),
        (room(turn=", turn: -90"), "room.walls", "clockwise"),
        (room(turn=", turn: 40"), "room.walls", "add up to 160"),
        ("{corners: [[0, 0], [4000, 0], [0, 3000]], survey: {}}", "room.survey", "goes with 'walls'"),
        (
            "{walls: [{length: 3000, turn: 90, sigma: 2}, {length: 3000, turn: 90}, {length: 3000, turn: 90}, {}]}",
            "room.walls[1].sigma",
            "is for a room with a 'survey'",
        ),
        (room().replace("survey: {", "survey: {angle_sigma: 0, "), "room.survey.angle_sigma", "must be more than 0"),
    ],
)
def test_a_survey_that_cannot_be_used(text: str, key: str, words: str) -> None:
    """What is wrong with a survey is said once, at its line and key."""
    (fault,) = faults_of(with_room(text))
    assert fault.key == key
    assert words in fault.message


def test_a_corner_that_comes_out_otherwise_than_sketched() -> None:
    """A corner sketched at 130 that the readings make 89.6 is said at its wall; so is the one that took up the rest."""
    faults = faults_of(with_room(room().replace("}, {length", ", turn: 130}, {length", 1)))
    assert [f.key for f in faults] == ["room.walls[1]", "room.walls[4]"]
    assert "corner c2 comes out with a turn of 89.6, and the sketch says 130" in faults[0].message


def test_mirrored_corners_follow_the_sketch() -> None:
    """Lengths alone fit a corner and its mirror image across a diagonal; the sketch's turns say which is meant."""
    points = [(0.0, 0.0), (4000.0, 0.0), (4000.0, 3000.0), (2000.0, 3000.0), (2000.0, 2000.0), (0.0, 2000.0)]
    turns = [90, 90, 90, -90, 90, 90]
    walls = [f"{{length: {math.dist(points[i], points[(i + 1) % 6]):.1f}, turn: {t}}}" for i, t in enumerate(turns)]
    pairs = [(0, 2), (0, 3), (0, 4), (1, 3), (2, 4)]
    across = [f"{{from: c{i + 1}, to: c{j + 1}, length: {math.dist(points[i], points[j]):.1f}}}" for i, j in pairs]
    plan = read(with_room(f"{{walls: [{', '.join(walls)}], survey: {{diagonals: [{', '.join(across)}]}}}}"))
    for corner, true in zip(plan.room.outer.corners, points, strict=True):
        assert corner.at_mm == pytest.approx(true, abs=0.2)


def test_the_report_in_words_and_as_data() -> None:
    """The text and the data give every reading's figures; what nothing checks has no least error."""
    report = read(with_room(room(angles=ANGLES))).survey
    assert report is not None
    text, data = survey_text(report, ["north", "east", "south", "west"]), survey_data(report)
    for judged, written in zip(report.readings, data["readings"], strict=True):
        (line,) = (line for line in text.splitlines() if line.startswith(judged.name))
        assert f"{judged.standardised:+.2f}" in line
        assert written["w_test"] == judged.standardised
    assert "wall east: 3000" in text
    assert max(len(line) for line in text.splitlines()) <= 120
    unchecked = read(with_room(room(diagonals=1))).survey
    assert unchecked is not None
    assert {r["least_error_found"] for r in survey_data(unchecked)["readings"]} == {None}
