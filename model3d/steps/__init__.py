"""The fitting, step by step, with the moves of each piece, in numbers."""

from model3d.steps.plan_steps import plan_steps, up_already
from model3d.steps.values import Action, Approach, MoveLeg, Shift, Snag, Step

__all__ = ["Action", "Approach", "MoveLeg", "Shift", "Snag", "Step", "plan_steps", "up_already"]
