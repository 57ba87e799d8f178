"""What goes into the stock planner: parts wanted, pieces of stock, what the shop can do, and how hard to look.

All lengths are whole nm in an int. What a cost of `None` means: a piece bought as needed (`copies` `None`) is then
measured by its area, and so are all pieces that can be bought; a piece on hand (`copies` a number) costs nothing.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import ROUND_HALF_UP, Decimal

from casewright.api.job import limits
from casewright.sdk.model import CutKind, CutOrder, GrainRule, Machine, StockPiece
from casewright.sdk.model.stock import MINOR_UNITS
from casewright.sdk.units import GREATEST, MM

SMALL_PIECE = 150 * MM
"""The shortest edge that may ride a fence (common practice, no source)."""


class StockLimitError(ValueError):
    """A request is larger than the planner takes: `name` of the limit, its `value`, and what was `got`."""

    def __init__(self, name: str, value: int, got: int) -> None:
        super().__init__(f"{name}: {got} is more than the limit of {value}")
        self.name = name
        self.value = value
        self.got = got


@dataclass(frozen=True, slots=True)
class Demand:
    """Parts wanted: `quantity` equal parts of finished `length` (along the grain unless `grain` says) and `width`.

    `seen` parts are cut of boards whose face is good enough to show. `may_turn` says that the job leaves it to the shop
    which way the grain runs, where stock is short. A `row` are parts that are cut in sequence of one piece, which is
    the demand itself; it runs along its length where `along` says so, else across it.
    """

    id: str
    material: str
    thickness: int
    length: int
    width: int
    quantity: int = 1
    grain: GrainRule = "along-length"
    kind: CutKind = "sheet"
    label: str = ""
    may_turn: bool = False
    seen: bool = False
    row: tuple[Demand, ...] = ()
    along: bool = False

    @property
    def pieces(self) -> tuple[Demand, ...]:
        """The parts that are cut: those of its row, or itself."""
        return self.row or (self,)


@dataclass(frozen=True, slots=True)
class ShopLimits:
    """What the shop's saws can do.

    `edge_trim` is what is taken off each of the four edges of a sheet that is not an offcut, blade included.
    `keep_offcut` is the (length, width) from which a leftover is kept. `mill_*` is what a part cut from rough board
    carries until it is planed: along and across its grain in all, thickness the least a rough board must have over
    the part; `board_edge` comes off one edge of each board with rough edges to make it straight, blade included.
    `rip_capacity` and `crosscut_capacity` None means any distance and a usual sled; `small_piece` is the shortest edge
    that may ride a fence; `machines` is empty where the shop lists none.
    """

    kerf: int = 3 * MM
    edge_trim: int = 0
    rip_capacity: int | None = None
    keep_offcut: tuple[int, int] = (300 * MM, 150 * MM)
    mill_length: int = 0
    mill_width: int = 0
    mill_thickness: int = 0
    board_edge: int = 0
    small_piece: int = SMALL_PIECE
    crosscut_capacity: int | None = None
    machines: frozenset[Machine] = frozenset()


@dataclass(frozen=True, slots=True)
class StockRequest:
    """All that a cutting plan depends on.

    `effort` 1 to 5 bounds the search by counted steps. `order` and `pieces_at_hand` say which cuts are made together,
    of layouts chosen all the same. `fewer_settings=False` leaves out the rule that chooses among
    equally good layouts (used to measure it).
    """

    demands: tuple[Demand, ...]
    pieces: tuple[StockPiece, ...]
    limits: ShopLimits = ShopLimits()
    effort: int = 2
    fewer_settings: bool = True
    order: CutOrder = "by-setting"
    pieces_at_hand: int | None = None


def validate(request: StockRequest) -> None:
    """Refuse what the planner does not take.

    Raises `StockLimitError` for a request larger than the limits, `ValueError` for a size
    that is not positive, an effort there is not, or a negative kerf or trim.
    """
    parts = sum(max(0, d.quantity) for d in request.demands)
    rows: list[Demand | StockPiece] = [*request.demands, *request.pieces]
    for name, value, got in (
        ("cut_demands", limits.CUT_DEMANDS, len(request.demands)),
        ("cut_parts", limits.CUT_PARTS, parts),
        ("stock_rows", limits.STOCK_ROWS, len(request.pieces)),
        ("length", GREATEST, max((max(r.length, r.width) for r in rows), default=0)),
    ):
        if got > value:
            raise StockLimitError(name, value, got)
    for row in rows:
        if row.length <= 0 or row.width <= 0 or row.thickness <= 0:
            raise ValueError(f"{row.id}: length, width and thickness must be more than zero")
    if not 1 <= request.effort <= limits.EFFORT:
        raise ValueError(f"effort is 1 to {limits.EFFORT}")
    if request.limits.kerf < 0 or request.limits.edge_trim < 0:
        raise ValueError("kerf and edge trim must not be negative")


def is_milled(material: str, pieces: Iterable[StockPiece]) -> bool:
    """Return whether all parts of a material carry what milling takes: where some board of it is rough."""
    return any(one.rough and one.material == material for one in pieces)


def minor_units(cost: Decimal | None) -> int | None:
    """Return money as a whole number of minor units, halves upward."""
    return None if cost is None else int((cost * MINOR_UNITS).quantize(Decimal(1), ROUND_HALF_UP))


def limits_for(limits: ShopLimits, pieces: Iterable[StockPiece], part: Demand) -> ShopLimits:
    """Return the limits for a group: parts carry what milling takes where there are rough boards of their material."""
    if is_milled(part.material, pieces):
        return limits
    return replace(limits, mill_length=0, mill_width=0, mill_thickness=0)


def worth_keeping(a: int, b: int, keep: tuple[int, int]) -> bool:
    """Whether a leftover reaches the length and width that the shop keeps."""
    least = sorted(keep)
    have = sorted((a, b))
    return have[0] >= least[0] and have[1] >= least[1]
