"""An invented L-shaped room with skirting in it, from boxes and extruded outlines: a bed for picture tests."""

from __future__ import annotations

import math

import manifold3d as m3
import numpy as np
import pytest

from model3d.geometry.placement import Placement, Vec3
from model3d.pictures.stage import Actor, Arrow, Badge, Callout, Caption, Frame, Inset, Mesh, Stage, Swing

CORNERS = ((0.0, 0.0), (4000.0, 0.0), (4000.0, 2600.0), (2200.0, 2600.0), (2200.0, 3800.0), (0.0, 3800.0))
HEIGHT, DEPTH, BACK, FLOOR = 140.0, 22.0, 6.0, 8.0
BORE_U, BORES_V = 11.0, (40.0, 110.0)


def mesh_of(solid: m3.Manifold) -> Mesh:
    """The triangles of a closed solid, in its own frame."""
    made = solid.to_mesh64()
    return Mesh(
        vertices_mm=np.asarray(made.vert_properties, dtype=float)[:, :3].copy(),
        triangles=np.asarray(made.tri_verts, dtype=np.int64).copy(),
    )


def box(size: Vec3, corner: Vec3 = (0.0, 0.0, 0.0)) -> m3.Manifold:
    """A box by its size and its lowest corner."""
    return m3.Manifold.cube(size).translate(corner)


def obround(wide: float, high: float, at_uv: tuple[float, float]) -> m3.CrossSection:
    """A stadium outline, its long axis upright."""
    r = wide / 2
    ends = [m3.CrossSection.circle(r, 32).translate((at_uv[0], at_uv[1] + s * (high / 2 - r))) for s in (-1, 1)]
    return m3.CrossSection.batch_hull(ends)


def along(outline: m3.CrossSection, length: float) -> m3.Manifold:
    """An outline in (u, v) drawn out along t: local x along the run, y out from the wall, z up."""
    return m3.Manifold.extrude(outline, length).transform([[0, 0, 1, 0], [1, 0, 0, 0], [0, 1, 0, 0]])


def piece(length: float) -> m3.Manifold:
    """A piece with a rounded top, a shadow line, and two bores right through."""
    top = [(22 - 9 + 9 * math.sin(a), 131 + 9 * math.cos(a)) for a in np.linspace(math.pi / 2, 0, 10)]
    outline = m3.CrossSection([[(0, 0), (22, 0), (22, 18), (20.5, 19), (20.5, 21), (22, 22), *top, (0, 140)]])
    for v in BORES_V:
        outline = outline - obround(11, 20, (BORE_U, v))
    return along(outline, length)


def clip() -> m3.Manifold:
    """A clip plate with an eye round each bore and a nib slot."""
    plate = m3.CrossSection([[(2, 14), (20, 14), (20, 134), (2, 134)]])
    for v in BORES_V:
        plate = plate - obround(11, 20, (BORE_U, v))
    return along(plate - m3.CrossSection([[(14, 70), (20, 70), (20, 80), (14, 80)]]), 2.0)


def elbow(long_leg: float = 54.0, short_leg: float = 44.0, radius: float = 14.0) -> m3.Manifold:
    """An elbow pair: local x back along the long legs, y along the short legs, centred on the bend's corner."""
    both = m3.Manifold()
    for v in BORES_V:
        leg = obround(10.6, 19.6, (0.0, v))
        a = along(leg, long_leg).translate((radius, 0, 0))
        b = along(leg, short_leg).translate((radius, 0, 0)).rotate((0, 0, 90)).mirror((1, 0, 0)).mirror((1, 0, 0))
        bend = m3.Manifold.revolve(leg.translate((radius, 0)), 48, 90).translate((0, 0, 0))
        bend = bend.rotate((0, 0, 180)).translate((radius, radius, 0))
        both = both + a + b + bend
    return both + box((6, 6, 90), (3, 3, 30))


def hoses() -> m3.Manifold:
    """A link pair, lying straight: hoses and spigots along x, screw heads up."""
    both = m3.Manifold()
    for v in BORES_V:
        both = both + along(m3.CrossSection.circle(6, 24).translate((0, v)), 84)
        for x in (-24.0, 84.0):
            both = both + along(obround(10.6, 19.6, (0, v)), 24).translate((x, 0, 0))
    return both


