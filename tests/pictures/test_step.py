"""Finished pictures: few, because each is drawn."""

from __future__ import annotations

import io
from dataclasses import replace

import numpy as np
import pytest
from PIL import Image

from model3d.pictures.compose import composed
from model3d.pictures.overlay import rasterised, svg
from model3d.pictures.page import Page
from model3d.pictures.stage import Stage
from model3d.pictures.step import page_picture, step_picture
from model3d.pictures.theme import THEME, rgb


@pytest.fixture(scope="module")
def page(turning_stage: Stage) -> Page:
    """The swinging piece's page."""
    return composed(turning_stage, THEME)


def test_a_picture_is_whole_and_repeats(page: Page, turning_stage: Stage) -> None:
    """A step picture is a PNG of 1600 x 1000; the same stage gives the same bytes, whatever was drawn between."""
    first = page_picture(page)
    other = page_picture(replace(page, insets=(), shade_mm=page.shade_mm / 3, facing=(0.0, 1.0, 0.0)))
    assert other != first
    assert step_picture(turning_stage) == first
    with Image.open(io.BytesIO(first)) as image:
        assert (image.format, image.size) == ("PNG", (1600, 1000))
        pixels = np.asarray(image.convert("RGB"), dtype=float) / 255
    panel = page.bands.panel
    shown = pixels[round(panel.top) : round(panel.bottom)]
    blue = (np.abs(shown - np.array(rgb(THEME.surfaces["new"].fill))).max(axis=2) < 0.12).mean()
    assert blue > 0.04
    assert (pixels[:20] == 1).all()


def test_the_letter_is_on_the_badge(page: Page) -> None:
    """Each clip badge carries its letter: drawn ink inside the badge, and the letter itself in the SVG."""
    overlay = svg(page, THEME)
    pixels = rasterised(overlay)
    badge = page.marks.badges[0]
    box = badge.box.grown(-6)
    inside = pixels[round(box.top) : round(box.bottom), round(box.left) : round(box.right), :3] / 255
    ink = np.abs(inside - np.array(rgb(THEME.badge_ink(badge.letter)))).max(axis=2) < 0.25
    assert 0.1 < ink.mean() < 0.5
    assert overlay.count(f">{badge.letter}</text>") >= 2


def test_words_are_escaped() -> None:
    """Signs that mean something in SVG are written so that they are shown."""
    from model3d.pictures.markup import element, words

    assert element("text", words("5 < 6 & 7"), fill='"') == "<text fill='\"'>5 &lt; 6 &amp; 7</text>"
