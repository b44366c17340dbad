"""Solids of parts: one closed solid for each distinct spec, placed as often as needed."""
