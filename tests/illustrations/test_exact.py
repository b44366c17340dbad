"""Hidden lines removed, against the kernel's exact result."""

from __future__ import annotations

import numpy as np
import pytest

from model3d.geometry.placement import Placement, Vec3
from model3d.illustrations.contours import Body
from model3d.illustrations.picture import Job
from model3d.illustrations.shapes import shape
from model3d.parts.kinds import Spec
from model3d.scene import Part
from tests.illustrations.exact_lines import exact_length_mm
from tests.illustrations.seen import drawn, length_mm

WAYS: tuple[Vec3, Vec3] = ((0.5, -0.6, 0.45), (-0.7, 0.3, 0.5))
QUICK = ("elbow", "clip", "bracket", "trim")
ROLES = (*QUICK, "bridge", "o-ring", "cradle", "return-end", "valve-end", "end-cap")
AGREE = 0.02


def part_of(job: Job, role: str) -> Part:
    """The first part of a role."""
    return next(p for p in job.scene.fitted if p.role == role)


def off_by(parts: list[tuple[Spec, Placement]], toward: Vec3, hiding: list[Body] | None = None) -> float:
    """By what share the length drawn differs from the exact one."""
    bodies = [Body(owner=str(k), shape=shape(spec), placement=at) for k, (spec, at) in enumerate(parts)]
    found, camera = drawn(bodies, toward, hiding)
    x, y, z = (float(v) for v in camera.axes[0])
    return length_mm(found, camera) / exact_length_mm(parts, toward, (x, y, z)) - 1.0


@pytest.mark.parametrize("role", QUICK)
def test_visible_length_agrees_with_the_exact_result(job: Job, role: str) -> None:
    """The length of all that is seen of a part is within 2 % of the kernel's exact hidden-line result."""
    part = part_of(job, role)
    assert abs(off_by([(part.spec, part.placement)], WAYS[0])) < AGREE


@pytest.mark.slow
@pytest.mark.parametrize("toward", WAYS)
@pytest.mark.parametrize("role", ROLES)
def test_twenty_views_agree_with_the_exact_result(job: Job, role: str, toward: Vec3) -> None:
    """The length of all that is seen is within 2 % of the exact result in twenty parallel views."""
    part = part_of(job, role)
    assert abs(off_by([(part.spec, part.placement)], toward)) < AGREE


def test_parts_that_hide_one_another_agree_with_the_exact_result(job: Job) -> None:
    """A joint's elbows and bridge, which hide one another, agree within 2 % too."""
    joint = part_of(job, "elbow").joint
    parts = [p for p in job.scene.fitted if p.joint == joint and p.role in ("elbow", "bridge")]
    assert len(parts) == 3
    assert abs(off_by([(p.spec, p.placement) for p in parts], WAYS[1])) < AGREE


def test_a_drawing_that_hides_nothing_does_not_agree(job: Job) -> None:
    """Were nothing to hide a line but its own faces, the lengths would differ by far more than 2 %."""
    part = part_of(job, "elbow")
    far = Body(owner="far", shape=shape(part.spec), placement=part.placement.moved((0.0, 0.0, 9000.0)))
    assert off_by([(part.spec, part.placement)], WAYS[0], [far]) > 5 * AGREE


def test_normals_point_off_the_solid(job: Job) -> None:
    """The surface's normals agree with the triangles' sense, in every shape of a joint."""
    for role in ("elbow", "clip", "valve-end"):
        made = shape(part_of(job, role).spec)
        a, b = made.corners_mm[:, 1] - made.corners_mm[:, 0], made.corners_mm[:, 2] - made.corners_mm[:, 0]
        assert (np.einsum("ij,ij->i", np.cross(a, b), made.normals.mean(axis=1)) >= 0).all()
