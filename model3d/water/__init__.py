"""What the water does in a layout: heat, flow, pressure, content, mass, touch; libraries loaded when first
needed.
"""

from model3d.water.content import PieceMass, dry_mass_kg
from model3d.water.groups import water_groups
from model3d.water.output import Excess, PieceOutput
from model3d.water.report import RunWater, WaterReport, water_report
from model3d.water.run_flow import PartDrop, RunFlow
from model3d.water.touch import Touch

__all__ = [
    "Excess",
    "PartDrop",
    "PieceMass",
    "PieceOutput",
    "RunFlow",
    "RunWater",
    "Touch",
    "WaterReport",
    "dry_mass_kg",
    "water_groups",
    "water_report",
]
