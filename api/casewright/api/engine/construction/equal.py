"""Settings that are nearly one made one: what layouts ask for, in clusters of at most `shop.same`, over a whole job.

Each cabinet notes every offset, depth and clear size that its layout chose. Where some of them lie within `same` of
one another, the cabinets they belong to are laid out again with the smallest of each cluster in their place; from
there on all is exact again. What is chosen is looked up by the number first asked for, so that the order in which
things are laid out changes nothing.
"""

from collections.abc import Iterable, Mapping
from enum import StrEnum

__all__ = ["MOST_ROUNDS", "LaidOut", "Measure", "made_equal"]

MOST_ROUNDS = 5
"""How often a job is laid out anew: once for each level of division within division, and once to see that it holds."""


class Measure(StrEnum):
    """What a number that a layout chooses is: only like is made equal with like."""

    FROM_REGION = "from-region"
    """From the nearer end of a region to a divider in it."""
    FROM_SIDE_END = "from-side-end"
    """From the nearer end of the case's sides to a level part."""
    ROW = "row"
    """From the nearer end of the case's sides to a row of holes."""
    CLEAR_WIDTH = "clear-width"
    CLEAR_HEIGHT = "clear-height"
    OPENING_WIDTH = "opening-width"
    OPENING_HEIGHT = "opening-height"
    MEMBER = "member"
    """The room for a member of a face frame between two others."""
    DEPTH = "depth"
    """How deep a joint's cut goes into its host."""


LaidOut = tuple[Measure, int]
"""A number asked for: what it is, and how much, in nm."""


def made_equal(laid_out: Iterable[LaidOut], same: int) -> Mapping[LaidOut, int]:
    """Return, for each number that another like it is below by `same` nm at most, the one it is made equal to.

    Clusters are taken from the smallest up and span `same` at most; each takes its smallest.
    """
    out: dict[LaidOut, int] = {}
    last: LaidOut | None = None
    for one in sorted(set(laid_out)):
        if last is None or one[0] != last[0] or one[1] - last[1] > same:
            last = one
        elif one != last:
            out[one] = last[1]
    return out
