"""Layouts into stock bars."""

from __future__ import annotations

from dataclasses import replace

import pytest

from model3d.families.reading import profiles_folder, read_family
from model3d.layout import Layout, lay_out
from model3d.nesting import Nesting, nest
from model3d.rooms import Cutting, DryPlan, OffCut
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over

SQUARE = [(0.0, 0.0), (3600.0, 0.0), (3600.0, 3000.0), (0.0, 3000.0)]
A = read_family(profiles_folder() / "a-square.yaml")


def three_walls() -> Layout:
    """A run over three walls, and a dry piece on the fourth."""
    ring = ring_of(SQUARE)
    dry = DryPlan(id="d", wall=ring.walls[2], from_mm=500.0, to_mm=3000.0)
    return lay_out(plan_of(ring, run_over(ring, 4, 3), dry=(dry,)), A)


def by_bar(nesting: Nesting) -> list[tuple[float, bool, list[str]]]:
    """Each bar: its length, whether it is an off-cut, the marks cut from it."""
    return [(b.length_mm, b.off_cut, [c.mark for c in b.cuts]) for s in nesting.sections for b in s.bars]


def test_every_piece_once_and_dry_apart() -> None:
    """Every piece is cut once; dry pieces come from bars of their own section."""
    nesting = nest(three_walls(), A)
    assert [s.heated for s in nesting.sections] == [True, False]
    assert sorted(m for _, _, marks in by_bar(nesting) for m in marks) == ["d", "r-1", "r-2", "r-3"]
    assert [c.mark for b in nesting.sections[1].bars for c in b.cuts] == ["d"]
    assert nesting.findings == ()
    assert nesting.bar_of("r-2").length_mm == 5000.0
    with pytest.raises(KeyError):
        nesting.bar_of("nothing")


def test_where_the_saw_goes() -> None:
    """Cuts begin after the first trim, a saw's cut lies between them, and what is left is what remains
    after the last.
    """
    cutting = Cutting(kerf_mm=3.0, end_trim_mm=5.0, worth_keeping_mm=15.0)
    layout = three_walls()
    pieces = tuple(replace(p, cut_length_mm=990.0) for p in layout.runs[0].pieces)
    section = nest(
        replace(layout, runs=(replace(layout.runs[0], pieces=pieces),), dry_pieces=()), A, cutting
    ).sections[0]
    (bar,) = section.bars
    assert bar.length_mm == 3000.0
    assert [c.from_mm for c in bar.cuts] == [5.0, 998.0, 1991.0]
    assert bar.left_mm == pytest.approx(3000.0 - 5.0 - 3 * 993.0)
    assert section.kept_mm == (bar.left_mm,)


def test_off_cuts_go_first() -> None:
    """An off-cut that serves saves its bar, is marked so, and only off-cuts of its own section serve."""
    layout = three_walls()
    without, held, dry_only = (
        nest(layout, A, Cutting(off_cuts=off_cuts)).sections[0]
        for off_cuts in ((), (OffCut(length_mm=3600.0),), (OffCut(length_mm=3600.0, dry=True),))
    )
    assert held.bought.value < without.bought.value
    assert [b.length_mm for b in held.bars if b.off_cut] == [3600.0]
    assert dry_only.bought.value == without.bought.value
    assert (held.unused_mm, dry_only.unused_mm) == ((), ())


def test_off_cuts_in_hand_that_are_left() -> None:
    """Off-cuts that nothing is cut from are reported as left, longest first, beside what is left of the bars that is
    worth keeping.
    """
    off_cuts = (OffCut(length_mm=3600.0), OffCut(length_mm=120.0, count=2), OffCut(length_mm=400.0))
    section = nest(three_walls(), A, Cutting(off_cuts=off_cuts)).sections[0]
    used = [b.length_mm for b in section.bars if b.off_cut]
    assert sorted((*used, *section.unused_mm)) == [120.0, 120.0, 400.0, 3600.0]
    assert section.unused_mm == (400.0, 120.0, 120.0)
    assert all(x >= 300.0 for x in section.kept_mm)


def test_the_optimum_is_said_to_be_proven() -> None:
    """The figures give the bars to buy, the bound, whether they meet, and the waste of what is neither cut
    nor kept.
    """
    section = nest(three_walls(), A).sections[0]
    assert section.proven
    assert section.bound.value == section.bought.value == sum(b.length_mm for b in section.bars)
    assert section.bound.rule == "proven least"
    assert section.cut.value == pytest.approx(sum(c.length_mm for b in section.bars for c in b.cuts))
    used = section.bought.value - sum(section.kept_mm)
    assert section.waste.value == pytest.approx(100 * (1 - section.cut.value / used))


def test_what_is_cut_already_takes_no_bar() -> None:
    """A piece that is up, and one that was cut already, are not nested again."""
    layout = three_walls()
    one, two, three = layout.runs[0].pieces
    pieces = (replace(one, fitted=True), replace(two, planned_mm=two.cut_length_mm + 5.0), three)
    nesting = nest(replace(layout, runs=(replace(layout.runs[0], pieces=pieces),)), A)
    assert sorted(m for _, _, marks in by_bar(nesting) for m in marks) == ["d", "r-3"]


def test_a_piece_past_every_bar_is_found() -> None:
    """A piece longer than any bar's usable length is an error with both figures; the others are still
    nested.
    """
    layout = three_walls()
    longer = replace(layout.runs[0].pieces[1], cut_length_mm=4991.0)
    run = replace(layout.runs[0], pieces=(layout.runs[0].pieces[0], longer, layout.runs[0].pieces[2]))
    nesting = nest(replace(layout, runs=(run,)), A)
    (finding,) = nesting.findings
    assert (finding.code, finding.parts, finding.measured, finding.limit) == (
        "piece-past-stock",
        ("r-2",),
        4991.0,
        4990.0,
    )
    assert sorted(m for _, _, marks in by_bar(nesting) for m in marks) == ["d", "r-1", "r-3"]
    just = replace(run, pieces=(run.pieces[0], replace(longer, cut_length_mm=4990.0), run.pieces[2]))
    assert nest(replace(layout, runs=(just,)), A).findings == ()
