"""From parts and stock on hand to the stock planner's question, and its answer.

Identical parts of several cabinets are one demand to the planner, so that they are cut and set together; its answer
names each piece by the part, and so the cabinet, it is for.
"""

from collections.abc import Callable
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from casewright.api.engine.work.batches import Batch, batches_of, named
from casewright.api.engine.work.settings import cut_key
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
from casewright.api.stock.document import MINOR_UNITS
from casewright.api.stock.planner import untold
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.model import Job, Part, Stock
from casewright.sdk.model import StockPiece as JobPiece

Progress = Callable[[str, int, int], None]
"""Told a stage, how much of it is done and how much there is; answers nothing."""


@dataclass(frozen=True, slots=True)
class Question:
    """All that a cutting plan depends on."""

    batches: tuple[Batch, ...]
    pieces: tuple[StockPiece, ...]
    boards: tuple[Board, ...]
    limits: ShopLimits
    effort: int


class Cutter:
    """Plans cutting, and plans the same question only once: for plans that are compared with one another."""

    def __init__(self) -> None:
        self._answers: dict[Question, StockPlan] = {}

    def plan(self, job: Job, parts: tuple[Part, ...], progress: Progress = untold) -> StockPlan | None:
        """Return how to cut the parts from the job's stock, or `None` for a job without stock.

        `progress` is told each stage of it: its name, how much is done, how much there is.
        Raises `NoGeometryError` naming the limit when there is more than the planner takes.
        """
        if job.stock is None:
            return None
        question = _question(job, job.stock, parts)
        if question not in self._answers:
            self._answers[question] = _answer(question, progress)
        return self._answers[question]


def _question(job: Job, stock: Stock, parts: tuple[Part, ...]) -> Question:
    sheets = [_piece(job, row, False) for row in stock.sheets]
    offcuts = [_piece(job, row, True) for row in stock.offcuts]
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
    demands = [_demand(job, part) for part in parts]
    return Question(batches_of(demands), (*sheets, *offcuts), tuple(boards), limits, stock.effort)


def _answer(question: Question, progress: Progress) -> StockPlan:
    demands = [batch.demand for batch in question.batches]
    try:
        plan = plan_stock(
            demands, question.pieces, question.boards, question.limits, question.effort, progress=progress
        )
    except StockLimitError as error:
        raise NoGeometryError(
            Problem(
                "/stock", f"at most {error.value} ({error.name})", str(error.got), "Split the job into smaller ones."
            )
        ) from error
    return named(plan, question.batches)


def _minor(cost: float | None) -> int | None:
    if cost is None:
        return None
    return int((Decimal(repr(cost)) * MINOR_UNITS).quantize(Decimal(1), ROUND_HALF_UP))


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
