"""Clips, seals and the fittings that join pieces.

Fitting frames at a piece's end: the datum is on the cut face; x points into the piece, y along u (out from the wall) with
y = 0 at the waterways' centres, z up. A pair's parts that serve both waterways have z = 0 midway between them and are the
same upside down, so they can be turned over about x, y or z and never need a mirror.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from model3d.geometry.outline import Obround


@dataclass(frozen=True, slots=True, kw_only=True)
class NibSpec:
    """The nib of a bridge, and with the slot's clearance the slot of a clip.

    One nib at each height in ``heights_mm`` (from the middle between the waterways, symmetric about 0), reaching from
    ``inner_mm`` to ``outer_mm`` along y, ``half_height_mm`` up and down, ``reach_mm`` past the cut face. A catch of
    ``catch_mm`` stands out beyond ``outer_mm`` just inside the clip's plate, over x from ``catch_start_mm`` to ``catch_end_mm``.
    """

    heights_mm: tuple[float, ...]
    inner_mm: float
    outer_mm: float
    half_height_mm: float
    reach_mm: float
    catch_mm: float
    catch_start_mm: float
    catch_end_mm: float
    slot_clearance_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ClipSpec:
    """Joint clip: a plate on the cut face (x from -thickness to 0), an eye round each bore, tabs into the guides on +y.

    Datum: the cut face, y = 0 at the bores' centres, z = 0 midway between them. ``pitch_mm`` is the distance between the
    waterways. The tab stands from ``tab_inner_mm`` to ``tab_outer_mm`` along y, ``tab_half_height_mm`` either way of each of
    ``tab_heights_mm``, ``tab_length_mm`` into the piece. The nib slots are on the +y side too.
    """

    pitch_mm: float
    thickness_mm: float
    half_width_mm: float
    half_height_mm: float
    corner_radius_mm: float
    eye: Obround
    tab_inner_mm: float
    tab_outer_mm: float
    tab_half_height_mm: float
    tab_heights_mm: tuple[float, ...]
    tab_length_mm: float
    nib: NibSpec


@dataclass(frozen=True, slots=True, kw_only=True)
class GrooveSpec:
    """The O-ring grooves of a leg: ``floor`` the stadium of the groove's floor, centres ``from_tip_mm``, each ``width_mm`` wide."""

    floor: Obround
    width_mm: float
    from_tip_mm: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LegSpec:
    """A spigot's tube: ``outside`` and ``passage`` stadia, and its grooves."""

    outside: Obround
    passage: Obround
    grooves: GrooveSpec

    def volume_mm3(self, length_mm: float) -> float:
        """Metal of a leg of this length: tube less grooves."""
        tube = (self.outside.area_mm2 - self.passage.area_mm2) * length_mm
        ring = self.outside.area_mm2 - self.grooves.floor.area_mm2
        return tube - ring * self.grooves.width_mm * len(self.grooves.from_tip_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class OringSpec:
    """An O-ring as moulded (not squeezed), lying round the x axis. Datum: its centre. ``inside`` is the stadium it lies on."""

    inside: Obround
    section_mm: float

    @property
    def volume_mm3(self) -> float:
        """Circle area times the length of its centre line (Pappus)."""
        return math.pi * self.section_mm**2 / 4.0 * self.inside.grown(self.section_mm / 2.0).perimeter_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class ElbowSpec:
    """One elbow. Datum: the bend end of the long leg, on its centre line.

    x is the run's direction at the bend end (the long leg lies along -x), y the side it turns toward, so the bend's
    centre is at (0, bend_radius). The same upside down. ``turn_deg`` is positive, in 0..180; the body round the bend is
    ``body`` (a stadium outside), between the two bend ends only.
    """

    turn_deg: float
    bend_radius_mm: float
    body: Obround
    leg: LegSpec
    long_leg_mm: float
    short_leg_mm: float

    @property
    def volume_mm3(self) -> float:
        """Two legs and, by Pappus, the body's section less the passage along the bend."""
        bend = math.radians(self.turn_deg) * self.bend_radius_mm
        body = (self.body.area_mm2 - self.leg.passage.area_mm2) * bend
        return self.leg.volume_mm3(self.long_leg_mm) + self.leg.volume_mm3(self.short_leg_mm) + body


@dataclass(frozen=True, slots=True, kw_only=True)
class BridgeSpec:
    """The bridge that ties a pair: a plate with an opening for each leg and nibs into the piece's clip on its +y side.

    Datum: the cut face, y = 0 at the bores' centres, z = 0 midway. The plate lies over x from ``start_mm`` to ``end_mm``
    (negative: outside the piece). ``both_ways`` gives a second set of nibs along -x for a coupler; then x = 0 is the
    middle of the gap and ``other_face_mm`` is the gap: the nibs' reach and catch are counted from each cut face.
    """

    pitch_mm: float
    start_mm: float
    end_mm: float
    half_width_mm: float
    half_height_mm: float
    opening: Obround
    nib: NibSpec
    both_ways: bool = False
    other_face_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SpigotSpec:
    """One end of a link. Datum: the cut face at the bore's centre, x into the piece, z up; the same on both sides of y.

    The leg reaches ``insertion_mm`` in and ``stub_mm`` out, where the hose pushes over a round tail of ``tail_radius_mm``,
    ``tail_length_mm`` long, with a round passage of ``tail_passage_mm`` diameter. A slotted screw head of ``screw_radius_mm`` stands
    ``screw_height_mm`` up from the leg's top at ``screw_x_mm`` (negative).
    """

    leg: LegSpec
    insertion_mm: float
    stub_mm: float
    tail_radius_mm: float
    tail_length_mm: float
    tail_passage_mm: float
    screw_x_mm: float
    screw_radius_mm: float
    screw_height_mm: float
    slot_width_mm: float
    slot_depth_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class HoseSpec:
    """One hose of a link, at rest. Datum: its centre at the earlier piece's spigot shoulder, x the run's direction, z up.

    Seen from above it lies straight (``straight_mm``), arc (``arc_radius_mm`` through ``turn_deg``, positive to the left, +y), straight;
    its slack hangs down so that its centre line is ``length_mm`` long.
    """

    length_mm: float
    straight_mm: float
    arc_radius_mm: float
    turn_deg: float
    outer_radius_mm: float
    inner_radius_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CouplerSpec:
    """One coupler. Datum: the middle of the gap at the bore's centre; the leg reaches ``insertion_mm`` past each cut face along x."""

    leg: LegSpec
    insertion_mm: float
    gap_mm: float

    @property
    def volume_mm3(self) -> float:
        """A tube over both insertions and the gap, less the grooves at both tips."""
        ring = (self.leg.outside.area_mm2 - self.leg.grooves.floor.area_mm2) * self.leg.grooves.width_mm
        return self.leg.volume_mm3(2.0 * self.insertion_mm + self.gap_mm) - ring * len(self.leg.grooves.from_tip_mm)
