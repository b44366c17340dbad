"""Parametric 3D pre-assembly of heated skirting: plan in, layout, solids, steps and pictures out."""

__version__ = "0.1.0"
