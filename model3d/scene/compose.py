"""The whole scene from room, layout and family."""

from __future__ import annotations

from collections.abc import Iterable

from model3d.families.family import Family
from model3d.layout import Layout
from model3d.rooms import Room, WallBow
from model3d.scene.cover_parts import cover_parts
from model3d.scene.faces import drawn_faces
from model3d.scene.joint_parts import joint_parts
from model3d.scene.piece_parts import end_parts, piece_parts
from model3d.scene.room_parts import room_parts
from model3d.scene.values import Part, Scene


def compose(room: Room, layout: Layout, family: Family, bows: Iterable[WallBow] = ()) -> Scene:
    """Every part placed; the faces of walls as ``bows`` were read. Raises ValueError when the layout was refused (see
    ``Layout.refused``).
    """
    if layout.refused:
        raise ValueError("; ".join(f"{f.where}: {f.message}" for f in layout.refused))
    parts: list[Part] = list(room_parts(room, drawn_faces(layout, bows)))
    held = {h.mark: h for h in layout.on_walls}
    for run in layout.runs:
        by_mark = {p.mark: p for p in run.pieces}
        for piece in run.pieces:
            parts += piece_parts(family, piece, held.get(piece.mark))
        parts += end_parts(family, run, held.get(run.pieces[0].mark))
        for joint in run.joints:
            parts += joint_parts(family, joint, by_mark[joint.earlier], by_mark[joint.later])
    for dry in layout.dry_pieces:
        parts += piece_parts(family, dry, held.get(dry.mark))
    parts += cover_parts(family, room, layout)
    return Scene(parts=tuple(parts))
