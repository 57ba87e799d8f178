"""From parts and stock on hand to the stock planner's question, and its answer."""

from casewright.api.engine.settings import cut_key
from casewright.api.stock import (
    Board,
    Demand,
    Operation,
    ShopLimits,
    StockLimitError,
    StockPiece,
    StockPlan,
    plan_stock,
)
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.model import Job, Part
from casewright.sdk.model import StockPiece as JobPiece

MINOR_UNITS = 100
"""Costs are given in whole money and compared in hundredths of it."""


def plan_cutting(job: Job, parts: tuple[Part, ...]) -> StockPlan | None:
    """Return how to cut the parts from the job's stock, or `None` for a job without stock.

    Raises `NoGeometryError` naming the limit when there is more than the planner takes.
    """
    stock = job.stock
    if stock is None:
        return None
    pieces = [*(_piece(job, row, False) for row in stock.sheets), *(_piece(job, row, True) for row in stock.offcuts)]
    boards = [
        Board(row.id, row.material, row.thickness, row.width, row.length, row.copies, _minor(row.cost))
        for row in stock.boards
    ]
    limits = ShopLimits(
        kerf=stock.kerf,
        edge_trim=stock.edge_trim,
        rip_capacity=job.shop.rip_capacity,
        crosscut_capacity=job.shop.crosscut_capacity,
        groove_cutters=job.shop.groove_cutters,
        keep_offcut=(max(job.shop.keep_offcut), min(job.shop.keep_offcut)),
        mill_length=stock.mill_length,
        mill_width=stock.mill_width,
        mill_thickness=stock.mill_thickness,
    )
    try:
        return plan_stock([_demand(job, part) for part in parts], pieces, boards, limits, stock.effort)
    except StockLimitError as error:
        raise NoGeometryError(
            Problem(
                "/stock", f"at most {error.value} ({error.name})", str(error.got), "Split the job into smaller ones."
            )
        ) from error


def _minor(cost: float | None) -> int | None:
    return None if cost is None else round(cost * MINOR_UNITS)


def _piece(job: Job, row: JobPiece, offcut: bool) -> StockPiece:
    return StockPiece(
        id=row.id,
        material=row.material,
        thickness=job.materials[row.material].thickness,
        length=row.length,
        width=row.width,
        copies=row.copies,
        cost=_minor(row.cost),
        grain=row.grain,
        offcut=offcut,
    )


def _demand(job: Job, part: Part) -> Demand:
    kind = job.materials[part.material].kind
    operations: list[Operation] = []
    for feature in part.features:
        key = cut_key(part, feature)
        if key.kind in ("groove", "rabbet"):
            operations.append(
                Operation("groove" if key.kind == "groove" else "rabbet", key.offset, key.depth, key.across, key.datum)
            )
    return Demand(
        id=part.id,
        material=part.material,
        thickness=part.thickness,
        length=part.length,
        width=part.width,
        quantity=part.quantity,
        grain=part.grain,
        kind="sheet" if kind == "sheet" else "board",
        operations=tuple(dict.fromkeys(operations)),
        label=part.name,
    )
