"""Measurements that cannot be: of a part that is not there, or of a size that nothing here could have."""

from collections.abc import Iterable
from difflib import get_close_matches

from casewright.sdk.errors import Problem
from casewright.sdk.model import BuiltMeasure, BuiltMistake, BuiltSize, Part
from casewright.sdk.writer import Writer

LISTED = 12


def size_of(part: Part, measure: BuiltMeasure) -> int:
    """Return a size of a part as planned, in nm."""
    return {
        BuiltMeasure.LENGTH: part.length,
        BuiltMeasure.WIDTH: part.width,
        BuiltMeasure.THICKNESS: part.thickness,
    }[measure]


def no_part(size: BuiltSize | BuiltMistake, parts: Iterable[str]) -> Problem:
    """Return the problem of a part that the cabinet does not have."""
    known = sorted(parts)
    close = get_close_matches(size.part or "", known, n=1)
    words = f'"{close[0]}"' if close else "one of: " + ", ".join(known[:LISTED]) + (" …" if known[LISTED:] else "")
    return Problem(f"{size.pointer}/part", f"a part of {size.cabinet}", f'"{size.part}"', f"Write {words}.")


def beyond(size: BuiltSize, planned: int, write: Writer) -> Problem | None:
    """Return the problem of a size that is not from half to one and a half times what is planned."""
    least, most = -(-planned // 2), planned + planned // 2
    if least <= size.nm <= most:
        return None
    bounds = f"{write.length(least)} to {write.length(most)}"
    rule = f"a {size.measure} from {bounds}, half to one and a half of what is planned"
    fix = f"Measure again: {write.length(planned)} is planned. What is farther off is another part: take the entry out."
    return Problem(f"{size.pointer}/value", rule, write.length(size.nm), fix)
