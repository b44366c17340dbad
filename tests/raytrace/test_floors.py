"""Floor coverings: their joints stand where the pattern says, and what is finer than a pixel is blended out."""

import numpy as np
import pytest

from model3d.pictures.raytrace.floors import BLOCK_MM, BLOCKS_LONG, carpet, herringbone, tiles
from model3d.pictures.raytrace.surface import Boards

FLAT = Boards(width_mm=450.0, tint=0.0)
PATTERNS = {"herringbone": herringbone, "tiles": tiles, "carpet": carpet}


def footprint(count: int, size_mm: float) -> np.ndarray:
    """Pixels of a size, square on the floor."""
    one = np.array([[size_mm, 0, 0], [0, size_mm, 0]], np.float32)
    return np.broadcast_to(one, (count, 2, 3)).astype(np.float32)


def spots(count: int, seed: int = 1) -> np.ndarray:
    """Places on a floor of three metres."""
    place = np.random.default_rng(seed).uniform(0.0, 3000.0, (count, 3)).astype(np.float32)
    place[:, 2] = 0.0
    return place


@pytest.mark.parametrize("name", PATTERNS)
def test_a_pattern_keeps_the_colour_and_blurs_with_distance(name: str) -> None:
    """A pattern's factors are about one on average; seen from afar they differ less than from close by."""
    place = spots(4000)
    close = PATTERNS[name](place, footprint(len(place), 0.5), FLAT)
    far = PATTERNS[name](place, footprint(len(place), 400.0), FLAT)
    assert close.shape == (4000, 3)
    assert close.mean() == pytest.approx(1.0, abs=0.06)
    assert far.std() < 0.75 * close.std()


def test_grout_stands_between_tiles() -> None:
    """On the line between two tiles it is darker than in their middles."""
    along = np.arange(0.0, 2250.0, 450.0, dtype=np.float32)
    line = np.stack([along, np.full_like(along, 200.0), np.zeros_like(along)], axis=1)
    middle = line + np.array([225.0, 0.0, 0.0], np.float32)
    on, off = (tiles(p, footprint(len(p), 0.5), FLAT)[:, 0] for p in (line, middle))
    assert on.max() < off.min() - 0.2


def test_a_herringbone_block_is_as_long_as_its_count_of_widths_and_lies_both_ways() -> None:
    """Going along one row of the pattern, a joint is met at both ends of a lying block, n widths apart, and then at
    every width across the standing ones; n widths further on it begins again."""
    turn = np.radians(45.0)
    axis = np.array([np.cos(turn), np.sin(turn), 0.0])
    across = np.array([-np.sin(turn), np.cos(turn), 0.0])
    step = 0.25
    along = np.arange(0.0, 2 * BLOCKS_LONG * BLOCK_MM, step) + 0.5 * step
    place = (along[:, None] * axis + 0.5 * BLOCK_MM * across).astype(np.float32)
    tone = herringbone(place, footprint(len(place), 0.3), FLAT)[:, 0]
    cells = tone.reshape(-1, round(BLOCK_MM / step))
    edge = cells[:, 0]  # at the start of each cell
    middle = np.median(cells, axis=1)
    joints = np.flatnonzero(edge < 0.75 * middle)
    expected = [0, *range(BLOCKS_LONG, 2 * BLOCKS_LONG)]
    assert joints.tolist() == expected
