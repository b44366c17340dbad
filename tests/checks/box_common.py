"""What a plain interference check does: boxes, then the kernel's boolean of every pair whose boxes meet."""

from __future__ import annotations

import numpy as np
from OCP.Bnd import Bnd_Box
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
from OCP.BRepBndLib import BRepBndLib
from OCP.BRepGProp import BRepGProp
from OCP.GProp import GProp_GProps

from model3d.solids.placing import located
from tests.checks.many_rooms import Model

NOTHING_MM3 = 1e-6


def common_volumes(model: Model) -> dict[tuple[str, str], float]:
    """The volume in mm3 that each pair shares, of those that are to be compared; pairs that share none left out."""
    placed = [located(model.solid(body), body.placement).wrapped for body in model.bodies]
    boxes = np.empty((len(placed), 2, 3))
    for k, solid in enumerate(placed):
        box = Bnd_Box()
        BRepBndLib.Add_s(solid, box, False)
        boxes[k] = np.array(box.Get()).reshape(2, 3)
    found = {}
    for i, first in enumerate(model.bodies):
        later = boxes[i + 1 :]
        meet = np.all((later[:, 0] <= boxes[i, 1]) & (later[:, 1] >= boxes[i, 0]), axis=1)
        for j in (np.flatnonzero(meet) + i + 1).tolist():
            if model.allowed_mm(first, model.bodies[j]) is None:
                continue
            held = GProp_GProps()
            BRepGProp.VolumeProperties_s(BRepAlgoAPI_Common(placed[i], placed[j]).Shape(), held)
            if held.Mass() > NOTHING_MM3:
                found[first.id, model.bodies[j].id] = float(held.Mass())
    return found
