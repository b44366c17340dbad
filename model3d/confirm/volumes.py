"""The volumes of solids beside their closed forms."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Protocol, runtime_checkable

import cadquery as cq
from OCP.BRepGProp import BRepGProp
from OCP.GProp import GProp_GProps

from model3d.findings import Finding
from model3d.parts.kinds import Spec
from model3d.scene import Part

PRECISION = 1e-6  # of the integration over curved faces, well inside what is asked


@runtime_checkable
class ClosedForm(Protocol):
    """A spec that knows its part's volume in closed form."""

    @property
    def volume_mm3(self) -> float:
        """The volume, mm3."""


def volume_mm3(body: cq.Solid) -> float:
    """The volume that the faces of a solid enclose, measured to a millionth."""
    found = GProp_GProps()
    BRepGProp.VolumeProperties_s(body.wrapped, found, PRECISION)
    return float(found.Mass())


def volume_findings(
    parts: Iterable[Part], solid_of: Callable[[Spec], cq.Solid], *, volume_share: float
) -> tuple[Finding, ...]:
    """A finding for each distinct shape whose solid is off its closed form by more than a share of it. Kinds
    without a closed form are left out.
    """
    found: list[Finding] = []
    seen: set[Spec] = set()
    for part in parts:
        if part.spec in seen or not isinstance(part.spec, ClosedForm):
            continue
        seen.add(part.spec)
        want, got = part.spec.volume_mm3, volume_mm3(solid_of(part.spec))
        if abs(got - want) > volume_share * want:
            found.append(
                Finding(
                    code="volume-off",
                    severity="error",
                    where=part.name,
                    message=f"its solid holds {got:.3f} mm3, {want:.3f} by the closed form",
                    remedy="The solid is not the part: do not build from it.",
                    parts=(part.id,),
                    measured=got,
                    limit=want,
                    unit="mm3",
                    place_mm=part.placement.origin_mm,
                )
            )
    return tuple(found)
