"""Colours for a STEP file (ISO 10303-46): a style on each shape's body, one on each occurrence that differs.

The kernel writes colours in the order of addresses in memory, and each occurrence's twice over, so no two
files would be equal. Here the same entities are made from the finished text, in the order of the tree.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from model3d.exchange.assembly import Colour

_BODIES = ("MANIFOLD_SOLID_BREP", "BREP_WITH_VOIDS")
_SHAPE = "ADVANCED_BREP_SHAPE_REPRESENTATION"
_LINKS = (
    "PRODUCT",
    "PRODUCT_DEFINITION_FORMATION",
    "PRODUCT_DEFINITION",
    "PRODUCT_DEFINITION_SHAPE",
    "SHAPE_DEFINITION_REPRESENTATION",
    "CONTEXT_DEPENDENT_SHAPE_REPRESENTATION",
    "NEXT_ASSEMBLY_USAGE_OCCURRENCE",
    "ITEM_DEFINED_TRANSFORMATION",
    _SHAPE,
)
_ENTITY = re.compile(rf"#(\d+)\s*=\s*({'|'.join((*_LINKS, *_BODIES))})\s*\(([^;]*);")
_RELATION = re.compile(
    r"#(\d+)\s*=\s*\(\s*REPRESENTATION_RELATIONSHIP\s*\([^)]*\)"
    r"\s*REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION\s*\(\s*#(\d+)"
)
_MARKED = re.compile(r"'~(\d+)~'")


@dataclass(frozen=True, slots=True, kw_only=True)
class Override:
    """An occurrence with a colour of its own: the numbers of its mark and of its shape's mark."""

    occurrence: int
    shape: int
    colour: Colour


@dataclass(frozen=True, slots=True, kw_only=True)
class _Body:
    solid: int
    context: int


def with_colours(text: str, shape_colours: Mapping[int, Colour], overrides: Iterable[Override]) -> str:
    """``text``, an exchange structure still with marks for names, with the styles added at its end.

    ``shape_colours`` gives the colour of shapes by the number of their product's mark; every shape of an
    override must be among them, since the override refers to the style it replaces.
    """
    if not shape_colours:
        return text
    index = _Index(text)
    lines = _Lines(1 + max(int(number) for number in re.findall(r"^#(\d+)\s*=", text, re.MULTILINE)))
    styles: dict[int, list[int]] = {}
    for mark, colour in shape_colours.items():
        style = lines.add(f"PRESENTATION_STYLE_ASSIGNMENT((#{lines.surface(colour)}))")
        styles[mark] = [lines.add(f"STYLED_ITEM('colour',(#{style}),#{index.body(mark).solid})")]
    for override in overrides:
        body, (definition, axes) = index.body(override.shape), index.placed(override.occurrence)
        place = lines.add(f"SHAPE_REPRESENTATION('',(#{axes}),#{body.context})")
        lines.add(f"SHAPE_DEFINITION_REPRESENTATION(#{definition},#{place})")
        style = lines.add(f"PRESENTATION_STYLE_BY_CONTEXT((#{lines.surface(override.colour)}),#{place})")
        styled = styles[override.shape]
        styled.append(lines.add(f"OVER_RIDING_STYLED_ITEM('overriding colour',(#{style}),#{body.solid},#{styled[0]})"))
    for mark, items in styles.items():
        listed = ",".join(f"#{item}" for item in items)
        lines.add(f"MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION('',({listed}),#{index.body(mark).context})")
    end = text.rindex("ENDSEC;")
    return text[:end] + "".join(lines.out) + text[end:]


class _Lines:
    """New entities, numbered on; a colour's surface style is made once."""

    def __init__(self, first: int) -> None:
        self.out: list[str] = []
        self._next = first
        self._surfaces: dict[Colour, int] = {}

    def add(self, entity: str) -> int:
        number = self._next
        self._next += 1
        self.out.append(f"#{number} = {entity};\n")
        return number

    def surface(self, colour: Colour) -> int:
        """The surface style of a colour, both sides of the face."""
        if colour not in self._surfaces:
            number = self.add(f"COLOUR_RGB('',{','.join(f'{part:.6f}' for part in colour)})")
            number = self.add(f"FILL_AREA_STYLE_COLOUR('',#{number})")
            number = self.add(f"FILL_AREA_STYLE('',(#{number}))")
            number = self.add(f"SURFACE_STYLE_FILL_AREA(#{number})")
            number = self.add(f"SURFACE_SIDE_STYLE('',(#{number}))")
            self._surfaces[colour] = self.add(f"SURFACE_STYLE_USAGE(.BOTH.,#{number})")
        return self._surfaces[colour]


class _Index:
    """What the text defines, by marks: the body of each product, the place of each occurrence."""

    def __init__(self, text: str) -> None:
        self._kinds: dict[int, str] = {}
        self._refs: dict[int, list[int]] = {}
        self._marks: dict[int, int] = {}
        for found in _ENTITY.finditer(text):
            number, kind, arguments = int(found[1]), found[2], found[3]
            self._kinds[number] = kind
            self._refs[number] = [int(ref) for ref in re.findall(r"#(\d+)", arguments)]
            if kind in ("PRODUCT", "NEXT_ASSEMBLY_USAGE_OCCURRENCE"):
                self._marks[number] = int(_MARKED.findall(arguments)[0])
        self._transformations = {int(found[1]): int(found[2]) for found in _RELATION.finditer(text)}
        self._bodies = dict(self._find_bodies())
        self._placed = dict(self._find_placed())

    def body(self, mark: int) -> _Body:
        return self._bodies[mark]

    def placed(self, mark: int) -> tuple[int, int]:
        """The shape definition of an occurrence, and the axes it stands at in the assembly above."""
        return self._placed[mark]

    def _of(self, kind: str) -> Iterable[int]:
        return (number for number, its in self._kinds.items() if its == kind)

    def _find_bodies(self) -> Iterable[tuple[int, _Body]]:
        for number in self._of("SHAPE_DEFINITION_REPRESENTATION"):
            definition, representation = self._refs[number]
            if self._kinds.get(representation) != _SHAPE:
                continue
            product = self._refs[self._refs[self._refs[definition][0]][0]][0]
            *items, context = self._refs[representation]
            solid = next(item for item in items if self._kinds.get(item) in _BODIES)
            yield self._marks[product], _Body(solid=solid, context=context)

    def _find_placed(self) -> Iterable[tuple[int, tuple[int, int]]]:
        for number in self._of("CONTEXT_DEPENDENT_SHAPE_REPRESENTATION"):
            relation, definition = self._refs[number]
            occurrence = self._refs[definition][0]
            _, target = self._refs[self._transformations[relation]]
            yield self._marks[occurrence], (definition, target)
