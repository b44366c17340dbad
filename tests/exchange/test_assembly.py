"""The assembly tree in numbers."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model3d.exchange.assembly import Node, placed_leaves, shape_colours, shape_keys, with_distinct_names
from model3d.geometry.placement import Placement, at, turned_about_z

RED, BLUE = (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)


def _leaf(name: str, key: str = "k", colour: tuple[float, float, float] | None = None) -> Node:
    return Node(name=name, shape_key=key, colour=colour)


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda: Node(name="n"), "neither a shape nor children"),
        (lambda: Node(name="n", shape_key="k", children=(_leaf("a"),)), "both a shape and children"),
        (lambda: _leaf(" "), "empty"),
        (lambda: _leaf("a\tb"), "control character"),
        (lambda: _leaf("a\x85"), "control character"),
        (lambda: _leaf("\ud800"), "control character"),
        (
            lambda: Node(name="n", children=(_leaf("a"), _leaf("b"), _leaf("a"))),
            "more than one child called 'a'",
        ),
        (lambda: Node(name="n", children=(_leaf("a"),), colour=RED), "goes on its leaves"),
        (lambda: _leaf("n", colour=(0.0, 0.0, 1.01)), "not a colour"),
        (lambda: _leaf("n", colour=(float("nan"), 0.0, 0.0)), "not a colour"),
    ],
)
def test_impossible_nodes_are_refused(make: Callable[[], Node], message: str) -> None:
    """A node is an assembly or a leaf, named apart from its sisters, with a colour only on a leaf."""
    with pytest.raises(ValueError, match=message):
        make()


def test_leaves_stand_at_the_product_of_their_placements() -> None:
    """A leaf's place in the room is its own, within its wall's, within its run's."""
    wall = Node(name="wall", placement=turned_about_z(90.0, (1000.0, 0.0, 0.0)), children=(_leaf("p"),))
    piece = Node(name="piece", placement=at(51.0, 6.0, 8.0), shape_key="k")
    run = Node(name="run", placement=at(0.0, 0.0, 2.0), children=(Node(name="w", children=(piece,)), wall))
    root = Node(name="room", children=(run,))
    first, second = placed_leaves(root)
    assert (first.path, first.placement.origin_mm) == (("run", "w", "piece"), (51.0, 6.0, 10.0))
    assert second.placement.origin_mm == (1000.0, 0.0, 2.0)
    assert second.placement.x_axis == pytest.approx((0.0, 1.0, 0.0))


def test_a_lone_leaf_is_its_own_leaf() -> None:
    """A root that is a leaf has one leaf, itself, at its own placement."""
    (leaf,) = placed_leaves(Node(name="n", shape_key="k", placement=at(1.0, 2.0, 3.0)))
    assert (leaf.path, leaf.placement) == ((), at(1.0, 2.0, 3.0))


def test_shapes_are_listed_once_in_tree_order() -> None:
    """Each shape key is listed once, where the tree first names it."""
    inner = Node(name="w", children=(_leaf("a", "tube"), _leaf("b", "clip"), _leaf("c", "tube")))
    assert shape_keys(Node(name="r", children=(_leaf("z", "clip"), inner, _leaf("y", "hose")))) == (
        "clip",
        "tube",
        "hose",
    )


def test_shape_has_the_colour_most_of_its_leaves_have() -> None:
    """A shape's colour is its most frequent one, the first of equals; a shape without any is left out."""
    children = (
        _leaf("1", "most", BLUE),
        _leaf("2", "most", RED),
        _leaf("3", "most", RED),
        _leaf("4", "most"),
        _leaf("5", "equal", BLUE),
        _leaf("6", "equal", RED),
        _leaf("7", "plain"),
    )
    assert shape_colours(Node(name="r", children=children)) == {"most": RED, "equal": BLUE}


def test_like_names_are_numbered() -> None:
    """Nodes of one name are numbered in their order, past numbers others have; the rest keep their names."""
    nodes = [_leaf("ring"), _leaf("clip"), _leaf("ring 2"), _leaf("ring"), _leaf("ring")]
    assert [node.name for node in with_distinct_names(nodes)] == [
        "ring 1",
        "clip",
        "ring 2",
        "ring 3",
        "ring 4",
    ]


@given(st.lists(st.sampled_from(["a", "a 1", "a 1 1", "b"]), max_size=8))
def test_numbered_names_are_distinct(names: list[str]) -> None:
    """Law: after numbering no two nodes share a name, and each name begins with the one it had."""
    named = with_distinct_names([_leaf(name) for name in names])
    assert len({node.name for node in named}) == len(names)
    assert all(node.name.startswith(name) for node, name in zip(named, names, strict=True))


def test_tree_needs_no_kernel() -> None:
    """The tree is numbers: importing it loads neither the CAD kernel nor the renderer nor numpy."""
    script = (
        "import sys, model3d.exchange.assembly, model3d.exchange.file_names, model3d.build.folder;"
        "print(sorted({'OCP', 'cadquery', 'numpy', 'vtkmodules', 'trimesh'} & set(sys.modules)))"
    )
    home = Path(__file__).parents[2]
    done = subprocess.run([sys.executable, "-c", script], check=True, cwd=home, capture_output=True, text=True)
    assert done.stdout.strip() == "[]"


def test_nodes_are_values() -> None:
    """Equal nodes are equal, and may be keys."""
    assert {_leaf("a"): 1}[Node(name="a", shape_key="k", placement=Placement())] == 1
