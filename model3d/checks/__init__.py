"""Checks: pure functions from values to coded findings."""

from model3d.checks.scene_check import check_scene

__all__ = ["check_scene"]
