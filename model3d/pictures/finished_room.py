"""The finished room as a build shows it: from above, the near walls cut down, furnished as the plan says."""

from __future__ import annotations

import io

from PIL import Image

from model3d.families.family import Family
from model3d.layout import Layout
from model3d.pictures.raytrace.view import Settings
from model3d.pictures.rooms.cameras import ABOVE, shot
from model3d.pictures.rooms.picture import RoomToShow, settled, take
from model3d.rooms import CheckedPlan
from model3d.scene import Scene


def room_picture(
    plan: CheckedPlan,
    layout: Layout,
    scene: Scene,
    family: Family,
    *,
    size_px: tuple[int, int] = (1600, 1000),
    settings: Settings | None = None,
) -> bytes:
    """The whole room from above as PNG."""
    room = RoomToShow(plan=plan, layout=layout, scene=scene, family=family)
    taken = settled(room, shot(plan, layout, family, ABOVE, size_px))
    held = io.BytesIO()
    Image.fromarray(take(room, taken, settings=settings)).save(held, format="PNG", compress_level=6)
    return held.getvalue()
