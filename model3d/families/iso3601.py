"""O-ring figures of ISO 3601-1 and -2: sections and the least lead-in of a housing. Read in a copy."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class RingSize:
    """One O-ring section: its tolerance (ISO 3601-1), the groove of a static radial housing, and the least length of
    the lead-in at up to 15 and up to 20 degrees (ISO 3601-2), mm."""

    section_mm: float
    tolerance_mm: float
    groove_depth_mm: float
    groove_width_mm: float
    lead_in_15_mm: float
    lead_in_20_mm: float


RING_SIZES = (
    RingSize(
        section_mm=1.78,
        tolerance_mm=0.08,
        groove_depth_mm=1.30,
        groove_width_mm=2.40,
        lead_in_15_mm=2.5,
        lead_in_20_mm=2.0,
    ),
    RingSize(
        section_mm=2.62,
        tolerance_mm=0.09,
        groove_depth_mm=2.00,
        groove_width_mm=3.60,
        lead_in_15_mm=3.5,
        lead_in_20_mm=2.5,
    ),
    RingSize(
        section_mm=3.53,
        tolerance_mm=0.10,
        groove_depth_mm=2.70,
        groove_width_mm=4.80,
        lead_in_15_mm=4.5,
        lead_in_20_mm=3.5,
    ),
)


def ring_size(section_mm: float) -> RingSize | None:
    """The size whose section this is to a hundredth; for a section between two sizes the next larger, which asks for no
    less lead-in; None beyond the largest."""
    return next((size for size in RING_SIZES if section_mm <= size.section_mm + 0.01), None)


def lead_in_least_mm(size: RingSize, angle_deg: float) -> float | None:
    """The least lead-in at an angle to the bore's axis; None past 20 degrees."""
    if angle_deg <= 15.0:
        return size.lead_in_15_mm
    return size.lead_in_20_mm if angle_deg <= 20.0 else None
