"""The order of the steps, and what each brings."""

from __future__ import annotations

from collections import Counter

import pytest

from model3d.layout import Layout
from model3d.steps import Step
from tests.steps.planned import GALLERY, all_planned, every_joint, gallery

PIECE_BRINGS = {"piece", "clip", "valve-end", "return-end", "turn-back-end", "elbow", "coupler", "bridge", "o-ring"}


def of_run(steps: tuple[Step, ...], run: str) -> list[Step]:
    """A run's steps, in order."""
    return [s for s in steps if s.run == run]


def marks(layout: Layout) -> list[str]:
    """All pieces of runs, from valve to return, run after run."""
    return [p.mark for run in layout.runs for p in run.pieces]


def test_every_fitted_part_is_brought_once() -> None:
    """Every part that is fitted is brought by exactly one step, and no part of the room by any."""
    for _, _, scene, steps in all_planned():
        brought = Counter(i for s in steps for i in (*s.travels, *s.follows))
        assert brought == Counter(p.id for p in scene.fitted)
        assert max(brought.values()) == 1


def test_steps_are_numbered_in_order() -> None:
    """Steps count from 1 without a gap, run after run, dry pieces last."""
    for _, layout, _, steps in all_planned():
        assert [s.number for s in steps] == list(range(1, len(steps) + 1))
        runs = [s.run for s in steps]
        order = [run.id for run in layout.runs] + ([None] if layout.dry_pieces else [])
        assert list(dict.fromkeys(runs)) == order
        assert runs == sorted(runs, key=order.index)


def test_brackets_first_then_pieces_then_the_test_then_covers() -> None:
    """A run begins with all its brackets, goes on piece by piece from the valve end to the return end, and ends with
    the pressure test and then the covers.
    """
    for _, layout, _, steps in all_planned():
        for run in layout.runs:
            kinds = [s.kind for s in of_run(steps, run.id)]
            assert kinds == ["brackets", *["piece"] * (len(kinds) - 3), "pressure-test", "covers"]
        assert [m for s in steps if s.run is not None for m in s.pieces] == marks(layout)


def test_what_the_kinds_of_step_bring() -> None:
    """The brackets' step brings every bracket of the run and the cradle; trims and caps come after the pressure test;
    a piece's step brings all else.
    """
    for _, layout, scene, steps in all_planned():
        for step in steps:
            roles = {scene.part(i).role for i in (*step.travels, *step.follows)}
            if step.kind == "brackets":
                assert roles == ({"bracket", "cradle"} if step.run is not None else {"bracket"})
                mine = [p.id for p in scene.fitted if p.role in ("bracket", "cradle") and p.run == step.run]
                assert sorted(step.follows) == sorted(mine)
            elif step.kind == "pressure-test":
                assert roles == set()
            elif step.kind == "covers":
                assert roles <= {"trim", "end-cap"}
            elif step.run is None:
                assert roles == {"dry-piece", "end-cap"}
            else:
                assert roles <= PIECE_BRINGS | {"spigot", "hose"}
        for run in layout.runs:
            assert {p.id for p in scene.fitted if p.role == "trim" and p.run == run.id} <= set(
                of_run(steps, run.id)[-1].follows
            )


def test_dry_pieces_go_on_brackets_too() -> None:
    """The brackets of dry pieces are up before the first of them is offered."""
    for _, layout, _, steps in all_planned():
        if layout.dry_pieces:
            last = [s for s in steps if s.run is None]
            assert [s.kind for s in last] == ["brackets", *["piece"] * len(layout.dry_pieces)]


def test_coupled_pieces_go_up_as_one() -> None:
    """Pieces joined by a coupler are in one step and travel together with their coupler; all others go up alone."""
    for _, layout, scene, steps in all_planned():
        for run in layout.runs:
            coupled = {(j.earlier, j.later): j for j in run.joints if j.kind == "coupler"}
            groups = [s for s in of_run(steps, run.id) if s.kind == "piece"]
            for step in groups:
                inside = list(zip(step.pieces, step.pieces[1:], strict=False))
                assert set(inside) <= set(coupled)
                for pair in inside:
                    parts = {p.id for p in scene.fitted if p.joint == coupled[pair].mark}
                    assert parts <= set(step.travels)
            assert sum(len(s.pieces) - 1 for s in groups) == len(coupled)


