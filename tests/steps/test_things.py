"""What things are called, by the names of parts that real rooms have."""

from __future__ import annotations

import pytest

from model3d.build.project import load
from model3d.steps.things import NAMES, called
from model3d.wording import ENGLISH, catalogue
from tests.order.rooms import GALLERY


@pytest.mark.parametrize("room", ["l-room", "bay", "surveyed"])
def test_every_part_has_a_name_in_every_language(room: str) -> None:
    """Whatever a piece may come near to is called something else in German than in the model; things of the plan keep
    the name that the plan gives them.
    """
    scene = load(GALLERY / room / "plan.yaml").scene
    for part in (*scene.room, *scene.fitted):
        name = part.obstacle or part.name
        assert (called(name, catalogue("de")) == name) == (part.obstacle is not None), name


def test_names_in_plain_words() -> None:
    """Walls, brackets and fittings by what they are and where they belong."""
    assert called("Wall w1", ENGLISH) == "wall w1"
    assert called("Bracket 3, A-2", ENGLISH) == "bracket 3 of A-2"
    assert called("Elbow, lower, A-J4", catalogue("de")) == "Winkel von A-J4"
    assert called("riser", catalogue("de")) == "riser"


def test_every_name_is_in_the_catalogue() -> None:
    """No pattern without its words."""
    assert {f"thing.{key}" for key, _ in NAMES} == {key for key in ENGLISH.texts if key.startswith("thing.")}
