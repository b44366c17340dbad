"""Furniture, joinery and the room as it was, as shapes in numbers: what a customer's picture shows round the run."""

from model3d.scene.furniture.build import furniture_elements
from model3d.scene.furniture.shapes import Block, Cushion, Element, Leaf, Look, Rod, Shape, Turned

__all__ = ["Block", "Cushion", "Element", "Leaf", "Look", "Rod", "Shape", "Turned", "furniture_elements"]
