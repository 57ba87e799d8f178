"""Picking hardware from the catalogue by the wood it goes in. Lengths in whole nm."""

from collections.abc import Callable, Iterable
from typing import Protocol, TypeVar

from casewright.sdk.materials import Catalogue, Screw


class _Named(Protocol):
    @property
    def id(self) -> str: ...


_N = TypeVar("_N", bound=_Named)


def nearest(entries: Iterable[_N], size: Callable[[_N], int], target: int) -> _N | None:
    """Return the entry whose size is nearest `target` (the smaller, then the first by id, on a tie)."""
    return min(entries, key=lambda e: (abs(size(e) - target), size(e), e.id), default=None)


def screw_within(catalogue: Catalogue, gauge: int, longest: int, least: int = 0) -> Screw | None:
    """Return the longest screw of a gauge number no longer than `longest` and no shorter than `least`."""
    fits = [s for s in catalogue.screws if s.gauge == gauge and least <= s.length <= longest]
    return max(fits, key=lambda s: (s.length, s.id), default=None)


def split_depth(length: int, slack: int, host_depth: int, far_side: bool = False) -> tuple[int, int]:
    """Return the hole depths in host and guest for a pin of `length` with `slack` left at each bottom.

    Half each way, but no deeper than two thirds of the host, or nine twentieths where another pin may come from
    its far side.
    """
    host = min(length // 2 + slack, 9 * host_depth // 20 if far_side else 2 * host_depth // 3)
    return host, length + 2 * slack - host
