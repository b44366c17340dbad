"""Brackets: the spacing rule, moved off what is in the wall, marked from the nearest corner. Rule of the
reference families.
"""

from __future__ import annotations

import itertools
from dataclasses import replace
from typing import Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model3d.families.family import Family
from model3d.layout import Layout, Piece, lay_out
from model3d.layout.bracket_places import Ground, bracket_places
from model3d.layout.bracket_spots import bracket_spots, cable_cautions
from model3d.layout.brackets import bracket_offsets_mm
from model3d.layout.in_the_wall import Span
from model3d.rooms import (
    CheckedPlan,
    FloorLevel,
    Obstacle,
    Pipe,
    Ring,
    SocketOutlet,
    Studs,
    WallBow,
    WallFixing,
)

from .rooms_by_hand import plan_of, ring_of, run_over

SQUARE = [(0.0, 0.0), (3600.0, 0.0), (3600.0, 3000.0), (0.0, 3000.0)]


def socket(ring: Ring, along_mm: float, up_mm: float = 450.0) -> SocketOutlet:
    """A socket-outlet on wall w1 with a 70 mm back box."""
    return SocketOutlet(
        id="s",
        wall_id="w1",
        frame=ring.walls[0].frame,
        along_mm=along_mm,
        up_mm=up_mm,
        plate_width_mm=86.0,
        plate_height_mm=86.0,
        plate_proud_mm=9.0,
        box_width_mm=70.0,
        box_height_mm=70.0,
        box_depth_mm=35.0,
    )


def chased(ring: Ring, *, along: tuple[float, float], up: tuple[float, float]) -> Pipe:
    """A 22 mm pipe chased into wall w1, upright or along it."""
    return Pipe(
        id="p",
        wall_id="w1",
        frame=ring.walls[0].frame,
        from_mm=(along[0], -20.0, up[0]),
        to_mm=(along[1], -20.0, up[1]),
        diameter_mm=22.0,
    )


def wall_plan(*obstacles: Obstacle, fixings: tuple[WallFixing, ...] = (), sense: Literal[1, -1] = 1) -> CheckedPlan:
    """A run round three walls, w1 in the middle, with things on w1."""
    ring = ring_of(SQUARE)
    run = run_over(ring, 4 if sense > 0 else 2, 3, sense=sense)
    return replace(plan_of(ring, run, obstacles=obstacles), fixings=fixings)


def middle_piece(layout: Layout) -> Piece:
    """The piece on w1."""
    (piece,) = [p for p in layout.pieces if p.wall.id == "w1"]
    return piece


def keeps_the_rule(piece: Piece) -> None:
    """Two at least, none further apart than 600, the ends 50 to 150, 100 to 150 after an elbow corner."""
    offsets = [b.from_near_mm for b in piece.brackets]
    assert len(offsets) >= 2
    assert all(40.0 <= b - a <= 600.0 + 1e-6 for a, b in itertools.pairwise(offsets))
    least = 100.0 if piece.start.joint == "elbow-short" else 50.0
    assert least - 1e-6 <= offsets[0] <= 150.0 + 1e-6
    assert 50.0 - 1e-6 <= piece.cut_length_mm - offsets[-1] <= 150.0 + 1e-6
    assert [b.along_mm for b in piece.brackets] == pytest.approx([piece.near_mm + piece.sense * o for o in offsets])


@given(length=st.floats(155.0, 5000.0), near=st.sampled_from(["elbow-short", "link", "valve"]))
def test_the_spacing_rule(family_a: Family, length: float, near: Literal["elbow-short", "link", "valve"]) -> None:
    """Brackets stand at most 600 apart, 50 to 150 from an end (100 to 150 after an elbow corner), two at
    least.
    """
    offsets = bracket_offsets_mm(family_a, length, near, "link")
    assert len(offsets) >= 2 or length < 200.0
    assert all(b - a <= 600.0 + 1e-6 for a, b in itertools.pairwise(offsets))
    if length > 400.0:
        assert (100.0 if near == "elbow-short" else 50.0) <= offsets[0] <= 150.0
        assert 50.0 <= length - offsets[-1] <= 150.0


def test_a_short_piece_has_one_in_its_middle(family_a: Family) -> None:
    """A piece under 150 has one bracket, in its middle."""
    assert bracket_offsets_mm(family_a, 149.0, "link", "link") == (74.5,)


