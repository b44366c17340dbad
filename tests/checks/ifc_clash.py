"""The same bodies as an IFC4 model of triangulated face sets, one for each distinct shape, for IfcOpenShell's clash."""

from __future__ import annotations

from typing import Any

import ifcopenshell
import ifcopenshell.geom

from model3d.checks.engine.facets import facets, joined, welded
from model3d.scene.values import ROOM_ROLES
from tests.checks.many_rooms import Model

DEFLECTION_MM, ANGLE_RAD = 0.1, 0.35  # as the engine's coarse skins
TOLERANCE_M = 2e-5  # what counts as contact, as the engine has it
TREE = "opencascade.trianglebvh"
FASTEST = "manifold"  # of its geometry libraries, on these models


def ifc_of(model: Model) -> Any:
    """The model, in millimetres; each body is a proxy of its own that maps the face set of its shape."""
    file = ifcopenshell.file(schema="IFC4")
    axes = file.createIfcAxis2Placement3D(file.createIfcCartesianPoint((0.0, 0.0, 0.0)))
    context = file.createIfcGeometricRepresentationContext(None, "Model", 3, 1e-5, axes)
    units = file.createIfcUnitAssignment([file.createIfcSIUnit(None, "LENGTHUNIT", "MILLI", "METRE")])
    file.createIfcProject(ifcopenshell.guid.new(), None, "rooms", None, None, None, None, [context], units)
    maps = {key: _map(file, context, axes, shape.wrapped) for key, shape in model.shapes.items()}
    still = file.createIfcCartesianTransformationOperator3D(None, None, axes.Location, 1.0, None)
    for body in model.bodies:
        item = file.createIfcMappedItem(maps[body.shape_key], still)
        shape = file.createIfcShapeRepresentation(context, "Body", "MappedRepresentation", [item])
        pose = body.placement
        place = file.createIfcAxis2Placement3D(
            file.createIfcCartesianPoint(pose.origin_mm),
            file.createIfcDirection(pose.z_axis),
            file.createIfcDirection(pose.x_axis),
        )
        file.createIfcBuildingElementProxy(
            ifcopenshell.guid.new(),
            None,
            body.id,
            None,
            None,
            file.createIfcLocalPlacement(None, place),
            file.createIfcProductDefinitionShape(None, None, [shape]),
        )
    return file


def _map(file: Any, context: Any, axes: Any, shape: Any) -> Any:
    mesh = joined(facets(shape, deflection_mm=DEFLECTION_MM, angle_rad=ANGLE_RAD))
    kept, number, whole = welded(mesh)
    points = file.createIfcCartesianPointList3D(mesh.points[kept].tolist())
    faces = file.createIfcTriangulatedFaceSet(points, None, True, (number[mesh.triangles[whole]] + 1).tolist())
    return file.createIfcRepresentationMap(
        axes, file.createIfcShapeRepresentation(context, "Body", "Tessellation", [faces])
    )


def tree_of(file: Any, library: str = FASTEST) -> Any:
    """The triangles of all bodies in the tree that its clash asks."""
    tree = ifcopenshell.geom.tree(backend=TREE)
    iterator = ifcopenshell.geom.iterator(ifcopenshell.geom.settings(), file, 2, geometry_library=library)
    assert iterator.initialize()
    while True:
        tree.add_element(iterator.get())
        if not iterator.next():
            return tree


def intersections(model: Model, file: Any, tree: Any) -> set[frozenset[str]]:
    """The pairs that intersect deeper than contact, but for those of two things of the room."""
    every = file.by_type("IfcBuildingElementProxy")
    fitted = [e for e in every if model.parts[e.Name].role not in ROOM_ROLES]
    found = tree.clash_intersection_many(fitted, every, tolerance=TOLERANCE_M, check_all=True)
    return {frozenset((file.by_id(c.a.id()).Name, file.by_id(c.b.id()).Name)) for c in found}
