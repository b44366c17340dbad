"""Trims: the cover over a joint, carried along both walls and mitred between them."""

from __future__ import annotations

import math

import cadquery as cq
from cadquery.func import fuse, intersect

from model3d.geometry.outline import polygon
from model3d.geometry.placement import Placement, at, turned_about_z
from model3d.parts.fixings import TrimSpec
from model3d.solids.outlines import across_at
from model3d.solids.placing import located
from model3d.solids.simple_bodies import prism
from model3d.solids.sound import SolidError, one_solid


def trim(spec: TrimSpec) -> cq.Solid:
    """A trim: x along the wall before the corner, y out from that wall, z up, from the corner on the floor,
    mm.

    Each panel is the outline carried along its wall and cut in the planes that halve the turns. Raises
    SolidError when the panels are shorter than their mitres take, the turn is 180 degrees or more, or a
    slanted panel is asked for where the corner is not internal.
    """
    if not abs(spec.turn_deg) < 180.0 or (spec.slant_mm > 0.0 and spec.turn_deg <= 0.0):
        raise SolidError(
            f"a trim cannot turn by {spec.turn_deg:g} degrees with a slant of {spec.slant_mm:g} mm"
        )
    if spec.turn_deg == 0.0:
        return prism(spec.outline, across_at(-spec.leg_mm), 2.0 * spec.leg_mm)
    body: cq.Shape | None = None
    for stands, panel in zip(_stands(spec), _panels(spec), strict=True):
        placed = located(panel, stands)
        body = placed if body is None else fuse(body, placed)
    return one_solid(body, "trim")


def _stands(spec: TrimSpec) -> tuple[Placement, ...]:
    """Where each panel's start stands, in the trim's frame: on the walls' line, x along the panel."""
    found: list[Placement] = []
    here = at(-spec.leg_mm, 0.0, 0.0)
    for length_mm in spec.panel_lengths_mm:
        found.append(here)
        here = here @ at(length_mm, 0.0, 0.0) @ turned_about_z(spec.mitre_turn_deg)
    return tuple(found)


def _panels(spec: TrimSpec) -> tuple[cq.Solid, ...]:
    """The panels, each in its own frame: square at the trim's ends, cut at the mitres."""
    slope = math.tan(math.radians(spec.mitre_turn_deg) / 2.0)
    last = len(spec.panel_lengths_mm) - 1
    return tuple(
        _panel(spec, length_mm, 0.0 if i == 0 else slope, 0.0 if i == last else slope)
        for i, length_mm in enumerate(spec.panel_lengths_mm)
    )


def _panel(spec: TrimSpec, length_mm: float, start_slope: float, end_slope: float) -> cq.Solid:
    """One panel from x = 0: at a distance u from the wall it reaches from start_slope * u to length -
    end_slope * u.
    """
    u0, v0, u1, v1 = spec.outline.extent_mm
    if min(length_mm - (start_slope + end_slope) * u for u in (0.0, u0, u1)) <= 0.0:
        raise SolidError(
            f"a trim panel of {length_mm:g} mm is shorter than its mitres take at {u1:g} mm from the wall "
            f"({(start_slope + end_slope) * u1:.4g} mm)"
        )
    near, far = u0 - 1.0, u1 + 1.0
    first = min(start_slope * near, start_slope * far, 0.0) - 1.0
    final = max(length_mm - end_slope * near, length_mm - end_slope * far) + 1.0
    whole = prism(spec.outline, across_at(first), final - first)
    kept = polygon(
        (start_slope * near, near),
        (length_mm - end_slope * near, near),
        (length_mm - end_slope * far, far),
        (start_slope * far, far),
    )
    return one_solid(intersect(whole, prism(kept, at(0.0, 0.0, v0 - 1.0), v1 - v0 + 2.0)), "trim panel")
