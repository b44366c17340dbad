"""Theme files."""

from __future__ import annotations

import json
import re
from dataclasses import fields
from pathlib import Path

import jsonschema
import pytest
import yaml

from model3d.build.schemas import schema_of
from model3d.illustrations.draw import SUBJECTS, Kind, illustration
from model3d.illustrations.draw import written as as_file
from model3d.illustrations.picture import Job
from model3d.illustrations.sheet import COLOURS, shade
from model3d.pictures.theme import THEME, themed
from model3d.sources import FaultyFile
from model3d.themes import (
    WIDTHS_MM,
    Theme,
    UnknownTheme,
    contrast,
    find_theme,
    known_themes,
    read_theme,
)


def written(path: Path, text: str) -> Path:
    """A theme file with these lines after its head."""
    path.write_text(f"version: 1\nname: Ours\n{text}\n", encoding="utf-8", newline="\n")
    return path


@pytest.mark.parametrize("name", known_themes())
def test_packaged_themes_hold(name: str) -> None:
    """Each packaged theme passes its own checks and the schema that is generated from the code."""
    path = find_theme(name)
    assert read_theme(path).name
    jsonschema.validate(yaml.safe_load(path.read_text(encoding="utf-8")), schema_of("theme"))


def test_the_colour_theme_is_what_an_empty_one_gives(theme_file: Path) -> None:
    """What a theme leaves out is as in the packaged theme in colour."""
    bare = read_theme(written(theme_file, ""))
    assert bare.model_dump() == {**read_theme(find_theme("colour")).model_dump(), "name": "Ours"}


def test_the_print_theme_has_no_colour() -> None:
    """The print theme is black, white and grey throughout."""
    colours = read_theme(find_theme("print")).colours.model_dump()
    assert all(value[1:3] == value[3:5] == value[5:7] for value in colours.values())


@pytest.mark.parametrize(
    ("text", "key", "said"),
    [
        ("lines: {thick: 0.6}", "lines.thick", "width of ISO 128-2"),
        ("lines: {thick: 0.25, medium: 0.25, thin: 0.18}", "lines.thick", "at least twice"),
        ("lines: {medium: 0.7}", "lines.medium", "must lie from"),
        ('colours: {ink: "#999999"}', "colours.ink", "needs 4.5:1"),
        ('colours: {soft: "#CCCCCC"}', "colours.soft", "needs 3:1"),
        ("tints: 0.95", "tints", "stand out from the tint of seal"),
        ("tints: 1.5", "tints", "at most 1"),
        ('colours: {front: "#808080"}', "colours.front", "stands out from its letter"),
        ('colours: {inc: "#000000"}', "colours.inc", "unknown key"),
        ("colours: {ink: red}", "colours.ink", ""),
    ],
)
def test_what_will_not_do_is_refused_with_its_key(theme_file: Path, text: str, key: str, said: str) -> None:
    """A width off the series, a thick line under twice the thin, a colour that does not stand out, an unknown key."""
    with pytest.raises(FaultyFile) as refused:
        read_theme(written(theme_file, text))
    assert any(fault.key == key and said in fault.message for fault in refused.value.faults)


def test_contrast_of_known_pairs() -> None:
    """Black on white is 21:1; Okabe-Ito blue on white 5.19:1, orange 2.25:1 (computed from WCAG's formula)."""
    found = [contrast(colour, "#FFFFFF") for colour in ("#000000", "#0072B2", "#E69F00")]
    assert found == pytest.approx([21.0, 5.19, 2.25], abs=0.01)


def test_an_unknown_theme_is_named_with_those_known() -> None:
    """A name near a known one is met with that one."""
    with pytest.raises(UnknownTheme, match="print"):
        find_theme("prnt")


def test_the_schema_names_every_key() -> None:
    """The schema is made from the model: it holds every key of a theme."""
    assert set(json.loads(json.dumps(schema_of("theme")))["properties"]) == set(Theme.model_fields)


def test_shaded_pictures_and_line_drawings_share_their_colours() -> None:
    """The usual look of shaded pictures has what is fitted now, clips, O-rings, arrows and words in the colours of the
    theme file that line drawings are made with.
    """
    look = read_theme(find_theme("colour")).colours
    found = {name: THEME.surfaces[name].fill for name in ("new", "clip-front", "clip-back", "o-ring")}
    assert found == {"new": look.new, "clip-front": look.front, "clip-back": look.back, "o-ring": look.seal}
    assert (THEME.paper, THEME.ink, THEME.move, THEME.warn) == (look.paper, look.ink, look.move, look.wrong)


def test_shaded_pictures_by_a_theme_without_colour_have_none() -> None:
    """By the print theme every colour of shaded pictures is a grey; by the colour theme not every one is."""
    for name, grey in (("print", True), ("colour", False)):
        look = themed(read_theme(find_theme(name)))
        colours = [c for s in look.surfaces.values() for c in (s.fill, s.line)]
        colours += [c for c in (getattr(look, f.name) for f in fields(look)) if isinstance(c, str)]
        assert all(c[1:3] == c[3:5] == c[5:7] for c in colours) is grey


@pytest.mark.parametrize("kind", SUBJECTS)
def test_every_subject_obeys_the_theme(job: Job, theme_file: Path, kind: Kind) -> None:
    """By a theme of one's own every kind of drawing has its widths (of the series of ISO 128-2, thick at least twice
    thin), its colours and its letters, and no others; the font is the shipped one.
    """
    own = 'lines: {thick: 1.0, medium: 0.5, thin: 0.25}\nletters: {title: 5.2, body: 3.4}\ncolours: {ink: "#3A0A3A"}'
    look = read_theme(written(theme_file, own))
    name = {"view": "w1", "part": "A-1/clip-start", "step": "3", "pair": "clip-face"}.get(kind, "A-J1")
    text = as_file(illustration(job, kind, name, look), look, "svg").decode()
    drawing = re.sub(r"<style>.*?</style>", "", text)
    widths = {float(w) for w in re.findall(r'stroke-width="([\d.]+)"', drawing)}
    assert widths <= {1.0, 0.5, 0.25} <= set(WIDTHS_MM)
    assert {1.0, 0.5} <= widths if kind != "view" else {0.5, 0.25} <= widths
    assert set(re.findall(r"#[0-9A-Fa-f]{6}", drawing)) <= {shade(look, colour) for colour in COLOURS}
    assert {float(s) for s in re.findall(r'font-size="([\d.]+)"', drawing)} <= {5.2, 3.4, 3.3}
    assert set(re.findall(r"font-family:'([^']+)'", text)) == {"DejaVu Sans"}
