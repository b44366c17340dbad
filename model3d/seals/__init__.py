"""O-rings of a family against ISO 3601: squeeze, stretch, gland fill and lead-in at the tolerance limits."""

from model3d.seals.gland import Gland, Mouth
from model3d.seals.groups import seal_groups
from model3d.seals.report import Seal, SealReport, seal_report
from model3d.seals.stretch import Stretch

__all__ = [
    "Gland",
    "Mouth",
    "Seal",
    "SealReport",
    "Stretch",
    "seal_groups",
    "seal_report",
]
