"""The assembly as a tree of numbers: names, placements, colours, and which shape each leaf is.

No solid is held here. A leaf names its shape by a key; the solids come in a mapping of their own, so that
two leaves with the same key are one shape placed twice.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Hashable, Iterable, Iterator
from dataclasses import dataclass, replace

from model3d.geometry.placement import Placement

Colour = tuple[float, float, float]

_IN_PLACE = Placement()


@dataclass(frozen=True, slots=True, kw_only=True)
class Node:
    """One entry of the tree: an assembly of further nodes, or a leaf that is one placed shape.

    ``placement`` stands in the frame of the node above. ``colour`` is sRGB, each part 0 to 1, for leaves
    only; a leaf with None looks as its shape does. Raises ValueError when the node is neither an assembly
    nor a leaf, or both; when its name is empty or holds a control character; when two of its children have
    one name; when its colour is not a colour.
    """

    name: str
    placement: Placement = _IN_PLACE
    children: tuple[Node, ...] = ()
    shape_key: Hashable | None = None
    colour: Colour | None = None

    def __post_init__(self) -> None:
        check_name(self.name)
        if self.is_leaf == bool(self.children):
            state = "both a shape and children" if self.children else "neither a shape nor children"
            raise ValueError(f"node {self.name!r} has {state}")
        counts = Counter(child.name for child in self.children)
        if repeated := ", ".join(repr(name) for name, count in counts.items() if count > 1):
            raise ValueError(f"node {self.name!r} has more than one child called {repeated}")
        if self.colour is not None:
            if not self.is_leaf:
                raise ValueError(f"node {self.name!r} is an assembly: a colour goes on its leaves")
            if not all(math.isfinite(part) and 0.0 <= part <= 1.0 for part in self.colour):
                raise ValueError(f"node {self.name!r}: {self.colour} is not a colour, each part 0 to 1")

    @property
    def is_leaf(self) -> bool:
        """Whether this node is a placed shape."""
        return self.shape_key is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedLeaf:
    """A leaf seen from the root.

    ``path`` is the names from below the root to the leaf; ``placement`` stands in the frame the root is
    placed in.
    """

    path: tuple[str, ...]
    placement: Placement
    shape_key: Hashable
    colour: Colour | None


def check_name(name: str) -> None:
    """Raise ValueError for what cannot be a name in a file: blank, or with control or half characters."""
    if not name.strip():
        raise ValueError("a name is empty")
    if any(ord(char) < 32 or 0x7F <= ord(char) < 0xA0 or 0xD800 <= ord(char) < 0xE000 for char in name):
        raise ValueError(f"the name {name!r} holds a control character")


def placed_leaves(root: Node) -> Iterator[PlacedLeaf]:
    """Every leaf under ``root`` in tree order, its placement in the frame that ``root`` is placed in."""
    yield from _placed(root, _IN_PLACE, ())


def _placed(node: Node, outer: Placement, above: tuple[str, ...]) -> Iterator[PlacedLeaf]:
    here = outer @ node.placement
    if node.shape_key is not None:
        yield PlacedLeaf(path=above, placement=here, shape_key=node.shape_key, colour=node.colour)
    for child in node.children:
        yield from _placed(child, here, (*above, child.name))


def shape_keys(root: Node) -> tuple[Hashable, ...]:
    """The distinct shape keys under ``root``, each once, in the order the tree first names them."""
    return tuple(dict.fromkeys(leaf.shape_key for leaf in placed_leaves(root)))


def shape_colours(root: Node) -> dict[Hashable, Colour]:
    """The colour of each shape: the one most of its leaves have, the first of them where two are as frequent.

    Shapes none of whose leaves has a colour are left out.
    """
    counts: dict[Hashable, Counter[Colour]] = {}
    for leaf in placed_leaves(root):
        if leaf.colour is not None:
            counts.setdefault(leaf.shape_key, Counter())[leaf.colour] += 1
    return {key: count.most_common(1)[0][0] for key, count in counts.items()}


def with_distinct_names(nodes: Iterable[Node]) -> tuple[Node, ...]:
    """The same nodes, those that share a name numbered from 1 in their order: ``O-ring 1``, ``O-ring 2``.

    A number another node already has is passed over.
    """
    listed = tuple(nodes)
    counts = Counter(node.name for node in listed)
    taken = {name for name, count in counts.items() if count == 1}
    named: list[Node] = []
    for node in listed:
        if counts[node.name] == 1:
            named.append(node)
            continue
        number = 1
        while f"{node.name} {number}" in taken:
            number += 1
        taken.add(f"{node.name} {number}")
        named.append(replace(node, name=f"{node.name} {number}"))
    return tuple(named)