def test_links_follow_once_the_piece_is_up() -> None:
    """A link at a piece's far end goes in after the piece is up; elbows travel with it."""
    links = 0
    for _, layout, scene, steps in all_planned():
        joints = {j.earlier: j for run in layout.runs for j in run.joints}
        for step in (s for s in steps if s.kind == "piece" and s.run is not None):
            far = joints.get(step.pieces[-1])
            late = {p.id for p in scene.fitted if far is not None and p.joint == far.mark and p.role != "trim"}
            if far is not None and far.kind == "link":
                links += 1
                assert late == set(step.follows)
                assert {"hose", "spigot", "bridge", "o-ring"} == {scene.part(i).role for i in late}
            else:
                assert step.follows == ()
                assert late <= set(step.travels)
    assert links > 20


def test_end_fittings_travel_with_their_piece() -> None:
    """The valve end goes up with the first piece, the return or turn-back end with the last."""
    for _, layout, scene, steps in all_planned():
        for run in layout.runs:
            pieces = [s for s in of_run(steps, run.id) if s.kind == "piece"]
            roles = [{scene.part(i).role for i in s.travels} for s in pieces]
            assert [("valve-end" in r) for r in roles] == [True, *[False] * (len(pieces) - 1)]
            end = "turn-back-end" if run.turns_back else "return-end"
            assert [(end in r) for r in roles] == [*[False] * (len(pieces) - 1), True]


@pytest.mark.parametrize(
    ("room", "titles"),
    [
        ("l-room", [
            "Run A: all brackets first", "Piece A-1, with the valve end", "Piece A-2, after the in-line link",
            "Piece A-3, after the internal corner c7", "Piece A-4, after the internal corner c6",
            "Piece A-5, after the internal corner c5", "Pieces A-6 + A-7, after the external corner c4",
            "Piece A-8, after the internal corner c3", "Run A: pressure test", "Run A: trims and end caps last",
            "Run B: all brackets first", "Piece B-1, with the valve end", "Run B: pressure test",
            "Run B: trims and end caps last", "Dry pieces: all brackets first",
                'Dry piece D1, between corner c1 and the door "door"',
        ]),
        ("faulty", [
            "Run A: all brackets first", "Piece A-1, with the valve end", "Piece A-2, after the internal corner c1",
            "Piece A-3, after the internal corner c2", "Piece A-4, after the internal corner c3",
            "Run A: pressure test", "Run A: trims and end caps last",
        ]),
    ],
)  # fmt: skip
def test_steps_of_the_gallery(room: str, titles: list[str]) -> None:
    """The steps of the gallery's rooms, by name."""
    assert [s.title for s in gallery(room)[3]] == titles


def test_all_gallery_rooms_have_steps() -> None:
    """Every room of the gallery comes to steps, a piece in each between brackets and test."""
    for room in GALLERY:
        assert sum(s.kind == "piece" for s in gallery(room)[3]) >= 4


@pytest.mark.parametrize("sense", [1, -1])
def test_elbows_pushed_home_and_waiting(sense: int) -> None:
    """While its piece goes up an elbow stands 18 pushed home, with all its O-rings and its bridge; drawn out it stands
    8 from its place, where it waits for the next piece: always against the run's direction at the earlier piece.
    """
    _, layout, scene, steps = every_joint("a-square", sense)
    joints = {j.earlier: j for j in layout.runs[0].joints}
    pieces = {p.mark: p for p in layout.pieces}
    seen = 0
    for step in (s for s in steps if s.kind == "piece" and s.run is not None):
        far = joints.get(step.pieces[-1])
        if far is None or far.kind != "elbow":
            assert step.pushed_home == step.drawn_out == ()
            continue
        seen += 1
        moved = {p.id for p in scene.fitted if p.joint == far.mark and p.role in ("elbow", "bridge", "o-ring")}
        after = next(s for s in steps if far.later in s.pieces)
        t = pieces[far.earlier].wall.direction
        for shifts, by in ((step.pushed_home, 18.0), (step.drawn_out, 8.0), (after.waiting, 8.0)):
            assert {s.part for s in shifts} == moved
            back = (-by * t[0] * sense, -by * t[1] * sense, 0.0)
            assert all(s.by_mm == pytest.approx(back, abs=1e-9) for s in shifts)
    assert seen == 3
