"""Light for the customer's pictures: a soft studio sun from above over a cut-away, daylight and sun through the
windows within a closed room. Figures are by eye (common practice, no source)."""

from __future__ import annotations

import math

from model3d.geometry.placement import Vec2, Vec3
from model3d.pictures.raytrace.surface import Rgb
from model3d.pictures.raytrace.view import Light, Portal, View
from model3d.rooms import CheckedPlan, Window
from model3d.scene.room_parts import wall_thickness_mm

CEILING_GLOW: Rgb = (0.42, 0.40, 0.37)
SKY: Rgb = (2.3, 2.38, 2.45)
METERED = 0.86
SUN_RISE_DEG, SUN_ASIDE_DEG = 33.0, 27.0


def studio_light(view: View) -> Light:
    """Light for a room seen from above: a high, wide sun over the viewer's left shoulder and a bright warm sky."""
    dx, dy = view.eye_mm[0] - view.target_mm[0], view.eye_mm[1] - view.target_mm[1]
    turn = math.degrees(math.atan2(dy, dx)) - 48.0
    return Light(
        sun_from=_toward(turn, 56.0),
        sun=(0.52, 0.475, 0.41),
        sky=(0.60, 0.605, 0.61),
        sun_width_deg=11.0,
        metered=1.10,
    )


def room_light(plan: CheckedPlan, view: View) -> Light:
    """Light within a closed room: bright sky at the windows, the sun through one that faces the picture."""
    window = _sun_window(plan, view)
    portals = tuple(_portal(plan, w) for w in plan.room.windows)
    if window is None:
        return Light(sun=(0.0, 0.0, 0.0), sky=SKY, metered=METERED, enclosed=True, sun_from=(0.0, 0.0, 1.0))
    out = _outward(plan, window)
    sight = (view.target_mm[0] - view.eye_mm[0], view.target_mm[1] - view.eye_mm[1])
    side = 1.0 if out[0] * sight[1] - out[1] * sight[0] > 0 else -1.0
    turn = math.degrees(math.atan2(out[1], out[0])) - side * SUN_ASIDE_DEG
    return Light(
        sun_from=_toward(turn, SUN_RISE_DEG),
        sun=(2.1, 1.78, 1.36),
        sky=SKY,
        sun_width_deg=2.2,
        metered=METERED,
        enclosed=True,
        portals=portals,
    )


def _sun_window(plan: CheckedPlan, view: View) -> Window | None:
    """The window whose sun lands best in the picture: large, and not straight ahead of the eye or behind it."""
    if not plan.room.windows:
        return None
    sight = (view.target_mm[0] - view.eye_mm[0], view.target_mm[1] - view.eye_mm[1])
    size = max(math.hypot(*sight), 1.0)

    def worth(window: Window) -> float:
        out = _outward(plan, window)
        ahead = (out[0] * sight[0] + out[1] * sight[1]) / size
        return window.width_mm * window.height_mm * (1.0 - 0.6 * abs(ahead))

    return max(plan.room.windows, key=worth)


def _portal(plan: CheckedPlan, window: Window) -> Portal:
    """A window's opening at the outside of its wall."""
    frame, back = plan.room.wall(window.wall_id).frame, -wall_thickness_mm(plan.room)
    up = (0.0, 0.0, window.height_mm)
    along = frame.vector((window.width_mm, 0.0, 0.0))
    return Portal(corner_mm=frame.point((window.from_mm, back, window.sill_mm)), edges_mm=(along, up))


def _outward(plan: CheckedPlan, window: Window) -> Vec2:
    x, y = plan.room.wall(window.wall_id).normal
    return (-x, -y)


def _toward(turn_deg: float, elevation_deg: float) -> Vec3:
    turn, rise = math.radians(turn_deg), math.radians(elevation_deg)
    return (math.cos(rise) * math.cos(turn), math.cos(rise) * math.sin(turn), math.sin(rise))
