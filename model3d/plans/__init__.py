"""The run plan as a person writes it: its form, its JSON Schema, and a plan to start from."""

from model3d.plans.plan import Plan, PlanInPart

__all__ = ["Plan", "PlanInPart"]
