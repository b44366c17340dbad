"""A theme file: page, line widths, colours, letters.

Line widths are those of ISO 128-2, in mm: 0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1, 1.4, 2; the thick line is at least twice
the thin one. Words reach 4.5:1 and lines and marks 3:1 against the paper (WCAG 2.2, success criteria 1.4.3 and 1.4.11).
"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal, get_args

from pydantic import ConfigDict, Field

from model3d.sources import Entry, Fault, FaultyFile, FormatOne, near_miss, read_typed

WIDTHS_MM = (0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0)
LEAST_FOR_WORDS, LEAST_FOR_LINES = 4.5, 3.0
SUFFIX = ".yaml"

ColourName = Literal[
    "paper", "ink", "soft", "callout", "move", "right", "wrong", "front", "back", "new", "seal", "grease"
]
"""The colours that a theme names."""

Tinted = Literal["front", "back", "new", "seal"]
"""Those that areas are laid in, mixed with the paper."""

Colour = Annotated[str, Field(pattern="^#[0-9A-Fa-f]{6}$", description="A colour, #rrggbb in quotes.")]
PageSide = Annotated[float, Field(ge=60, le=420)]
LetterSize = Annotated[float, Field(ge=1.8, le=14)]
Width = Annotated[float, Field(gt=0, le=2)]


class PageLook(Entry):
    """The most a page takes up, mm: it is cut down to what stands on it."""

    width: PageSide = Field(default=180.0, description="Width of a page, mm.")
    height: PageSide = Field(default=240.0, description="Most height of a page, mm.")
    margin: Annotated[float, Field(ge=2, le=40)] = Field(default=8.0, description="White round the drawing, mm.")


class LineLook(Entry):
    """Widths of lines, mm, from the series of ISO 128-2."""

    thick: Width = Field(default=0.5, description="Where there is air behind a part.")
    medium: Width = Field(default=0.25, description="Edges within a part.")
    thin: Width = Field(default=0.18, description="Room, breaks, guide lines, leaders.")


class LetterLook(Entry):
    """Sizes of letters, mm from base line to base line of a size-1 setting (2.8 mm is 8 point)."""

    title: LetterSize = 4.6
    body: LetterSize = 3.0
    balloon: LetterSize = 3.3


class ColourLook(Entry):
    """Colours. None of them is the only sign of anything: a clip's face has its letter, a move its number."""

    paper: Colour = "#FFFFFF"
    ink: Colour = "#17212B"
    soft: Colour = Field(default="#6B7782", description="Room, breaks.")
    callout: Colour = Field(default="#005B8F", description="Balloons and leaders.")
    move: Colour = Field(default="#C24400", description="Arrows.")
    right: Colour = "#00694B"
    wrong: Colour = Field(default="#B3261E", description="What is wrong, and warnings.")
    front: Colour = Field(default="#F0A400", description="A clip that faces front.")
    back: Colour = Field(default="#A23B86", description="A clip that faces back.")
    new: Colour = Field(default="#1E86C8", description="What is fitted now.")
    seal: Colour = Field(default="#1F2529", description="O-rings.")
    grease: Colour = "#8A6A00"


class Theme(Entry):
    """A theme file."""

    model_config = ConfigDict(title="Theme of pictures", json_schema_extra={"$id": "urn:dryfit:theme:1"})

    version: FormatOne = Field(description="Version of this file's form: 1.")
    name: str = Field(min_length=1, max_length=60, description="What the theme is called.")
    page: PageLook = Field(default_factory=PageLook)
    lines: LineLook = Field(default_factory=LineLook)
    letters: LetterLook = Field(default_factory=LetterLook)
    colours: ColourLook = Field(default_factory=ColourLook)
    tints: Annotated[float, Field(ge=0, le=1)] = Field(
        default=0.4, description="How much of a colour line drawings lay on clips, O-rings and what is new; 0: none."
    )

    def colour(self, name: ColourName) -> str:
        """A colour by its name."""
        return str(getattr(self.colours, name))

    def tint(self, name: Tinted) -> str:
        """A colour as flat areas of line drawings are laid in."""
        return mixed(self.colour(name), self.colours.paper, self.tints)

    def on(self, name: ColourName) -> str:
        """Ink or paper: the one that letters on a colour are better read in."""
        inks = (self.colours.ink, self.colours.paper)
        return max(inks, key=lambda ink: contrast(ink, self.colour(name)))

    @property
    def is_grey(self) -> bool:
        """Whether every colour is black, white or grey."""
        written = (self.colour(name) for name in get_args(ColourName))
        return all(colour[1:3] == colour[3:5] == colour[5:7] for colour in written)