def bracket() -> m3.Manifold:
    """A bracket: plate, ramp, latch."""
    return box((40, 6, 120), (0, 0, 20)) + box((40, 14, 8), (0, 0, 8)) + box((40, 12, 4), (0, 0, 136))


def valve() -> m3.Manifold:
    """A valve end: block and head."""
    head = m3.Manifold.cylinder(70, 22, 22, 40).translate((48, 17, 150))
    return box((90, 24, 140), (0, 5, 8)) + head


def wall_frame(i: int) -> tuple[Placement, float]:
    """Local x along the wall, y into the room, at the wall's first corner; and the wall's length."""
    (ax, ay), (bx, by) = CORNERS[i], CORNERS[(i + 1) % len(CORNERS)]
    long = math.hypot(bx - ax, by - ay)
    t = ((bx - ax) / long, (by - ay) / long, 0.0)
    return Placement(origin_mm=(ax, ay, 0.0), x_axis=t, y_axis=(-t[1], t[0], 0.0)), long


def on_wall(i: int, x: float, y: float, z: float) -> Placement:
    """A part on wall ``i``: x along, y out, z up."""
    frame, _ = wall_frame(i)
    return frame @ Placement(origin_mm=(x, y, z))


class RoomShop:
    """Meshes and room actors shared by the stages below."""

    def __init__(self) -> None:
        self.meshes: dict[str, Mesh] = {
            "clip": mesh_of(clip()),
            "elbow": mesh_of(elbow()),
            "hoses": mesh_of(hoses()),
            "bracket": mesh_of(bracket()),
            "valve": mesh_of(valve()),
        }
        floor = m3.Manifold.extrude(m3.CrossSection([list(CORNERS)]), 40).translate((0, 0, -40))
        self.meshes["floor"] = mesh_of(floor)
        self.actors = [Actor(id="floor", mesh_key="floor", look="room-floor")]
        for i in range(len(CORNERS)):
            frame, long = wall_frame(i)
            self.meshes[f"wall-{i}"] = mesh_of(box((long + 200, 100, 2400), (-100, -100, 0)))
            self.add(f"wall-{i}", f"wall-{i}", frame, "room-wall", frame.y_axis)

    def add(self, name: str, key: str, placement: Placement, look: str, facing: Vec3 | None = None) -> None:
        """Put one more actor on the stage."""
        self.actors.append(
            Actor(id=name, mesh_key=key, placement=placement, look=look, facing=facing)  # type: ignore[arg-type]
        )

    def piece(self, name: str, wall: int, x: float, length: float, look: str, out: float = 0.0) -> None:
        """A piece on a wall, ``out`` mm further into the room than its working place."""
        self.meshes[f"piece-{length:g}"] = mesh_of(piece(length))
        self.add(name, f"piece-{length:g}", on_wall(wall, x, BACK + out, FLOOR), look)

    def brackets(self, wall: int, stations: tuple[float, ...]) -> None:
        """Brackets on a wall."""
        for x in stations:
            self.add(f"bracket-{wall}-{x:g}", "bracket", on_wall(wall, x - 20, 0, 0), "bracket")


