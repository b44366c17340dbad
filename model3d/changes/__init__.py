"""What differs between two layouts and their steps."""

from model3d.changes.changed import Stand, changed
from model3d.changes.said import changes_data, changes_text
from model3d.changes.values import Changes, FieldChange, PartChange, Remark, StepChange

__all__ = [
    "Changes",
    "FieldChange",
    "PartChange",
    "Remark",
    "Stand",
    "StepChange",
    "changed",
    "changes_data",
    "changes_text",
]
