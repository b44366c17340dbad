"""A sheet as SVG, and that as pixels. Only the shipped font is named; numbers are written to a hundredth of a mm."""

from __future__ import annotations

import base64
from collections.abc import Iterable
from xml.sax.saxutils import escape

from model3d.illustrations.lettering import FAMILY, font_paths, size_mm
from model3d.illustrations.sheet import Area, Colour, Disc, Mark, Mm, Sheet, Stroke, Words, shade
from model3d.themes import Theme

MM_PER_INCH = 25.4


def svg(sheet: Sheet, theme: Theme, *, bring_font: bool = True) -> str:
    """The sheet as an SVG document in mm. ``bring_font``: with the letters it uses inside it, so that it looks the same
    on a machine that has not the font.
    """
    width, height = (number(side) for side in sheet.size)
    style = _style(sheet, bring_font=bring_font)
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}">'
        f"<title>{escape(sheet.title)}</title><style>{style}</style>"
        f'<rect width="{width}" height="{height}" fill="{theme.colours.paper}"/>'
    )
    return "\n".join([head, *(_mark(mark, theme) for mark in sheet.marks), "</svg>"]) + "\n"


def png(sheet: Sheet, theme: Theme, *, dots_per_inch: int = 200) -> bytes:
    """The sheet as a PNG at that many dots to an inch of the page."""
    import resvg_py

    made = resvg_py.svg_to_bytes(
        svg_string=svg(sheet, theme, bring_font=False),
        zoom=1.0,
        dpi=float(dots_per_inch),
        skip_system_fonts=True,
        font_files=[str(path) for path in font_paths()],
        font_family=FAMILY,
        sans_serif_family=FAMILY,
    )
    return bytes(made)


def number(value: float) -> str:
    """A length to a hundredth of a millimetre, without trailing noughts."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def path(points: Iterable[Mm], *, closed: bool) -> str:
    """Path data through points: the first one, then steps from one to the next."""
    found: list[str] = []
    here = (0, 0)
    for x, y in points:
        there = (round(x * 100), round(y * 100))
        if not found:
            found.append(f"M{number(there[0] / 100)} {number(there[1] / 100)}")
        elif there != here:
            found.append(f"l{number((there[0] - here[0]) / 100)} {number((there[1] - here[1]) / 100)}")
        here = there
    return "".join(found) + ("z" if closed else "")


def _style(sheet: Sheet, *, bring_font: bool) -> str:
    rules = [".s{fill:none;stroke-linecap:round;stroke-linejoin:round}", f"text{{font-family:'{FAMILY}',sans-serif}}"]
    if bring_font:
        for bold in (False, True):
            letters = sorted({c for m in sheet.marks if isinstance(m, Words) and m.bold == bold for c in m.text})
            if letters:
                data = base64.b64encode(_letters(bold, "".join(letters))).decode("ascii")
                weight = "bold" if bold else "normal"
                source = f"url(data:font/ttf;base64,{data})"
                rules.append(f"@font-face{{font-family:'{FAMILY}';font-weight:{weight};src:{source}}}")
    return "".join(rules)


def _letters(bold: bool, letters: str) -> bytes:
    """The shipped font with these letters only."""
    import io

    from fontTools.subset import Options, Subsetter
    from fontTools.ttLib import TTFont

    options = Options(hinting=False, layout_features=[], notdef_outline=True, recalc_timestamp=False)
    font = TTFont(font_paths()[bold], recalcTimestamp=False)
    options.drop_tables += ["FFTM"]  # when the font was made; of no use in a picture
    cutter = Subsetter(options=options)
    cutter.populate(text=letters)
    cutter.subset(font)
    made = io.BytesIO()
    font.save(made)
    return made.getvalue()


def _mark(mark: Mark, theme: Theme) -> str:
    if isinstance(mark, Stroke):
        return _stroke(mark, theme)
    if isinstance(mark, Area):
        data = "".join(path(ring, closed=True) for ring in mark.rings)
        line = _edge(theme, mark.edge, mark.edge_colour)
        return f'<path fill="{shade(theme, mark.fill)}" fill-rule="evenodd"{line} d="{data}"/>'
    if isinstance(mark, Disc):
        fill = "none" if mark.fill is None else shade(theme, mark.fill)
        x, y, r = (number(v) for v in (*mark.centre, mark.radius))
        return f'<circle cx="{x}" cy="{y}" r="{r}" fill="{fill}"{_edge(theme, mark.edge, mark.edge_colour)}/>'
    return _words(mark, theme)


def _stroke(mark: Stroke, theme: Theme) -> str:
    dashes = f' stroke-dasharray="{" ".join(number(d) for d in mark.dashes)}"' if mark.dashes else ""
    width = f'stroke="{shade(theme, mark.colour)}" stroke-width="{getattr(theme.lines, mark.weight):g}"'
    return f'<path class="s" {width}{dashes} d="{path(mark.points, closed=mark.closed)}"/>'


def _words(mark: Words, theme: Theme) -> str:
    x, y = (number(v) for v in mark.at)
    how = f'font-size="{number(size_mm(theme, mark.size))}" fill="{shade(theme, mark.colour)}"'
    how += ' font-weight="bold"' if mark.bold else ""
    how += ' text-anchor="middle"' if mark.anchor == "middle" else ""
    return f'<text x="{x}" y="{y}" {how}>{escape(mark.text)}</text>'


def _edge(theme: Theme, weight: str | None, colour: Colour) -> str:
    if weight is None:
        return ""
    width = f"{getattr(theme.lines, weight):g}"
    return f' stroke="{shade(theme, colour)}" stroke-width="{width}" stroke-linejoin="round"'
