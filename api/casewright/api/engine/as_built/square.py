"""Cases out of square, by their diagonals: how far the top stands to the side over the bottom, and what that closes.

A case of straight sides is a parallelogram. With the width w and the sideways shift s of its top its diagonals d are
d² = (w ± s)² + h², so that s is the difference of their squares by 4 w; and the sum of their squares is twice that of
the sides (the parallelogram law), which gives one from the other.
"""

from collections.abc import Iterator
from math import isqrt

from casewright.api.engine.as_built.pieces import Measured
from casewright.sdk.errors import Problem
from casewright.sdk.model import LENGTH, BuiltMeasure, BuiltSize, Cabinet, Check, Finding, Level
from casewright.sdk.units import INCH
from casewright.sdk.writer import Writer

SQUARE = INCH // 32
"""A case farther out of square than this is pulled square (common practice, no source)."""
TAPERED = INCH // 8
"""A door that tapers by more than this is seen to (common practice, no source)."""
RACKED = INCH // 4
"""On a case farther out of square no frame lies flush and no door hangs evenly (common practice, no source)."""


def shift_of(measured: Measured, width: int, height: int) -> int:
    """Return how far the top of a case stands to the right of its bottom, in nm; zero where no diagonal is measured."""
    rising = measured.get(("", BuiltMeasure.DIAGONAL_RISING))
    falling = measured.get(("", BuiltMeasure.DIAGONAL_FALLING))
    both = 2 * (width * width + height * height)
    if rising is not None and falling is not None:
        return (rising.nm**2 - falling.nm**2) // (4 * width)
    if rising is not None:
        return (2 * rising.nm**2 - both) // (4 * width)
    return (both - 2 * falling.nm**2) // (4 * width) if falling is not None else 0


def no_diagonal(size: BuiltSize, width: int, height: int, write: Writer) -> Problem | None:
    """Return the problem of a diagonal that no case of these sides has: it closes a triangle with them."""
    least, most = abs(width - height), width + height
    if least < size.nm < most:
        return None
    rule = f"a diagonal between {write.length(least)} and {write.length(most)}, which closes a triangle with the sides"
    square = write.length(isqrt(width * width + height * height))
    return Problem(f"{size.pointer}/value", rule, write.length(size.nm), f"Measure again: square, it is {square}.")


def square_checks(cabinet: Cabinet, measured: Measured, height: int, write: Writer) -> Iterator[Check]:
    """Yield a case that is out of square: a stop where doors in its openings would have to taper so that it is seen."""
    by = abs(shift_of(measured, cabinet.case_width, height))
    if by <= SQUARE:
        return
    size = next(size for (_, measure), size in sorted(measured.items()) if measure.of_square)
    doors = cabinet.doors
    inset = doors is not None and doors.hang == "inset" and cabinet.face_frame is None
    most = TAPERED if inset else RACKED
    level: Level = "stop" if by > most else "caution"
    limit = most if inset or by > most else SQUARE
    message = (
        f"The top of {cabinet.id} stands {write.length(by)} to the side over its bottom. While the glue is open "
        "pull the longer diagonal with a clamp until both are alike; later let the back or the strips hold it square"
    )
    if inset and by <= most:
        message += (
            "; else its doors hang square where their gaps carry it, the gap shared by both sides, and are left wide "
            "and planed to the line of their opening where they do not, as the steps say"
        )
    yield Check(size.pointer, Finding("out-of-square", level, f"{message}.", by, limit, LENGTH, "common-practice"))
