"""What a STEP file says otherwise than the assembly it was written from: the checker the STEP tests share."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from model3d.exchange.assembly import Node, shape_keys
from model3d.geometry.placement import Placement

from .part21 import Exchange, parse
from .step_tree import BODIES, Frame, Occurrence, Product, length_units, root_of

SCHEMA = "AP242_MANAGED_MODEL_BASED_3D_ENGINEERING_MIM_LF"
_PLACE_TOLERANCE_MM = 1e-6
_AXIS_TOLERANCE = 1e-9
_COLOUR_TOLERANCE = 1e-6


def step_faults(text: str, root: Node, shape_names: Mapping[Any, str]) -> list[str]:
    """Every difference between the file and the assembly, in words; none when the file is right."""
    exchange = parse(text)
    return [
        *_header_faults(exchange),
        *_sharing_faults(exchange, root),
        *_tree_faults(root_of(exchange), root, shape_names),
    ]


def _header_faults(exchange: Exchange) -> Iterator[str]:
    (schemas,) = exchange.header["FILE_SCHEMA"]
    if not (isinstance(schemas, tuple) and len(schemas) == 1 and str(schemas[0]).startswith(SCHEMA)):
        yield f"schema: {schemas}"
    if (units := length_units(exchange)) != {"MILLI METRE"}:
        yield f"units: {sorted(units)}"


def _sharing_faults(exchange: Exchange, root: Node) -> Iterator[str]:
    bodies = sum(len(exchange.of(kind)) for kind in BODIES)
    if bodies != len(shape_keys(root)):
        yield f"bodies: {bodies} for {len(shape_keys(root))} shapes"
    ids = [record["PRODUCT"][0] for record in exchange.entities.values() if "PRODUCT" in record]
    if len(set(ids)) != len(ids):
        yield "products: two have one id"
    usages = [
        record["NEXT_ASSEMBLY_USAGE_OCCURRENCE"][0]
        for record in exchange.entities.values()
        if "NEXT_ASSEMBLY_USAGE_OCCURRENCE" in record
    ]
    if len(set(usages)) != len(usages):
        yield "occurrences: two have one id"


def _tree_faults(product: Product, node: Node, shape_names: Mapping[Any, str]) -> Iterator[str]:
    wanted_name = node.name if node.shape_key is None else shape_names[node.shape_key]
    if product.name != wanted_name:
        yield f"product name: {product.name!r} for {wanted_name!r}"
    if len(product.bodies) != int(node.is_leaf):
        yield f"{wanted_name}: {len(product.bodies)} bodies"
    parts = {part.name: part for part in product.parts}
    wanted = {child.name: child for child in node.children}
    if list(parts) != list(wanted) or len(parts) != len(product.parts):
        yield f"parts of {wanted_name}: {[part.name for part in product.parts]} for {list(wanted)}"
    for name in wanted.keys() & parts.keys():
        yield from _occurrence_faults(parts[name], wanted[name])
        yield from _tree_faults(parts[name].product, wanted[name], shape_names)


def _occurrence_faults(part: Occurrence, node: Node) -> Iterator[str]:
    off = _apart_mm(part.frame, node.placement)
    if off > _PLACE_TOLERANCE_MM:
        yield f"place of {node.name}: {off:.6f} mm off"
    if (turn := _axes_apart(part.frame, node.placement)) > _AXIS_TOLERANCE:
        yield f"axes of {node.name}: {turn:.2e} off"
    shown = part.colour or part.product.colour
    if node.colour is not None and (shown is None or not _alike(shown, node.colour, _COLOUR_TOLERANCE)):
        yield f"colour of {node.name}: {shown} for {node.colour}"


def _apart_mm(frame: Frame, placement: Placement) -> float:
    return max(abs(a - b) for a, b in zip(frame.origin, placement.origin_mm, strict=True))


def _axes_apart(frame: Frame, placement: Placement) -> float:
    pairs = ((frame.x, placement.x_axis), (frame.y, placement.y_axis), (frame.z, placement.z_axis))
    return max(abs(a - b) for got, wanted in pairs for a, b in zip(got, wanted, strict=True))


def _alike(got: tuple[float, ...], wanted: tuple[float, ...], tolerance: float) -> bool:
    return all(abs(a - b) <= tolerance for a, b in zip(got, wanted, strict=True))
