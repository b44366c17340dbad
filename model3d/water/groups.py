"""A water report's figures: the room, each piece, each run, and each part that the water passes."""

from __future__ import annotations

from model3d.figures import Figure, FigureGroup
from model3d.water.losses import LAMINAR_BELOW, StretchDrop
from model3d.water.report import RunWater, WaterReport
from model3d.water.touch import Touch


def water_groups(report: WaterReport) -> tuple[FigureGroup, ...]:
    """The room, the pieces, the runs and their parts, in order."""
    return (
        _room(report),
        *(_piece(report, m.mark) for m in report.masses),
        *(g for run in report.runs for g in _run(run)),
    )


def _room(report: WaterReport) -> FigureGroup:
    excess = [f for f in (report.excess.arithmetic, report.excess.logarithmic) if f is not None]
    balance = [] if report.balance is None else [report.balance]
    return FigureGroup(
        title="The room",
        figures=(*excess, report.output, *balance, *report.touch.figures, *report.water),
        notes=(_touched(report.touch),),
    )


def _touched(touch: Touch) -> str:
    if touch.bears is None:
        return "bare metal this hot burns in less than a second (ISO 13732-1)"
    return f"bare metal this hot may be touched for {touch.bears} (ISO 13732-1)"


def _piece(report: WaterReport, mark: str) -> FigureGroup:
    heat = next((o.figures for o in report.outputs if o.mark == mark), ())
    mass = next(m.figures for m in report.masses if m.mark == mark)
    return FigureGroup(title=f"Piece {mark}", figures=(*heat, *mass), marks=(mark,))


def _run(run: RunWater) -> tuple[FigureGroup, ...]:
    title = f"Run {run.run}"
    if run.flow is None:
        return (FigureGroup(title=title, figures=run.figures, marks=(run.run,), notes=("it gives no heat",)),)
    parts = tuple(
        FigureGroup(
            title=f"{title}: {part.part}",
            figures=(*_each_once(run.flow.drops_of(part.part)), part.drop),
            marks=(run.run, part.part),
            notes=(_state(run.flow.drops_of(part.part)),),
        )
        for part in run.flow.parts
    )
    return (FigureGroup(title=title, figures=run.figures, marks=(run.run,)), *parts)


def _each_once(drops: tuple[StretchDrop, ...]) -> list[Figure]:
    return list(dict.fromkeys(f for d in drops for f in d.figures))


def _state(drops: tuple[StretchDrop, ...]) -> str:
    """How the water flows in a part: at most how fast, and whether in layers."""
    fastest = max(drops, key=lambda d: d.velocity.value)
    least, most = min(d.reynolds.value for d in drops), max(d.reynolds.value for d in drops)
    kind = "laminar" if most < LAMINAR_BELOW else "turbulent" if least >= LAMINAR_BELOW else "laminar and turbulent"
    return f"{kind}, at most {fastest.velocity.value:.2f} m/s in its {fastest.stretch.what}"
