"""A seal report's figures: the ring on its groove, the gland, the mouth, and where each leg's rings stand."""

from __future__ import annotations

from model3d.figures import FigureGroup
from model3d.seals.report import SealReport


def seal_groups(report: SealReport) -> tuple[FigureGroup, ...]:
    """Ring, gland, mouth, then each leg; all legs share one gland."""
    gland = report.gland
    legs = dict.fromkeys(s.leg for s in report.seals)
    return (
        FigureGroup(title="The ring on its groove", figures=(*report.stretch.figures, gland.thin, gland.thick)),
        FigureGroup(
            title="Squeeze and fill, of every seal",
            figures=gland.squeezes_and_fills,
            notes=("nominal, and at the limits of all tolerances together",),
        ),
        FigureGroup(title="The bore's mouth", figures=gland.mouth.figures),
        *(
            FigureGroup(
                title=f"Rings of the {leg}",
                figures=tuple(s.past_mouth for s in report.seals if s.leg == leg),
                notes=("both waterways alike, counted from the leg's tip",),
            )
            for leg in legs
        ),
    )
