"""Pages of fittings laid out, and their faults, for these tests."""

from __future__ import annotations

from pathlib import Path

from model3d.build.project import Project, load
from model3d.pictures.compose import composed
from model3d.pictures.judging import page_faults
from model3d.pictures.stage import Stage
from model3d.pictures.staging import StepStages
from model3d.pictures.theme import THEME
from model3d.steps import plan_steps
from model3d.wording import ENGLISH, Catalogue

GALLERY = Path(__file__).parents[2] / "gallery"


def project_of(room: str) -> Project:
    """A room of the gallery."""
    return load(GALLERY / room / "plan.yaml")


def stages_of(project: Project, words: Catalogue = ENGLISH) -> StepStages:
    """The stages of its steps, in a language."""
    steps = plan_steps(project.layout, project.scene, project.family, words)
    return StepStages(project.layout, project.scene, steps, project.family)


def faults_of(stage: Stage) -> tuple[str, ...]:
    """What is wrong with the page of a stage; a page that cannot be laid out is a fault."""
    try:
        return page_faults(stage, composed(stage, THEME))
    except ValueError as reason:
        return (str(reason),)
