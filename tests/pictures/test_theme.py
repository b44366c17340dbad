"""Colours: contrast by the WCAG formula, and never colour alone."""

from __future__ import annotations

from dataclasses import replace

import pytest

from model3d.pictures.theme import THEME, Theme, contrast
from model3d.wording import LANGUAGES, catalogue


def weak_text(theme: Theme) -> list[str]:
    """Pairs of words and ground that stay under 4.5:1."""
    pairs = {
        "ink on paper": (theme.ink, theme.paper),
        "soft ink on paper": (theme.soft_ink, theme.paper),
        "paper on ink (step chip)": (theme.paper, theme.ink),
        "number on an arrow": (theme.on_move, theme.move),
        "F on its badge": (theme.badge_ink("F"), theme.surfaces["clip-front"].fill),
        "B on its badge": (theme.badge_ink("B"), theme.surfaces["clip-back"].fill),
        "mark on a warning": (theme.paper, theme.warn),
        "mark on a snag": (theme.ink, theme.surfaces["clip-front"].fill),
    }
    return [name for name, pair in pairs.items() if contrast(*pair) < 4.5]


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        ("#000000", "#FFFFFF", 21.0),
        ("#0072B2", "#FFFFFF", 5.19),
        ("#E69F00", "#FFFFFF", 2.25),
        ("#777777", "#777777", 1.0),
    ],
)
def test_contrast_formula(one: str, other: str, ratio: float) -> None:
    """Contrast is the ratio of relative luminances of sRGB (WCAG 2.2)."""
    assert contrast(one, other) == pytest.approx(ratio, abs=0.006)
    assert contrast(other, one) == contrast(one, other)


def test_words_reach_contrast() -> None:
    """Every word and letter stands on its ground at 4.5:1 or more."""
    assert weak_text(THEME) == []


def test_weak_words_are_found() -> None:
    """A theme with pale numbers on its arrows fails."""
    assert weak_text(replace(THEME, on_move="#E69F00")) == ["number on an arrow"]


def test_arrows_stand_out() -> None:
    """Arrows reach 3:1 against their halo, the panel and the floor."""
    for ground in (THEME.halo, THEME.backdrop, THEME.surfaces["room-floor"].fill):
        assert contrast(THEME.move, ground) >= 3.0


def test_clip_faces_differ_in_lightness() -> None:
    """The two clip colours differ in lightness too, for those who do not see their hue."""
    assert contrast(THEME.surfaces["clip-front"].fill, THEME.surfaces["clip-back"].fill) >= 2.0


def test_every_look_has_a_name_and_a_surface() -> None:
    """Whatever can stand on a stage can be drawn; whatever is not the room can be named in the legend."""
    from typing import get_args

    from model3d.pictures.stage import ROOM_LOOKS, Look

    assert set(get_args(Look)) == set(THEME.surfaces)
    for language in LANGUAGES:
        assert {f"legend.{look}" for look in set(get_args(Look)) - ROOM_LOOKS} <= set(catalogue(language).texts)
