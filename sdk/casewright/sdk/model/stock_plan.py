"""The plan of how stock is cut: layouts, cuts, what to buy and what is left. All lengths are whole nm.

A piece of stock has its `length` along x and its `width` along y.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from casewright.sdk.model.parts import GrainRule
from casewright.sdk.model.stock import CutKind, SawTool

_GRAINS = {"along-length": "grain along length", "along-width": "grain along width", "free": "no grain"}


@dataclass(frozen=True, slots=True)
class PlacedPart:
    """One part on a piece of stock: its lower left corner and its size along x (`dx`) and y (`dy`)."""

    part: str
    x: int
    y: int
    dx: int
    dy: int
    turned: bool


@dataclass(frozen=True, slots=True)
class SawCut:
    """One edge-to-edge cut: a `piece` is parted at `fence` into `makes` and `leaves` ("" when nothing is left).

    `along` is "length" when the kerf runs along the stock's length. `rides` says which side lies against the fence (or
    the stop) and so measures `fence`: what the cut "makes", or what it "leaves".
    `run` is how long the kerf is, so also the edge that rides the fence; `across` is the size of the piece square to it
    just before the cut. Cuts of one `setting` are made before the fence or stop is moved; `step` is the operation
    that makes the cut (0 before the work is put in order).
    """

    number: int
    piece: str
    makes: str
    leaves: str
    along: Literal["length", "width"]
    tool: SawTool
    fence: int
    rides: Literal["makes", "leaves"]
    kerf: int
    run: int
    across: int
    setting: int
    step: int = 0


@dataclass(frozen=True, slots=True)
class CutPiece:
    """A rectangle of the cut tree; `cuts` part it into `inside`. `part` is the id of a part, empty for all else."""

    label: str
    what: Literal["stock", "piece", "part", "leftover", "waste"]
    x: int
    y: int
    dx: int
    dy: int
    part: str = ""
    cuts: tuple[int, ...] = ()
    inside: tuple[CutPiece, ...] = ()


@dataclass(frozen=True, slots=True)
class Leftover:
    """A rectangle that no part came from, `length` along the stock's length; `keep` when the shop keeps that size."""

    layout: int
    stock: str
    piece: str
    length: int
    width: int
    keep: bool
    material: str
    thickness: int
    grain: GrainRule

    def label(self, text: Callable[[int], str]) -> str:
        """Return a line to write on it: material, thickness, size, grain, where it is from; `text` writes a length."""
        size = f"{text(self.length)} × {text(self.width)}"
        source = f"from {self.stock} {self.layout}"
        return f"{self.material} {text(self.thickness)}: {size}, {_GRAINS[self.grain]}, {source}"


@dataclass(frozen=True, slots=True)
class StockLayout:
    """One piece of stock, the parts on it, and how it is cut."""

    number: int
    stock: str
    kind: CutKind
    material: str
    thickness: int
    length: int
    width: int
    placed: tuple[PlacedPart, ...]
    tree: CutPiece
    cuts: tuple[SawCut, ...]
    leftovers: tuple[Leftover, ...]
    part_area: int

    @property
    def use(self) -> float:
        """The share of the piece that becomes parts, 0 to 1."""
        return self.part_area / (self.length * self.width)


@dataclass(frozen=True, slots=True)
class Purchase:
    """So many of one size of stock; `cost` of all of them in `MINOR_UNITS`, `None` without a price.

    One without a `stock` id is no listed piece: it is the least size that will do.
    """

    stock: str
    material: str
    thickness: int
    length: int
    width: int
    quantity: int
    cost: int | None
    grain: GrainRule = "along-length"


class ShortReason(StrEnum):
    """Why a part finds no stock."""

    NOT_LISTED = "not-listed"
    TOO_LARGE = "too-large"
    USED_UP = "used-up"
    ROW = "row"


SHORT_REASONS: Mapping[ShortReason, str] = {
    ShortReason.NOT_LISTED: "no stock of this material and thickness, once flat, is listed",
    ShortReason.TOO_LARGE: "larger than every piece of stock listed, as its grain must lie",
    ShortReason.USED_UP: "the stock on hand is used up",
    ShortReason.ROW: "no one piece of stock holds the whole row that their grain runs on over",
}
"""The reasons in words."""


@dataclass(frozen=True, slots=True)
class Shortage:
    """So many of one part that found no stock, and why."""

    part: str
    quantity: int
    material: str
    thickness: int
    reason: ShortReason


@dataclass(frozen=True, slots=True)
class Lacking:
    """A material that the stock does not yield all parts of: how many pieces are missing, and what would end it.

    `buy` is the smallest purchase found, all of it (nothing: no piece that is sold would do); one without a stock id
    is the least size that will do. `turn` names parts that may lie either way by the job and would all be cut so, and
    `unmatch` parts that would all be cut if those of a row came from wherever they fit.
    """

    material: str
    thickness: int
    kind: CutKind
    parts: int
    buy: tuple[Purchase, ...]
    turn: tuple[str, ...]
    unmatch: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class BoardYield:
    """One rough board: its rips and crosscuts in working order, its board feet, and the share that becomes parts."""

    layout: int
    stock: str
    rips: tuple[int, ...]
    crosscuts: tuple[int, ...]
    board_feet: float
    part_board_feet: float
    use: float


@dataclass(frozen=True, slots=True)
class PurchaseBound:
    """Proved least of what is bought: in `MINOR_UNITS` when `measure` is "cost", else in square millimetres.

    `least` is proved by `how`; `bought` is what this plan uses, so where they are equal nothing cheaper exists.
    """

    material: str
    thickness: int
    kind: CutKind
    measure: Literal["cost", "area"]
    least: int
    bought: int
    how: str


@dataclass(frozen=True, slots=True)
class Returns:
    """How often a setting is gone back to, whether that is `proved` least for these cuts, else a lower `bound`.

    `settings` are different ones. Setting by setting they would be gone back to `by_setting` times; `at_hand` is how
    many loose pieces that are still to be cut there are at most.
    """

    count: int
    proved: bool
    bound: int
    settings: int
    by_setting: int = 0
    at_hand: int = 0


@dataclass(frozen=True, slots=True)
class StockPlan:
    """The answer: layouts with their cuts in working order, what to buy, what is left, and what could not be cut."""

    layouts: tuple[StockLayout, ...]
    returns: Returns
    leftovers: tuple[Leftover, ...]
    buy: tuple[Purchase, ...]
    bounds: tuple[PurchaseBound, ...]
    use: float
    short: tuple[Shortage, ...]
    lacking: tuple[Lacking, ...]
    boards: tuple[BoardYield, ...]
    effort: int
    steps: int
