"""Which saw makes a straight cut: what may ride a fence, what fits on a sled, what a track is laid over.

Limits that a shop does not give are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from casewright.api.stock.request import SMALL_PIECE
from casewright.sdk.model import Machine, Shop, StockPiece
from casewright.sdk.model.stock import SawTool
from casewright.sdk.units import INCH, MM

__all__ = ["SAW_TOOLS", "Saws", "StraightCut", "in_place_of_a_table_saw"]

SLED = 24 * INCH
"""How long a cut across a sled is at most where a track can be laid, if the shop does not say how far it reaches."""
MITRE_SAW = 300 * MM
"""How long a cut of a mitre saw is at most."""
OVERHANG = 1_200 * MM
"""A piece longer than this lies safely on a sled or under a mitre saw only where it is narrow."""
NARROW = 300 * MM
"""How wide a piece that long may be."""
THROAT = 300 * MM
"""How far from its fence a band saw rips."""

FLAT = 1 * MM
"""What a piece may stand off a table saw's table by and still not rock on it."""

SAW_TOOLS: dict[Machine, SawTool] = {
    Machine.TABLE_SAW: "fence",
    Machine.BAND_SAW: "fence",
    Machine.CROSSCUT_SLED: "stop",
    Machine.MITRE_SAW: "stop",
    Machine.TRACK_SAW: "track",
}
"""What measures the distance of a cut at each saw."""


@dataclass(frozen=True, slots=True)
class StraightCut:
    """One edge-to-edge cut of a piece, in nm.

    `run` is how long the kerf is, so also the edge that would ride a fence; `across` the size of the piece square to it
    just before the cut; `kept` the distance from fence, stop or track to the near side of the blade. `better` are the
    saws that it is better made with than with a table saw, best first: there are any where the piece rocks.
    """

    run: int
    across: int
    kept: int
    better: tuple[Machine, ...] = ()


def in_place_of_a_table_saw(piece: StockPiece, run: int, across: int) -> tuple[Machine, ...]:
    """Return what is better than a table saw for ripping so much of a board, best first; nothing where it lies flat.

    A table saw wants a flat face on its table: what rocks is caught by the back of the blade and thrown. A band saw
    pulls it down on its table; a track lies on it, and leaves the edge that a board without milling allowance keeps.
    Twist grows with length and width, cup with the square of the width (the rise of a flat arc over its chord).
    """
    twist, cup = piece.twist * run * across * piece.width, piece.cup * across * across * piece.length
    if twist + cup <= FLAT * piece.length * piece.width * piece.width:
        return ()
    return (Machine.BAND_SAW, Machine.TRACK_SAW) if piece.rough else (Machine.TRACK_SAW, Machine.BAND_SAW)


@dataclass(frozen=True, slots=True)
class Saws:
    """The saws of a shop and how far they reach; `machines` is empty where the shop does not list them."""

    machines: frozenset[Machine] = frozenset()
    rip_capacity: int | None = None
    crosscut_capacity: int | None = None

    @classmethod
    def of(cls, shop: Shop) -> Saws:
        """Return the saws of a shop."""
        return cls(frozenset(shop.machines), shop.rip_capacity, shop.crosscut_capacity)

    def has(self, machine: Machine) -> bool:
        """Return whether the shop has a saw."""
        return not self.machines or machine in self.machines

    def machine(self, cut: StraightCut) -> Machine:
        """Return what a straight cut is made with: the best saw the shop has, or the best there is where it has none.

        A piece rides a table saw's fence where the edge along it is no shorter than the piece is across, nor shorter
        than a small piece may be, and the fence reaches. Else it lies on a sled or under a mitre saw, where it fits;
        a track is laid over anything.
        """
        fit = tuple(self._fit(cut))
        return next(filter(self.has, fit), fit[0])

    def _fit(self, cut: StraightCut) -> Iterator[Machine]:
        """Yield the saws that can make a cut, best first."""
        rides = cut.run >= SMALL_PIECE and cut.across <= cut.run
        for saw in cut.better:
            if saw is not Machine.BAND_SAW or (rides and cut.kept <= THROAT):
                yield saw
        if rides and (self.rip_capacity is None or cut.kept <= self.rip_capacity):
            yield Machine.TABLE_SAW
        lies = cut.across <= OVERHANG or cut.run <= NARROW
        if lies and cut.run <= (self.crosscut_capacity or SLED):
            yield Machine.CROSSCUT_SLED
        if lies and cut.run <= min(MITRE_SAW, self.crosscut_capacity or MITRE_SAW):
            yield Machine.MITRE_SAW
        yield Machine.TRACK_SAW
        if rides and cut.kept <= THROAT:
            yield Machine.BAND_SAW
        if self.crosscut_capacity is None:
            yield Machine.CROSSCUT_SLED
