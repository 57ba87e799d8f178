"""Stock: the pieces there are to cut from, and the plan of how to cut them. All lengths are whole nm.

A piece of stock has its `length` along x and its `width` along y; grain `along-length` runs along x.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from typing import Literal

from casewright.sdk.model.parts import GrainRule

StockKind = Literal["sheet", "offcut", "board"]
Grade = Literal["face", "hidden"]
"""Whether a board's face is good enough to be seen."""
Surfaced = Literal["none", "two-faces", "all-sides"]
"""What of a board is planed as it is bought: nothing of a rough one, its faces, or its edges too."""
CutKind = Literal["sheet", "board"]
"""How a piece is cut: as a sheet, by any straight cut, or as a rough board, ripped and then cross-cut."""

CutOrder = Literal["by-setting", "by-sheet"]
"""What is finished before the next begins: a setting, for all pieces of stock, or a piece of stock, at all settings."""

FirstCutFor = Literal["edge", "taper", "defect"]
"""What a first cut takes off: a rough edge of a full sheet, a taper, or a defect."""

SawTool = Literal["fence", "stop", "track"]
_GRAINS = {"along-length": "grain along length", "along-width": "grain along width", "free": "no grain"}

MINOR_UNITS = 100
"""What is bought is compared in hundredths of the job's money, whole ones."""


@dataclass(frozen=True, slots=True)
class Defect:
    """A rectangle of a piece of stock that no part may come from: its lower left corner and its size."""

    x: int
    y: int
    length: int
    width: int


@dataclass(frozen=True, slots=True)
class StockPiece:
    """A sheet, an offcut or a rough board, on hand (`copies` a number) or bought as needed (`copies` `None`).

    `thickness` of a board is as bought, and `surfaced` what of it is planed; an offcut's edges are not trimmed. `cost`
    is whole money for one piece. Of a board, `cup` and `twist` are how far it stands off a flat table over its width
    and at a corner, and `grade` whether its face may be seen; `taper` of a board or an offcut is how much less wide one
    end is than the other.
    """

    id: str
    material: str
    thickness: int
    length: int
    width: int
    copies: int | None = None
    cost: Decimal | None = None
    grain: GrainRule = "along-length"
    kind: StockKind = "sheet"
    surfaced: Surfaced = "none"
    grade: Grade = "face"
    cup: int = 0
    twist: int = 0
    taper: int = 0
    defects: tuple[Defect, ...] = ()

    @property
    def rough(self) -> bool:
        """Whether its parts are milled: a board of which nothing is planed."""
        return self.kind == "board" and self.surfaced == "none"

    @property
    def crooked(self) -> int:
        """How much of a board's thickness is lost in making it flat."""
        return self.cup + self.twist


@dataclass(frozen=True, slots=True)
class CleanPiece:
    """A clean piece of stock with defects or a taper: the id of that, where its corner lies on it, and itself."""

    stock: str
    x: int
    y: int
    piece: StockPiece


@dataclass(frozen=True, slots=True)
class FirstCut:
    """One straight cut that parts stock with defects or a taper into its clean pieces, before all other cuts.

    A `piece` is parted at `fence`, in nm from one of its sides: what lies that side of the blade is what the cut
    `keeps`, what lies beyond is what it `leaves`. Each is a clean piece by its id, a piece that is cut on, or waste
    (""). `along` is "length" when the kerf, `run` long, runs along the stock's length; `across` is the piece's size
    square to it. A cut along a defect keeps its blade on the defect's side.
    """

    piece: str
    along: Literal["length", "width"]
    fence: int
    keeps: str
    leaves: str
    run: int
    across: int
    purpose: FirstCutFor = "defect"


@dataclass(frozen=True, slots=True)
class ClearedStock:
    """Stock with defects or a taper as it is on hand, and the cuts that part it into its clean pieces, in order."""

    piece: StockPiece
    cuts: tuple[FirstCut, ...]


@dataclass(frozen=True, slots=True)
class Stock:
    """What there is to cut from, and how the saw cuts it.

    `mill_*` is what a part cut from rough board carries until it is planed (thickness: what the board must have
    over the part); `clean` are the pieces that stock with defects or a taper is cut into first, which are listed in
    its place, and `cleared` is that stock with the cuts that do it; `mill_edge` comes off one edge of every board whose
    edges are rough, so that it may ride a fence.
    `pieces_at_hand` is how many loose pieces that are still to be cut there is room for; `None` is any number.
    """

    sheets: tuple[StockPiece, ...]
    offcuts: tuple[StockPiece, ...]
    boards: tuple[StockPiece, ...]
    kerf: int
    edge_trim: int
    effort: int
    mill_length: int = 0
    mill_width: int = 0
    mill_thickness: int = 0
    mill_edge: int = 0
    clean: tuple[CleanPiece, ...] = ()
    cleared: tuple[ClearedStock, ...] = ()
    order: CutOrder = "by-setting"
    pieces_at_hand: int | None = None

    @property
    def pieces(self) -> tuple[StockPiece, ...]:
        """Every piece, of all three kinds."""
        return (*self.sheets, *self.offcuts, *self.boards)


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
        size = f"{text(self.length)} x {text(self.width)}"
        source = f"from {self.stock} (layout {self.layout})"
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
    ShortReason.NOT_LISTED: "no stock of this material and thickness is listed",
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
    """One rough board: rip widths and stop lengths in working order, its board feet, and its yield (0 to 1)."""

    layout: int
    stock: str
    rips: tuple[int, ...]
    stops: tuple[int, ...]
    board_feet: float
    part_board_feet: float
    yield_share: float


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
