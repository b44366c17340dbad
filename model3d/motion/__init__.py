"""Whether solids can be moved along given ways without running into others. It knows nothing of what they are.

Bring any CadQuery solids: ``mesh_of`` makes a closed mesh of each. A ``MotionBody`` stands; a ``Moving`` goes through
poses, straight or turning about the upright (``turning_steps``), any number of them together. ``blocked`` says what
they meet first, ``contacts`` all that they meet, ``nearest`` how near they come on a way that is free. Straight ways
are exact: swept points, edges and faces, nothing sampled. ``meant`` tells of a pair that is meant to press into one
another how deep it may.

    import cadquery as cq
    from model3d.geometry.placement import at
    from model3d.motion import MotionBody, Moving, blocked, mesh_of, nearest

    crate, post = mesh_of(cq.Solid.makeBox(100.0, 100.0, 50.0)), mesh_of(cq.Solid.makeCylinder(5.0, 300.0))
    standing = [MotionBody(id="post", mesh=post, placement=at(50.0, 305.0, 0.0))]
    way = Moving(id="crate", mesh=crate, poses=(at(0.0, 0.0, 0.0), at(0.0, 400.0, 0.0)))
    stop = blocked([way], standing)  # met with stop.contact.share of the way done, at stop.place_mm
    aside = Moving(id="crate", mesh=crate, poses=(at(58.0, 0.0, 0.0), at(58.0, 400.0, 0.0)))
    near = nearest([aside], standing, within_mm=20.0)  # free: how near the two come, and where
"""

from model3d.motion.from_solids import mesh_of
from model3d.motion.mesh import MotionMesh
from model3d.motion.way import (
    RIGID,
    Blocked,
    Contact,
    Give,
    Memo,
    MotionBody,
    Moving,
    Nearest,
    blocked,
    contacts,
    nearest,
    turned_about,
    turning_steps,
)

__all__ = [
    "RIGID",
    "Blocked",
    "Contact",
    "Give",
    "Memo",
    "MotionBody",
    "MotionMesh",
    "Moving",
    "Nearest",
    "blocked",
    "contacts",
    "mesh_of",
    "nearest",
    "turned_about",
    "turning_steps",
]
