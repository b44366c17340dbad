"""Theme files."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest
import yaml

from model3d.build.schemas import schema_of
from model3d.illustrations.theme import (
    Theme,
    UnknownTheme,
    contrast,
    find_theme,
    known_themes,
    read_theme,
)
from model3d.sources import FaultyFile


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
        ('colours: {front: "#404040"}', "colours.front", "stands out from ink"),
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
