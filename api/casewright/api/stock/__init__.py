"""The stock planner: parts, sheets, leftovers and boards in; cut trees, saw settings and purchases out.

Pure functions on frozen data, whole nanometres, no clock: the same call always gives the same plan.
"""

from casewright.api.stock.document import to_document
from casewright.api.stock.measure import board_feet, surface_measure, tally_size, volume_board_feet
from casewright.api.stock.model import (
    MAX_DEMANDS,
    MAX_LENGTH,
    MAX_PARTS,
    MAX_STOCK_ROWS,
    Board,
    BoardPlan,
    Bound,
    Caution,
    Cut,
    Demand,
    Layout,
    Leftover,
    Operation,
    Pass,
    Piece,
    Placed,
    Purchase,
    Returns,
    Setting,
    ShopLimits,
    Short,
    StockLimitError,
    StockPiece,
    StockPlan,
)
from casewright.api.stock.planner import plan_stock

__all__ = [
    "MAX_DEMANDS",
    "MAX_LENGTH",
    "MAX_PARTS",
    "MAX_STOCK_ROWS",
    "Board",
    "BoardPlan",
    "Bound",
    "Caution",
    "Cut",
    "Demand",
    "Layout",
    "Leftover",
    "Operation",
    "Pass",
    "Piece",
    "Placed",
    "Purchase",
    "Returns",
    "Setting",
    "ShopLimits",
    "Short",
    "StockLimitError",
    "StockPiece",
    "StockPlan",
    "board_feet",
    "plan_stock",
    "surface_measure",
    "tally_size",
    "to_document",
    "volume_board_feet",
]
