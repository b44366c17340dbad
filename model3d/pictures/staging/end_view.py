"""One end of a piece as a close-up draws it: the clip drawn a little out of its end, the fitting further out, lines
that show where they go.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from model3d.families.family import Family
from model3d.geometry.placement import Placement, Vec3, add
from model3d.layout import End, Piece
from model3d.pictures.stage import Arrow, Badge, Callout
from model3d.pictures.staging.occasion import Occasion
from model3d.pictures.staging.poses import Moves, on_piece, run_direction
from model3d.scene import Part

RADIUS_MM = 108.0
CLEAR_MM = 12.0
EndName = Literal["start", "end"]


@dataclass(frozen=True, slots=True, kw_only=True)
class EndView:
    """The end of a piece, ``pose`` being how the piece stands in the close-up, from its final place."""

    at: Occasion
    piece: Piece
    name: EndName
    pose: Placement

    @property
    def family(self) -> Family:
        """The family."""
        return self.at.family

    @property
    def end(self) -> End:
        """What the layout says of this end."""
        return self.piece.start if self.name == "start" else self.piece.end

    @property
    def face_mm(self) -> Vec3:
        """The middle between the bores on the cut face, as the piece stands here."""
        section = self.family.section
        share = 0.0 if self.name == "start" else 1.0
        return self.pose.point(on_piece(self.piece, share, section.bore_u_mm, section.middle_v_mm))

    def outward(self, along_mm: float, out_mm: float = 0.0, up_mm: float = 0.0) -> Vec3:
        """A step out of this end along the run, from the wall, and up, room frame."""
        sign = -1.0 if self.name == "start" else 1.0
        return self.pose.vector(run_direction(self.piece, sign * along_mm, out_mm, up_mm))

    @property
    def clip_out_mm(self) -> float:
        """How far the clip is drawn out: its tabs stand free of the cut face."""
        return 0.0 if self.end.clip == "none" else self.family.clip.tab.length_mm + CLEAR_MM

    @property
    def fitting_out_mm(self) -> float:
        """How far a fitting that goes in is drawn out: its tips stand clear of the clip."""
        return self.clip_out_mm + self.end.insertion_mm + CLEAR_MM

    def clips(self, parts: Iterable[Part]) -> list[Part]:
        """This end's clip among parts."""
        return [p for p in parts if p.face is not None and p.piece == self.piece.mark and p.end == self.name]

    def drawn(self, clips: Sequence[Part]) -> dict[str, Placement]:
        """The clips' moves: with the piece, and out of its end."""
        by = Placement(origin_mm=self.outward(self.clip_out_mm))
        return {p.id: by @ self.pose for p in clips}

    def badges(self, clips: Sequence[Part], moved: Moves) -> tuple[Badge, ...]:
        """The letters of the clips, at the middle of the plate between its eyes."""
        return tuple(
            Badge(
                at_mm=(moved[p.id] @ p.placement).point((-self.family.clip.thickness_mm, 0.0, 0.0)),
                text="F" if p.face == "front" else "B",
            )
            for p in clips
        )

    def guides(self, from_mm: float) -> tuple[tuple[Vec3, Vec3], ...]:
        """A line into each bore, from ``from_mm`` outside the cut face."""
        half = self.family.section.pitch_mm / 2.0
        return tuple(
            (add(self.face_mm, self.outward(from_mm, 0.0, up)), add(self.face_mm, self.outward(0.0, 0.0, up)))
            for up in (half, -half)
        )

    def grease(self, rings: Sequence[Part], moved: Moves, count: int) -> tuple[Callout, ...]:
        """The mark for grease, at the uppermost O-ring nearest to the tip, on its side toward the room; where there are
        more than the ``rings`` of this end, it says so.
        """
        if not rings:
            return ()
        upper = [p for p in rings if p.id.endswith("upper-1")] or list(rings)
        place = moved.get(upper[0].id, Placement()) @ upper[0].placement
        top = self.family.leg.height_mm / 2.0
        at_mm = add(place.origin_mm, (0.0, 0.0, top))
        key = "callout.grease-all" if count > len(rings) else "callout.grease"
        return (Callout(at_mm=at_mm, text=self.at.words.say(key, count=count), kind="grease"),)

    def title(self) -> str:
        """Which end, what joins it, which face its clip takes; a dry piece's end by the place it goes to."""
        words = self.at.words
        where = words.say("inset.start" if self.name == "start" else "inset.return")
        joint, clip = words.say(f"joint.{self.end.joint}"), words.say(f"clip.{self.end.clip}")
        return words.say("inset.end", where=where, joint=joint, clip=clip)

    @property
    def face(self) -> Literal["F", "B"] | None:
        """The letter of this end's clip."""
        return None if self.end.clip == "none" else "F" if self.end.clip == "front" else "B"

    def along(self, start_mm: Vec3, reach_mm: float = 60.0) -> tuple[Vec3, Vec3]:
        """The line along the run on which a close-up's arrow may be shifted."""
        return add(start_mm, self.outward(-reach_mm)), add(start_mm, self.outward(reach_mm))

    def links_in(self, label: str) -> Arrow:
        """The arrow of links that are pushed into this end by hand, from above the drawn-out spigots."""
        half = self.family.section.pitch_mm / 2.0
        start = add(self.face_mm, self.outward(self.fitting_out_mm + 24.0, 14.0, half + 44.0))
        end = add(start, self.outward(-45.0))
        return Arrow(start_mm=start, end_mm=end, label=label, kind="engage", along_mm=self.along(start))

    def centre(self, outside_mm: float) -> Vec3:
        """The middle of what a close-up must hold: half way to ``outside_mm``, a little inside."""
        return add(self.face_mm, self.outward(0.5 * outside_mm - 14.0))

    @property
    def direction(self) -> Vec3:
        """From the room, from beyond the end, and from above."""
        return self.outward(0.62, 0.64, 0.46)

    @property
    def other_directions(self) -> tuple[Vec3, ...]:
        """The same, more from the front, or more from beyond the end."""
        return self.outward(0.42, 0.78, 0.46), self.outward(0.8, 0.44, 0.4)
