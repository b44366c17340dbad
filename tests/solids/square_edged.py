"""The reference numbers of the square-edged family (a), from wall and floor: stand-off 6, floor gap 8, section 22 x
140.
"""

from __future__ import annotations

from model3d.geometry.outline import Obround, Outline, Segment, polygon, rectangle
from model3d.geometry.placement import Placement, at
from model3d.parts.ends import CradleSpec, EndBlockSpec, ReturnEndSpec, TurnBackEndSpec, ValveEndSpec
from model3d.parts.fittings import ClipSpec, ElbowSpec, GrooveSpec, LegSpec, NibSpec
from model3d.parts.fixings import BracketSpec, EndCapSpec, TrimSpec
from model3d.parts.profile import Bore, PieceSpec, SectionSpec

BORES = ((17.0, 48.0), (17.0, 118.0))
INSERTION_MM = 24.0

LEG = LegSpec(
    outside=Obround(width_mm=10.6, height_mm=19.6),
    passage=Obround(width_mm=7.0, height_mm=16.0),
    grooves=GrooveSpec(floor=Obround(width_mm=8.4, height_mm=17.4), width_mm=2.4, from_tip_mm=(6.0, 14.0)),
)

NIB = NibSpec(
    heights_mm=(0.0,),
    inner_mm=2.6,
    outer_mm=5.6,
    half_height_mm=8.0,
    reach_mm=20.0,
    catch_mm=0.6,
    catch_start_mm=0.3,
    catch_end_mm=1.8,
    slot_clearance_mm=0.3,
)

CLIP = ClipSpec(
    pitch_mm=70.0,
    thickness_mm=1.5,
    half_width_mm=9.3,
    half_height_mm=49.0,
    corner_radius_mm=2.0,
    eye=Obround(width_mm=12.8, height_mm=21.8),
    tab_inner_mm=7.0,
    tab_outer_mm=9.35,
    tab_half_height_mm=5.8,
    tab_heights_mm=(0.0,),
    tab_length_mm=12.0,
    nib=NIB,
)

ELBOW = ElbowSpec(
    turn_deg=90.0,
    bend_radius_mm=14.0,
    body=Obround(width_mm=15.0, height_mm=24.0),
    leg=LEG,
    long_leg_mm=54.0,
    short_leg_mm=44.0,
)

_ROOT_HALF = 0.5**0.5


def section() -> SectionSpec:
    """Outline with rounded front edges and the latch groove; three chambers; two waterways."""
    outline = Outline(
        start=(0.0, 0.0),
        segments=(
            Segment(to=(21.0, 0.0)),
            Segment(to=(22.0, 1.0), through=(21.0 + _ROOT_HALF, 1.0 - _ROOT_HALF)),
            Segment(to=(22.0, 138.0)),
            Segment(to=(20.0, 140.0), through=(20.0 + 2.0 * _ROOT_HALF, 138.0 + 2.0 * _ROOT_HALF)),
            *(
                Segment(to=to)
                for to in (
                    (0.0, 140.0),
                    (0.0, 131.0),
                    (2.0, 131.0),
                    (2.0, 133.0),
                    (8.0, 133.0),
                    (8.0, 124.0),
                    (0.0, 124.0),
                )
            ),
        ),
    )
    middle = polygon(
        (2.5, 52.5),
        (19.5, 52.5),
        (19.5, 69.0),
        (20.5, 69.0),
        (20.5, 81.0),
        (19.5, 81.0),
        (19.5, 97.5),
        (2.5, 97.5),
        (2.5, 81.0),
        (1.5, 81.0),
        (1.5, 69.0),
        (2.5, 69.0),
    )
    opening = Obround(width_mm=11.0, height_mm=20.0)
    return SectionSpec(
        outline=outline,
        chambers=(rectangle(2.5, 2.5, 19.5, 27.5), middle, rectangle(10.5, 124.5, 19.5, 137.5)),
        bores=(Bore(centre=(11.0, 40.0), opening=opening), Bore(centre=(11.0, 110.0), opening=opening)),
        lead_in_length_mm=3.0,
        lead_in_radial_mm=0.7,
    )


def piece_spec(length_mm: float = 300.0) -> PieceSpec:
    """A length of the profile."""
    return PieceSpec(length_mm=length_mm, section=section())


