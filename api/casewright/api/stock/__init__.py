"""The stock planner: parts, sheets, leftovers and boards in; cut trees, saw settings and purchases out.

Pure functions on frozen data, whole nanometres, no clock: the same call always gives the same plan.
"""

from casewright.api.stock.after import leftover_ids, pieces_after, pile_after
from casewright.api.stock.begun import Begun, begun_of
from casewright.api.stock.board_measure import board_feet, surface_measure, tally_size, volume_board_feet
from casewright.api.stock.cautions import SawCaution, caution_texts, cautions_of, straight_cautions
from casewright.api.stock.need import StockNeed, is_enough, stock_need
from casewright.api.stock.pile import Pile
from casewright.api.stock.planner import Progress, no_progress, plan_stock
from casewright.api.stock.request import (
    Demand,
    ShopLimits,
    StockLimitError,
    StockRequest,
    is_milled,
)
from casewright.api.stock.rows import in_a_row
from casewright.api.stock.saws import SAW_TOOLS, Saws, StraightCut, in_place_of_a_table_saw

__all__ = [
    "SAW_TOOLS",
    "Begun",
    "Demand",
    "Pile",
    "Progress",
    "SawCaution",
    "Saws",
    "ShopLimits",
    "StockLimitError",
    "StockNeed",
    "StockRequest",
    "StraightCut",
    "begun_of",
    "board_feet",
    "caution_texts",
    "cautions_of",
    "in_a_row",
    "in_place_of_a_table_saw",
    "is_enough",
    "is_milled",
    "leftover_ids",
    "no_progress",
    "pieces_after",
    "pile_after",
    "plan_stock",
    "stock_need",
    "straight_cautions",
    "surface_measure",
    "tally_size",
    "volume_board_feet",
]
