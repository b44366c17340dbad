"""The customer's pictures: what is seen of the run, what is left out, before and after, and the same bytes again."""

from __future__ import annotations

import io
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from model3d.build.customer import customer_picture, with_family
from model3d.build.project import load
from model3d.pictures.raytrace.cutaway import distance_to_walls, inside, is_seen
from model3d.pictures.rooms.cameras import NoViewError, room_plan, shot, view_names
from model3d.pictures.rooms.contents import FURNITURE
from model3d.pictures.rooms.files import picture_bytes
from model3d.pictures.rooms.pairs import PAPER, side_by_side
from model3d.pictures.rooms.picture import WANTED_SEEN, RoomToShow, settled, share_of_run_seen, shot_meshes, take
from tests.pictures.rooms.rooms_by_hand import PLAN, QUICK, SIZE, project_of, room_of, small_room

GALLERY = Path(__file__).parents[3] / "gallery"


def test_furniture_that_hides_the_run_is_left_out_and_only_that() -> None:
    """A bookcase before the run hides much of it; the picture of that wall leaves it out, keeps the rug, and shows at
    least what it wants."""
    room = small_room()
    asked = shot(room.plan, room.layout, room.family, "w1", SIZE)
    assert share_of_run_seen(room, asked) < 0.6
    taken = settled(room, asked)
    assert taken.shown.left_out == {"wardrobe"}
    assert share_of_run_seen(room, taken) >= WANTED_SEEN
    names = {m.origin_id for m in shot_meshes(room, taken)}
    assert FURNITURE + "rug" in names
    assert FURNITURE + "wardrobe" not in names


def test_nothing_is_left_out_where_nothing_hides_the_run() -> None:
    """With the bookcase on another wall, the picture keeps it."""
    room = room_of(project_of(PLAN.replace("kind: bookcase, wall: w1, at: 1000", "kind: bookcase, wall: w3, at: 1000")))
    taken = settled(room, shot(room.plan, room.layout, room.family, "w1", SIZE))
    assert taken.shown.left_out == frozenset()
    assert share_of_run_seen(room, taken) >= WANTED_SEEN


def test_a_near_wall_in_the_way_counts_as_hiding() -> None:
    """From outside, with the wall between not taken away, the run behind it is not seen at all; as the picture is
    taken, that wall is away."""
    room = small_room()
    taken = shot(room.plan, room.layout, room.family, "from-garden", SIZE)
    assert taken.shown.unseen == {"w2"}
    blind = replace(taken, walls=frozenset({"w1"}), shown=replace(taken.shown, unseen=frozenset()))
    assert share_of_run_seen(room, blind) < 0.05
    assert share_of_run_seen(room, replace(taken, walls=frozenset({"w1"}))) > 0.3


def test_every_wall_and_corner_has_a_view_and_the_plan_s_own_come_first() -> None:
    """Names in order; another name is refused with the near one."""
    room = small_room()
    names = view_names(room.plan)
    assert names[:3] == ("from-garden", "from-roof", "close")
    assert set(names) == {
        "from-garden",
        "from-roof",
        "close",
        "above",
        "corner",
        *(f"{k}{n}" for k in "wc" for n in "1234"),
    }
    with pytest.raises(NoViewError, match="did you mean 'above'"):
        shot(room.plan, room.layout, room.family, "abov", SIZE)


def test_a_view_stands_where_it_is_said() -> None:
    """A wall's and a corner's eye is in the room; a corner's is as far off as the plan asks; from over the walls, the
    near one is cut."""
    room = small_room()
    outline = [c.at_mm for c in room.plan.room.outer.corners]
    views = {n: shot(room.plan, room.layout, room.family, n, SIZE) for n in ("w3", "c1", "close", "from-roof", "above")}
    assert all(inside(views[n].view.eye_mm[:2], outline) for n in ("w3", "c1"))
    eye = views["close"].view.eye_mm
    assert np.hypot(eye[0] - 3000.0, eye[1]) == pytest.approx(900.0)
    assert views["from-roof"].shown.cut == {"w1"}
    assert views["from-roof"].view.field_of_view_deg == 40.0
    assert views["above"].shown.cut
    assert not views["above"].closed


def test_an_eye_does_not_stand_in_a_column_nor_look_through_it() -> None:
    """With a column in the middle of the room, every wall's and corner's eye is outside it, and what stands beyond the
    column counts as hidden."""
    column = ((1200.0, 1000.0), (1200.0, 1500.0), (1800.0, 1500.0), (1800.0, 1000.0))
    islands = f"  islands: [{{id: pillar, corners: {[list(c) for c in column]}}}]\nopenings:"
    room = room_of(project_of(PLAN.replace("openings:", islands)))
    for name in (f"{kind}{n}" for kind in "wc" for n in (1, 2, 3, 4)):
        eye = shot(room.plan, room.layout, room.family, name, SIZE).view.eye_mm[:2]
        assert not inside(eye, column[::-1])
        assert distance_to_walls(eye, column) > 100.0
    blocks = room_plan(room.plan, room.layout, room.family).blocks
    assert not is_seen(
        (1500.0, 2500.0, 100.0),
        (1500.0, 200.0, 1250.0),
        ((0, 0), (3000, 0), (3000, 2600), (0, 2600)),
        (0.0,) * 4,
        blocks,
    )


