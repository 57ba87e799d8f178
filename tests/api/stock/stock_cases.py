"""Parts, sheets and checked plans that the tests of this folder share."""

from collections.abc import Sequence

from casewright.api.stock import Demand, ShopLimits, StockRequest, plan_stock
from casewright.sdk.model import StockPiece, StockPlan
from stock_checker import check_plan

MM = 1_000_000
INCH = 25_400_000
PLY = ("birch", 18 * MM)
NO_TRIM = ShopLimits(kerf=3 * MM)


def part(name: str, length: int, width: int, quantity: int = 1, **more: object) -> Demand:
    return Demand(name, *PLY, length * MM, width * MM, quantity, **more)  # type: ignore[arg-type]


def sheet(name: str = "sheet", length: int = 2440, width: int = 1220, **more: object) -> StockPiece:
    return StockPiece(name, *PLY, length * MM, width * MM, **more)  # type: ignore[arg-type]


def planned(demands: Sequence[Demand], pieces: Sequence[StockPiece], limits: ShopLimits = NO_TRIM) -> StockPlan:
    """Return the plan, checked by the independent saw."""
    request = StockRequest(tuple(demands), tuple(pieces), limits)
    plan = plan_stock(request)
    check_plan(plan, request)
    return plan