def block_spec(hand: int, end_mm: float, nib_side: int, length_mm: float) -> EndBlockSpec:
    """An end fitting's block from 2.5 mm off the cut face to ``end_mm``."""
    return EndBlockSpec(
        hand=hand,
        bore_centres=BORES,
        leg=LEG,
        insertion_mm=INSERTION_MM,
        face_gap_mm=2.5,
        block_end_mm=end_mm,
        block_back_mm=7.0,
        block_front_mm=27.0,
        block_bottom_mm=30.0,
        block_top_mm=136.0,
        nib=NIB,
        nib_side=nib_side,
        length_mm=length_mm,
    )


def valve_end_spec(hand: int = 1, tails: tuple[float, ...] = (22.0,), nib_side: int = -1) -> ValveEndSpec:
    """The valve end, 95 mm."""
    return ValveEndSpec(
        block=block_spec(hand, 42.0, nib_side, 95.0),
        neck_radius_mm=9.0,
        neck_length_mm=10.0,
        head_radius_mm=14.0,
        head_length_mm=40.0,
        head_u_mm=17.0,
        head_v_mm=118.0,
        tail_radius_mm=7.5,
        tail_offsets_mm=tails,
    )


def return_end_spec(hand: int = 1, nib_side: int = 1) -> ReturnEndSpec:
    """The return end, 60 mm."""
    return ReturnEndSpec(
        block=block_spec(hand, 32.0, nib_side, 60.0), tail_radius_mm=7.5, tail_offset_mm=17.0
    )


def turn_back_end_spec(hand: int = 1, nib_side: int = 1) -> TurnBackEndSpec:
    """The turn-back end, 40 mm."""
    return TurnBackEndSpec(block=block_spec(hand, 30.0, nib_side, 40.0))


def cradle_spec(hand: int = 1) -> CradleSpec:
    """The valve's cradle."""
    return CradleSpec(
        hand=hand,
        x_start_mm=8.0,
        x_end_mm=36.0,
        plate_mm=5.0,
        bottom_mm=40.0,
        block_top_mm=136.0,
        block_front_mm=27.0,
        arm_mm=3.0,
        lip_mm=4.0,
    )


BRACKET = BracketSpec(
    outline=polygon(
        (0.0, 1.0),
        (20.0, 1.0),
        (20.0, 3.0),
        (14.0, 3.0),
        (10.0, 8.0),
        (6.0, 8.0),
        (6.0, 133.6),
        (12.5, 133.6),
        (12.5, 138.0),
        (10.0, 140.4),
        (8.4, 140.4),
        (8.4, 136.6),
        (0.0, 136.6),
    ),
    width_mm=40.0,
    plate_mm=6.0,
    hole_diameter_mm=5.0,
    hole_heights_mm=(50.0, 100.0),
)

TRIM_OUTLINE = polygon((28.0, 8.0), (30.0, 8.0), (30.0, 150.0), (1.0, 150.0), (1.0, 148.0), (28.0, 148.0))


def trim_spec(turn_deg: float, leg_mm: float = 63.0, slant_mm: float = 0.0) -> TrimSpec:
    """A trim over a joint."""
    return TrimSpec(outline=TRIM_OUTLINE, turn_deg=turn_deg, leg_mm=leg_mm, slant_mm=slant_mm)


def end_cap_spec(hand: int = 1, length_mm: float = 60.0) -> EndCapSpec:
    """An end cap over an end fitting."""
    return EndCapSpec(
        hand=hand,
        outline=TRIM_OUTLINE,
        closing=rectangle(1.0, 8.0, 30.0, 150.0),
        length_mm=length_mm,
        overlap_mm=12.0,
        plate_mm=2.0,
    )


def piece_stands(start_mm: float, out_mm: float = 0.0, up_mm: float = 0.0) -> Placement:
    """A piece from ``start_mm`` along its wall, so much in front of its final place and above it."""
    return at(start_mm, 6.0 + out_mm, 8.0 + up_mm)


def clip_stands(hand: int, side: int) -> Placement:
    """A clip on the cut face at x = 0 of a piece toward ``hand``, its tabs to the front (+1) or the back (-1):
    turned, never mirrored.
    """
    x, y = float(hand), float(side)
    return Placement(
        origin_mm=(0.0, 17.0, 83.0), x_axis=(x, 0.0, 0.0), y_axis=(0.0, y, 0.0), z_axis=(0.0, 0.0, x * y)
    )
