"""The customer's picture of a project: one room, the room before and after, or two families side by side."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from model3d.build.project import Project
from model3d.families.reading import find_family, read_family
from model3d.layout import lay_out
from model3d.wording import ENGLISH, Catalogue

if TYPE_CHECKING:
    from numpy import uint8
    from numpy.typing import NDArray

    from model3d.pictures.raytrace.view import Settings
    from model3d.pictures.rooms.picture import RoomToShow

BEFORE = "before"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CustomerPicture:
    """The picture, (height, width, 3) sRGB bytes, with the share of the run's face that is seen (0 to 1) and the
    furniture (ids) left out so that it is."""

    picture: NDArray[uint8]
    run_seen: float
    left_out: tuple[str, ...]


def with_family(project: Project, name: str) -> Project:
    """The same room with another family, by name or path. Raises UnknownFamily or LookupError, FaultyFile."""
    path = find_family(name, project.plan.path.parent)
    plan, family = replace(project.plan, family_path=path), read_family(path)
    return Project(plan=plan, family=family, layout=lay_out(plan, family))


def customer_picture(
    project: Project,
    view: str,
    *,
    size_px: tuple[int, int],
    settings: Settings,
    before: bool = False,
    beside: Project | None = None,
    pair: bool = False,
    words: Catalogue = ENGLISH,
) -> CustomerPicture:
    """The room from a named view; as it was (``before``), as it was beside as it is (``pair``), or beside another
    project's from the same eye. Raises NoViewError."""
    from model3d.pictures.rooms.cameras import shot
    from model3d.pictures.rooms.pairs import side_by_side
    from model3d.pictures.rooms.picture import settled, share_of_run_seen, take

    room = _room(project)
    taken = settled(room, shot(project.plan, project.layout, project.family, view, size_px))
    if beside is not None:
        both = (project, beside)
        made = side_by_side([(take(_room(p), taken, settings=settings), p.family.name) for p in both])
    elif pair:
        was, now = (take(room, taken, before=b, settings=settings) for b in (True, False))
        made = side_by_side([(was, words.say("room.before")), (now, words.say("room.after"))])
    else:
        made = take(room, taken, before=before, settings=settings)
    left_out = tuple(sorted(taken.shown.left_out))
    return CustomerPicture(picture=made, run_seen=share_of_run_seen(room, taken), left_out=left_out)


def _room(project: Project) -> RoomToShow:
    from model3d.pictures.rooms.picture import RoomToShow

    return RoomToShow(plan=project.plan, layout=project.layout, scene=project.scene, family=project.family)
