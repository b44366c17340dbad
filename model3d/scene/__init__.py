"""The scene: every part with its spec and its placement in the room, in numbers."""

from model3d.scene.compose import compose
from model3d.scene.values import Part, Role, Scene

__all__ = ["Part", "Role", "Scene", "compose"]
