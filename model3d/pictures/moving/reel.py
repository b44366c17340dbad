"""Takes drawn frame by frame with their words, and written as WebP, APNG or, with the extra, MP4."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from typing import Literal

from PIL import Image, ImageDraw

from model3d.pictures.ink import letter as letter_at
from model3d.pictures.ink import numbered, rounded, set_at
from model3d.pictures.lettering import TextBlock, set_text
from model3d.pictures.moving.take import FRAMES_A_SECOND, Frame, Lens, Take, frames
from model3d.pictures.moving.timeline import Phase
from model3d.pictures.overlay import drawing, rasterised
from model3d.pictures.paper import Box
from model3d.pictures.render import studio
from model3d.pictures.stage import ROOM_LOOKS
from model3d.pictures.theme import Theme

HEAD_PX, MARGIN_PX = 60, 24.0
TEXT_HIGH_PX, LEGEND_HIGH_PX = 68, 32
FOOT_PX = 8 + TEXT_HIGH_PX + LEGEND_HIGH_PX
TITLE_PX, TEXT_PX, LEGEND_PX, LEAST_PX, BADGE_PX = 26.0, 21.0, 17.0, 13.0, 24.0
ClipLook = Literal["clip-front", "clip-back"]
_CLIPS: tuple[tuple[ClipLook, str], ...] = (("clip-front", "front"), ("clip-back", "back"))
KINDS = (".webp", ".apng", ".png", ".mp4")
Tick = Callable[[int], None]


class NoVideoError(RuntimeError):
    """MP4 needs a library that is not there; the message says which extra brings it, in one line."""


def film_size(takes: Sequence[Take]) -> tuple[int, int]:
    """Width and height of the film: the largest take with its bands, both even."""
    wide = max(t.size_px[0] for t in takes)
    high = max(t.size_px[1] for t in takes) + HEAD_PX + FOOT_PX
    return wide + wide % 2, high + high % 2


def drawn(takes: Sequence[Take], theme: Theme, tick: Tick | None = None) -> Iterator[tuple[Image.Image, int]]:
    """Every frame as a picture and the milliseconds it is shown. Raises NoOpenGLError where nothing can be drawn."""
    size = film_size(takes)
    for take in takes:
        for frame in frames(take):
            yield _drawn(take, frame, size, theme), frame.milliseconds
            if tick is not None:
                tick(1)


def frame_count(takes: Iterable[Take]) -> int:
    """How many frames the takes have."""
    return sum(sum(1 for _ in frames(take)) for take in takes)


def write_film(path: Path, shots: Iterable[tuple[Image.Image, int]]) -> None:
    """Write the frames by the path's ending: .webp, .apng or .png (APNG), .mp4 (needs the extra ``video``).

    Put in place whole. Raises ValueError for another ending or no frame at all, NoVideoError where the extra is
    missing.
    """
    refuse_ending(path)
    if path.suffix == ".mp4":
        _write_video(path, shots)
        return
    made = list(shots)
    if not made:
        raise ValueError(f"{path.name}: nothing to show")
    pictures, times = zip(*made, strict=True)
    out = io.BytesIO()
    kind = {"webp": {"quality": 82, "method": 4}, "png": {"compress_level": 7}}
    form = "webp" if path.suffix == ".webp" else "png"
    more = {"save_all": True, "append_images": list(pictures[1:]), "duration": list(times), "loop": 0}
    pictures[0].save(out, format=form.upper(), **more, **kind[form])
    part = path.with_name(path.name + ".part")
    part.write_bytes(out.getvalue())
    part.replace(path)


def refuse_ending(path: Path) -> None:
    """Raise ValueError for a name that does not end as a moving picture does, NoVideoError for one whose writer is not
    there.
    """
    if path.suffix not in KINDS:
        raise ValueError(f"{path.name}: a moving picture ends in {', '.join(KINDS)}")
    if path.suffix == ".mp4" and find_spec("imageio_ffmpeg") is None:
        raise NoVideoError("MP4 needs the extra 'video' (imageio-ffmpeg); WebP and APNG need nothing more")


def _write_video(path: Path, shots: Iterable[tuple[Image.Image, int]]) -> None:
    import imageio_ffmpeg

    part = path.with_name(f"{path.stem}.part{path.suffix}")
    writer = None
    try:
        for picture, milliseconds in shots:
            if writer is None:
                writer = imageio_ffmpeg.write_frames(
                    str(part), picture.size, fps=FRAMES_A_SECOND, codec="libx264", macro_block_size=2
                )
                writer.send(None)
            for _ in range(max(round(milliseconds * FRAMES_A_SECOND / 1000), 1)):
                writer.send(picture.tobytes())
        if writer is None:
            raise ValueError(f"{path.name}: nothing to show")
        writer.close()
        part.replace(path)
    finally:
        if writer is not None:
            writer.close()
        part.unlink(missing_ok=True)


def _drawn(take: Take, frame: Frame, size: tuple[int, int], theme: Theme) -> Image.Image:
    shot = studio(theme).shot(frame.solids, take.camera, take.size_px, take.facing, take.shade_mm)
    canvas = Image.new("RGB", size, theme.paper)
    corner = (size[0] - take.size_px[0]) // 2, HEAD_PX
    canvas.paste(Image.fromarray(shot), corner)
    if take.lens is not None and frame.phase.name in take.lens.cameras:
        _paste_lens(canvas, take, take.lens, frame, corner, theme)
    return Image.alpha_composite(canvas.convert("RGBA"), _words(take, frame.phase, size, theme)).convert("RGB")


def _paste_lens(
    canvas: Image.Image, take: Take, lens: Lens, frame: Frame, corner: tuple[int, int], theme: Theme
) -> None:
    side = 2 * lens.radius_px
    camera = lens.cameras[frame.phase.name]
    fitted = [s for s in frame.solids if s.look not in ROOM_LOOKS and s.look != "bracket"]
    shot = Image.fromarray(studio(theme).shot(fitted, camera, (side, side), take.facing, 40.0))
    left, top = round(corner[0] + lens.centre_px[0] - side / 2), round(corner[1] + lens.centre_px[1] - side / 2)
    canvas.paste(shot, (left, top), _round_mask(side))
    ring = ImageDraw.Draw(canvas)
    ring.ellipse((left - 1, top - 1, left + side, top + side), outline=theme.ink, width=4)


@cache
def _round_mask(side: int) -> Image.Image:
    mask = Image.new("L", (side * 4, side * 4), 0)
    ImageDraw.Draw(mask).ellipse((0, 0, side * 4 - 1, side * 4 - 1), fill=255)
    return mask.resize((side, side), Image.Resampling.LANCZOS)


def _words(take: Take, phase: Phase, size: tuple[int, int], theme: Theme) -> Image.Image:
    shown = tuple((look, take.words.say(f"letter.{face}"), take.words.say(f"legend.{look}")) for look, face in _CLIPS)
    used = {player.look for player in take.players}
    return _band(take.title, phase.label, phase.text, tuple(s for s in shown if s[0] in used), size, theme)


def fitted(text: str, size_px: float, most: tuple[float, float], *, bold: bool = False) -> TextBlock:
    """Text within a width and a height, set smaller where it must be."""
    block = set_text(text, size_px, most[0], bold)
    while block.height_px > most[1] and size_px > LEAST_PX:
        size_px -= 1.0
        block = set_text(text, size_px, most[0], bold)
    return block


@cache
def _band(
    title: str,
    label: str,
    text: str,
    clips: tuple[tuple[ClipLook, str, str], ...],
    size: tuple[int, int],
    theme: Theme,
) -> Image.Image:
    """The title above; below, what is done, by number as in the step picture, and what a clip's colour says."""
    width, height = size
    foot = height - FOOT_PX
    said = fitted(text, TEXT_PX, (width - 2 * MARGIN_PX - 48.0, TEXT_HIGH_PX))
    head = fitted(title, TITLE_PX, (width - 2 * MARGIN_PX, HEAD_PX - 16.0), bold=True)
    parts = [
        set_at(head, MARGIN_PX, (HEAD_PX - head.height_px) / 2, theme.ink),
        set_at(said, MARGIN_PX + 48.0, foot + (TEXT_HIGH_PX + 8.0 - said.height_px) / 2, theme.ink),
        *_legend(clips, height - LEGEND_HIGH_PX / 2 - 4.0, width, theme),
    ]
    if label:
        at = (MARGIN_PX + 17.0, foot + (TEXT_HIGH_PX + 8.0) / 2)
        parts += numbered(label, at, 17.0, theme.move, theme.on_move)
    return Image.fromarray(rasterised(drawing(size, parts)))


def _legend(
    clips: Sequence[tuple[ClipLook, str, str]], middle: float, width: float, theme: Theme
) -> Iterator[str]:
    """For each colour of a clip that is seen its letter and what it says."""
    left = MARGIN_PX + 48.0
    room = (width - left - MARGIN_PX) / max(len(clips), 1)
    for look, letter, text in clips:
        surface = theme.surfaces[look]
        box = Box(left=left, top=middle - BADGE_PX / 2, width=BADGE_PX, height=BADGE_PX)
        yield rounded(box, 4.0, surface.fill, surface.line, 1.6)
        ink = theme.on_front if look == "clip-front" else theme.on_back
        yield letter_at(letter, box.middle, 0.68 * BADGE_PX, ink)
        said = fitted(text, LEGEND_PX, (room - BADGE_PX - 20.0, LEGEND_HIGH_PX))
        yield set_at(said, left + BADGE_PX + 8.0, middle - said.height_px / 2, theme.ink)
        left += room
