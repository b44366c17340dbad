"""The headings of close-ups: their words, and beside them the side view of the clip, in a box under the ring."""

from __future__ import annotations

from dataclasses import dataclass, replace

from model3d.pictures.lettering import PlacedText, balanced
from model3d.pictures.paper import Box, Px
from model3d.pictures.stage import Inset
from model3d.pictures.theme import Theme

PAD_PX = 9.0
SIDE_VIEW_PX = (38.0, 52.0)
UNDER_PX = 12.0  # how far the box reaches up over the ring


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """A close-up's words and the size of their box; ``icon`` says whether the side view stands in it."""

    text: PlacedText
    size: tuple[float, float]
    icon: bool

    def box(self, centre: Px, radius: float) -> Box:
        """Its box under a ring."""
        wide, high = self.size
        return Box(left=centre[0] - wide / 2, top=centre[1] + radius - UNDER_PX, width=wide, height=high)

    def icon_box(self, box: Box) -> Box | None:
        """The side view's place in the box."""
        if not self.icon:
            return None
        wide, high = SIDE_VIEW_PX
        return Box(left=box.left + PAD_PX, top=box.middle[1] - high / 2, width=wide, height=high)

    def words(self, box: Box) -> PlacedText:
        """Its words in the box."""
        shift = SIDE_VIEW_PX[0] + PAD_PX if self.icon else 0.0
        middle = box.left + (box.width + shift) / 2
        return replace(self.text, left=middle, top=box.middle[1] - self.text.block.height_px / 2)


def heading(inset: Inset, theme: Theme, radius: float, *, icon: bool) -> Heading:
    """The heading of a close-up, little wider than its ring where its words allow."""
    beside = SIDE_VIEW_PX[0] + PAD_PX if icon else 0.0
    block = balanced(inset.title, theme.callout_px, 2 * radius + 44 - 2 * PAD_PX - beside, True)
    text = PlacedText(block=block, left=0.0, top=0.0, colour=theme.ink, anchor="middle")
    high = max(block.height_px, SIDE_VIEW_PX[1] if icon else 0.0)
    return Heading(text=text, size=(block.width_px + 2 * PAD_PX + beside, high + PAD_PX), icon=icon)
