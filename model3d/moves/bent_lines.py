"""The bent hoses of a link while a step moves their ends, as lines in the room: from pose to pose, close together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import groupby, pairwise

import numpy as np
import numpy.typing as npt

from model3d.geometry.placement import Placement, Vec3
from model3d.layout import Joint
from model3d.motion.surface import Surface
from model3d.moves.hoses import DIGITS, hose_poses
from model3d.moves.values import HosePose
from model3d.moves.ways import Site
from model3d.thermal.bent_hose import NoShape, bent_hose

Lines = npt.NDArray[np.float64]
APART_MM = 0.5  # no point of a line goes further than this from one line to the next
IN_LINE_DEG = 1e-6
# A hose with both ends in line gives its slack to whichever side there is room on: into the room, down, up.
SIDES: tuple[Vec3, ...] = ((0.0, 1.0, 0.0), (0.0, 0.0, -1.0), (0.0, 0.0, 1.0))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BentLeg:
    """What the centre line of a link's hose passes on one leg: ``lines`` (m, n, 3) in the hose's frame, right-handed, x
    along the run at its beginning and z up; ``shares`` (m,) of the leg that are done then.
    """

    name: str
    length_mm: float
    shares: Lines
    lines: Lines
    surfaces: dict[int, Surface] = field(default_factory=dict)

    def at(self, k: int) -> Surface:
        """One of the lines, ready for distances."""
        if k not in self.surfaces:
            self.surfaces[k] = surface_of(self.lines[[k]])
        return self.surfaces[k]

    def between(self, k: int, share: float) -> tuple[float, Lines]:
        """The share of the leg and the line (n, 3) a share of the way from one line to the next."""
        done = self.shares[k] + share * (self.shares[k + 1] - self.shares[k])
        return float(done), self.lines[k] + share * (self.lines[k + 1] - self.lines[k])


@dataclass(frozen=True, kw_only=True, eq=False)
class Bending:
    """A link's hose through a step, leg by leg, its slack on one side."""

    legs: tuple[BentLeg, ...]

    @cached_property
    def whole(self) -> Surface:
        """All that the line passes, ready for distances."""
        return surface_of(np.concatenate([leg.lines for leg in self.legs]))

    @cached_property
    def box(self) -> Lines:
        """Low and high corner (2, 3) of all that the line passes."""
        every = np.concatenate([leg.lines.reshape(-1, 3) for leg in self.legs])
        return np.stack([every.min(axis=0), every.max(axis=0)])


def surface_of(lines: Lines) -> Surface:
    """Lines (m, n, 3) as triangles without breadth, ready for distances."""
    starts, ends = lines[:, :-1].reshape(-1, 3), lines[:, 1:].reshape(-1, 3)
    return Surface(np.stack([starts, ends, starts], axis=1))


def bendings(site: Site) -> Iterator[tuple[Joint, tuple[Bending, ...]]]:
    """Each link whose hoses a step bends, with the ways in which they can: one for every side to which the slack may
    go. Poses in which the hose finds no shape are left out.
    """
    for joint, poses in hose_poses(site):
        sense = site.pieces[joint.earlier].sense
        sides = SIDES if abs(joint.turn_deg) < IN_LINE_DEG else SIDES[:1]
        lengths: dict[str, float] = {leg.name: leg.length_mm for leg in site.step.legs}
        found = []
        for side in sides:
            key = (joint.turn_deg, sense, side, tuple((p.leg, p.end_mm) for p in poses))
            if key not in site.shapes.bendings:
                legs = _legs(site, joint, poses, side, lengths)
                site.shapes.bendings[key] = Bending(legs=tuple(legs)) if legs else None
            made = site.shapes.bendings[key]
            found += [made] if made is not None else []
        if found:
            yield joint, tuple(found)


def hose_frame(site: Site, joint: Joint, origin_mm: Vec3) -> Placement:
    """The frame of a link's bent lines where a hose begins, room frame: x along the run, z up."""
    earlier = site.pieces[joint.earlier]
    x, y = earlier.wall.direction[0] * earlier.sense, earlier.wall.direction[1] * earlier.sense
    return Placement(origin_mm=origin_mm, x_axis=(x, y, 0.0), y_axis=(-y, x, 0.0), z_axis=(0.0, 0.0, 1.0))


def _legs(
    site: Site, joint: Joint, poses: Sequence[HosePose], side: Vec3, lengths: dict[str, float]
) -> list[BentLeg]:
    found: list[BentLeg] = []
    last: list[Lines] = []
    sense = site.pieces[joint.earlier].sense
    for name, group in groupby(poses, key=lambda p: p.leg):
        solved = [_line(site, joint, pose, side, sense) for pose in group]
        lines = [*last, *(line for line in solved if line is not None)]
        if lines:
            shares, dense = _dense(lines)
            length = lengths.get(name, -poses[0].at_mm[0])
            found.append(BentLeg(name=name, length_mm=length, shares=shares, lines=dense))
            last = lines[-1:]
    return found


def _dense(lines: Sequence[Lines]) -> tuple[Lines, Lines]:
    """Shares and lines with as many between those given as bring them near enough to one another; what lies between
    two shapes so near is taken to lie evenly between.
    """
    shares, dense = [0.0], [lines[0]]
    for k, (a, b) in enumerate(pairwise(lines)):
        count = max(1, int(np.ceil(np.linalg.norm(b - a, axis=1).max() / APART_MM)))
        for i in range(1, count + 1):
            shares.append((k + i / count) / (len(lines) - 1))
            dense.append(a + (b - a) * (i / count))
    return np.array(shares), np.stack(dense)


def _line(site: Site, joint: Joint, pose: HosePose, side: Vec3, sense: int) -> Lines | None:
    """The centre line in one pose (n, 3), None where there is no shape. The shape is worked out with its slack to the
    left, in a frame turned about the hose's first direction so that its left is ``side``.
    """
    _, c, s = side
    x, y, z = pose.end_mm
    end = (x, round(y * c + z * s, DIGITS) + 0.0, round(z * c - y * s, DIGITS) + 0.0)
    try:
        shape = bent_hose(site.family.link.hose_length_mm, end, round(joint.turn_deg, DIGITS))
    except NoShape:
        return None
    points = np.array(shape.points_mm)
    across, up = points[:, 1] * c - points[:, 2] * s, points[:, 1] * s + points[:, 2] * c
    return np.column_stack([points[:, 0], across * sense, up])
