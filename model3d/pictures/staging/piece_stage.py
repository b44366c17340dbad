"""The stage of a step that puts a piece up."""

from __future__ import annotations

from dataclasses import dataclass

from model3d.families.family import Family
from model3d.geometry.placement import Vec3, add, subtract
from model3d.layout import Piece
from model3d.pictures.stage import Actor, Arrow, Badge, Callout, Frame, Inset, Stage, Swing
from model3d.pictures.staging.looks import fitted_look, new_look
from model3d.pictures.staging.meshes import MeshLibrary
from model3d.pictures.staging.poses import NOWHERE, actors, on_piece, room_actors, run_direction, shifts
from model3d.pictures.staging.words import captions, end_title
from model3d.scene import Part, Scene
from model3d.steps import Step
from model3d.steps.moves import room_vector

ARROW_SHARES = {"offer": 0.5, "raise": 0.64, "slide": 0.30, "engage": 0.30, "press": 0.80}


@dataclass(frozen=True, slots=True, kw_only=True)
class Occasion:
    """A step to be drawn: what is up already, what it brings, and the pieces it puts up, near one first."""

    family: Family
    scene: Scene
    step: Step
    steps: int
    up_already: tuple[Part, ...]
    pieces: tuple[Piece, ...]
    near_joint: str | None
    far_joint: str | None


def piece_stage(at: Occasion, library: MeshLibrary) -> Stage:
    """Fitted parts muted, the new piece strong where its approach sets out; an arrow a leg, a close-up an end."""
    first, last = at.pieces[0], at.pieces[-1]
    approach = at.step.approach.from_mm if at.step.approach else (0.0, 0.0, 0.0)
    away = room_vector(first, approach)
    moved = _travelling(at, away)
    waiting = shifts(at.step.waiting)
    shown = [(p, new_look(p)) for p in _parts(at, at.step.travels)]
    fitted = [(p, new_look(p) if p.id in waiting else fitted_look(p)) for p in at.up_already]
    stage_actors = (
        room_actors(library, at.scene.room) + actors(library, fitted, waiting) + actors(library, shown, moved)
    )
    insets = [_near_inset(at, library, first), _far_inset(at, library, last, moved)]
    every = [a for inset in insets for a in inset.actors or ()]
    return Stage(
        meshes=library.of({a.mesh_key for a in stage_actors + every}),
        actors=tuple(stage_actors),
        frame=Frame(title=at.step.title, captions=captions(at.step), step=at.step.number, steps=at.steps),
        facing=run_direction(first, 0.0, 1.0, 0.0),
        arrows=_arrows(at, away),
        swings=_swings(at),
        badges=tuple(
            _badge(at, p, moved.get(p.id, NOWHERE)) for p in _parts(at, at.step.travels) if p.face is not None
        ),
        insets=tuple(insets),
        subject_ids=tuple(p.id for p in _parts(at, at.step.travels) if p.role in ("piece", "dry-piece")),
    )


def _parts(at: Occasion, ids: tuple[str, ...]) -> list[Part]:
    wanted = set(ids)
    return [p for p in at.scene.parts if p.id in wanted]


def _travelling(at: Occasion, away: Vec3) -> dict[str, Vec3]:
    """Every travelling part shifted with its piece, the far end's elbows pushed home beside."""
    home = shifts(at.step.pushed_home)
    return {i: add(away, home.get(i, NOWHERE)) for i in at.step.travels}


def _badge(at: Occasion, clip: Part, by_mm: Vec3) -> Badge:
    section = at.family.section
    middle = clip.placement.moved(by_mm).point((0.0, 0.0, section.pitch_mm / 2.0))
    return Badge(at_mm=middle, text="F" if clip.face == "front" else "B")


def _arrows(at: Occasion, away: Vec3) -> tuple[Arrow, ...]:
    """One arrow a leg on the piece as it is shown, each set out from its own place along it; a swing is drawn apart."""
    first, last = at.pieces[0], at.pieces[-1]
    top = at.family.section.floor_gap_mm + at.family.section.height_mm
    line = tuple(
        add(on_piece(p, share, at.family.section.front_u_mm, top), away) for p, share in ((first, 0.06), (last, 0.94))
    )
    found = []
    for number, leg in enumerate(at.step.legs, 1):
        if leg.name == "offer" and at.step.approach is not None and at.step.approach.name == "swing":
            continue
        share = ARROW_SHARES[leg.name]
        start = tuple(a + share * (b - a) for a, b in zip(line[0], line[1], strict=True))
        way = room_vector(first, subtract(leg.to_mm, leg.from_mm))
        found.append(
            Arrow(
                start_mm=(start[0], start[1], start[2]),
                end_mm=add((start[0], start[1], start[2]), way),
                label=str(number),
                kind=leg.name,
                along_mm=(line[0], line[1]),
            )
        )
    return tuple(found)


def _swings(at: Occasion) -> tuple[Swing, ...]:
    approach, first, last = at.step.approach, at.pieces[0], at.pieces[-1]
    if approach is None or approach.name != "swing":
        return ()
    out = at.family.section.front_u_mm + at.family.bracket.press_mm
    centre, start = on_piece(first, 0.0, out, 0.0), on_piece(last, 1.0, out, at.family.section.middle_v_mm)
    return (Swing(centre_mm=centre, start_mm=start, turn_deg=-approach.turn_deg * first.sense, label="1"),)


