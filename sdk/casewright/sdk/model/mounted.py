"""How cabinets hang on their wall or are kept from tipping, as planned: each at its place, with what it comes to."""

from dataclasses import dataclass

from casewright.sdk.engineering.hanging_case import FastenerUse, HangingCase, HangingResult
from casewright.sdk.engineering.hanging_places import SharedStrip
from casewright.sdk.engineering.tipping import Tipping


@dataclass(frozen=True, slots=True)
class HungCabinet:
    """A wall cabinet at one place, by its JSON Pointer: the case of it on its wall, and what hanging comes to.

    `on_strip` are the places, from the left, that hang on one wall cleat which runs through them all, the part `cleat`;
    neither for a cabinet on a cleat of its own.
    """

    place: str
    case: HangingCase
    result: HangingResult
    on_strip: tuple[str, ...] = ()
    cleat: str = ""

    @property
    def has_strip(self) -> bool:
        """Whether its wall cleat is listed with it: its own, or the one that begins behind it."""
        return not self.on_strip or self.on_strip[0] == self.place

    @property
    def fasteners(self) -> tuple[FastenerUse, ...]:
        """Every fastener, with its place, loads and use."""
        return self.result.fasteners

    @property
    def use(self) -> float | None:
        """The worst fastener's use; 1 is the limit."""
        return self.result.use


@dataclass(frozen=True, slots=True)
class StandingCabinet:
    """A standing cabinet at one place, by its JSON Pointer: its balance and the fasteners that keep it from tipping.

    `leaned` is the balance with a person bearing down on what stands open. `case` is the cabinet on its wall; `None`,
    and no fasteners, where its hold on the wall is not known.
    """

    place: str
    balance: Tipping
    leaned: Tipping
    fixing_height_mm: float
    case: HangingCase | None = None
    fasteners: tuple[FastenerUse, ...] = ()

    @property
    def pull_n(self) -> float:
        """The pull its fixing must hold."""
        return max(self.balance.pull_n, self.leaned.pull_n)

    @property
    def use(self) -> float | None:
        """The use of each fastener, which share the pull evenly; 1 is the limit."""
        return self.fasteners[0].use if self.fasteners else None


@dataclass(frozen=True, slots=True)
class SharedCleat:
    """Two neighbours, by the JSON Pointers of their places, and whether one wall cleat may serve both."""

    places: tuple[str, str]
    strip: SharedStrip


@dataclass(frozen=True, slots=True)
class Mounted:
    """One mounting as planned, at one of its places; `result` is `None` where its hold was not computed."""

    cabinet: str
    method: str
    lift: int
    lengths: tuple[tuple[str, int], ...] = ()
    cautions: tuple[str, ...] = ()
    result: HungCabinet | StandingCabinet | None = None
