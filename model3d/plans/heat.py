"""What the room asks of the heating, as a plan writes it."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from model3d.sources import Entry

Watts = Annotated[float, Field(gt=0, le=100_000, allow_inf_nan=False)]
FlowFactor = Annotated[float, Field(gt=0, le=20, allow_inf_nan=False)]


class WrittenHeat(Entry):
    """The room's temperature, degrees C, and what is known of its heating."""

    room: float = Field(
        default=20.0, ge=-20, le=40, description="Temperature of the room when heated, degrees C."
    )
    loss: Watts | None = Field(default=None, description="Heat loss of the room, W.")
    vulnerable: bool = Field(default=False, description="Whether children, the old or the ill live here.")
    valve_kv: FlowFactor = Field(
        default=0.6,
        description="Kv of each run's valve, m3/h at 1 bar (usual for a thermostatic valve; no source).",
    )
