"""What the steps say."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest

from model3d.families.family import Family
from model3d.layout import lay_out
from model3d.steps import Step
from model3d.steps.handling import needs_two_people
from tests.layout.every_joint import family_of
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over
from tests.order.rooms import read
from tests.steps.planned import all_planned, every_joint, planned

SQUARE = [(0.0, 0.0), (3600.0, 0.0), (3600.0, 3000.0), (0.0, 3000.0)]
ON_THE_BENCH = re.compile(r"On the bench, (?:(\S+), )?end toward the (valve|return): ")


def said(step: Step) -> str:
    """All that a step says."""
    return "\n".join([step.title, *(a.text for a in step.actions), *(snag.text for snag in step.snags)])


def bench(step: Step) -> list[tuple[str, str]]:
    """What is done on the bench, as (end, what) in order."""
    lines = [ON_THE_BENCH.match(a.text) for a in step.actions if a.kind == "bench"]
    texts = [a.text for a in step.actions if a.kind == "bench"]
    return [(m[2], t[m.end() :]) for m, t in zip(lines, texts, strict=True) if m is not None]


def test_no_left_and_no_right() -> None:
    """On the bench left and right swap: no step says left, nor right but for right home."""
    for _, _, _, steps in all_planned():
        for step in steps:
            assert not re.search(r"\bleft\b|\bright\b(?! home)", said(step), re.IGNORECASE), said(step)


def test_every_end_is_named_by_where_it_goes() -> None:
    """The bench lines of a piece name both its ends, toward the valve first, with the clip's face if it has one."""
    for _, layout, _, steps in all_planned():
        by_mark = {p.mark: p for p in layout.pieces}
        for step in (s for s in steps if s.kind == "piece" and s.run is not None):
            lines = bench(step)
            assert [end for end, _ in lines] == ["valve", "return"] * len(step.pieces)
            ends = [e for m in step.pieces for e in (by_mark[m].start, by_mark[m].end)]
            for (_, what), end in zip(lines, ends, strict=True):
                clip = f"clip {end.clip.upper()}, tapped in flush" if end.clip != "none" else "no clip"
                assert what.startswith(clip)
                others = {"FRONT", "BACK"} - {end.clip.upper()}
                assert not any(other in what for other in others)


def test_clips_go_in_before_any_fitting() -> None:
    """On every end the clip comes before what snaps into it; couplers come when both their clips are in."""
    for _, _, _, steps in all_planned():
        for step in steps:
            for number, (_, what) in enumerate(bench(step)):
                if "grease" in what:
                    assert "clip" in what.partition("grease")[0]
                if "couple it to" in what:
                    assert number >= 2
                    assert number % 2 == 0


def test_moves_are_numbered_as_their_arrows() -> None:
    """The moves carry the numbers of their legs in order, and what is done after them counts on."""
    for _, _, _, steps in all_planned():
        for step in (s for s in steps if s.kind == "piece" and s.run is not None):
            labels = [a.label for a in step.actions if a.label]
            assert labels == [str(n) for n in range(1, len(labels) + 1)]
            assert [a.kind for a in step.actions if a.kind == "move"] == ["move"] * len(step.legs)
            order = [("bench", "move", "after").index(a.kind) for a in step.actions]
            assert all(a <= b for a, b in pairwise(order))


def test_distances_and_greasing_are_said() -> None:
    """A piece of family (a) between two elbow corners: what is said of it, word for word."""
    ring = ring_of(SQUARE)
    steps = planned(plan_of(ring, run_over(ring, 4, 3)), family_of("a-square"))[3]
    assert [a.text for a in steps[2].actions] == [
        "On the bench, end toward the valve: clip BACK, tapped in flush.",
        (
            "On the bench, end toward the return: no clip; grease 8 O-rings, long legs in, worked in and out a few "
            "times, then pushed right home (18 mm past working)."
        ),
        "Offer it up slanting in, 15 mm nearer the valve at first, held back from the far corner.",
        "Raise 5 mm onto the ramps.",
        "Slide 26 mm toward the valve onto the short legs until it clicks.",
        "Press 8 mm to the wall until it clicks.",
        "Draw the elbows out 10 mm: the short legs then stand 8 mm in front of the next piece's place.",
    ]


@pytest.mark.parametrize(
    ("too_long_mm", "bench", "after"),
    [
        (9.5, "right home (8.5 mm past working)", "Draw the elbows out 0.5 mm: the short legs"),
        (10.0, "right home (8 mm past working)", "Leave the elbows pushed right home: the short legs then stand 8 mm"),
        (16.0, "right home (2 mm past working)", "The piece is too long: pushed right home, its elbows stand 6 mm"),
        (20.0, "home (2 mm short of working)", "The piece is too long: pushed right home, its elbows stand 10 mm"),
    ],
)
def test_what_is_said_of_elbows_in_a_piece_cut_too_long(too_long_mm: float, bench: str, after: str) -> None:
    """Elbows of family (a) go 18 mm past working and are drawn out 10 of them; a piece that is too long takes all of
    its excess from both, and what is left to do is said, never a length below nothing.
    """
    run = "runs:\n  - {id: A, start: {wall: w1, at: 1500}, end: {wall: w2, at: 1200}}\n"
    laid = read(run).layout.pieces[0].cut_length_mm
    cut = read(run, f"as_cut: {{A-1: {laid + too_long_mm:.1f}}}\n")
    texts = [a.text for s in cut.steps for a in s.actions if "A-1" in s.pieces]
    texts = [t for t in texts if "elbows" in t or "long legs" in t]
    assert any(bench in text for text in texts)
    assert any(text.startswith(after) for text in texts)
    assert not any(" -" in text for text in texts)


