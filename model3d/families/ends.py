"""End fittings, brackets, trims and caps of a family as written."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from model3d.families.fields import FamilyPart, NotNegative, Positive
from model3d.families.section import OutlineData


class BlockData(FamilyPart):
    """The block of an end fitting: gap to the cut face, far end, and its extent from wall and floor."""

    face_gap_mm: Positive
    end_mm: Positive
    back_mm: NotNegative
    front_mm: Positive
    bottom_mm: Positive
    top_mm: Positive


class NeckData(FamilyPart):
    """The neck between block and valve head."""

    radius_mm: Positive
    length_mm: Positive


class HeadData(FamilyPart):
    """The thermostatic head; its axis lies along the wall ``v_mm`` above the floor, as far out as the waterways."""

    radius_mm: Positive
    length_mm: Positive
    v_mm: Positive
    turning_room_mm: Annotated[
        NotNegative,
        Field(description="Free round the head toward the room, for the fingers that turn it; ours, no source."),
    ] = 25.0


class ValveTailData(FamilyPart):
    """Tail pipes of a valve end: one, or two where the run turns back; distances beyond the cut face."""

    radius_mm: Positive
    offset_mm: Positive
    twin_offsets_mm: tuple[Positive, Positive]


class TailPipeData(FamilyPart):
    """The tail pipe of a return end."""

    radius_mm: Positive
    offset_mm: Positive


class CradleData(FamilyPart):
    """The valve's wall cradle, measured beyond the cut face."""

    plate_mm: Positive
    start_mm: Positive
    end_mm: Positive
    bottom_mm: Positive
    arm_mm: Positive
    lip_mm: Positive


class ValveEndData(FamilyPart):
    """Valve end."""

    length_mm: Positive
    block: BlockData
    neck: NeckData
    head: HeadData
    tail: ValveTailData
    cradle: CradleData


class ReturnEndData(FamilyPart):
    """Return end."""

    length_mm: Positive
    block: BlockData
    tail: TailPipeData


class TurnBackEndData(FamilyPart):
    """Turn-back end."""

    length_mm: Positive
    block: BlockData


class HolesData(FamilyPart):
    """Screw holes of a bracket, heights above the floor; they are drilled ``drilled_mm`` into the wall (ours)."""

    diameter_mm: Positive
    heights_mm: Annotated[tuple[Positive, ...], Field(min_length=1)]
    drilled_mm: Positive = 50.0


class SpacingData(FamilyPart):
    """Bracket spacing: greatest distance; first bracket from an end; first after an elbow corner, where the family has
    elbows; a piece shorter than ``single_below_mm`` takes one only."""

    most_mm: Positive
    end_least_mm: Positive
    end_most_mm: Positive
    elbow_least_mm: Positive | None = None
    elbow_most_mm: Positive | None = None
    single_below_mm: Positive

    @property
    def after_elbow_mm(self) -> tuple[float, float]:
        """Least and most of the first bracket after an elbow corner; those of any end where none are given."""
        least, most = self.elbow_least_mm, self.elbow_most_mm
        return (self.end_least_mm if least is None else least, self.end_most_mm if most is None else most)


class BracketData(FamilyPart):
    """Bracket with ramp and latch; the outline is in u from the wall, v from the floor."""

    width_mm: Positive
    plate_mm: Positive
    lift_mm: Positive
    press_mm: Positive
    latch_reach_mm: Positive
    outline: OutlineData
    holes: HolesData
    spacing: SpacingData


class TrimData(FamilyPart):
    """Trim: its outline in u from the wall, v from the floor, overlap on the faces, clearance to what it covers."""

    outline: OutlineData
    overlap_mm: Positive
    clearance_mm: NotNegative


class EndCapData(FamilyPart):
    """End cap: a trim's outline, closed by a plate."""

    plate_mm: Positive
