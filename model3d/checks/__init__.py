"""Checks: pure functions from values to coded findings."""

from model3d.checks.scene_check import check_scene
from model3d.checks.surroundings import Surroundings

__all__ = ["Surroundings", "check_scene"]
