"""From a spec to its solid: one maker for each kind, each distinct spec built once."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from typing import Any

import cadquery as cq

from model3d.parts.kinds import Spec
from model3d.solids.sound import SolidError

Maker = Callable[[Any], cq.Solid]

MAKERS: Mapping[type, Maker] = {
}
"""Which function makes which kind: spec -> one valid closed solid in the spec's own frame."""


@cache
def solid(spec: Spec) -> cq.Solid:
    """The solid of a part in its own frame, mm, built once for each distinct spec and shared.

    Never change what it returns: place moved copies (``model3d.solids.placing.located``). Raises SolidError when the spec's
    numbers give no single valid closed solid, or its kind has no maker.
    """
    maker = MAKERS.get(type(spec))
    if maker is None:
        raise SolidError(f"no maker for {type(spec).__name__}")
    return maker(spec)