class UnknownTheme(Exception):
    """No theme of that name, no file at that path; the message names the known ones."""


def themes_folder() -> Path:
    """Where the packaged themes are."""
    return Path(__file__).resolve().parent


def known_themes() -> tuple[str, ...]:
    """The names of the packaged themes, in order."""
    return tuple(sorted(path.stem for path in themes_folder().glob(f"*{SUFFIX}")))


def find_theme(name_or_path: str) -> Path:
    """The file of a theme: a packaged one by its name, any other by its path. Raises UnknownTheme."""
    known = known_themes()
    if name_or_path in known:
        return themes_folder() / f"{name_or_path}{SUFFIX}"
    path = Path(name_or_path)
    if path.is_file():
        return path
    listed = ", ".join(known)
    raise UnknownTheme(
        f"unknown theme '{name_or_path}'{near_miss(name_or_path, known)} (known: {listed}; or give a file's path)"
    )


def read_theme(path: Path) -> Theme:
    """The theme in a file. Raises FaultyFile with every fault of form, or else every width and colour that will not
    do, with line and key.
    """
    theme = read_typed(path, Theme)
    faults = [*_width_faults(path, theme), *_colour_faults(path, theme)]
    if faults:
        raise FaultyFile(faults)
    return theme


def _width_faults(path: Path, theme: Theme) -> list[Fault]:
    lines = theme.lines
    found = []
    series = ", ".join(f"{width:g}" for width in WIDTHS_MM)
    for key in ("thick", "medium", "thin"):
        if getattr(lines, key) not in WIDTHS_MM:
            found.append(lines.fault(path, f"must be a width of ISO 128-2: {series}", key))
    if lines.thick < 2 * lines.thin:
        found.append(lines.fault(path, f"must be at least twice the thin line's {lines.thin:g}", "thick"))
    if not lines.thin <= lines.medium <= lines.thick:
        found.append(lines.fault(path, f"must lie from {lines.thin:g} to {lines.thick:g}", "medium"))
    return found


def _colour_faults(path: Path, theme: Theme) -> list[Fault]:
    colours = theme.colours
    words: tuple[ColourName, ...] = ("ink", "callout", "move", "right", "wrong", "grease")
    tested = [(key, "paper", theme.colour(key), colours.paper, LEAST_FOR_WORDS) for key in words]
    tested.append(("soft", "paper", colours.soft, colours.paper, LEAST_FOR_LINES))
    badges: tuple[ColourName, ...] = ("front", "back")
    tested += [(key, "its letter", theme.colour(key), theme.on(key), LEAST_FOR_WORDS) for key in badges]
    found = []
    for key, other, one, ground, least in tested:
        ratio = contrast(one, ground)
        if ratio < least:
            found.append(colours.fault(path, f"stands out from {other} by {ratio:.2f}:1, needs {least:g}:1", key))
    for name in get_args(Tinted):
        ratio = contrast(theme.tint(name), colours.ink)
        if ratio < LEAST_FOR_WORDS:
            message = f"lines stand out from the tint of {name} by {ratio:.2f}:1, need {LEAST_FOR_WORDS:g}:1"
            found.append(theme.fault(path, message, "tints"))
    return found


def mixed(one: str, other: str, share: float) -> str:
    """``share`` of one colour #rrggbb in another."""
    pairs = ((int(one[k : k + 2], 16), int(other[k : k + 2], 16)) for k in (1, 3, 5))
    return "#" + "".join(f"{round(a * share + b * (1.0 - share)):02X}" for a, b in pairs)


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours #rrggbb, 1 to 21 (WCAG 2.2, relative luminance of sRGB)."""

    def luminance(colour: str) -> float:
        parts = [int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5)]
        linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)
