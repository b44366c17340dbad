"""A small furnished room for these tests, read and laid out."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from model3d.build.project import Project
from model3d.families.reading import find_family, read_family
from model3d.layout import lay_out
from model3d.pictures.raytrace.view import Settings
from model3d.pictures.rooms.picture import RoomToShow
from model3d.rooms.read_plan import plan_of

PLAN = """\
version: 1
family: c-low
room:
  corners: [[0, 0], [3000, 0], [3000, 2600], [0, 2600]]
openings:
  - {id: door, kind: door, wall: w4, at: 400, width: 800}
  - {id: window, kind: window, wall: w2, at: 700, width: 1200}
runs:
  - id: A
    start: {wall: w1, at: 600}
    end: {wall: w1, at: 2400}
furniture:
  - {id: wardrobe, kind: bookcase, wall: w1, at: 1000, width: 1100}
  - {id: rug, kind: rug, middle: [1500, 1500], width: 1200, depth: 800}
viewpoints:
  - {id: from-garden, eye: [6000, 1300, 1300], target: [0, 1300, 800]}
  - {id: from-roof, eye: [1500, -5000, 5000], target: [1500, 1300, 0], field: 40}
  - {id: close, corner: c2, distance: 900, turn: 10}
"""
QUICK = Settings(samples_per_pixel=1, ambient_rays=4, sun_rays=1, reflection_rays=1, gather_px=4, bounces=0)
SIZE = (160, 100)


def project_of(text: str = PLAN) -> Project:
    """A plan's project."""
    plan = plan_of(text, Path(__file__), find_family=find_family)
    family = read_family(plan.family_path)
    return Project(plan=plan, family=family, layout=lay_out(plan, family))


def room_of(project: Project) -> RoomToShow:
    """A project as the pictures take it."""
    return RoomToShow(plan=project.plan, layout=project.layout, scene=project.scene, family=project.family)


@cache
def small_room() -> RoomToShow:
    """The room above."""
    return room_of(project_of())
