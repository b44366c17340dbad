"""The interference engine: placed solids in, overlapping pairs out, each with volume, depth and place.
Nothing in it is about skirting.
"""

from model3d.checks.engine.bodies import Body, Overlap
from model3d.checks.engine.interference import Clash, Tolerance, clashes
from model3d.checks.engine.verdict import Memory

__all__ = ["Body", "Clash", "Memory", "Overlap", "Tolerance", "clashes"]
