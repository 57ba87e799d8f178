"""Picking hardware from the catalogue by the wood it goes in. Lengths in whole nm."""

from collections.abc import Callable, Iterable
from typing import Protocol, TypeVar

from casewright.sdk.materials import Catalogue, Screw, UnknownItemError
from casewright.sdk.methods import CannotError, Meeting
from casewright.sdk.units import INCH, MM

INCH_STEP, MM_STEP = INCH // 64, MM // 2
"""Steps in which a hole is made shallower, for a pin sized in inches and for one in millimetres."""


class _Named(Protocol):
    @property
    def id(self) -> str: ...


class Pin(Protocol):
    """What is glued into holes of host and guest: its length, and what the holes are deeper at either end, in nm."""

    @property
    def length(self) -> int: ...  # noqa: D102
    @property
    def slack(self) -> int: ...  # noqa: D102


_N = TypeVar("_N", bound=_Named)


def nearest(entries: Iterable[_N], size: Callable[[_N], int], target: int) -> _N | None:
    """Return the entry whose size is nearest `target` (the smaller, then the first by id, on a tie)."""
    return min(entries, key=lambda e: (abs(size(e) - target), size(e), e.id), default=None)


def listed(find: Callable[[str], _N], item: str, rule: str, offer: Callable[[tuple[str, ...]], tuple[str, str]]) -> _N:
    """Return the entry of a catalogue that a job names by its id.

    Raises `CannotError` for one that is not listed: `offer` gives the fix and the option that it is for, from the ids
    nearest to what was written.
    """
    try:
        return find(item)
    except UnknownItemError as error:
        raise CannotError(rule, item, *offer(error.near)) from None


def use_one(fitting: Iterable[_Named], near: tuple[str, ...] = ()) -> str:
    """Return a fix that names entries that fit, those in `near` before others; empty where none fits."""
    ids = [one.id for one in fitting]
    offered = [one for one in near if one in ids] or ids[:3]
    return f"Use {' or '.join(offered)}." if offered else ""


def screw_within(catalogue: Catalogue, gauge: int, longest: int, least: int = 0) -> Screw | None:
    """Return the longest screw of a gauge number no longer than `longest` and no shorter than `least`."""
    fits = [s for s in catalogue.screws if s.gauge == gauge and least <= s.length <= longest]
    return max(fits, key=lambda s: (s.length, s.id), default=None)


def split_depth(length: int, slack: int, host_depth: int, far_side: bool = False) -> tuple[int, int]:
    """Return the hole depths in host and guest for a pin of `length` with `slack` left at each bottom.

    Half each way, but no deeper than two thirds of the host, or nine twentieths where another pin may come from
    its far side. Less than half is less by whole steps, so that hosts nearly alike are cut to one depth.
    """
    half, most = length // 2 + slack, 9 * host_depth // 20 if far_side else 2 * host_depth // 3
    step = INCH_STEP if length % INCH_STEP == 0 else MM_STEP
    stepped = half - max(0, -((most - half) // step)) * step
    host = stepped if stepped > 0 else most
    return host, length + 2 * slack - host


def pin_depths(meeting: Meeting, pin: Pin) -> tuple[int, int]:
    """Return how deep a pin of a meeting goes into host and guest."""
    return split_depth(pin.length, pin.slack, meeting.host_depth, meeting.far_side)


def pins_meet(meeting: Meeting, pin: Pin) -> bool:
    """Whether the holes for such pins from the guest's two ends meet."""
    return 2 * pin_depths(meeting, pin)[1] > meeting.guest_length
