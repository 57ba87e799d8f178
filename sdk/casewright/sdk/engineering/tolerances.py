"""What a size without a tolerance of its own may be off, and how far a saw is out of square."""

import math
from bisect import bisect_left
from collections.abc import Mapping
from typing import Literal

from casewright.sdk.engineering.limits import OutsideLimits, within

__all__ = ["ToleranceClass", "five_cut_error", "general_tolerance_mm"]

ToleranceClass = Literal["f", "m", "c", "v"]
"""Fine, medium, coarse, very coarse."""
_LEAST = 0.5
_UP_TO = (3.0, 6.0, 30.0, 120.0, 400.0, 1000.0, 2000.0, 4000.0)
_HALF_WIDTHS: Mapping[ToleranceClass, tuple[float | None, ...]] = {
    "f": (0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5, None),
    "m": (0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2.0),
    "c": (0.2, 0.3, 0.5, 0.8, 1.2, 2.0, 3.0, 4.0),
    "v": (None, 0.5, 1.0, 1.5, 2.5, 4.0, 6.0, 8.0),
}


def general_tolerance_mm(size_mm: float, kind: ToleranceClass) -> float:
    """Return the half-width (mm) of a size (mm) without a tolerance of its own: ISO 2768-1:1989, table 1 (tables read).

    Each band goes over its lower bound up to its upper one. Raises `OutsideLimits` for a size outside the table, or in
    a band that has no value for the class.
    """
    row = _HALF_WIDTHS[kind]
    most = max(up_to for up_to, half in zip(_UP_TO, row, strict=True) if half is not None)
    within("general-tolerance", "size", size_mm, _LEAST, most, "mm", "iso-2768-1")
    half = row[bisect_left(_UP_TO, size_mm)]
    if half is None:
        least = math.nextafter(_UP_TO[0], most)
        raise OutsideLimits("general-tolerance", "size", size_mm, least, most, "mm", "iso-2768-1")
    return half


def five_cut_error(first: float, last: float, length: float) -> float:
    """Return how far a saw is out of square, per unit of length, by the five-cut test: (first - last) / (4 length).

    `first` and `last` are the widths of the fifth strip at its two ends, `length` is that of the strip. Read on pages
    that work the test through. Raises `OutsideLimits` for a length not above zero.
    """
    within("five-cut", "length of the strip", length, 1e-9, None, "mm", "five-cut")
    return (first - last) / (4.0 * length)
