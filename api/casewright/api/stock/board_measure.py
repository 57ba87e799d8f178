"""Board measure of rough hardwood.

Source: `nhla-rules`, as a page of the American hardwood association gives them: surface measure is width in inches
times length in whole feet over 12, rounded to a whole number; board feet are surface measure times thickness in
inches. Lengths drop to whole feet and widths in a tally drop to whole inches.
"""

from __future__ import annotations

from casewright.sdk.units import INCH

FOOT = 12 * INCH


def surface_measure(width: int, length: int) -> int:
    """Surface measure in whole square feet: inches of width times whole feet of length over 12, half rounded up."""
    feet = length // FOOT
    # width/INCH * feet / 12, rounded to a whole number without leaving integers
    return (2 * width * feet + 12 * INCH) // (2 * 12 * INCH)


def board_feet(thickness: int, width: int, length: int) -> float:
    """Board feet by the NHLA rule: surface measure times rough thickness (nm) in inches; under 1 in counts as 1 in."""
    return surface_measure(width, length) * max(thickness, INCH) / INCH


def volume_board_feet(thickness: int, width: int, length: int) -> float:
    """Un-rounded board feet of a finished part: T·W·L (in) / 144, dimensions in nm."""
    return (thickness / INCH) * (width / INCH) * (length / INCH) / 144


def tally_size(width: int, length: int) -> tuple[int, int]:
    """Give the whole inches of width and whole feet of length a board is tallied at."""
    return width // INCH, length // FOOT