def _near_inset(at: Occasion, library: MeshLibrary, piece: Piece) -> Inset:
    """The end toward the valve just before its joint is made: the clip, and what it meets."""
    legs = at.step.legs
    joining = next((leg for leg in legs if leg.name in ("slide", "engage")), legs[0] if legs else None)
    pose = joining.from_mm if joining is not None and joining.name != "offer" else NOWHERE
    away = room_vector(piece, pose)
    moved = _travelling(at, away) | shifts(at.step.waiting)
    near = [p for p in _parts(at, at.step.travels) if p.piece == piece.mark and p.end != "end" and p.joint is None]
    near += [p for p in at.up_already if p.joint is not None and p.joint == at.near_joint]
    shown: list[Actor] = actors(library, [(p, new_look(p)) for p in near], moved)
    clip = [p for p in near if p.face is not None]
    centre = add(on_piece(piece, 0.0, at.family.section.bore_u_mm, at.family.section.middle_v_mm), away)
    return Inset(
        centre_mm=centre,
        radius_mm=125.0,
        title=end_title(piece, "start", at.step),
        actors=tuple(shown),
        direction=run_direction(piece, -0.62, 0.66, 0.42),
        other_directions=(run_direction(piece, -0.45, 0.75, 0.5), run_direction(piece, -0.8, 0.45, 0.4)),
        subject_ids=tuple(p.id for p in clip),
        badges=tuple(_badge(at, p, moved.get(p.id, NOWHERE)) for p in clip),
        arrows=_joining_arrow(at, piece, centre),
    )


def _joining_arrow(at: Occasion, piece: Piece, centre: Vec3) -> tuple[Arrow, ...]:
    for number, leg in enumerate(at.step.legs, 1):
        if leg.name in ("slide", "engage"):
            start = add(centre, run_direction(piece, 70.0, 30.0, 75.0))
            return (
                Arrow(
                    start_mm=start,
                    end_mm=add(start, run_direction(piece, -leg.length_mm, 0.0, 0.0)),
                    label=str(number),
                    kind=leg.name,
                ),
            )
    return ()


def _far_inset(at: Occasion, library: MeshLibrary, piece: Piece, moved: dict[str, Vec3]) -> Inset:
    """The end toward the return: its elbows pushed home as the piece goes up, or its links once it is up."""
    after = _parts(at, at.step.follows)
    late = [p for p in after if p.joint == at.far_joint and p.joint is not None]
    far = [
        p
        for p in _parts(at, at.step.travels)
        if p.piece == piece.mark and (p.end != "start" or p.joint == at.far_joint)
    ]
    where = NOWHERE if late else moved[f"{piece.mark}/piece"]
    place = {} if late else moved
    shown = actors(library, [(p, new_look(p)) for p in [*far, *late] if p.role not in ("bracket", "end-cap")], place)
    clip = [p for p in far if p.face is not None]
    centre = add(on_piece(piece, 1.0, at.family.section.bore_u_mm, at.family.section.middle_v_mm), where)
    subjects = clip or [p for p in far if p.role in ("elbow", "return-end", "turn-back-end", "coupler")]
    return Inset(
        centre_mm=centre,
        radius_mm=125.0,
        title=end_title(piece, "end", at.step),
        actors=tuple(shown),
        direction=run_direction(piece, 0.55, 0.68, 0.48),
        other_directions=(run_direction(piece, 0.4, 0.75, 0.5), run_direction(piece, 0.8, 0.45, 0.4)),
        subject_ids=tuple(p.id for p in subjects),
        badges=tuple(_badge(at, p, place.get(p.id, NOWHERE)) for p in clip),
        arrows=_after_arrow(at, piece, centre, late),
        callouts=_far_callouts(at, piece, centre, late),
    )


def _after_arrow(at: Occasion, piece: Piece, centre: Vec3, late: list[Part]) -> tuple[Arrow, ...]:
    """What is done at the far end once the piece is up: elbows drawn out, or links pushed in."""
    label = next((a.label for a in at.step.actions if a.kind == "after"), "")
    over = add(centre, run_direction(piece, 0.0, 20.0, at.family.section.pitch_mm / 2.0 + 45.0))
    if late:
        return (
            Arrow(
                start_mm=add(over, run_direction(piece, 70.0, 0.0, 0.0)),
                end_mm=add(over, run_direction(piece, 15.0, 0.0, 0.0)),
                label=label,
                kind="engage",
            ),
        )
    if at.step.pushed_home:
        return (
            Arrow(start_mm=over, end_mm=add(over, run_direction(piece, 45.0, 0.0, 0.0)), label=label, kind="draw-out"),
        )
    return ()


def _far_callouts(at: Occasion, piece: Piece, centre: Vec3, late: list[Part]) -> tuple[Callout, ...]:
    if late:
        screw = next(p for p in late if p.role == "spigot" and p.id.endswith("spigot-end-upper"))
        return (
            Callout(
                at_mm=screw.placement.point((at.family.link.screw.x_mm, 0.0, at.family.leg.height_mm / 2.0)),
                text="Screws up" if at.family.link.screw_access == "above" else "Screws to the front",
                kind="screws-up",
            ),
        )
    if at.step.pushed_home:
        return (
            Callout(
                at_mm=add(centre, run_direction(piece, 12.0, 0.0, at.family.section.pitch_mm / 2.0)),
                text="Grease",
                kind="grease",
            ),
        )
    return ()
