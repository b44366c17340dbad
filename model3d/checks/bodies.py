"""What the interference engine works on: solids by key, placed as bodies. It knows nothing of skirting."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from OCP.Bnd import Bnd_Box
from OCP.BRepBndLib import BRepBndLib

from model3d.geometry.placement import Placement

Boxes = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """A placed solid: ``shape_key`` names its solid, which stands in its own frame."""

    id: str
    shape_key: Hashable
    placement: Placement


def own_boxes(shapes: Mapping[Hashable, object]) -> dict[Hashable, Boxes]:
    """The box round each solid in its own frame, (2, 3): low and high corner, mm."""
    found: dict[Hashable, Boxes] = {}
    for key, shape in shapes.items():
        box = Bnd_Box()
        BRepBndLib.AddOptimal_s(shape.wrapped, box, False, False)  # type: ignore[attr-defined]
        x0, y0, z0, x1, y1, z1 = box.Get()
        found[key] = np.array([[x0, y0, z0], [x1, y1, z1]])
    return found


def placed_boxes(bodies: tuple[Body, ...], own: Mapping[Hashable, Boxes]) -> Boxes:
    """Axis-aligned boxes of the bodies where they stand, (n, 2, 3), mm."""
    boxes = np.empty((len(bodies), 2, 3))
    for i, body in enumerate(bodies):
        low, high = own[body.shape_key]
        axes = np.array([body.placement.x_axis, body.placement.y_axis, body.placement.z_axis])
        middle = (low + high) / 2.0 @ axes + np.array(body.placement.origin_mm)
        reach = (high - low) / 2.0 @ np.abs(axes)
        boxes[i] = middle - reach, middle + reach
    return boxes


def box_pairs(boxes: Boxes, *, margin_mm: float) -> npt.NDArray[np.int64]:
    """Index pairs (m, 2), first less than second, of boxes that come within ``margin_mm`` of each other.

    Sorted along x and swept, so that far apart bodies are never compared.
    """
    order = np.argsort(boxes[:, 0, 0], kind="stable")
    low, high = boxes[order, 0] - margin_mm / 2.0, boxes[order, 1] + margin_mm / 2.0
    found: list[npt.NDArray[np.int64]] = []
    for i in range(len(order)):
        end = int(np.searchsorted(low[:, 0], high[i, 0], side="right"))
        rivals = np.arange(i + 1, end)
        meet = np.all((low[rivals] <= high[i]) & (high[rivals] >= low[i]), axis=1)
        others = order[rivals[meet]]
        found.append(np.stack([np.minimum(order[i], others), np.maximum(order[i], others)], axis=1))
    return np.concatenate(found) if found else np.empty((0, 2), dtype=np.int64)