@pytest.mark.parametrize("sense", [1, -1])
@pytest.mark.parametrize("up_mm", [100.0, 450.0])
def test_moved_off_a_socket(family_a: Family, up_mm: float, sense: Literal[1, -1]) -> None:
    """Where a bracket would stand before a low back box, or straight below a socket-outlet, it is moved
    aside; the spacing holds.
    """
    ring = ring_of(SQUARE)
    plain = middle_piece(lay_out(wall_plan(sense=sense), family_a))
    at = plain.brackets[2].along_mm
    layout = lay_out(wall_plan(socket(ring, at, up_mm), sense=sense), family_a)
    piece = middle_piece(layout)
    clear = 35.0 + 20.0 + 10.0 if up_mm == 100.0 else 43.0
    assert all(abs(b.along_mm - at) >= clear - 1e-6 for b in piece.brackets)
    assert len(piece.brackets) == len(plain.brackets)
    keeps_the_rule(piece)
    assert {f.code for f in layout.findings} == ({"bracket-in-cable-zone"} if up_mm == 100.0 else set())


def test_a_high_box_bars_nothing(family_a: Family) -> None:
    """A back box above the brackets does not bar them; only the strip below its plate is kept off."""
    ring = ring_of(SQUARE)
    plain = middle_piece(lay_out(wall_plan(), family_a))
    beside = plain.brackets[2].along_mm + 44.0
    assert middle_piece(lay_out(wall_plan(socket(ring, beside)), family_a)).brackets == plain.brackets
    assert middle_piece(lay_out(wall_plan(socket(ring, beside, 100.0)), family_a)).brackets != plain.brackets


def test_moved_off_a_chased_pipe(family_a: Family) -> None:
    """A bracket is moved off an upright pipe chased into the wall; off one that ends above the screws it
    is not.
    """
    ring = ring_of(SQUARE)
    plain = middle_piece(lay_out(wall_plan(), family_a))
    at = plain.brackets[3].along_mm
    piece = middle_piece(lay_out(wall_plan(chased(ring, along=(at, at), up=(0.0, 2000.0))), family_a))
    assert all(abs(b.along_mm - at) >= 11.0 + 20.0 + 10.0 - 1e-6 for b in piece.brackets)
    keeps_the_rule(piece)
    above = middle_piece(lay_out(wall_plan(chased(ring, along=(at, at), up=(200.0, 2000.0))), family_a))
    assert above.brackets == plain.brackets


def test_a_pipe_that_cannot_be_passed(family_a: Family) -> None:
    """A pipe chased along the wall at the height of the screws bars every place: each bracket over it is
    an error.
    """
    ring = ring_of(SQUARE)
    layout = lay_out(wall_plan(chased(ring, along=(900.0, 2200.0), up=(100.0, 100.0))), family_a)
    found = [f for f in layout.findings if f.code == "bracket-barred"]
    assert found
    assert all(f.severity == "error" and f.parts == ("r-2", "p") for f in found)
    low = lay_out(wall_plan(chased(ring, along=(900.0, 2200.0), up=(75.0, 75.0))), family_a)
    assert low.findings == ()
    assert middle_piece(low).brackets == middle_piece(lay_out(wall_plan(), family_a)).brackets


def studs(first_mm: float, spacing_mm: float = 400.0) -> tuple[WallFixing, ...]:
    """Wall w1 of studs 38 wide."""
    return (
        WallFixing(wall_id="w1", kind="studs", studs=Studs(first_mm=first_mm, spacing_mm=spacing_mm, width_mm=38.0)),
    )


def test_brackets_stand_on_studs(family_a: Family) -> None:
    """On a wall of studs every bracket meets one where the spacing and the distances from the ends allow
    it.
    """
    plan = wall_plan(fixings=studs(180.0, 407.0))
    layout = lay_out(plan, family_a)
    piece = middle_piece(layout)
    assert all(min((b.along_mm - 180.0) % 407.0, -(b.along_mm - 180.0) % 407.0) <= 7.0 + 1e-6 for b in piece.brackets)
    keeps_the_rule(piece)
    assert layout.findings == ()
    assert {s.fixing for s in bracket_spots(plan, layout, family_a) if s.wall == "w1"} == {"stud"}


