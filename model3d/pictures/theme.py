"""The look of shaded pictures as one frozen value: colours, weights, type sizes. What a theme file names comes from
there, the rest stands here.

Colours start from the Okabe-Ito palette (Okabe and Ito, Color Universal Design, 2008), which colour-blind
readers can tell apart; some are darkened so that letters on them reach 4.5:1 (WCAG 2.2, success criterion
1.4.3). Colour never speaks alone: clips carry a letter, moves a number, looks a legend.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType

from model3d.pictures.stage import Look
from model3d.themes import ColourName, find_theme, read_theme
from model3d.themes import Theme as ThemeFile
from model3d.themes import contrast as contrast


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """How a look is drawn: fill and line colours as #rrggbb, opacity 0 to 1, line width in pixels of the
    finished page; ``glow`` 0 to 1 keeps a colour true on faces that the light does not reach.
    """

    fill: str
    line: str
    opacity: float = 1.0
    line_px: float = 1.2
    shine: float = 0.12
    glow: float = 0.0


_SURFACES: Mapping[Look, Surface] = MappingProxyType(
    {
        "room-floor": Surface(fill="#ECE6DC", line="#B9B1A4", line_px=1.0, shine=0.0, glow=0.2),
        "room-wall": Surface(fill="#E4E8EA", line="#9AA5AD", line_px=1.0, shine=0.0, glow=0.45),
        "room-fixture": Surface(fill="#D5D9DB", line="#8B969E", line_px=1.0, shine=0.05, glow=0.3),
        "fitted": Surface(fill="#CBD2D8", line="#66727C", glow=0.5),
        "new": Surface(fill="#1E86C8", line="#06304D", line_px=1.6, shine=0.25),
        "clip-front": Surface(fill="#F0A400", line="#5C3D00", line_px=1.4, glow=0.7),
        "clip-back": Surface(fill="#A23B86", line="#3D0F31", line_px=1.4, glow=0.7),
        "fitting": Surface(fill="#00A579", line="#003D2C", line_px=1.4, shine=0.3, glow=0.25),
        "waiting": Surface(fill="#9CCBB9", line="#3F6B5C", line_px=1.3, shine=0.2, glow=0.4),
        "hose": Surface(fill="#4A5761", line="#161C21", line_px=1.2),
        "o-ring": Surface(fill="#1F2529", line="#000000"),
        "bracket": Surface(fill="#94A1AD", line="#3A454F", glow=0.35),
        "cradle": Surface(fill="#B9A58C", line="#4D3F2C", glow=0.35),
        "trim": Surface(fill="#E8D48A", line="#6B5A1E", glow=0.2),
        "end-cap": Surface(fill="#D98CB3", line="#5E2444", glow=0.2),
        "valve": Surface(fill="#5DAFC0", line="#14414B", line_px=1.4, shine=0.25),
        "obstacle": Surface(fill="#C98F63", line="#5B3618"),
        "ghost": Surface(fill="#1E86C8", line="#1E86C8", opacity=0.22, line_px=1.0),
    }
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Theme:
    """Colours, weights and sizes. Sizes are pixels of a 1600 x 1000 page; printed 277 mm wide, 20 px is 10
    point type.
    """

    surfaces: Mapping[Look, Surface] = field(default_factory=lambda: _SURFACES)
    paper: str = "#FFFFFF"
    backdrop: str = "#F4F6F7"
    ink: str = "#17212B"
    soft_ink: str = "#43505C"
    rule: str = "#C5CDD4"
    cut_face: str = "#5B6873"
    move: str = "#C24400"
    on_move: str = "#FFFFFF"
    on_front: str = "#17212B"
    on_back: str = "#FFFFFF"
    warn: str = "#B3261E"
    halo: str = "#FFFFFF"
    page_px: tuple[int, int] = (1600, 1000)
    margin_px: float = 44.0
    title_px: float = 34.0
    body_px: float = 21.0
    legend_px: float = 20.0
    callout_px: float = 20.0
    note_px: float = 18.0
    badge_px: float = 25.0
    badge_radius_px: float = 19.0
    arrow_shaft_px: float = 15.0
    arrow_head_px: float = 38.0
    arrow_least_px: float = 86.0
    arrow_most_px: float = 230.0
    arrow_halo_px: float = 4.5
    leader_px: float = 2.0
    inset_px: float = 316.0
    ring_px: float = 4.0
    field_deg: float = 28.0
    elevation_deg: float = 32.0
    wall_mm: float = 460.0
    stub_mm: float = 36.0

    def badge_ink(self, letter: str) -> str:
        """Colour of the letter on a clip badge."""
        return self.on_front if letter == "F" else self.on_back


_NAMED: Mapping[Look, ColourName] = MappingProxyType(
    {"new": "new", "ghost": "new", "clip-front": "front", "clip-back": "back", "o-ring": "seal"}
)
"""Looks whose colour a theme file names."""


def themed(look: ThemeFile) -> Theme:
    """The look of shaded pictures that matches line drawings by the same theme file. By one without colour, every other
    colour gives way to the grey that is as light.
    """
    theme = Theme()
    named = {one: replace(theme.surfaces[one], fill=look.colour(name)) for one, name in _NAMED.items()}
    surfaces: dict[Look, Surface] = {**theme.surfaces, **named}
    if look.is_grey:
        surfaces = {k: replace(s, fill=_grey(s.fill), line=_grey(s.line)) for k, s in surfaces.items()}
        theme = replace(
            theme,
            backdrop=_grey(theme.backdrop),
            soft_ink=_grey(theme.soft_ink),
            rule=_grey(theme.rule),
            cut_face=_grey(theme.cut_face),
        )
    return replace(
        theme,
        surfaces=MappingProxyType(surfaces),
        paper=look.colours.paper,
        halo=look.colours.paper,
        ink=look.colours.ink,
        move=look.colours.move,
        on_move=look.on("move"),
        on_front=look.on("front"),
        on_back=look.on("back"),
        warn=look.colours.wrong,
    )


def _grey(colour: str) -> str:
    """The grey of the same luma (ITU-R BT.709 weights)."""
    red, green, blue = rgb(colour)
    level = round(255 * (0.2126 * red + 0.7152 * green + 0.0722 * blue))
    return f"#{level:02X}{level:02X}{level:02X}"


def rgb(colour: str) -> tuple[float, float, float]:
    """#rrggbb as three numbers 0 to 1. Raises ValueError on anything else."""
    if len(colour) != 7 or colour[0] != "#":
        raise ValueError(f"a colour is #rrggbb, not {colour!r}")
    return int(colour[1:3], 16) / 255, int(colour[3:5], 16) / 255, int(colour[5:7], 16) / 255


THEME = themed(read_theme(find_theme("colour")))
