"""Drawings from numbers alone: the dimensioned plan of a room with its runs."""

from model3d.drawings.plan_drawing import plan_svg

__all__ = ["plan_svg"]