def test_a_bracket_between_studs_is_said(family_a: Family) -> None:
    """Where the ends leave no stud, the bracket there stands between studs: a warning, and its mark says
    so.
    """
    plan = wall_plan(fixings=studs(400.0))
    layout = lay_out(plan, family_a)
    found = [f for f in layout.findings if f.code == "bracket-off-stud"]
    marks = [s.fixing for s in bracket_spots(plan, layout, family_a) if s.wall == "w1"]
    assert marks.count("between studs") == len(found) == 2
    keeps_the_rule(middle_piece(layout))


def test_a_box_at_the_end(family_a: Family) -> None:
    """Where a back box takes the whole range near an end, the bracket stands further in, and a warning
    gives the distances.
    """
    ring = ring_of(SQUARE)
    near = middle_piece(lay_out(wall_plan(), family_a)).near_mm
    wide = replace(socket(ring, near + 120.0, 100.0), box_width_mm=146.0, plate_width_mm=146.0)
    layout = lay_out(wall_plan(wide), family_a)
    (finding,) = [f for f in layout.findings if f.code != "bracket-in-cable-zone"]
    assert (finding.code, finding.severity, finding.limit) == ("bracket-off-end", "warning", 150.0)
    offset = middle_piece(layout).brackets[0].from_near_mm
    assert finding.measured == pytest.approx(offset)
    assert offset >= 120.0 + 73.0 + 30.0 - 1e-6


@settings(max_examples=60)
@given(
    length=st.floats(400.0, 4800.0),
    bars=st.lists(st.tuples(st.floats(0.0, 4800.0), st.floats(10.0, 120.0)), max_size=4),
    strips=st.lists(st.floats(0.0, 4800.0), max_size=3),
)
def test_places_are_free_or_said_not_to_be(
    family_a: Family, length: float, bars: list[tuple[float, float]], strips: list[float]
) -> None:
    """Whatever is in the wall, places keep the spacing and are free of it, or the ground is said to be
    blocked.
    """
    ground = Ground(
        barred=tuple(Span(low_mm=a, high_mm=a + w, what="box") for a, w in bars),
        strips=tuple(Span(low_mm=a - 40.0, high_mm=a + 40.0, what="strip") for a in strips),
    )
    places = bracket_places(family_a, length, "link", "link", ground)
    offsets = places.offsets_mm
    assert all(b - a <= 600.0 + 1e-6 for a, b in itertools.pairwise(offsets))
    if not places.blocked:
        assert not any(s.holds(x) for s in ground.barred for x in offsets)
    if not (places.blocked or places.strained):
        assert 50.0 - 1e-6 <= offsets[0] <= 150.0 + 1e-6
        assert 50.0 - 1e-6 <= length - offsets[-1] <= 150.0 + 1e-6


@pytest.mark.parametrize("sense", [1, -1])
def test_marks_from_the_nearest_corner(family_a: Family, sense: Literal[1, -1]) -> None:
    """Each mark is given from the corner nearest to it, left or right as you face the wall, with the
    heights of its screws.
    """
    plan = wall_plan(sense=sense)
    spots = [s for s in bracket_spots(plan, lay_out(plan, family_a), family_a) if s.wall == "w1"]
    for spot in spots:
        assert spot.from_corner_mm == min(spot.along_mm, 3600.0 - spot.along_mm)
        assert (spot.corner, spot.side) == (("c1", "right") if spot.along_mm <= 1800.0 else ("c2", "left"))
        assert spot.heights_mm == (50.0, 100.0)
        assert spot.fixing == "not said"
    assert [s.number for s in spots] == list(range(1, len(spots) + 1))
    assert {s.side for s in spots} == {"left", "right"}


def test_cautions_where_cables_may_run(family_a: Family) -> None:
    """A bracket drilled within 150 mm of a corner, straight below a socket-outlet or level with one, has a
    caution (BS 7671, 522.6).
    """
    ring = ring_of([(0.0, 0.0), (3600.0, 0.0), (3600.0, 90.0 + 51.0 + 100.0), (0.0, 2600.0)])
    plan = plan_of(ring, run_over(ring, 4, 3, uses={"c1": "link", "c2": "link"}))
    layout = lay_out(plan, family_a)
    near = {s.piece: s for s in bracket_spots(plan, layout, family_a) if s.from_corner_mm < 150.0}
    notes = cable_cautions(layout)
    assert near
    assert all(any("of corner" in c for c in s.cautions) for s in near.values())
    assert {f.parts[0] for f in notes} >= set(near)
    assert cable_cautions(layout, corners=False) == ()
    assert all(f.severity == "note" for f in notes)


