"""From steps to stages: which parts are on the picture of a step, where they stand, and what points at them."""

from model3d.pictures.staging.stages import StepStages

__all__ = ["StepStages"]
