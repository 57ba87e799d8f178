"""How small errors of many cuts add up over a distance: worst case, root of the sum of squares, and a cautious figure.

Half-widths are 3 σ of a centred error, in any one unit of length; every figure comes out in that unit.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Protocol

from casewright.sdk.engineering.limits import within

__all__ = ["CAUTION", "Link", "Share", "StackUp", "stack_up"]

CAUTION = 1.5
"""On the root of the sum of squares, for errors that are not all centred and normal (Bender's factor)."""


class Linking(Protocol):
    """One size in a chain: its half-width, not below zero, and which set-up it was made at.

    `factor` is how far the distance moves for one of the size: 1 longer, -1 shorter, or a cosine. All links of one
    `set_up` share one error.
    """

    @property
    def set_up(self) -> str: ...
    @property
    def half_width(self) -> float: ...
    @property
    def factor(self) -> float: ...


@dataclass(frozen=True, slots=True)
class Link:
    """A size in a chain with no more to it than its errors."""

    set_up: str
    half_width: float
    factor: float = 1.0


@dataclass(frozen=True, slots=True)
class Share:
    """What one set-up brings: `half_width` of the distance, and `part` of its variance, 0 to 1."""

    set_up: str
    half_width: float
    part: float


@dataclass(frozen=True, slots=True)
class StackUp:
    """What a chain comes to. `shares` are its set-ups, largest first."""

    worst: float
    root: float
    shares: tuple[Share, ...]

    @property
    def cautious(self) -> float:
        """What to reckon with: 1.5 × the root of the sum of squares, and never more than the worst case."""
        return min(CAUTION * self.root, self.worst)

    @property
    def sigma(self) -> float:
        """The standard deviation: a third of the root of the sum of squares."""
        return self.root / 3.0


def stack_up(links: Iterable[Linking]) -> StackUp:
    """Return what the errors of `links` come to over the chain.

    Errors of one set-up add linearly, with their signs, before the root: two grooves cut at one setting are both too
    deep or both too shallow, and what one adds another may take away. Raises `OutsideLimits` for a half-width below
    zero. Set-ups without effect have no share.
    """
    by_set_up: dict[str, float] = {}
    for link in links:
        half = link.half_width
        within("stack-up", "half-width", half, 0.0, None, "", "stack-up")
        by_set_up[link.set_up] = by_set_up.get(link.set_up, 0.0) + link.factor * half
    effects = {set_up: abs(effect) for set_up, effect in by_set_up.items() if effect}
    root = math.sqrt(math.fsum([effect * effect for effect in effects.values()]))
    largest = sorted([(-effect, set_up) for set_up, effect in effects.items()])
    return StackUp(
        worst=math.fsum(effects.values()),
        root=root,
        shares=tuple([Share(set_up, -less, (less / root) ** 2) for less, set_up in largest]),
    )
