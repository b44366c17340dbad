"""The tube of a spigot with its O-ring grooves, shared by every fitting that goes into a bore.

Frame of a leg: x from its root (0) to its tip, y across, z up, on the centre line.
"""

from __future__ import annotations

from itertools import pairwise

import cadquery as cq
from OCP.TopoDS import TopoDS_Shape

from model3d.geometry.outline import Outline
from model3d.parts.fittings import LegSpec
from model3d.solids.outlines import obround_outline
from model3d.solids.skins import Station, sewn, skin, step
from model3d.solids.sound import SolidError


def leg_tube(leg: LegSpec, length_mm: float) -> cq.Solid:
    """A leg by itself, root open like the tip: x from 0 to ``length_mm``. Raises SolidError when its grooves
    do not fit it."""
    root = step(obround_outline(leg.outside), obround_outline(leg.passage), 0.0)
    return sewn([root, *leg_skin(leg, length_mm)], "leg")


def leg_skin(leg: LegSpec, length_mm: float) -> list[TopoDS_Shape]:
    """The faces of a leg but for its root: outside with grooves, passage, the ring at the tip."""
    outside, passage = obround_outline(leg.outside), obround_outline(leg.passage)
    bore = [Station(x_mm=0.0, outline=passage), Station(x_mm=length_mm, outline=passage)]
    outer = [Station(x_mm=0.0, outline=outside), *grooved_to_tip(leg, 0.0, length_mm)]
    return [*skin(outer), *skin(bore), step(outside, passage, length_mm)]


def grooved_to_tip(leg: LegSpec, root_mm: float, tip_mm: float) -> list[Station]:
    """The outside's stations past the root: down and up at each groove, and the tip. Grooves count from the
    tip."""
    found: list[Station] = []
    for from_tip in sorted(leg.grooves.from_tip_mm, reverse=True):
        found += _groove(leg, tip_mm - from_tip)
    found.append(Station(x_mm=tip_mm, outline=obround_outline(leg.outside)))
    return _rising(found, root_mm, tip_mm)


def grooved_from_tip(leg: LegSpec, tip_mm: float, root_mm: float) -> list[Station]:
    """The same for a leg that points down x: from the tip, at the least x, up to the root."""
    found = [Station(x_mm=tip_mm, outline=obround_outline(leg.outside))]
    for from_tip in sorted(leg.grooves.from_tip_mm):
        found += _groove(leg, tip_mm + from_tip)
    return _rising(found, tip_mm, root_mm)


def _groove(leg: LegSpec, centre_mm: float) -> list[Station]:
    """Four stations: outside, floor, floor, outside."""
    outside: Outline = obround_outline(leg.outside)
    floor: Outline = obround_outline(leg.grooves.floor)
    start, end = centre_mm - leg.grooves.width_mm / 2.0, centre_mm + leg.grooves.width_mm / 2.0
    return [
        Station(x_mm=start, outline=outside),
        Station(x_mm=start, outline=floor),
        Station(x_mm=end, outline=floor),
        Station(x_mm=end, outline=outside),
    ]


def _rising(stations: list[Station], low_mm: float, high_mm: float) -> list[Station]:
    """The stations themselves, once they are known to go up and to stand on the leg."""
    places = [low_mm, *(s.x_mm for s in stations), high_mm]
    if any(b < a for a, b in pairwise(places)):
        raise SolidError(f"leg: its grooves overlap or do not fit its {high_mm - low_mm:g} mm")
    return stations
