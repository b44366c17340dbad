"""The coupler: a straight tube into both pieces of an in-line joint."""

from __future__ import annotations

import cadquery as cq

from model3d.parts.fittings import CouplerSpec
from model3d.solids.legs import grooved_from_tip, grooved_to_tip
from model3d.solids.outlines import obround_outline
from model3d.solids.skins import Station, sewn, skin, step


def coupler(spec: CouplerSpec) -> cq.Solid:
    """One coupler about the middle of the gap, tips at either end of x, mm. Raises SolidError when its
    grooves do not fit."""
    tip = spec.insertion_mm + spec.gap_mm / 2.0
    outside, passage = obround_outline(spec.leg.outside), obround_outline(spec.leg.passage)
    outer = [*grooved_from_tip(spec.leg, -tip, 0.0), *grooved_to_tip(spec.leg, 0.0, tip)]
    bore = [Station(x_mm=-tip, outline=passage), Station(x_mm=tip, outline=passage)]
    rings = [step(outside, passage, x_mm) for x_mm in (-tip, tip)]
    return sewn([*skin(outer), *skin(bore), *rings], "coupler")
