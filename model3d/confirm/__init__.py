"""Solids confirm the arithmetic: they are measured where they stand, by code that does not read the layout,
and then compared with it.
"""

from model3d.confirm.compare import Closeness
from model3d.confirm.project import confirm_project, measure_scene

__all__ = ["Closeness", "confirm_project", "measure_scene"]
