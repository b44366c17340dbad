"""Plane and space geometry in plain numbers: placements, outlines, tolerances."""
