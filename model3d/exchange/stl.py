"""Binary STL files in millimetres: one for each shape in its own frame, one of the whole assembly."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import cadquery as cq

from model3d.exchange.assembly import Node, placed_leaves
from model3d.exchange.bodies import bodies_of
from model3d.exchange.file_names import portable_stems
from model3d.solids.mesh import TriangleMesh, solid_mesh

WHOLE = "model"


@dataclass(frozen=True, slots=True, kw_only=True)
class StlFiles:
    """What was written: the whole assembly, and the file of each shape by its key, in tree order."""

    whole: Path
    by_shape: Mapping[Hashable, Path]


def write_stl(
    folder: Path,
    root: Node,
    shapes: Mapping[Any, cq.Shape],
    shape_names: Mapping[Any, str],
    *,
    deflection_mm: float,
    angle_deg: float,
) -> StlFiles:
    """Write ``model.stl`` and one file for each distinct shape into ``folder``, which is made if need be.

    In the whole file the leaves follow one another in tree order, each a closed surface of its own, in the
    frame the root is placed in. For ``deflection_mm`` and ``angle_deg`` see ``solid_mesh``; a shape's file
    is named after it, made portable. Raises ValueError as ``bodies_of`` and ``solid_mesh`` do, OSError when
    a file cannot be written.
    """
    bodies = bodies_of(root, shapes, shape_names)
    meshes = {
        key: solid_mesh(body, shape_names[key], deflection_mm=deflection_mm, angle_deg=angle_deg)
        for key, body in bodies.items()
    }
    folder.mkdir(parents=True, exist_ok=True)
    stems = portable_stems({key: shape_names[key] for key in bodies}, taken=frozenset({WHOLE}))
    by_shape = {key: folder / f"{stem}.stl" for key, stem in stems.items()}
    for key, path in by_shape.items():
        path.write_bytes(stl_bytes([meshes[key]]))
    whole = folder / f"{WHOLE}.stl"
    whole.write_bytes(stl_bytes([meshes[leaf.shape_key].placed(leaf.placement) for leaf in placed_leaves(root)]))
    return StlFiles(whole=whole, by_shape=by_shape)


def stl_bytes(meshes: Sequence[TriangleMesh]) -> bytes:
    """The meshes one after another as one binary STL: header of 80 bytes, count, 50 bytes a triangle."""
    import numpy as np

    corners = np.concatenate([mesh.vertices_mm[mesh.triangles] for mesh in meshes])
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    lengths = np.linalg.norm(normals, axis=1, keepdims=True)
    normals = np.divide(normals, lengths, out=np.zeros_like(normals), where=lengths > 0.0)
    record = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
    records = np.zeros(len(corners), dtype=record)
    records["normal"], records["corners"] = normals, corners
    header = b"binary STL, millimetres".ljust(80)
    return header + len(records).to_bytes(4, "little") + records.tobytes()
