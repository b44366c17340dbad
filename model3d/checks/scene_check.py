"""The interference of a scene in trade words: parts against parts, against the room, against what stands or
moves in it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from model3d.checks.case import case_of
from model3d.checks.clearances import clearance_mm
from model3d.checks.engine import Clash, Memory, Tolerance
from model3d.checks.remedies import between_parts, remedy_of
from model3d.checks.swept_remedies import words
from model3d.checks.trial import Trial, everywhere
from model3d.findings import Finding
from model3d.scene import Part, Scene
from model3d.scene.values import ROOM_ROLES, SWEPT_ROLES
from model3d.solids.build import solid

Tick = Callable[[str, int, int], None]
CONTACT = Tolerance()


def check_scene(
    scene: Scene,
    *,
    tolerance: Tolerance = CONTACT,
    memory: Memory | None = None,
    fits: Callable[[Part], bool] = everywhere,
    asks: Callable[[Part], bool] = everywhere,
    tick: Tick | None = None,
) -> tuple[Finding, ...]:
    """Clashes between everything fitted and everything else, worst first: one finding for each thing in the
    way of a run, one for each pair of pieces or joint whose parts overlap.

    An O-ring may overlap the bore it seals as far as it is meant to be squeezed, no further. With a
    ``memory`` of an earlier check only what has changed is worked out. No place is offered for a thing of the room that
    does not let everything be fitted, as ``fits`` says, or that does not leave what else is asked, as ``asks`` says.
    """
    specs = list(dict.fromkeys(p.spec for p in scene.parts))
    for number, spec in enumerate(specs):
        if tick is not None:
            tick("solids", number, len(specs))
        solid(spec)
    trial = Trial(tolerance=tolerance, memory=Memory() if memory is None else memory, fits=fits, asks=asks)
    met = trial.clashes(scene.parts, tick=None if tick is None else lambda done, of: tick("pairs", done, of))
    by_id = {p.id: p for p in scene.parts}
    groups: dict[tuple[str, ...], list[Clash]] = {}
    for clash in met:
        groups.setdefault(_group(by_id[clash.first], by_id[clash.second]), []).append(clash)
    found = [_finding(scene, group, by_id, trial) for group in groups.values()]
    return tuple(sorted(found, key=lambda f: -(f.measured or 0.0)))


def _sides(a: Part, b: Part) -> tuple[Part, Part]:
    """The thing of the room first when there is one."""
    return (a, b) if a.role in ROOM_ROLES or b.role not in ROOM_ROLES else (b, a)


def _group(a: Part, b: Part) -> tuple[str, ...]:
    """What is said in one finding: a thing and a run; or the parts of one joint; or those of two pieces."""
    thing, part = _sides(a, b)
    if thing.role in ROOM_ROLES:
        what = thing.id if thing.role in SWEPT_ROLES else thing.obstacle or thing.id
        return ("room", what, part.run or part.id)
    joint = a.joint or b.joint
    if joint is not None:
        return ("joint", joint)
    return ("pieces", *sorted({a.piece or a.id, b.piece or b.id}))


def _finding(scene: Scene, group: list[Clash], by_id: dict[str, Part], trial: Trial) -> Finding:
    worst = max(group, key=lambda c: c.overlap.volume_mm3)
    thing, part = _sides(by_id[worst.first], by_id[worst.second])
    code, what = _words(thing, part)
    involved = list(
        dict.fromkeys([part.id, thing.id, *sorted(i for c in group for i in (c.first, c.second))])
    )
    more = len(involved) - 2
    shared = f"{worst.overlap.volume_mm3:.1f} mm3 shared, {worst.overlap.depth_mm:.2f} mm deep"
    return Finding(
        code=code,
        severity="error",
        where=place_of(part),
        message=f"{what}: {shared}{f', and {more} more part(s)' if more > 0 else ''}",
        remedy=_remedy(scene, thing, part, [by_id[i] for i in involved if i != thing.id], trial),
        parts=tuple(involved),
        measured=worst.overlap.volume_mm3,
        limit=0.0,
        unit="mm3",
        place_mm=worst.place_mm,
    )


def place_of(part: Part) -> str:
    """Where a part belongs, in trade words."""
    places = [f"piece {part.piece}" if part.piece else "", f"wall {part.wall}" if part.wall else ""]
    return ", ".join(p for p in places if p) or part.name


def _words(thing: Part, part: Part) -> tuple[str, str]:
    """The code of a finding and what has happened."""
    if thing.role == "door-swing":
        return "door-leaf-on-run", f"the leaf of {thing.obstacle} swings over {part.name}"
    if thing.role == "sash-swing":
        return "sash-on-run", f"the {words(thing)} swings over {part.name}"
    if thing.role == "cupboard-swing":
        return "cupboard-door-on-run", f"{words(thing)} swings over {part.name}"
    if thing.role == "drawer-travel":
        return "drawer-on-run", f"{words(thing)}, pulled out, stands over {part.name}"
    if thing.role == "obstacle":
        return "obstacle-in-run", f"{thing.obstacle} stands in {part.name}"
    if thing.role in ROOM_ROLES:
        return "room-in-run", f"{part.name} stands in {thing.name}"
    return "clash", f"{part.name} and {thing.name} overlap"


def _remedy(scene: Scene, thing: Part, part: Part, met: list[Part], trial: Trial) -> str:
    if thing.role not in ROOM_ROLES:
        return between_parts(thing, part, scene.fitted, trial)
    spare = max(trial.spare_mm, *(clearance_mm(thing, p) for p in met))
    return remedy_of(case_of(scene, thing, met, replace(trial, spare_mm=spare)))
