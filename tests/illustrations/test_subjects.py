"""What each kind of drawing shows: viewpoints, what is new in a step, pairs seen from one place."""

from __future__ import annotations

import numpy as np
import pytest

from model3d.build.illustrating import job_of
from model3d.build.project import load
from model3d.illustrations.camera import Camera, Window, framed
from model3d.illustrations.clipping import clipped
from model3d.illustrations.draw import illustration
from model3d.illustrations.picture import Job, Picture
from model3d.illustrations.shapes import Line
from model3d.illustrations.sheet import Area, Stroke, Words
from model3d.illustrations.subjects.fitting import fitting
from model3d.illustrations.subjects.pairs import pair
from model3d.illustrations.subjects.placing import UnknownSubject
from model3d.illustrations.subjects.plain import part_alone, view
from model3d.themes import Theme
from tests.cli.running import GALLERY, PLAN, written

VIEWPOINT = "viewpoints:\n  - {id: by-the-door, eye: [3000, 2500, 1500], target: [600, 100, 300], field: 60}\n"


@pytest.fixture(scope="module")
def seeing(tmp_path_factory: pytest.TempPathFactory) -> Job:
    """A plan with a viewpoint of its own, to be drawn from there."""
    plan = written(tmp_path_factory.mktemp("seeing"), PLAN + VIEWPOINT)
    return job_of(load(plan), view="by-the-door")


def test_a_viewpoint_of_the_plan_is_drawn_within_its_rim(seeing: Job, theme: Theme) -> None:
    """A viewpoint of the plan is drawn by its name; every line ends at the picture's rim."""
    sheet = illustration(seeing, "view", "by-the-door", theme)
    lines = [m for m in sheet.marks if isinstance(m, Stroke)]
    assert any(m.colour == "ink" for m in lines)
    rim = next(m for m in lines if m.closed and len(m.points) == 4 and m.colour == "soft")
    (left, top), (right, bottom) = rim.points[0], rim.points[2]
    assert right - left == pytest.approx(1.6 * (bottom - top))
    for x, y in (p for m in lines for p in m.points):
        assert left - 0.01 <= x <= right + 0.01
        assert top - 0.01 <= y <= bottom + 0.01


def test_an_unknown_view_is_named_with_the_plan_s_own(seeing: Job) -> None:
    """A view that is not there is refused with those that are, the plan's own first."""
    with pytest.raises(UnknownSubject, match="there are by-the-door, above, plan, w1"):
        view(seeing, "by-the-window")


def test_lines_are_cut_at_the_rim_and_before_the_eye() -> None:
    """A line through the eye's pyramid is cut where it leaves it; one behind the eye is left out (by hand: at a depth
    of 1000 and a scale of 0.1 a window of 100 is 1000 wide).
    """
    window = Window(left=0.0, top=0.0, width=100.0, height=100.0)
    camera = Camera(target_mm=(0, 0, 0), toward=(0, -1, 0), distance_mm=1000.0, scale=0.1, middle_mm=(50.0, 50.0))

    def line(a: tuple[float, float, float], b: tuple[float, float, float]) -> Line:
        return Line(points_mm=np.array([a, b]), sides=np.zeros((2, 2, 3)), bend="ridge")

    (found,) = clipped(line((-2000, 0, 0), (2000, 0, 0)), camera, window)
    assert found.points_mm[:, 0].tolist() == pytest.approx([-500.0, 500.0])
    assert list(clipped(line((-10, -1500, 0), (10, -1500, 0)), camera, window)) == []
    inner = line((-10, 0, 0), (10, 0, 0))
    assert list(clipped(inner, camera, window)) == [inner]
    parallel = framed(np.eye(3), Camera(target_mm=(0, 0, 0), toward=(0, -1, 0)), window)
    with pytest.raises(ValueError, match="no eye"):
        list(clipped(inner, parallel, window))


def tinted(picture: Picture) -> set[str]:
    """Ids of what a picture shows as new."""
    return {s.body.owner for panel in picture.panels for s in panel.setting.shown if s.tint == "new-tint"}


def test_what_is_new_in_a_step_of_the_whole_run_is_marked(job: Job) -> None:
    """Brackets, and trims with end caps, are tinted in the step that brings them, called out with a parts list that
    counts them all, and nothing that comes later is there; in the pressure test each joint has its mark.
    """
    for step in (s for s in job.steps if s.kind in ("brackets", "covers")):
        picture = fitting(job, str(step.number))
        assert tinted(picture) == set(step.follows)
        setting = picture.panels[0].setting
        assert {i for item in setting.items for place in item.places for i in place} == set(step.follows)
        later = {i for s in job.steps[step.number :] for i in (*s.travels, *s.follows)}
        assert not later & {s.body.owner for s in setting.shown}
    test = next(s for s in job.steps if s.kind == "pressure-test")
    flags = fitting(job, str(test.number)).panels[0].setting.flags
    assert [f.text for f in flags] == [j.mark for run in job.layout.runs for j in run.joints]


def test_every_caption_s_number_has_its_arrow(job: Job) -> None:
    """What is done in a step, by number, and the arrows on its drawing are the same, work by hand included."""
    for step in (s for s in job.steps if s.kind == "piece"):
        picture = fitting(job, str(step.number))
        arrows = [a.label for a in picture.panels[0].setting.arrows]
        assert sorted(set(arrows)) == sorted(label for label, _ in picture.captions if label)


@pytest.mark.parametrize("name", ["clip-face", "push-home", "grease", "o-ring"])
def test_the_two_panels_of_a_pair_are_at_one_scale(job: Job, theme: Theme, name: str) -> None:
    """What both panels show stands at the same place in both and as large: their longest strokes of the first body are
    as long.
    """
    owner = pair(job, name).panels[0].setting.shown[0].body.owner
    for labels in (True, False):
        sheet = illustration(job, "pair", name, theme, labels=labels)
        points = [p for m in sheet.marks if isinstance(m, Stroke) and m.owner == owner for p in m.points]
        middle = sheet.size[0] / 2
        heights = []
        for side in (-1, 1):
            own = [y for x, y in points if (x - middle) * side > 0]
            heights.append((min(own), max(own)))
        assert heights[0] == pytest.approx(heights[1], abs=0.35 if name == "push-home" else 0.02)


def test_one_o_ring_is_missing_where_it_is_wrong(job: Job, theme: Theme) -> None:
    """The wrong panel lacks one O-ring of the right one, and nothing else; without labels it has no word."""
    right, wrong = ({s.body.owner for s in p.setting.shown} for p in pair(job, "o-ring").panels)
    (lost,) = right - wrong
    assert job.scene.part(lost).role == "o-ring"
    assert not wrong - right
    bare = illustration(job, "pair", "o-ring", theme, labels=False)
    assert not any(isinstance(m, Words) for m in bare.marks)
    assert sum(isinstance(m, Area) and m.fill == "seal-tint" for m in bare.marks) == len(right) + len(wrong) - 2


@pytest.mark.slow
@pytest.mark.parametrize("room", ["l-room", "bay", "surveyed"])
def test_every_kind_of_part_can_be_drawn_alone(room: str) -> None:
    """Each part of a different shape, of the room and of what is fitted, is drawn by its id."""
    job = job_of(load(GALLERY / room / "plan.yaml"))
    for part in {p.spec: p for p in job.scene.parts}.values():
        assert part_alone(job, part.id).title
