"""A bench picture in numbers, before anything is drawn."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from model3d.geometry.placement import Vec3
from model3d.pictures.labelled.tags import Face, Tag
from model3d.pictures.stage import Actor, Mesh
from model3d.wording import Language


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchEnd:
    """One end of a piece with what goes on it, drawn apart along the run.

    ``actors`` stand apart, ``flush`` (the piece and its clip) together, as seen end-on. ``frame_mm`` are points of
    the piece that the picture must hold, besides what stands apart. ``toward`` names the end by where it goes,
    ``title`` says besides what it meets there. ``guides_mm`` are lines along which the parts go together.
    ``outward`` is the unit direction out of this end, ``to_room`` the one from the wall into the room.
    """

    toward: str
    title: str
    face: Face
    actors: tuple[Actor, ...]
    flush: tuple[Actor, ...]
    centre_mm: Vec3
    frame_mm: tuple[Vec3, ...]
    end_frame_mm: tuple[Vec3, ...]
    toward_viewer: Vec3
    outward: Vec3
    to_room: Vec3
    tags: tuple[Tag, ...]
    guides_mm: tuple[tuple[Vec3, Vec3], ...]
    todo: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bench:
    """A piece on the bench: the whole of it, its two ends, how many O-rings are greased, and the language of its words.

    ``ends`` are those toward the valve and toward the return. ``corners_mm`` are the eight corners of the piece's
    box, near end first.
    """

    meshes: Mapping[str, Mesh]
    title: str
    mark: str
    cut_length_mm: float
    piece: Actor
    corners_mm: tuple[Vec3, ...]
    front_mm: Vec3
    top_mm: Vec3
    to_room: Vec3
    ends: tuple[BenchEnd, BenchEnd]
    oring_count: int
    language: Language = "en"
