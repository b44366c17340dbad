"""The interference engine: placed solids in, overlapping pairs out, each with volume, depth and place.

Nothing in it is about skirting. Give it bodies (a key for the shape, a placement), the CadQuery solid of each
key, and how deep each pair may overlap; keep its ``Memory``, and the next time only what has changed is worked
out::

    bodies = [Body(id=name, shape_key="box", placement=at(x, 0, 0)) for name, x in (("a", 0), ("b", 9))]
    shapes = {"box": cadquery.Solid.makeBox(10, 10, 10)}
    for clash in clashes(bodies, shapes, allowed_mm=lambda a, b: 0.0, tolerance=Tolerance(), memory=Memory()):
        print(clash.first, clash.second, clash.overlap.volume_mm3, clash.overlap.depth_mm, clash.place_mm)
"""

from model3d.checks.engine.bodies import Body, Overlap
from model3d.checks.engine.interference import Clash, Tolerance, clashes
from model3d.checks.engine.verdict import Memory

__all__ = ["Body", "Clash", "Memory", "Overlap", "Tolerance", "clashes"]
