"""A step picture: a stage in, a PNG page out."""

from __future__ import annotations

from PIL import Image, ImageDraw

from model3d.pictures.compose import composed
from model3d.pictures.overlay import finished, svg
from model3d.pictures.page import DrawnInset, Page
from model3d.pictures.render import Raster, Studio, studio
from model3d.pictures.stage import Stage
from model3d.pictures.theme import THEME, Theme


def step_picture(stage: Stage, theme: Theme = THEME) -> bytes:
    """The finished page of one step as PNG, 1600 x 1000 pixels by the usual theme.

    The same stage gives the same bytes on one machine. Raises NoOpenGLError where nothing can be drawn,
    ValueError when the words leave no room for the picture.
    """
    return page_picture(composed(stage, theme), theme)


def page_picture(page: Page, theme: Theme = THEME) -> bytes:
    """A page laid out before, drawn as PNG. Raises NoOpenGLError where nothing can be drawn."""
    shots = studio(theme)
    canvas = Image.new("RGB", page.size, theme.paper)
    panel = page.bands.panel
    size = round(panel.width), round(panel.height)
    main = shots.shot(page.view.solids, page.view.camera, size, page.facing, page.shade_mm)
    canvas.paste(Image.fromarray(main), (round(panel.left), round(panel.top)))
    for inset in page.insets:
        _paste_round(canvas, _close_up(shots, inset, page), inset)
    return finished(canvas, svg(page, theme))


def _close_up(shots: Studio, inset: DrawnInset, page: Page) -> Raster:
    side = round(2 * inset.radius)
    return shots.shot(inset.view.solids, inset.view.camera, (side, side), page.facing, inset.shade_mm)


def _paste_round(canvas: Image.Image, shot: Raster, inset: DrawnInset) -> None:
    side = shot.shape[0]
    mask = Image.new("L", (side * 4, side * 4), 0)
    ImageDraw.Draw(mask).ellipse((2, 2, side * 4 - 3, side * 4 - 3), fill=255)
    corner = round(inset.centre[0] - inset.radius), round(inset.centre[1] - inset.radius)
    canvas.paste(Image.fromarray(shot), corner, mask.resize((side, side), Image.Resampling.LANCZOS))
