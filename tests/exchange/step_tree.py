"""The assembly that an exchange structure describes (ISO 10303-41 to -46), read without a CAD kernel."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from .part21 import Enum, Exchange, Ref

Vector = tuple[float, float, float]
BODIES = ("MANIFOLD_SOLID_BREP", "BREP_WITH_VOIDS")


@dataclass(frozen=True)
class Frame:
    """A frame in another: where its origin stands, and its axes."""

    origin: Vector
    x: Vector
    y: Vector
    z: Vector


@dataclass
class Product:
    """A product: id, name, the bodies of its shape, its colour, and what it is put together from."""

    id: str
    name: str
    bodies: list[int] = field(default_factory=list)
    colour: Vector | None = None
    parts: list[Occurrence] = field(default_factory=list)


@dataclass
class Occurrence:
    """A product placed in another: its name, its frame there, and its own colour if it has one."""

    name: str
    product: Product
    frame: Frame
    colour: Vector | None = None


def root_of(exchange: Exchange) -> Product:
    """The one product that is part of no other, with all below it; ValueError when there is not just one."""
    tree = _Tree(exchange)
    used = {id(part.product) for product in tree.products.values() for part in product.parts}
    tops = [product for product in tree.products.values() if id(product) not in used]
    if len(tops) != 1:
        raise ValueError(f"{len(tops)} products are part of no other: {[top.name for top in tops]}")
    return tops[0]


def length_units(exchange: Exchange) -> set[str]:
    """Every length unit of the file as it is written, such as ``MILLI METRE``."""
    units = set()
    for number in exchange.of("LENGTH_UNIT"):
        prefix, name = exchange.entities[number].get("SI_UNIT", (None, None))
        units.add(" ".join(part.name for part in (prefix, name) if isinstance(part, Enum)))
    return units


class _Tree:
    def __init__(self, exchange: Exchange) -> None:
        self._file = exchange
        self._representations = self._by_definition()
        self.products = {number: self._product(number) for number in exchange.of("PRODUCT_DEFINITION")}
        self._placed: dict[int, Occurrence] = {}
        for number in exchange.of("CONTEXT_DEPENDENT_SHAPE_REPRESENTATION"):
            self._place(*exchange.entities[number]["CONTEXT_DEPENDENT_SHAPE_REPRESENTATION"])
        missing = set(exchange.of("NEXT_ASSEMBLY_USAGE_OCCURRENCE")) - set(self._placed)
        if missing:
            raise ValueError(f"the occurrences {missing} are placed nowhere")
        self._paint()

    def _by_definition(self) -> dict[int, list[int]]:
        """Representations by what they show: a product definition, or an occurrence."""
        shown: dict[int, list[int]] = {}
        for number in self._file.of("SHAPE_DEFINITION_REPRESENTATION"):
            shape, representation = self._file.entities[number]["SHAPE_DEFINITION_REPRESENTATION"]
            target = self._file.get(shape, "PRODUCT_DEFINITION_SHAPE")[2]
            shown.setdefault(_number(target), []).append(_number(representation))
        return shown

    def _product(self, number: int) -> Product:
        formation = self._file.entities[number]["PRODUCT_DEFINITION"][2]
        product = self._file.get(formation, "PRODUCT_DEFINITION_FORMATION")[2]
        identity, name, *_ = self._file.get(product, "PRODUCT")
        bodies = [
            _number(item)
            for representation in self._representations[number]
            for kind in ("ADVANCED_BREP_SHAPE_REPRESENTATION", "SHAPE_REPRESENTATION")
            for item in _list(self._file.entities[representation].get(kind, (None, ()))[1])
            if any(body in self._file.entities[_number(item)] for body in BODIES)
        ]
        return Product(id=str(identity), name=str(name), bodies=bodies)

    def _place(self, relation: object, shape: object) -> None:
        usage = self._file.get(shape, "PRODUCT_DEFINITION_SHAPE")[2]
        _, name, _, outer, inner, *_ = self._file.get(usage, "NEXT_ASSEMBLY_USAGE_OCCURRENCE")
        first, second = self._file.get(relation, "REPRESENTATION_RELATIONSHIP")[2:4]
        if _number(first) not in self._representations[_number(inner)]:
            raise ValueError(f"the occurrence {name!r} places another shape than its product's")
        if _number(second) not in self._representations[_number(outer)]:
            raise ValueError(f"the occurrence {name!r} is placed in another shape than its assembly's")
        transformation = self._file.get(relation, "REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION")[0]
        start, goal = self._file.get(transformation, "ITEM_DEFINED_TRANSFORMATION")[2:4]
        placed = Occurrence(str(name), self.products[_number(inner)], _from_to(self._frame(start), self._frame(goal)))
        self.products[_number(outer)].parts.append(placed)
        self._placed[_number(usage)] = placed

    def _frame(self, ref: object) -> Frame:
        _, point, axis, across = self._file.get(ref, "AXIS2_PLACEMENT_3D")
        z = _unit(self._triple(axis, "DIRECTION")) if axis else (0.0, 0.0, 1.0)
        rough = self._triple(across, "DIRECTION") if across else (1.0, 0.0, 0.0)
        along = sum(a * b for a, b in zip(rough, z, strict=True))
        x = _unit((rough[0] - along * z[0], rough[1] - along * z[1], rough[2] - along * z[2]))
        y = (z[1] * x[2] - z[2] * x[1], z[2] * x[0] - z[0] * x[2], z[0] * x[1] - z[1] * x[0])
        return Frame(self._triple(point, "CARTESIAN_POINT"), x, y, z)

    def _triple(self, ref: object, kind: str) -> Vector:
        x, y, z = (float(str(part)) for part in _list(self._file.get(ref, kind)[1]))
        return x, y, z

    def _paint(self) -> None:
        """Colours by styled item: on a body the product's, in an occurrence's context the occurrence's."""
        owners = {body: product for product in self.products.values() for body in product.bodies}
        contexts = {
            representation: self._placed[shown]
            for shown, representations in self._representations.items()
            if shown in self._placed
            for representation in representations
        }
        listed = {
            _number(item)
            for number in self._file.of("MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION")
            for item in _list(self._file.entities[number]["MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION"][1])
        }
        for number in sorted(listed):
            records = self._file.entities[number]
            _, styles, item, *instead_of = records.get("STYLED_ITEM") or records["OVER_RIDING_STYLED_ITEM"]
            for other in instead_of:
                if self._file.get(other, "STYLED_ITEM")[2] != item:
                    raise ValueError(f"the style #{number} replaces that of another body")
            for style in _list(styles):
                by_context = self._file.entities[_number(style)].get("PRESENTATION_STYLE_BY_CONTEXT")
                if by_context:
                    contexts[_number(by_context[1])].colour = self._colour(style)
                else:
                    owners[_number(item)].colour = self._colour(style)

    def _colour(self, ref: object) -> Vector:
        """The first colour that the chain of styles under ``ref`` comes to."""
        records = self._file.entities[_number(ref)]
        if "COLOUR_RGB" in records:
            red, green, blue = (float(str(part)) for part in records["COLOUR_RGB"][1:4])
            return red, green, blue
        (values,) = records.values()
        inner = values[0] if isinstance(values[0], tuple) else values
        return self._colour(next(ref for ref in _flat(inner) if isinstance(ref, Ref)))