def first_piece_stage() -> Stage:
    """The first piece, long, going up on wall 0 with its valve end and its far elbows pushed home."""
    shop, out = RoomShop(), 260.0
    shop.piece("A1", 0, 100, 3849, "new", out)
    shop.add("valve", "valve", on_wall(0, 6, out, 0), "valve")
    shop.add("clip-A1", "clip", on_wall(0, 99, BACK + out, FLOOR), "clip-back")
    shop.add("elbow-A1", "elbow", on_wall(0, 3985, 17 + out, FLOOR) @ _quarter(), "fitting")
    shop.brackets(0, (250, 850, 1450, 2050, 2650, 3250, 3850))
    shop.brackets(1, (200, 800, 1400, 2000, 2450))
    middle = (110.0, BACK + out + 11, 70.0), (3900.0, BACK + out + 11, 70.0)

    def leg(x: float, label: str, kind: str, by: Vec3) -> Arrow:
        start = (x, BACK + out + 22 if kind == "press" else BACK + out + 11, 90.0)
        end = (start[0] + by[0], start[1] + by[1], start[2] + by[2])
        return Arrow(start_mm=start, end_mm=end, label=label, kind=kind, along_mm=middle)  # type: ignore[arg-type]

    return Stage(
        meshes=shop.meshes,
        actors=tuple(shop.actors),
        facing=(0, 1, 0),
        frame=Frame(
            title="Fit piece A1 with its valve end",
            step=3,
            steps=9,
            captions=(
                Caption(label="1", text="Offer the piece to the wall, in front of its brackets, 5 mm low."),
                Caption(label="2", text="Raise it by 5 mm onto the ramps."),
                Caption(label="3", text="Press it back by 8 mm until every latch clicks."),
                Caption(text="Elbows at the far end: push right home first, 18 mm past their working place."),
            ),
        ),
        arrows=(
            leg(1200, "1", "offer", (0, -200, 0)),
            leg(2000, "2", "raise", (0, 0, 5)),
            leg(2800, "3", "press", (0, -8, 0)),
        ),
        badges=(Badge(at_mm=(101, BACK + out + 11, 85), text="B"),),
        callouts=(Callout(at_mm=(30, 17 + out, 160), text="Ease the cradle back", kind="snag"),),
        insets=(
            Inset(
                centre_mm=(100, 17 + out, 80),
                radius_mm=120,
                title="Valve end: clip faces back",
                direction=(-0.5, 1, 0.6),
                subject_ids=("clip-A1",),
                other_directions=((-1, 1, 0.6), (0.6, 1, 0.6)),
            ),
            Inset(
                centre_mm=(3960, 17 + out, 80),
                radius_mm=120,
                title="Far end: elbows pushed right home",
                direction=(1, 1, 0.6),
                subject_ids=("elbow-A1",),
            ),
        ),
    )


def _quarter() -> Placement:
    """Turned so that the long legs point back along the wall and the short legs out of it."""
    return Placement(x_axis=(-1, 0, 0), y_axis=(0, 1, 0), z_axis=(0, 0, -1)) @ Placement(origin_mm=(0, 0, -148.0))


def corner_piece_stage() -> Stage:
    """A short piece on wall 2, from the elbows of wall 1 to an external corner."""
    shop, out = RoomShop(), 200.0
    shop.piece("A1", 0, 100, 3849, "fitted")
    shop.piece("A2", 1, 51, 2498, "fitted")
    shop.piece("A3", 2, 77, 1697, "new", out)
    shop.add("elbow-A2", "elbow", on_wall(1, 2583, 17, FLOOR) @ _quarter(), "fitting")
    shop.add("clip-A3-near", "clip", on_wall(2, 76, BACK + out, FLOOR), "clip-back")
    shop.add("clip-A3-far", "clip", on_wall(2, 77 + 1696, BACK + out, FLOOR), "clip-front")
    shop.brackets(2, (200, 780, 1360, 1660))
    shop.brackets(3, (150, 700, 1100))
    frame, _ = wall_frame(2)

    def spot(x: float, y: float, z: float) -> Vec3:
        return frame.point((x, y, z))

    line = spot(150, BACK + out + 11, 70), spot(1700, BACK + out + 11, 70)
    arrows = tuple(
        Arrow(
            start_mm=spot(x, BACK + out + 11, 80),
            end_mm=spot(x + by[0], BACK + out + 11 + by[1], 80 + by[2]),
            label=label,
            kind=kind,
            along_mm=line,
        )  # type: ignore[arg-type]
        for x, label, kind, by in (
            (500, "1", "offer", (0, -160, 0)),
            (800, "2", "raise", (0, 0, 5)),
            (1100, "3", "slide", (-26, 0, 0)),
            (1400, "4", "press", (0, -8, 0)),
        )
    )
    return Stage(
        meshes=shop.meshes,
        actors=tuple(shop.actors),
        facing=(0, -1, 0),
        frame=Frame(
            title="Fit piece A3, from the internal corner to the external corner",
            step=5,
            steps=9,
            captions=(
                Caption(label="1", text="Offer the piece 26 mm clear of the elbows, 8 mm out and 5 mm low."),
                Caption(label="2", text="Raise it by 5 mm onto the ramps."),
                Caption(label="3", text="Slide it 26 mm toward the valve onto the short legs: click."),
                Caption(label="4", text="Press it back by 8 mm: every latch clicks."),
                Caption(text="Grease both O-rings of each short leg before you slide."),
            ),
        ),
        arrows=arrows,
        badges=(
            Badge(at_mm=spot(77, BACK + out + 11, 85), text="B"),
            Badge(at_mm=spot(1774, BACK + out + 11, 85), text="F"),
        ),
        callouts=(Callout(at_mm=spot(20, 60, 118), text="Grease", kind="grease"),),
        insets=(
            Inset(
                centre_mm=spot(60, 60, 80),
                radius_mm=150,
                title="Near end: short legs into piece A3",
                direction=frame.vector((-0.5, 1, 0.7)),
                subject_ids=("clip-A3-near", "elbow-A2"),
                other_directions=(frame.vector((0.6, 1, 0.7)), frame.vector((-1, 0.4, 0.7))),
            ),
            Inset(
                centre_mm=spot(1774, BACK + out + 11, 80),
                radius_mm=120,
                title="Far end: clip faces front",
                direction=frame.vector((1, 1, 0.6)),
                subject_ids=("clip-A3-far",),
            ),
        ),
    )


