"""Clips, seals and the fittings that join pieces.

Fitting frames at a piece's end: the datum is on the cut face; x points into the piece, y along u (out from
the wall) with y = 0 at the waterways' centres, z up. A pair's parts that serve both waterways have z = 0
midway between them and are the same upside down, so they can be turned over about x, y or z and never need a
mirror.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from model3d.geometry.outline import Obround


@dataclass(frozen=True, slots=True, kw_only=True)
class NibSpec:
    """The nib of a bridge, and with the slot's clearance the slot of a clip.

    One nib at each height in ``heights_mm`` (from the middle between the waterways, symmetric about 0),
    reaching from ``inner_mm`` to ``outer_mm`` along y, ``half_height_mm`` up and down, ``reach_mm`` past the
    cut face, its tip bevelled. A catch stands out beyond ``outer_mm`` just inside the clip's plate:
    ``catch_mm`` and square at ``catch_start_mm``, from where it holds, falling evenly to nothing at
    ``catch_end_mm``, so that it rides in.
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

    @property
    def tip_chamfer_mm(self) -> float:
        """The bevel along both long edges of a nib's tip: a third of its thickness (ours)."""
        return (self.outer_mm - self.inner_mm) / 3.0

    def volume_mm3(self, root_mm: float) -> float:
        """Metal of all nibs from their root at ``root_mm`` (along x, from the cut face): tongue, less bevels,
        and the ramp of the catch."""
        tongue = (self.outer_mm - self.inner_mm) * (self.reach_mm - root_mm) - self.tip_chamfer_mm**2
        catch = self.catch_mm * (self.catch_end_mm - self.catch_start_mm) / 2.0
        return 2.0 * self.half_height_mm * (tongue + catch) * len(self.heights_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class ClipSpec:
    """Joint clip: a plate on the cut face (x from -thickness to 0), an eye round each bore, tabs into the
    guides on +y.

    Datum: the cut face, y = 0 at the bores' centres, z = 0 midway between them. ``pitch_mm`` is the distance
    between the waterways. The tab stands from ``tab_inner_mm`` to ``tab_outer_mm`` along y,
    ``tab_half_height_mm`` either way of each of ``tab_heights_mm``, ``tab_length_mm`` into the piece. The nib
    slots are on the +y side too.
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

    @property
    def tab_chamfer_mm(self) -> float:
        """The bevel all round a tab's end: a third of its thickness (ours)."""
        return (self.tab_outer_mm - self.tab_inner_mm) / 3.0

    @property
    def slot_half_height_mm(self) -> float:
        """Half the height of a nib slot."""
        return self.nib.half_height_mm + self.nib.slot_clearance_mm

    @property
    def slot_width_mm(self) -> float:
        """Width of a nib slot along y."""
        return self.nib.outer_mm - self.nib.inner_mm + 2.0 * self.nib.slot_clearance_mm

    @property
    def volume_mm3(self) -> float:
        """Plate with rounded corners, less eyes and nib slots, and the tabs; a tab's bevelled end by the
        prismoid rule."""
        plate = 4.0 * self.half_width_mm * self.half_height_mm - (4.0 - math.pi) * self.corner_radius_mm**2
        slots = 2.0 * self.slot_half_height_mm * self.slot_width_mm * len(self.nib.heights_mm)
        width, height = self.tab_outer_mm - self.tab_inner_mm, 2.0 * self.tab_half_height_mm
        bevel = self.tab_chamfer_mm
        tip, middle = (width - 2.0 * bevel) * (height - 2.0 * bevel), (width - bevel) * (height - bevel)
        end = bevel * (width * height + 4.0 * middle + tip) / 6.0
        tab = width * height * (self.tab_length_mm - bevel) + end
        holes = 2.0 * self.eye.area_mm2 + slots
        return (plate - holes) * self.thickness_mm + tab * len(self.tab_heights_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class GrooveSpec:
    """The O-ring grooves of a leg: ``floor`` the stadium of the groove's floor, centres ``from_tip_mm``, each
    ``width_mm`` wide."""

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
    """An O-ring as moulded (not squeezed), lying round the x axis. Datum: its centre. ``inside`` is the
    stadium it lies on."""

    inside: Obround
    section_mm: float

    @property
    def volume_mm3(self) -> float:
        """Circle area times the length of its centre line (Pappus)."""
        return math.pi * self.section_mm**2 / 4.0 * self.inside.grown(self.section_mm / 2.0).perimeter_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class ElbowSpec:
    """One elbow. Datum: the bend end of the long leg, on its centre line.

    x is the run's direction at the bend end (the long leg lies along -x), y the side it turns toward, so the
    bend's centre is at (0, bend_radius). The same upside down. ``turn_deg`` is positive, in 0..180; the body
    round the bend is ``body`` (a stadium outside), between the two bend ends only.
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
    """The bridge that ties a pair: a plate with an opening for each leg and nibs into the piece's clip on its
    +y side.

    Datum: the cut face, y = 0 at the bores' centres, z = 0 midway. The plate lies over x from ``start_mm`` to
    ``end_mm`` (negative: outside the piece). ``both_ways`` gives a second set of nibs along -x for a coupler;
    then x = 0 is the middle of the gap and ``other_face_mm`` is the gap: the nibs' reach and catch are
    counted from each cut face.
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

    @property
    def corner_radius_mm(self) -> float:
        """Radius of the plate's corners: as much as the rim beside the openings is wide (ours)."""
        beside = self.half_width_mm - self.opening.width_mm / 2.0
        beyond = self.half_height_mm - self.pitch_mm / 2.0 - self.opening.height_mm / 2.0
        return min(beside, beyond)

    @property
    def volume_mm3(self) -> float:
        """Plate with rounded corners, less the openings, and the nibs from its faces."""
        plate = 4.0 * self.half_width_mm * self.half_height_mm - (4.0 - math.pi) * self.corner_radius_mm**2
        metal = (plate - 2.0 * self.opening.area_mm2) * (self.end_mm - self.start_mm)
        if not self.both_ways:
            return metal + self.nib.volume_mm3(self.end_mm)
        face = self.other_face_mm / 2.0
        return metal + self.nib.volume_mm3(self.end_mm - face) + self.nib.volume_mm3(-self.start_mm - face)


def _saddle_mm3(radius_mm: float, under_mm: float) -> float:
    """Volume between a round tube of radius ``under_mm`` and the level of its top, within an upright cylinder
    of ``radius_mm``.

    Integral of 2 sqrt(r^2 - y^2) (R - sqrt(R^2 - y^2)) over y from -r to r, by Gauss-Chebyshev rule of the
    second kind, which takes the first root as its weight and is exact to rounding for the smooth rest. 0 on a
    flat top (``under_mm`` infinite).
    """
    if math.isinf(under_mm):
        return 0.0
    count = 64
    total = 0.0
    for k in range(1, count + 1):
        angle = k * math.pi / (count + 1)
        y = radius_mm * math.cos(angle)
        total += math.sin(angle) ** 2 * (under_mm - math.sqrt(under_mm**2 - y**2))
    return 2.0 * radius_mm**2 * math.pi / (count + 1) * total


@dataclass(frozen=True, slots=True, kw_only=True)
class SpigotSpec:
    """One end of a link. Datum: the cut face at the bore's centre, x into the piece, z up; the same on both
    sides of y.

    The leg reaches ``insertion_mm`` in and ``stub_mm`` out to a closed shoulder, where the hose pushes over a
    round tail of ``tail_radius_mm``, ``tail_length_mm`` long, with a round passage of ``tail_passage_mm``
    diameter. A slotted screw stands ``screw_height_mm`` up from the leg's top at ``screw_x_mm`` (negative):
    the upper half of it the head of ``screw_radius_mm`` with a slot along x, the lower half its neck.
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

    @property
    def shoulder_mm(self) -> float:
        """Thickness of the wall that closes the leg round the tail: as thick as the leg's own wall (ours)."""
        return (self.leg.outside.width_mm - self.leg.passage.width_mm) / 2.0

    @property
    def screw_neck_radius_mm(self) -> float:
        """Radius of the screw under its head: six tenths of the head's (ours)."""
        return 0.6 * self.screw_radius_mm

    @property
    def screw_head_mm(self) -> float:
        """Height of the screw's head: half of what stands up."""
        return self.screw_height_mm / 2.0

    @property
    def leg_drop_mm(self) -> float:
        """How far the leg's round top has fallen at the edge of the screw's neck; 0 where the top is flat
        there."""
        if self.leg.outside.width_mm > self.leg.outside.height_mm:
            return 0.0
        round_top = self.leg.outside.radius_mm
        neck = min(self.screw_neck_radius_mm, round_top)
        return round_top - math.sqrt(round_top**2 - neck**2)

    @property
    def volume_mm3(self) -> float:
        """Leg, shoulder, tail and slotted screw; the screw's neck stands on the leg's round top."""
        tail = math.pi * self.tail_radius_mm**2
        passage = math.pi * self.tail_passage_mm**2 / 4.0
        leg = self.leg.volume_mm3(self.insertion_mm + self.stub_mm)
        shoulder = (self.leg.passage.area_mm2 - passage) * self.shoulder_mm
        return leg + shoulder + (tail - passage) * self.tail_length_mm + self._screw_mm3()

    def _screw_mm3(self) -> float:
        """Neck from the leg's surface, and the head less its slot (a strip across a circle)."""
        r, half = self.screw_radius_mm, self.slot_width_mm / 2.0
        strip = 2.0 * (half * math.sqrt(r**2 - half**2) + r**2 * math.asin(half / r))
        head = math.pi * r**2 * self.screw_head_mm - strip * self.slot_depth_mm
        neck = math.pi * self.screw_neck_radius_mm**2 * (self.screw_height_mm - self.screw_head_mm)
        round_top = self.leg.outside.radius_mm if self.leg_drop_mm > 0.0 else math.inf
        return head + neck + _saddle_mm3(self.screw_neck_radius_mm, round_top)


@dataclass(frozen=True, slots=True, kw_only=True)
class HoseSpec:
    """One hose of a link, at rest. Datum: its centre at the earlier piece's spigot shoulder, x the run's
    direction, z up.

    Seen from above it lies straight (``straight_mm``), arc (``arc_radius_mm`` through ``turn_deg``, positive
    to the left, +y), straight; over ``grip_mm`` at each end it lies level on the spigot's rigid tail, between them
    its slack hangs down so that its centre line is ``length_mm`` long.
    """

    length_mm: float
    straight_mm: float
    arc_radius_mm: float
    turn_deg: float
    outer_radius_mm: float
    inner_radius_mm: float
    grip_mm: float = 0.0

    @property
    def volume_mm3(self) -> float:
        """The wall's ring times the length of the centre line (Pappus: the ring's centre stays on the line)."""
        return math.pi * (self.outer_radius_mm**2 - self.inner_radius_mm**2) * self.length_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class CouplerSpec:
    """One coupler. Datum: the middle of the gap at the bore's centre; the leg reaches ``insertion_mm`` past
    each cut face along x."""

    leg: LegSpec
    insertion_mm: float
    gap_mm: float

    @property
    def volume_mm3(self) -> float:
        """A tube over both insertions and the gap, less the grooves at both tips."""
        ring = (self.leg.outside.area_mm2 - self.leg.grooves.floor.area_mm2) * self.leg.grooves.width_mm
        tube = self.leg.volume_mm3(2.0 * self.insertion_mm + self.gap_mm)
        return tube - ring * len(self.leg.grooves.from_tip_mm)
