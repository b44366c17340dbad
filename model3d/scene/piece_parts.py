"""The parts a piece brings with it: itself, clips, brackets, end fittings and their O-rings."""

from __future__ import annotations

from collections.abc import Iterator

from model3d.families import specs
from model3d.families.family import Family
from model3d.layout import Piece, PieceOnWall, RunLayout
from model3d.parts.kinds import Spec
from model3d.parts.profile import PieceSpec
from model3d.scene.frames import EndName, bore_heights_mm, face_mm, in_wall, into, turned_over, upright
from model3d.scene.values import Part, Role

ENDS: tuple[EndName, EndName] = ("start", "end")
WATERWAYS = ("lower", "upper")


def piece_id(mark: str) -> str:
    """The id of a piece's own part."""
    return f"{mark}/piece"


def piece_parts(family: Family, piece: Piece, held: PieceOnWall | None = None) -> Iterator[Part]:
    """The piece, then its clips, then its brackets, with the packers that ``held`` puts behind them."""
    section = family.section
    spec = PieceSpec(length_mm=round(piece.cut_length_mm, 6), section=section.spec(heated=piece.heated))
    yield Part(
        id=piece_id(piece.mark), name=f"{'Piece' if piece.heated else 'Dry piece'} {piece.mark}",
        role="piece" if piece.heated else "dry-piece", spec=spec, run=piece.run, wall=piece.wall.id, piece=piece.mark,
        placement=in_wall(piece.wall, piece.low_mm, section.stand_off_mm, section.floor_gap_mm),
    )
    for name in ENDS:
        clip = (piece.start if name == "start" else piece.end).clip
        if clip != "none":
            yield Part(
                id=f"{piece.mark}/clip-{name}", name=f"Joint clip, {clip}, {piece.mark} {name}", role="clip", face=clip,
                spec=specs.clip_spec(family), placement=turned_over(family, piece, name, 1 if clip == "front" else -1),
                run=piece.run, wall=piece.wall.id, piece=piece.mark, end=name,
            )
    for number, bracket in enumerate(piece.brackets, 1):
        yield Part(
            id=f"{piece.mark}/bracket-{number}", name=f"Bracket {number}, {piece.mark}", role="bracket",
            spec=specs.bracket_spec(family), placement=in_wall(piece.wall, bracket.along_mm, 0.0, 0.0),
            run=piece.run, wall=piece.wall.id, piece=piece.mark,
        )
    behind = held.packers_mm if held is not None else (0.0,) * len(piece.brackets)
    for number, (bracket, thickness) in enumerate(zip(piece.brackets, behind, strict=True), 1):
        if thickness > 0.0:
            yield Part(
                id=f"{piece.mark}/packer-{number}", name=f"Packers, {thickness:g} mm, bracket {number}, {piece.mark}",
                role="packer", spec=specs.packer_spec(family, thickness),
                placement=in_wall(piece.wall, bracket.along_mm, 0.0, 0.0),
                run=piece.run, wall=piece.wall.id, piece=piece.mark,
            )


def end_parts(family: Family, run: RunLayout, held: PieceOnWall | None = None) -> Iterator[Part]:
    """Valve end with its cradle and the packers that ``held`` puts behind that, and return or turn-back end, each with
    its O-rings.
    """
    first, last = run.pieces[0], run.pieces[-1]
    hand = into(first, "start")
    valve = specs.valve_end_spec(family, hand=hand, twin=run.turns_back)
    yield from _end_fitting(family, first, "start", "valve-end", "Valve end", valve)
    yield Part(
        id=f"{first.mark}/cradle",
        name="Valve cradle",
        role="cradle",
        spec=specs.cradle_spec(family, hand=hand),
        placement=in_wall(first.wall, first.near_mm, 0.0, 0.0),
        run=run.id,
        wall=first.wall.id,
        piece=first.mark,
        end="start",
    )
    if held is not None and held.cradle_packers_mm > 0.0:
        cradle = family.valve_end.cradle
        middle = first.near_mm - first.sense * (cradle.start_mm + cradle.end_mm) / 2.0
        yield Part(
            id=f"{first.mark}/packer-cradle",
            name=f"Packers, {held.cradle_packers_mm:g} mm, valve cradle",
            role="packer",
            spec=specs.cradle_packer_spec(family, held.cradle_packers_mm),
            placement=in_wall(first.wall, middle, 0.0, 0.0),
            run=run.id,
            wall=first.wall.id,
            piece=first.mark,
            end="start",
        )
    hand = into(last, "end")
    if run.turns_back:
        turn_back = specs.turn_back_end_spec(family, hand=hand)
        yield from _end_fitting(family, last, "end", "turn-back-end", "Turn-back end", turn_back)
    else:
        yield from _end_fitting(
            family, last, "end", "return-end", "Return end", specs.return_end_spec(family, hand=hand)
        )


def _end_fitting(family: Family, piece: Piece, end: EndName, role: Role, name: str, spec: Spec) -> Iterator[Part]:
    yield Part(
        id=f"{piece.mark}/{role}", name=name, role=role, spec=spec, run=piece.run, wall=piece.wall.id, piece=piece.mark,
        placement=in_wall(piece.wall, face_mm(piece, end), 0.0, 0.0), end=end,
    )
    yield from orings(family, piece, end, family.end_insertion_mm, f"{piece.mark}/{role}", piece=piece.mark)


def orings(
    family: Family,
    seated_in: Piece,
    end: EndName,
    insertion_mm: float,
    owner: str,
    *,
    piece: str,
    joint: str | None = None,
) -> Iterator[Part]:
    """The O-rings of a pair of legs that stand ``insertion_mm`` deep in an end of a piece."""
    for waterway, height in zip(WATERWAYS, bore_heights_mm(family), strict=True):
        for number, from_tip in enumerate(family.oring.from_tip_mm, 1):
            yield Part(
                id=f"{owner}/o-ring-{end}-{waterway}-{number}",
                name="O-ring",
                role="o-ring",
                spec=specs.oring_spec(family),
                placement=upright(family, seated_in, end, height, insertion_mm - from_tip),
                run=seated_in.run,
                wall=seated_in.wall.id,
                piece=piece,
                joint=joint,
                end=end,
                presses_on=(piece_id(seated_in.mark),),
                presses_mm=family.oring.section_mm - family.oring.gland_depth_mm,
            )