def swing_stage() -> Stage:
    """A piece on wall 3 that meets the hoses at the external corner and swings in."""
    shop = RoomShop()
    shop.piece("A2", 1, 51, 2498, "fitted")
    shop.piece("A3", 2, 51, 1697, "fitted")
    shop.add("link", "hoses", on_wall(2, 1760, 17, FLOOR), "hose")
    frame, _ = wall_frame(3)
    turn = math.radians(12)
    tilted = frame @ Placement(
        origin_mm=(90, 40, FLOOR),
        x_axis=(math.cos(turn), math.sin(turn), 0),
        y_axis=(-math.sin(turn), math.cos(turn), 0),
    )
    shop.meshes["piece-1000"] = mesh_of(piece(1000))
    shop.add("A4", "piece-1000", tilted, "new")
    shop.add("clip-A4", "clip", tilted @ Placement(origin_mm=(-1, 0, 0)), "clip-front")
    shop.brackets(3, (200, 700, 1000))
    far = tilted.point((900.0, 11.0, 90.0))
    return Stage(
        meshes=shop.meshes,
        actors=tuple(shop.actors),
        facing=frame.y_axis,
        frame=Frame(
            title="Fit piece A4 past the external corner",
            step=6,
            steps=9,
            captions=(
                Caption(label="1", text="Hold the hose ends by hand and swing the piece in from 12 degrees."),
                Caption(label="2", text="Press both ends together until they click."),
            ),
        ),
        swings=(Swing(centre_mm=frame.point((90, 40, 90)), start_mm=far, turn_deg=-12, label="1"),),
        arrows=(
            Arrow(
                start_mm=tilted.point((500, 22, 90)),
                end_mm=tilted.point((500, 14, 90)),
                label="2",
                kind="press",
                along_mm=(tilted.point((100, 22, 90)), tilted.point((900, 22, 90))),
            ),
        ),
        badges=(Badge(at_mm=tilted.point((0, 11, 85)), text="F"),),
        insets=(
            Inset(
                centre_mm=frame.point((40, 30, 80)),
                radius_mm=150,
                title="Link into the near end",
                direction=frame.vector((-0.6, 1, 0.7)),
                subject_ids=("clip-A4", "link"),
            ),
        ),
    )


@pytest.fixture(scope="session")
def corner_stage() -> Stage:
    """The corner piece's stage."""
    return corner_piece_stage()


@pytest.fixture(scope="session")
def long_stage() -> Stage:
    """The first piece's stage."""
    return first_piece_stage()


@pytest.fixture(scope="session")
def turning_stage() -> Stage:
    """The swinging piece's stage."""
    return swing_stage()
