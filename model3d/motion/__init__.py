"""Whether solids can be moved along given ways without running into others. It knows nothing of what they are.

Bring any CadQuery solids: ``mesh_of`` makes a closed mesh of each. A ``MotionBody`` stands; a ``Moving`` goes through
poses, straight or turning about the upright (``turning_steps``), any number of them together. ``blocked`` says what
they meet first, ``contacts`` all that they meet, ``nearest`` how near they come on a way that is free. Straight ways
are exact: swept points, edges and faces, nothing sampled. ``meant`` tells of a pair that is meant to press into one
another how deep it may.

    post = MotionBody(id="post", mesh=mesh_of(solid), placement=at(0.0, 100.0, 0.0))
    crate = Moving(id="crate", mesh=mesh_of(other), poses=(at(0.0, 0.0, 0.0), at(0.0, 200.0, 0.0)))
    blocked([crate], [post])
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
