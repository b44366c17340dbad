"""Cuts into stock bars, exactly; the solver is loaded when first asked for."""

from model3d.nesting.nest import nest
from model3d.nesting.solve import Solution, least_stock
from model3d.nesting.stock import Saw, Stock
from model3d.nesting.values import Cut, CutBar, Nesting, SectionNesting

__all__ = ["Cut", "CutBar", "Nesting", "Saw", "SectionNesting", "Solution", "Stock", "least_stock", "nest"]
