"""What goes into the stock planner: pieces of sheet, boards, parts wanted, and what the shop can do.

All lengths are whole nanometres in an int. A piece of stock has its `length` along x and its `width` along y; grain
`along-length` runs along x. Costs are whole minor units of money (cents, pence) or None.

What a cost of None means: a piece bought as needed (`copies=None`) is then measured by its area, and so are all
pieces that can be bought; a piece on hand (`copies` a number) costs nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Grain = Literal["along-length", "along-width", "free"]
Kind = Literal["sheet", "board"]
OperationKind = Literal["groove", "rabbet", "hole"]

INCH = 25_400_000
MM = 1_000_000

MAX_PARTS = 6_000
MAX_DEMANDS = 3_000
MAX_STOCK_ROWS = 400
MAX_LENGTH = 100_000 * MM


class StockLimitError(ValueError):
    """A request is larger than the planner takes: `name` of the limit, its `value`, and what was `got`."""

    def __init__(self, name: str, value: int, got: int) -> None:
        super().__init__(f"{name}: {got} is more than the limit of {value}")
        self.name = name
        self.value = value
        self.got = got


@dataclass(frozen=True, slots=True)
class StockPiece:
    """A size of sheet: `copies=None` is bought as needed, else on hand; `offcut` edges are not trimmed."""

    id: str
    material: str
    thickness: int
    length: int
    width: int
    copies: int | None = None
    cost: int | None = None
    grain: Grain = "along-length"
    offcut: bool = False


@dataclass(frozen=True, slots=True)
class Board:
    """A size of rough board, grain along its length; `thickness` is the rough thickness."""

    id: str
    material: str
    thickness: int
    width: int
    length: int
    copies: int | None = None
    cost: int | None = None


@dataclass(frozen=True, slots=True)
class Operation:
    """A groove, rabbet or hole row: `distance` from the datum edge to its near side (to its centre line for holes)."""

    kind: OperationKind
    distance: int
    depth: int
    width: int
    datum: str = ""


@dataclass(frozen=True, slots=True)
class Demand:
    """Parts wanted: `quantity` equal parts of finished `length` (along the grain unless `grain` says) and `width`."""

    id: str
    material: str
    thickness: int
    length: int
    width: int
    quantity: int = 1
    grain: Grain = "along-length"
    kind: Kind = "sheet"
    operations: tuple[Operation, ...] = ()
    label: str = ""


@dataclass(frozen=True, slots=True)
class ShopLimits:
    """What the shop's saws and cutters can do.

    `edge_trim` is what is taken off each of the four edges of a sheet that is not an offcut, blade included.
    `keep_offcut` is the (length, width) from which a leftover is kept. `mill_*` is what a part cut from rough board
    carries until it is planed: length and width in all, thickness the least a rough board must have over
    the part; `board_edge` is ripped off one edge of each rough board to make it straight, blade included.
    `rip_capacity` None means any distance; `small_piece` is the shortest edge that may ride a fence (common practice).
    """

    kerf: int = 3 * MM
    edge_trim: int = 0
    rip_capacity: int | None = None
    crosscut_capacity: int | None = None
    groove_cutters: tuple[int, ...] = ()
    keep_offcut: tuple[int, int] = (300 * MM, 150 * MM)
    mill_length: int = 0
    mill_width: int = 0
    mill_thickness: int = 0
    board_edge: int = 0
    small_piece: int = 150 * MM


@dataclass(frozen=True, slots=True)
class Placed:
    """One part on a piece of stock: its lower left corner and its size along x (`dx`) and y (`dy`)."""

    demand: str
    x: int
    y: int
    dx: int
    dy: int
    turned: bool


@dataclass(frozen=True, slots=True)
class Cut:
    """One edge-to-edge cut: a `piece` is parted at `fence` into `makes` and `leaves` ("" when nothing is left).

    `along` is "length" when the kerf runs along the stock's length. `rides` says which side lies against the fence (or
    the stop) and so measures `fence`: what the cut "makes", or what it "leaves".
    `run` is how long the kerf is, so also the edge that rides the fence; `across` is the size of the piece square to it
    just before the cut.
    """

    number: int
    piece: str
    makes: str
    leaves: str
    along: Literal["length", "width"]
    tool: Literal["fence", "stop", "track"]
    fence: int
    rides: Literal["makes", "leaves"]
    kerf: int
    run: int
    across: int
    setting: int


@dataclass(frozen=True, slots=True)
class Piece:
    """A rectangle of the cut tree; `cuts` part it into `inside`. `what` tells stock, piece, part, leftover, waste."""

    label: str
    what: Literal["stock", "piece", "part", "leftover", "waste"]
    x: int
    y: int
    dx: int
    dy: int
    demand: str = ""
    cuts: tuple[int, ...] = ()
    inside: tuple[Piece, ...] = ()


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
    grain: Grain


@dataclass(frozen=True, slots=True)
class Layout:
    """One piece of stock, the parts on it, and how it is cut."""

    number: int
    stock: str
    kind: Kind
    material: str
    thickness: int
    length: int
    width: int
    placed: tuple[Placed, ...]
    tree: Piece
    cuts: tuple[Cut, ...]
    leftovers: tuple[Leftover, ...]
    part_area: int


@dataclass(frozen=True, slots=True)
class Pass:
    """One thing done at a setting: a cut by number, or an operation on `count` equal parts of a demand."""

    cut: int
    layout: int
    demand: str
    count: int
    does: str
    datum: str = ""


@dataclass(frozen=True, slots=True)
class Setting:
    """A fence, stop or track distance (or cutter set-up) and all that is done at it before it is moved."""

    number: int
    tool: Literal["fence", "stop", "track", "groove", "rabbet", "hole"]
    distance: int
    cutter: int
    depth: int
    passes: tuple[Pass, ...]


@dataclass(frozen=True, slots=True)
class Purchase:
    """So many of one size of stock; `cost` in minor units, None when it has no price."""

    stock: str
    material: str
    thickness: int
    length: int
    width: int
    quantity: int
    cost: int | None


@dataclass(frozen=True, slots=True)
class Short:
    """Parts that found no stock: why, and the one purchase that would cure it (None when no sheet size would)."""

    demand: str
    quantity: int
    reason: str
    cure: Purchase | None


@dataclass(frozen=True, slots=True)
class Caution:
    """Something to mind at the saw; `cuts` are the numbers it is about."""

    code: str
    level: Literal["note", "caution", "stop"]
    message: str
    cuts: tuple[int, ...] = ()
    demands: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class BoardPlan:
    """One rough board: rip widths and stop lengths in working order, its board feet, and its yield (0 to 1)."""

    layout: int
    stock: str
    rips: tuple[int, ...]
    stops: tuple[int, ...]
    board_feet: float
    part_board_feet: float
    yield_share: float


@dataclass(frozen=True, slots=True)
class Bound:
    """Proved least of what is bought: in minor units when `measure` is "cost", else in square millimetres.

    `value` is proved by `how`; `got` is what this plan uses, so `value == got` means nothing cheaper exists.
    """

    material: str
    thickness: int
    kind: Kind
    measure: Literal["cost", "area"]
    value: int
    got: int
    how: str


@dataclass(frozen=True, slots=True)
class Returns:
    """How often a setting is gone back to, whether that is `proved` least for these cuts, else a lower `bound`."""

    count: int
    proved: bool
    bound: int
    settings: int


@dataclass(frozen=True, slots=True)
class StockPlan:
    """The answer: layouts, settings in working order, what to buy, what is left, and what could not be cut."""

    layouts: tuple[Layout, ...]
    settings: tuple[Setting, ...]
    returns: Returns
    leftovers: tuple[Leftover, ...]
    buy: tuple[Purchase, ...]
    bounds: tuple[Bound, ...]
    use: float
    short: tuple[Short, ...]
    boards: tuple[BoardPlan, ...]
    cautions: tuple[Caution, ...]
    effort: int
    steps: int