def _flat(values: object) -> list[object]:
    return [each for value in values for each in _flat(value)] if isinstance(values, tuple) else [values]


def _from_to(start: Frame, goal: Frame) -> Frame:
    """The frame in which what stood at ``start`` comes to stand at ``goal``."""

    def turned(vector: Vector) -> Vector:
        local = [sum(a * b for a, b in zip(vector, axis, strict=True)) for axis in (start.x, start.y, start.z)]
        x, y, z = (
            sum(part * axis[row] for part, axis in zip(local, (goal.x, goal.y, goal.z), strict=True))
            for row in range(3)
        )
        return x, y, z

    back = turned(start.origin)
    x, y, z = (to - off for to, off in zip(goal.origin, back, strict=True))
    return Frame((x, y, z), turned((1.0, 0.0, 0.0)), turned((0.0, 1.0, 0.0)), turned((0.0, 0.0, 1.0)))


def _unit(vector: Vector) -> Vector:
    size = math.sqrt(sum(part * part for part in vector))
    return vector[0] / size, vector[1] / size, vector[2] / size


def _number(ref: object) -> int:
    if not isinstance(ref, Ref):
        raise ValueError(f"{ref} is no reference")
    return ref.number


def _list(values: object) -> tuple[object, ...]:
    if not isinstance(values, tuple):
        raise ValueError(f"{values} is no list")
    return values
