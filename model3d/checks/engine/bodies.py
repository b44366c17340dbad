"""What the engine works on: solids by key, placed as bodies. It knows nothing of skirting."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from model3d.geometry.placement import Placement, Vec3

Boxes = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """A placed solid: ``shape_key`` names its solid, which stands in its own frame. Equal keys are one shape."""

    id: str
    shape_key: Hashable
    placement: Placement


@dataclass(frozen=True, slots=True, kw_only=True)
class Overlap:
    """What two solids share.

    ``volume_mm3``; ``depth_mm``, the diameter of the widest ball that fits in it, or how far one has to be moved to
    be off the other where they only just overlap; ``place_mm``, a point inside it where it is deepest, as near its
    middle as may be, in the first solid's frame. ``exact`` False says that the kernel's boolean failed and the meshes
    speak.
    """

    volume_mm3: float
    depth_mm: float
    place_mm: Vec3
    exact: bool = True


def matrix(placement: Placement) -> npt.NDArray[np.float64]:
    """The placement as 3 x 4: turned axes as columns, then the origin, mm."""
    return np.array([placement.x_axis, placement.y_axis, placement.z_axis, placement.origin_mm]).T


def placed_boxes(bodies: Sequence[Body], own: Sequence[Boxes]) -> Boxes:
    """Axis-aligned boxes of the bodies where they stand, (n, 2, 3), mm; ``own`` are the boxes in their own
    frames, low and high corner.
    """
    boxes = np.empty((len(bodies), 2, 3))
    for i, (body, (low, high)) in enumerate(zip(bodies, own, strict=True)):
        to_room = matrix(body.placement)
        middle = to_room[:, :3] @ (low + high) / 2.0 + to_room[:, 3]
        reach = np.abs(to_room[:, :3]) @ (high - low) / 2.0
        boxes[i] = middle - reach, middle + reach
    return boxes


def box_pairs(boxes: Boxes, *, margin_mm: float) -> npt.NDArray[np.int64]:
    """Index pairs (m, 2), first less than second, in order, of boxes that come within ``margin_mm`` of each
    other.

    Sorted along x and swept, so that far apart bodies are never compared.
    """
    order = np.argsort(boxes[:, 0, 0], kind="stable")
    low, high = boxes[order, 0] - margin_mm / 2.0, boxes[order, 1] + margin_mm / 2.0
    found: list[npt.NDArray[np.int64]] = [np.empty((0, 2), dtype=np.int64)]
    for i in range(len(order)):
        end = int(np.searchsorted(low[:, 0], high[i, 0], side="right"))
        rivals = np.arange(i + 1, end)
        meet = np.all((low[rivals] <= high[i]) & (high[rivals] >= low[i]), axis=1)
        others = order[rivals[meet]]
        found.append(np.stack([np.minimum(order[i], others), np.maximum(order[i], others)], axis=1))
    pairs = np.concatenate(found)
    return pairs[np.lexsort((pairs[:, 1], pairs[:, 0]))]
