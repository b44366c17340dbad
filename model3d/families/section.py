"""The section of a family as written: outline, hollows, waterways, and their frozen specs."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from model3d.families.fields import FamilyPart, NotNegative, Point, Positive
from model3d.geometry.outline import Obround, Outline, Segment
from model3d.parts.profile import Bore, SectionSpec


class EdgeData(FamilyPart):
    """One edge: straight to a point, or an arc through another."""

    to: Point
    through: Point | None = None


class OutlineData(FamilyPart):
    """A closed outline, anticlockwise."""

    start: Point
    edges: Annotated[tuple[EdgeData, ...], Field(min_length=2)]

    def outline(self) -> Outline:
        """The outline as geometry."""
        return Outline(start=self.start, segments=tuple(Segment(to=e.to, through=e.through) for e in self.edges))


class WaterwayData(FamilyPart):
    """One waterway: centre (u, v) and opening; round when width equals height."""

    centre: Point
    width_mm: Positive
    height_mm: Positive

    def bore(self) -> Bore:
        """The waterway as geometry."""
        return Bore(centre=self.centre, opening=Obround(width_mm=self.width_mm, height_mm=self.height_mm))


class LeadInData(FamilyPart):
    """How far and how wide a bore's mouth is reamed."""

    length_mm: Positive
    radial_mm: NotNegative


class SectionData(FamilyPart):
    """The profile's section and where it stands: back plane ``stand_off_mm`` from the wall, underside ``floor_gap_mm``
    up."""

    height_mm: Positive
    depth_mm: Positive
    stand_off_mm: Positive
    floor_gap_mm: Positive
    outline: OutlineData
    chambers: tuple[OutlineData, ...]
    waterways: Annotated[tuple[WaterwayData, ...], Field(min_length=2, max_length=2)]
    lead_in: LeadInData

    def spec(self, *, heated: bool = True) -> SectionSpec:
        """The section as a spec; without waterways for a dry piece."""
        return SectionSpec(
            outline=self.outline.outline(),
            chambers=tuple(c.outline() for c in self.chambers),
            bores=tuple(w.bore() for w in self.waterways) if heated else (),
            lead_in_length_mm=self.lead_in.length_mm,
            lead_in_radial_mm=self.lead_in.radial_mm,
        )

    @property
    def bore_u_mm(self) -> float:
        """e: the waterways' distance from the wall."""
        return self.stand_off_mm + self.waterways[0].centre[0]

    @property
    def front_u_mm(self) -> float:
        """The front's distance from the wall, b + D."""
        return self.stand_off_mm + self.depth_mm

    @property
    def pitch_mm(self) -> float:
        """Distance between the waterways' centres."""
        return self.waterways[1].centre[1] - self.waterways[0].centre[1]

    @property
    def middle_v_mm(self) -> float:
        """Height above the floor midway between the waterways."""
        return self.floor_gap_mm + (self.waterways[0].centre[1] + self.waterways[1].centre[1]) / 2.0
