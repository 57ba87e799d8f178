"""Dividing a length among entries that have a size or a share."""

from collections.abc import Sequence

from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.model import Space
from casewright.sdk.writer import Writer

_TAKES_THE_REST = "leave one entry without `size` so that it takes what is left"
_LARGEST_TAKES_THE_REST = "leave the largest without `size` so that it takes what is left"


def divided(clear: int, between: int, entries: tuple[Space, ...], pointer: str, write: Writer) -> list[int]:
    """Return the clear size of each entry, in nm, along a division of `clear` with parts `between` thick.

    Entries with a `size` take it; the others divide what is left by `share`. One share is a whole number of nm, and
    the remainder (under one nm a share) is added to the middle one of them, so that both halves mirror each other;
    parts are still made to the smaller size there (`left_over`). Raises `NoGeometryError` when the sizes leave no room
    or, all being given, do not add up.
    """
    free = clear - between * (len(entries) - 1)
    fixed = sum(entry.size or 0 for entry in entries)
    sharing = [i for i, entry in enumerate(entries) if entry.size is None]
    left = free - fixed
    if sharing and left <= 0:
        rule = "sizes that leave room for the entries without one"
        fix = f"Make sizes smaller by more than {write.length(-left)} in all, or take entries away."
        raise NoGeometryError(Problem(pointer, rule, f"{write.length(left)} left", fix))
    if not sharing and left != 0:
        rule = f"sizes that add up to the clear size of {write.length(free)}"
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
        sizes[i] = left // shares * entries[i].share
    if sharing:
        sizes[sharing[len(sharing) // 2]] += free - sum(sizes)
    return sizes


def left_over(sizes: Sequence[int], entries: Sequence[Space]) -> list[int]:
    """Return how much of each entry's divided size is a remainder: what it has over its number of whole shares.

    Parts made to what is left without it come out equal where shares ask for it, as one of two shares halved does
    beside one of one.
    """
    shares = [entry.share if entry.size is None else 0 for entry in entries]
    if len([share for share in shares if share]) < 2:
        return [0] * len(shares)
    one = min(size // share for size, share in zip(sizes, shares, strict=True) if share)
    return [size - one * share if share else 0 for size, share in zip(sizes, shares, strict=True)]
