"""Everything a build writes, into a folder put in place whole."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache, partial
from pathlib import Path
from typing import TYPE_CHECKING

from model3d.build.folder import new_folder
from model3d.build.project import Project

if TYPE_CHECKING:
    from model3d.layout import Joint, Piece
    from model3d.pictures.staging import StepStages
    from model3d.pictures.staging.meshes import MeshLibrary
    from model3d.pictures.theme import Theme
    from model3d.steps import Step
    from model3d.thermal import ThermalReport

    Library = Callable[[], MeshLibrary]

Tick = Callable[[str, int, int], None]
STL_DEFLECTION_MM, STL_ANGLE_DEG = 0.1, 15.0
TIME_STAMP = "2000-01-01T00:00:00"  # the same input gives the same bytes; the file system knows when it was written


class BuildError(RuntimeError):
    """A kind of file cannot be made on this machine; the message says why in one line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Job:
    """One file or set of files of a build."""

    kind: str
    name: str
    write: Callable[[Path], None]


def build_outputs(project: Project, out: Path, *, only: frozenset[str], tick: Tick) -> tuple[str, ...]:
    """Write the kinds of file in ``only`` (step, stl, room, steps, bench, corners, plan, layout) to ``out``; return
    their names, relative, in order.

    All or nothing: until every file is written, ``out`` stays as it was. Raises FolderError, BuildError.
    """
    _refuse_without_opengl(only)
    jobs = [job for job in _jobs(project) if job.kind in only]
    with new_folder(out) as folder:
        for number, job in enumerate(jobs):
            tick(job.name, number, len(jobs))
            job.write(folder)
        tick("done", len(jobs), len(jobs))
        return tuple(
            sorted(
                p.relative_to(folder).as_posix()
                for p in folder.rglob("*")
                if p.is_file() and not p.name.startswith(".")
            )
        )


def _refuse_without_opengl(only: frozenset[str]) -> None:
    if not {"steps", "bench", "corners"} & only:
        return
    from model3d.pictures.opengl import NoOpenGLError, ready

    try:
        ready()
    except NoOpenGLError as reason:
        raise BuildError(
            f"{reason} (or leave the pictures of steps, bench and corners out: --only step --only stl --only room "
            "--only plan --only layout)"
        ) from reason


def _jobs(project: Project) -> list[_Job]:
    jobs = [
        _Job(kind="layout", name="layout.json", write=lambda folder: _layout(project, folder)),
        _Job(kind="plan", name="plan.svg", write=lambda folder: _plan(project, folder)),
        _Job(kind="step", name="model.step", write=lambda folder: _step(project, folder)),
        _Job(kind="stl", name="stl", write=lambda folder: _stl(project, folder)),
        _Job(kind="room", name="room.png", write=lambda folder: _room(project, folder)),
    ]

    @cache
    def library() -> MeshLibrary:
        from model3d.pictures.staging.meshes import MeshLibrary

        return MeshLibrary()

    return (
        jobs + _step_pictures(project, library) + _bench_pictures(project, library) + _corner_sheets(project, library)
    )


def _layout(project: Project, folder: Path) -> None:
    from model3d.layout import layout_data

    text = json.dumps(layout_data(project.layout), indent=1, ensure_ascii=False, allow_nan=False)
    (folder / "layout.json").write_text(text + "\n", encoding="utf-8", newline="\n")


def _plan(project: Project, folder: Path) -> None:
    from model3d.drawings import plan_svg

    try:
        text = plan_svg(project.plan, project.layout, project.family)
    except ValueError as reason:
        raise BuildError(f"plan.svg: {reason} (leave it out: give --only for each of the others)") from reason
    (folder / "plan.svg").write_text(text, encoding="utf-8", newline="\n")


def _step(project: Project, folder: Path) -> None:
    from model3d.exchange.step import write_step
    from model3d.exchange.tree import scene_tree, shape_names
    from model3d.solids.build import solid

    names = shape_names(project.scene)
    tree = scene_tree(project.scene, project.plan.name, project.plan.finish)
    write_step(folder / "model.step", tree, {spec: solid(spec) for spec in names}, names, time_stamp=TIME_STAMP)


def _stl(project: Project, folder: Path) -> None:
    from model3d.exchange.stl import write_stl
    from model3d.exchange.tree import scene_tree, shape_names
    from model3d.solids.build import solid

    names = shape_names(project.scene)
    tree = scene_tree(project.scene, project.plan.name, project.plan.finish)
    write_stl(
        folder / "stl",
        tree,
        {spec: solid(spec) for spec in names},
        names,
        deflection_mm=STL_DEFLECTION_MM,
        angle_deg=STL_ANGLE_DEG,
    )


def _room(project: Project, folder: Path) -> None:
    from model3d.pictures.finished_room import room_picture

    (folder / "room.png").write_bytes(room_picture(project.plan, project.layout, project.scene, project.family))


def _step_pictures(project: Project, library: Library) -> list[_Job]:
    @cache
    def stages() -> StepStages:
        from model3d.pictures.staging import StepStages

        return StepStages(project.layout, project.scene, project.moved_steps, project.family, library())

    def write(folder: Path, *, number: int) -> None:
        from model3d.pictures.step import step_picture

        (folder / "steps").mkdir(exist_ok=True)
        name = f"step-{number:0{digits}d}.png"
        (folder / "steps" / name).write_bytes(step_picture(stages().stage(number), _shaded(project)))

    digits = max(2, len(str(len(project.steps))))  # so that names are in order

    return [
        _Job(kind="steps", name=f"step picture {n} of {len(project.steps)}", write=partial(write, number=n))
        for n in range(1, len(project.steps) + 1)
    ]


def _shaded(project: Project) -> Theme:
    """The look of the project's shaded pictures."""
    from model3d.pictures.theme import THEME, themed

    return THEME if project.look is None else themed(project.look)


def _bench_pictures(project: Project, library: Library) -> list[_Job]:
    def write(folder: Path, *, step: Step, piece: Piece) -> None:
        from model3d.pictures.bench.draw import bench_picture
        from model3d.pictures.bench.staging import bench

        (folder / "bench").mkdir(exist_ok=True)
        made = bench(project.family, project.layout, project.scene, step, piece, library())
        (folder / "bench" / f"bench-{piece.mark}.png").write_bytes(bench_picture(made, _shaded(project)))

    return [
        _Job(kind="bench", name=f"bench picture of {piece.mark}", write=partial(write, step=step, piece=piece))
        for step in project.steps
        if step.run is not None
        for piece in project.layout.pieces
        if piece.mark in step.pieces
    ]


def _corner_sheets(project: Project, library: Library) -> list[_Job]:
    @cache
    def thermal() -> ThermalReport:
        from model3d.thermal import thermal_report

        return thermal_report(project.plan, project.layout, project.family)

    def write(folder: Path, *, joint: Joint, name: str) -> None:
        from model3d.pictures.corners.draw import corner_picture
        from model3d.pictures.corners.staging import corner_sheet
        from model3d.wording import catalogue

        (folder / "corners").mkdir(exist_ok=True)
        made = corner_sheet(
            project.family,
            project.layout,
            project.scene,
            joint,
            thermal(),
            library(),
            catalogue(project.language),
        )
        (folder / "corners" / f"{name}.png").write_bytes(corner_picture(made, _shaded(project)))

    return [
        _Job(kind="corners", name=f"sheet of {name}", write=partial(write, joint=joint, name=name))
        for run in project.layout.runs
        for joint in run.joints
        if joint.corner is not None
        for name in (f"corner-{run.id}-{joint.corner.id}",)
    ]
