"""Dividing a length among entries that have a size or a share."""

from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.model import Space
from casewright.sdk.writer import Writer

_TAKES_THE_REST = "leave one entry without `size` so that it takes what is left"
_LARGEST_TAKES_THE_REST = "leave the largest without `size` so that it takes what is left"


def divided(clear: int, between: int, entries: tuple[Space, ...], pointer: str, write: Writer) -> list[int]:
    """Return the clear size of each entry, in nm, along a division of `clear` with parts `between` thick.

    Entries with a `size` take it; the others divide what is left by `share`. Equal shares take the floor, and
    the remainder (under one nm an entry) is added to the middle one of them, so that both halves mirror each other;
    parts are still made to the smaller size there. Raises `NoGeometryError` when the sizes leave no room or, all being
    given, do not add up.
    """
    free = clear - between * (len(entries) - 1)
    fixed = sum(entry.size or 0 for entry in entries)
    sharing = [i for i, entry in enumerate(entries) if entry.size is None]
    left = free - fixed
    if sharing and left <= 0:
        rule = "sizes must leave room for the entries without one"
        fix = f"Make sizes smaller by more than {write.length(-left)} in all, or take entries away."
        raise NoGeometryError(Problem(pointer, rule, f"{write.length(left)} left", fix))
    if not sharing and left != 0:
        rule = f"sizes must add up to the clear size of {write.length(free)}"
        by = f"by {write.length(abs(left))} in all"
        ways = [f"Make sizes larger {by}"] if left > 0 else [f"Make sizes smaller {by}", "take entries away"]
        sizes = [entry.size or 0 for entry in entries]
        if fixed - max(sizes) < free:
            ways.append(_TAKES_THE_REST if fixed - min(sizes) < free else _LARGEST_TAKES_THE_REST)
        fix = f"{', '.join(ways[:-1])}, or {ways[-1]}." if len(ways) > 1 else f"{ways[0]}."
        raise NoGeometryError(Problem(pointer, rule, write.length(fixed), fix))
    shares = sum(entries[i].share for i in sharing)
    sizes = [entry.size or 0 for entry in entries]
    for i in sharing:
        sizes[i] = left * entries[i].share // shares
    if sharing:
        sizes[sharing[len(sharing) // 2]] += free - sum(sizes)
    return sizes