def test_before_shows_the_old_board_and_a_radiator_and_none_of_the_run() -> None:
    """The same eye and furniture; in place of the run's parts, the old skirting and a radiator under the window."""
    room = small_room()
    taken = shot(room.plan, room.layout, room.family, "w2", SIZE)
    was, now = ({m.origin_id for m in shot_meshes(room, taken, before=b)} for b in (True, False))
    fitted = {p.id for p in room.scene.fitted}
    assert now & fitted
    assert not was & fitted
    assert {"before/w1", "before/w2", "before/w3", "before/w4"} <= was
    assert not any(name.startswith("before/") for name in now)
    old = [m for m in shot_meshes(room, taken, before=True) if m.origin_id == "before/w2"]
    assert max(m.vertices[:, 2].max() for m in old) == pytest.approx(740.0, abs=5.0)


def test_the_same_picture_twice_is_the_same_bytes() -> None:
    """Taken again from the start, and by one thread in place of two, a picture's file is the same."""
    room, again = small_room(), room_of(project_of())
    taken = shot(room.plan, room.layout, room.family, "w2", SIZE)
    first = take(room, taken, settings=QUICK)
    second = take(again, shot(again.plan, again.layout, again.family, "w2", SIZE), settings=replace(QUICK, threads=1))
    assert picture_bytes(second, ".png") == picture_bytes(first, ".png")
    assert len(np.unique(first.reshape(-1, 3), axis=0)) > 500


def test_a_pair_stands_side_by_side_on_white_with_captions() -> None:
    """Two pictures of one size with a margin round them and letters under each; sizes that differ are refused."""
    dark = np.full((100, 160, 3), 40, np.uint8)
    page = side_by_side([(dark, "Before"), (dark, "After")])
    assert page.shape[1] > 2 * 160
    assert (page[0] == PAPER).all()
    dark_columns = np.flatnonzero((page[:100] < 60).all(axis=2).any(axis=0))
    assert len(dark_columns) == 320
    below = page[110:]
    left, right = below[:, : page.shape[1] // 2], below[:, page.shape[1] // 2 :]
    assert left.min() < 120
    assert right.min() < 120
    with pytest.raises(ValueError, match="one size"):
        side_by_side([(dark, "Before"), (dark[:50], "After")])


def test_two_families_stand_in_the_same_room_from_the_same_eye() -> None:
    """Beside another family, both halves are one size and differ only near the skirting."""
    project = project_of()
    other = with_family(project, "a-square")
    made = customer_picture(project, "w1", size_px=SIZE, settings=QUICK, beside=other)
    page = made.picture.astype(int)
    margin = round(0.028 * 160)
    one = page[margin : margin + 100, margin : margin + 160]
    start = margin + 160 + round(0.018 * 160)
    two = page[margin : margin + 100, start : start + 160]
    unlike = np.abs(one - two).max(axis=2) > 12
    assert 0.002 < unlike.mean() < 0.25
    assert made.left_out == ("wardrobe",)


def test_a_picture_file_is_png_or_webp() -> None:
    """Both are read back at their size; another ending is refused."""
    grey = np.full((20, 30, 3), 128, np.uint8)
    for ending in (".png", ".webp"):
        assert Image.open(io.BytesIO(picture_bytes(grey, ending))).size == (30, 20)
    with pytest.raises(ValueError, match=r"not as '\.gif'"):
        picture_bytes(grey, ".gif")


def _gallery_room(name: str) -> RoomToShow:
    return room_of(load(GALLERY / name / "plan.yaml"))


@pytest.mark.slow
@pytest.mark.parametrize("name", ["l-room", "bay", "surveyed"])
def test_every_view_of_the_gallery_shows_its_run(name: str) -> None:
    """From above, at least four fifths of the run that faces the eye is seen; of a wall or a corner, seven tenths."""
    room = _gallery_room(name)
    own = {v.id for v in room.plan.viewpoints if v.eye_mm is not None}
    low = {}
    for view in view_names(room.plan):
        if view in own:
            continue
        taken = settled(room, shot(room.plan, room.layout, room.family, view, (1600, 1000)))
        share = share_of_run_seen(room, taken)
        if share < (0.8 if not taken.closed else 0.7):
            low[view] = share
    assert low == {}