def test_cautions_of_a_low_socket(family_a: Family) -> None:
    """Along the whole wall the screws at 100 are level with a socket-outlet at 90: one note for the piece in the
    layout's own findings. None stands straight above it; on a piece that must, where it is so short, it is said too.
    """
    square = ring_of(SQUARE)
    layout = lay_out(wall_plan(socket(square, 1800.0, 90.0)), family_a)
    spots = [s for s in layout.spots if s.wall == "w1"]
    assert all("level with s, at 100" in s.cautions and s.accessories == ("s",) for s in spots)
    assert not any("straight" in text for s in spots for text in s.cautions)
    (note,) = [f for f in layout.findings if f.code == "bracket-in-cable-zone"]
    assert (note.severity, note.parts) == ("note", ("r-2", "s"))
    assert "brackets 1, 2, 3, 4, 5, 6, 7" in note.where
    assert note.message == "cables may run where it is drilled: level with s, at 50; level with s, at 100"


@pytest.mark.parametrize(("up_mm", "way"), [(450.0, "below"), (20.0, "above")])
def test_a_bracket_that_must_stand_on_the_strip(family_a: Family, up_mm: float, way: str) -> None:
    """Where a strip as wide as a short piece leaves its one bracket no other place, it stands there, and the note says
    whether the accessory is above or below it.
    """
    ring = ring_of([(0.0, 0.0), (230.0, 0.0), (230.0, 3000.0), (0.0, 3000.0)])
    wide = replace(socket(ring, 115.0, up_mm), plate_width_mm=230.0, box_width_mm=10.0, box_height_mm=10.0)
    wide = replace(wide, plate_height_mm=10.0)
    layout = lay_out(plan_of(ring, run_over(ring, 4, 3), obstacles=(wide,)), family_a)
    (note,) = [f for f in layout.findings if f.code == "bracket-in-cable-zone"]
    assert f"straight {way} s" in note.message


def test_no_caution_in_the_open(family_a: Family) -> None:
    """Brackets away from corners and accessories have no caution."""
    plan = wall_plan()
    spots = [s for s in bracket_spots(plan, lay_out(plan, family_a), family_a) if s.from_corner_mm > 150.0]
    assert spots
    assert not any(s.cautions for s in spots)


def test_packers_and_the_level_line_are_in_the_marks(family_a: Family) -> None:
    """On a wall that bows a mark says its packers, and where the floor was read its screws below the level
    line.
    """
    plan = wall_plan()
    bow = WallBow(wall_id="w1", readings=((0.0, 0.0), (1800.0, 9.0), (3600.0, 0.0)))
    level = FloorLevel(wall_id="w1", readings=((0.0, 1000.0), (3600.0, 1000.0)))
    read = replace(plan, bows=(bow,), floor_levels=(level,))
    layout = lay_out(read, family_a)
    spots = [s for s in bracket_spots(read, layout, family_a) if s.wall == "w1"]
    assert [s.packers_mm for s in spots] == list(layout.on_walls[0].packers_mm)
    assert max(s.packers_mm for s in spots) > 5.0
    assert {s.below_line_mm for s in spots} == {(900.0, 950.0)}
    plain = bracket_spots(plan, lay_out(plan, family_a), family_a)
    assert {(s.packers_mm, s.below_line_mm) for s in plain} == {(0.0, ())}


def test_a_level_run_is_drilled_from_the_line_everywhere(family_a: Family) -> None:
    """Where the floor was read at one wall of a run only, the run is level at the others too: every bracket is drilled
    at one height below the line.
    """
    level = FloorLevel(wall_id="w1", readings=((0.0, 1004.0), (3600.0, 1000.0)))
    layout = lay_out(replace(wall_plan(), floor_levels=(level,)), family_a)
    downs = {(round(a, 6), round(b, 6)) for a, b in (s.below_line_mm for s in layout.spots)}
    highest = 1000.0 + 4.0 * 51.0 / 3600.0
    assert downs == {(round(highest - 100.0, 6), round(highest - 50.0, 6))}


def test_brackets_meet_the_middles_of_studs(family_a: Family) -> None:
    """Where studs of one spacing can carry them, brackets stand on their middles, 200, 600, 1000 and so on."""
    layout = lay_out(wall_plan(fixings=studs(200.0)), family_a)
    places = [b.along_mm for b in middle_piece(layout).brackets]
    assert places == pytest.approx([200.0 + 400.0 * i for i in range(9)])
