"""Invented rooms in which the usual order is barred, and what is sought in them."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from model3d.build.project import Project, load
from model3d.families.family import Family
from model3d.moves import Shapes
from model3d.order.job import Job
from model3d.sources import read_typed

ROOM = """\
version: 1
name: {name}
family: a-square
room:
  corners: [[0, 0], [3000, 0], [3000, 2400], [0, 2400]]
openings:
  - {{id: door, kind: door, wall: w3, at: 1000, width: 800, swing: out}}
"""
# Run B comes out of corner c1 along w4; its valve end goes straight out over the place of run A's.
TWO_RUNS_IN_A_CORNER = """\
runs:
  - {id: A, start: {wall: w1, at: 40}, end: {wall: w1, at: 1200}}
  - {id: B, start: w4, end: {wall: w4, at: 1300}, direction: against-walls}
"""
OVER_A_CORNER = """\
runs:
  - {id: A, start: {wall: w1, at: 1500}, end: {wall: w2, at: 1200}}
obstacles:
"""
# A pipe stands where the second piece would be offered, 6 mm past its return end.
PIPE = "  - {id: riser, kind: pipe, wall: w2, at: 1212, off: 20, diameter: 12, from: 0, to: 2300}\n"
# A chest stands 60 mm in front of the first piece, nearly as long as it.
CHEST = "  - {id: chest, kind: box, wall: w1, at: 1500, off: 60, width: 1300, depth: 400, height: 500}\n"
GALLERY = Path(__file__).parents[2] / "gallery"
PROFILES = Path(__file__).parents[2] / "profiles"


def read(*parts: str, room: str = ROOM.format(name="Invented")) -> Project:
    """A plan in the room, read and laid out."""
    text = room + "".join(parts)
    with TemporaryDirectory() as folder:
        path = Path(folder) / "plan.yaml"
        path.write_text(text, encoding="utf-8", newline="\n")
        return load(path)


@cache
def shapes_of(family: str) -> Shapes:
    """Meshes of a family's parts and what was asked of them, kept for all tests of a process."""
    return Shapes(family=read_typed(PROFILES / f"{family}.yaml", Family))


def job(project: Project) -> Job:
    """What order is sought for in a project."""
    return Job(
        plan=project.plan,
        family=project.family,
        layout=project.layout,
        scene=project.scene,
        steps=project.steps,
        shapes=shapes_of(project.family.id),
    )
