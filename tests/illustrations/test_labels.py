"""Labels, leaders and words of whole sheets, in every language, and the judge that looks at them."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from model3d.illustrations.draw import Kind, illustration
from model3d.illustrations.marks import DOT_MM
from model3d.illustrations.picture import Job
from model3d.illustrations.sheet import Area, Disc, Sheet, Stroke, Words
from model3d.themes import Theme
from model3d.wording import catalogue
from tests.illustrations.judge import faults, leaders_of
from tests.illustrations.long_words import in_long_words

QUICK: tuple[tuple[Kind, str], ...] = (
    ("exploded", "A-J1"),
    ("exploded", "A-2"),
    ("corner", "A-J1"),
    ("step", "1"),
    ("step", "3"),
    ("pair", "clip-face"),
    ("pair", "push-home"),
    ("pair", "grease"),
    ("pair", "o-ring"),
)


@pytest.mark.parametrize(("kind", "name"), QUICK)
def test_words_40_percent_longer_overflow_nowhere(job: Job, theme: Theme, kind: Kind, name: str) -> None:
    """With words 40 % longer nothing runs off the page or lies over anything, no leaders cross, and every number stands
    both on the drawing and below it.
    """
    sheet = illustration(in_long_words(job), kind, name, theme)
    assert faults(sheet, theme) == []
    assert unmarked_words(sheet) == []


def unmarked_words(sheet: Sheet) -> list[str]:
    """Words that are not of a language whose words are all marked, but for marks of pieces and ids."""
    texts = (re.sub(r"[A-Z]-J?\d+|\b[cw]\d+\b", "", m.text) for m in sheet.marks if isinstance(m, Words))
    return [word for text in texts for word in re.findall(r"[A-Za-z]{2,}§*", text) if not word.endswith("§")]


def test_words_that_are_not_of_the_catalogue_are_found(job: Job, theme: Theme) -> None:
    """The same look at an English sheet finds its words."""
    assert {"Right", "Wrong", "grease"} <= set(unmarked_words(illustration(job, "pair", "o-ring", theme)))


def test_german(job: Job, theme: Theme) -> None:
    """A German sheet has German words and a decimal comma, and no fault."""
    german = replace(job, words=catalogue("de"))
    sheet = illustration(german, "pair", "push-home", theme)
    said = " ".join(m.text for m in sheet.marks if isinstance(m, Words))
    assert {"Richtig", "Falsch"} <= set(said.split())
    assert re.search(r"\d,\d mm", said)
    assert faults(sheet, theme) == []


@pytest.mark.slow
def test_every_subject_of_the_plan_is_without_fault(job: Job, theme: Theme) -> None:
    """All steps, joints and pieces of a plan, and its views: nothing over anything, nothing off the page."""
    joints = [("exploded", j.mark) for run in job.layout.runs for j in run.joints]
    joints += [("corner", j.mark) for run in job.layout.runs for j in run.joints]
    pieces = [("exploded", p.mark) for p in job.layout.pieces]
    steps = [("step", str(s.number)) for s in job.steps]
    views = [("view", name) for name in ("above", "plan", "w1")]
    subjects: list[tuple[Kind, str]] = [*joints, *pieces, *steps, *views]  # type: ignore[list-item]
    found = {(kind, name): faults(illustration(job, kind, name, theme), theme) for kind, name in subjects}
    assert {subject: wrong for subject, wrong in found.items() if wrong} == {}


@pytest.fixture(scope="module")
def sheet(job: Job, theme: Theme) -> Sheet:
    """An exploded joint without a fault."""
    made = illustration(job, "exploded", "A-J1", theme)
    assert faults(made, theme) == []
    return made


def test_words_over_words_are_found(sheet: Sheet, theme: Theme) -> None:
    """A second title over the first is found, and one past the page's edge."""
    title = next(m for m in sheet.marks if isinstance(m, Words))
    over = replace(sheet, marks=(*sheet.marks, replace(title, at=(title.at[0] + 3.0, title.at[1] + 1.0))))
    assert any("lies over" in fault for fault in faults(over, theme))
    off = replace(sheet, marks=(*sheet.marks, replace(title, at=(title.at[0] + 120.0, title.at[1] + 900.0))))
    assert any("off the page" in fault for fault in faults(off, theme))


def test_a_balloon_over_another_is_found(sheet: Sheet, theme: Theme) -> None:
    """A balloon moved onto another one is found."""
    balloons = [m for m in sheet.marks if isinstance(m, Disc) and m.edge_colour == "callout" and m.edge]
    moved = replace(balloons[0], centre=(balloons[1].centre[0] + 1.0, balloons[1].centre[1]))
    assert any("over one another" in fault for fault in faults(replace(sheet, marks=(*sheet.marks, moved)), theme))


def test_a_crossing_leader_is_found(sheet: Sheet, theme: Theme) -> None:
    """A leader across another one is found."""
    one = leaders_of(sheet)[0]
    (ax, ay), (bx, by) = one.start, one.end
    middle = ((ax + bx) / 2, (ay + by) / 2)
    across = ((by - ay) / 2, (ax - bx) / 2)
    start, end = ((middle[0] + s * across[0], middle[1] + s * across[1]) for s in (-1.0, 1.0))
    other = (Stroke(points=(start, end), weight="thin"), Disc(centre=end, radius=DOT_MM, fill="ink"))
    assert any("cross" in fault for fault in faults(replace(sheet, marks=(*sheet.marks, *other)), theme))


def test_a_number_without_its_line_is_found(sheet: Sheet, theme: Theme) -> None:
    """A parts list that lacks one of the drawing's numbers is found (ISO 6433, from memory)."""
    last = max(k for k, m in enumerate(sheet.marks) if isinstance(m, Words) and m.size == "balloon" and m.text == "1")
    lacking = replace(sheet, marks=tuple(m for k, m in enumerate(sheet.marks) if k != last))
    assert any("only one of" in fault for fault in faults(lacking, theme))


def test_a_flag_under_a_leader_is_found(sheet: Sheet, theme: Theme) -> None:
    """A box of words in the way of a leader is found."""
    leader = leaders_of(sheet)[0]
    x, y = (leader.start[0] + 2 * leader.end[0]) / 3, (leader.start[1] + 2 * leader.end[1]) / 3
    ring = ((x - 3.0, y - 2.0), (x + 3.0, y - 2.0), (x + 3.0, y + 2.0), (x - 3.0, y + 2.0))
    box = Area(rings=(ring,), fill="paper", edge="medium")
    assert any("runs over a label" in f for f in faults(replace(sheet, marks=(*sheet.marks, box)), theme))
