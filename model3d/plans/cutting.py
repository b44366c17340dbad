"""How pieces are cut from stock bars, as a plan writes it."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from model3d.sources import Distance, Entry, Size


class WrittenOffCut(Entry):
    """Off-cuts in hand: as many of one length as ``count`` says."""

    length: Size
    count: Annotated[int, Field(ge=1, le=500)] = 1
    dry: bool = Field(default=False, description="Whether they are of the dry piece's section.")


class WrittenCutting(Entry):
    """Saw and stock."""

    kerf: Distance = Field(default=3.0, description="Width of the saw's cut (2 to 3 usual; no source).")
    end_trim: Distance = Field(default=5.0, description="Cut off each end of a bar, the saw's cut included.")
    worth_keeping: Size = Field(
        default=300.0, description="A left-over at least this long is listed as an off-cut."
    )
    off_cuts: tuple[WrittenOffCut, ...] = Field(
        default=(), description="Off-cuts in hand, used before new bars."
    )
