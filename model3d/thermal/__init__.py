"""What warmth and cold do to a layout: growth, insertion of long legs, hoses; numbers only."""

from model3d.thermal.groups import thermal_groups
from model3d.thermal.report import growth_findings, thermal_report
from model3d.thermal.values import EndHold, Growth, HoseState, LinkHose, LongLeg, ThermalReport

__all__ = [
    "EndHold",
    "Growth",
    "HoseState",
    "LinkHose",
    "LongLeg",
    "ThermalReport",
    "growth_findings",
    "thermal_groups",
    "thermal_report",
]