def test_snag_at_the_valve() -> None:
    """The piece with the valve end, and no other of family (a), tells of the cradle that its clip can catch on."""
    for _, _, _, steps in (every_joint("a-square", 1), every_joint("a-square", -1)):
        snags = [[snag.text for snag in s.snags] for s in steps if s.kind == "piece"]
        assert "cradle" in " ".join(snags[0])
        assert all(found == [] for found in snags[1:])


@pytest.mark.parametrize(
    ("name", "words"), [("a-square", "heads up"), ("b-moulded", "heads up"), ("c-low", "heads to the front")]
)
def test_screw_heads_of_links(name: str, words: str) -> None:
    """Links are pushed in with their screw heads where a screwdriver reaches them."""
    lines = [a.text for s in every_joint(name, 1)[3] for a in s.actions if "Grease the links" in a.text]
    assert lines
    assert all(f"screw {words}" in line for line in lines)


@pytest.mark.parametrize(("run_mm", "two"), [(2950.0, False), (3000.0, False), (3000.5, True), (3400.0, True)])
def test_two_people_past_three_metres(run_mm: float, two: bool) -> None:
    """Family (a): a piece longer than 3000 mm takes two people, one of 3000 does not."""
    family = family_of("a-square")
    length = run_mm + 95.0 + 60.0
    ring = ring_of([(0.0, 0.0), (length, 0.0), (length, 3000.0), (0.0, 3000.0)])
    run = run_over(ring, 1, 1, cut_lengths={"w1": [(1, run_mm)]})
    step = planned(plan_of(ring, run), family)[3][1]
    assert step.two_people is two


def test_two_people_for_coupled_pieces_together() -> None:
    """Coupled pieces count together."""
    ring = ring_of([(0.0, 0.0), (3700.0, 0.0), (3700.0, 3000.0), (0.0, 3000.0)])
    run = run_over(ring, 1, 1, joints={"w1": [(1900.0, "coupler")]})
    family, layout, _, steps = planned(plan_of(ring, run), family_of("a-square"))
    assert max(p.cut_length_mm for p in layout.pieces) < 2000.0
    assert [s.two_people for s in steps if s.kind == "piece"] == [True]
    assert not needs_two_people(family, layout.pieces[:1])


def test_two_people_past_a_mass() -> None:
    """A piece heavier than one person's mass takes two, however short; mass is section area x length x density."""
    family = family_of("a-square")
    ring = ring_of(SQUARE)
    (piece,) = lay_out(plan_of(ring, run_over(ring, 1, 1, end_at=1000.0)), family).pieces
    mass = family.section.spec(heated=True).metal_area_mm2 * piece.cut_length_mm * 2.7e-6
    assert 1.0 < mass < 8.0
    for most, two in ((mass + 0.01, False), (mass - 0.01, True)):
        assert needs_two_people(_with_mass(family, most), (piece,)) is two


def _with_mass(family: Family, most_kg: float) -> Family:
    return family.model_copy(update={"handling": family.handling.model_copy(update={"one_person_mass_kg": most_kg})})


@pytest.mark.parametrize(("length_mm", "together"), [(229.0, True), (229.2, False), (300.0, False)])
def test_short_pieces_are_pressed_at_both_ends(length_mm: float, together: bool) -> None:
    """A piece shorter than p / tan(play) = 8 / tan 2 = 229.09 mm is pressed at both ends together."""
    ring = ring_of([(0.0, 0.0), (length_mm + 102.0, 0.0), (length_mm + 102.0, 3000.0), (0.0, 3000.0)])
    steps = planned(plan_of(ring, run_over(ring, 4, 3)), family_of("a-square"))[3]
    presses = [a.text for a in steps[2].actions if a.text.startswith("Press ")]
    assert presses == [f"Press 8 mm to the wall{' at both ends together' if together else ''} until it clicks."]


def test_cautions_of_the_steps() -> None:
    """Brackets: look for buried cables and pipes first; the test before anything is covered; covers only after it."""
    for _, _, _, steps in all_planned():
        for step in steps:
            texts = [a.text for a in step.actions]
            if step.kind == "brackets":
                assert texts[0] == "Check for buried cables and pipes before drilling."
                fixed = sum(i.rsplit("/", 1)[1].startswith("bracket") for i in step.follows)
                assert f" {fixed} brackets" in texts[1]
            if step.kind == "pressure-test":
                assert "before anything is covered" in texts[-1]
            if step.kind == "covers":
                assert texts[0].startswith("Only after the pressure test")
