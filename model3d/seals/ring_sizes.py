"""Inside diameters of ISO 3601-1's rings, and their tolerance. From memory: a measured ring goes before
them.
"""

from __future__ import annotations

import math

INSIDE_DIAMETERS_MM: dict[float, tuple[float, ...]] = {
    1.78: (
        *(
            1.78,
            2.57,
            2.90,
            3.68,
            4.47,
            5.28,
            6.07,
            7.65,
            9.25,
            10.82,
            12.42,
            14.00,
            15.60,
            17.17,
            18.77,
            20.35,
        ),
        *(21.95, 23.52, 25.12, 26.70, 28.30, 29.87, 31.47, 33.05, 34.65),
    ),
    2.62: (
        *(
            1.24,
            2.06,
            2.84,
            3.63,
            4.42,
            5.23,
            6.02,
            7.59,
            9.19,
            10.77,
            12.37,
            13.94,
            15.54,
            17.12,
            18.72,
            20.29,
        ),
        *(21.89, 23.47, 25.07, 26.64, 28.24, 29.82, 31.42, 32.99, 34.59, 36.17, 37.77),
    ),
    3.53: (
        *(
            4.34,
            5.94,
            7.52,
            9.12,
            10.69,
            12.29,
            13.87,
            15.47,
            17.04,
            18.64,
            20.22,
            21.82,
            23.39,
            24.99,
            26.57,
        ),
        *(28.17, 29.74, 31.34, 32.92, 34.52, 36.09, 37.69, 40.87),
    ),
}
"""Free inside diameters by section, mm."""


def nearest_inside_mm(section_mm: float, wanted_mm: float) -> float | None:
    """The inside diameter of the series nearest to one that is wanted; None for a section without a
    series.
    """
    series = next((sizes for key, sizes in INSIDE_DIAMETERS_MM.items() if abs(key - section_mm) <= 0.01), None)
    return None if series is None else min(series, key=lambda d: abs(d - wanted_mm))


def inside_tolerance_mm(inside_mm: float) -> float:
    """The tolerance of an inside diameter, class B: 0.009 d^0.95 + 0.11 (ISO 3601-1, from memory), mm."""
    return 0.009 * math.pow(inside_mm, 0.95) + 0.11
