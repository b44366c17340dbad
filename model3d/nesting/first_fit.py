"""First-fit decreasing: the list in order of length, each piece from the first bar that still has room.

What a person does at the saw. Never better than the optimum, and the answer to fall back on.
"""

from __future__ import annotations

from collections.abc import Sequence

from model3d.nesting.stock import FITS_MM, Saw, Stock


def first_fit_decreasing(
    lengths_mm: Sequence[float], stocks: Sequence[Stock], saw: Saw
) -> list[tuple[Stock, list[float]]]:
    """Bars and what is cut from each. Off-cuts are opened first, the shortest that fits; then the shortest
    bar.

    Raises ValueError for a piece that no stock holds.
    """
    bars: list[tuple[Stock, list[float]]] = []
    opened: dict[int, int] = {}
    by_price = sorted(range(len(stocks)), key=lambda i: (stocks[i].price_mm > 0.0, stocks[i].length_mm))
    for length in sorted(lengths_mm, reverse=True):
        bar = next((b for b in bars if saw.fits([*b[1], length], b[0].length_mm)), None)
        if bar is not None:
            bar[1].append(length)
            continue
        for i in by_price:
            count = stocks[i].count
            has_one = count is None or opened.get(i, 0) < count
            if has_one and length <= saw.usable_mm(stocks[i].length_mm) + FITS_MM:
                opened[i] = opened.get(i, 0) + 1
                bars.append((stocks[i], [length]))
                break
        else:
            raise ValueError(f"no bar holds a piece of {length:g} mm")
    return bars
