"""From the pile: the best few jobs that the stock on hand yields, of a job whose sizes are ranges.

Each place in the ranges is a job like any other: read, its cabinets planned, its parts cut. What no place can be worth
more than is shown by area and the longest parts. Places on a wall are left out, so cabinets are reported unplaced.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from typing import Any

from casewright.api.engine import PlanCache
from casewright.api.job import limits
from casewright.api.job.document import read_job
from casewright.api.job.problems import UnusableJobError
from casewright.api.job.ranges import NUMBERS, Aim, PileQuestion
from casewright.api.stock import Demand, Pile, Progress, StockRequest, no_progress
from casewright.api.use.job_input import JobInput
from casewright.api.use.least_change import least_change, request_of
from casewright.api.use.pile_search import Grid, Point, Worth, best_points, upper_bound
from casewright.api.use.planning import Planner
from casewright.api.wire.from_stock_document import (
    PileAnswer,
    PileResult,
    from_stock_document,
    outside_volume,
    stop_codes,
)
from casewright.api.wire.made_by import fingerprint
from casewright.sdk.errors import NoGeometryError, Problem, ProblemsError
from casewright.sdk.loader import Registry
from casewright.sdk.model import Job, Plan
from casewright.sdk.units import MM

LOOKED_AT = 100
"""Boxes of places that are looked at for the bound."""
SEED = 20_240_229
SPARE = 2
"""Times as many places as answers that are planned whole, at most, as a plan may refuse what the search took."""
NO_WOOD = UnusableJobError(
    Problem("/stock", "stock on hand to cut from", "none", 'List sheets with "copies", offcuts or boards in it.')
)


@dataclass(frozen=True, slots=True)
class _Facts:
    """What a place in the ranges comes to: its worth, what is cut (None: no geometry), and the codes of its stops."""

    worth: Worth
    request: StockRequest | None
    stops: frozenset[str]


def from_stock_answer(question: PileQuestion, planner: Planner, progress: Progress = no_progress) -> dict[str, Any]:
    """Return what `from_stock` does as JSON values. Raises as it does, places named under `/job`."""
    result = from_stock(question, planner, progress)
    return from_stock_document(result, planner.made_by, fingerprint(question.asked, planner.registry))


def least_job(question: PileQuestion, registry: Registry) -> Job:
    """Return the job of the least sizes, read. Raises as reading a job does, places named under `/job`."""
    with _under_job():
        job = read_job(question.job((0,) * len(question.ranges)), registry)
        if job.stock is None or not job.stock.pieces:
            raise NO_WOOD
    return job


@contextmanager
def _under_job() -> Iterator[None]:
    """Let problems of the job name their places under `/job`."""
    try:
        yield
    except ProblemsError as error:
        raise type(error)(*(problem.under("/job") for problem in error.problems)) from error


def from_stock(question: PileQuestion, planner: Planner, progress: Progress = no_progress) -> PileResult:
    """Return the best few jobs found, and what no job of the ranges is worth more than.

    Stages of `progress`: `bound`, `pile` (places tried) and `answers` (planned whole), or `changes` for the least one.
    Raises what reading the job with the least sizes raises, and `UnusableJobError` where it lists no stock.
    """
    job = least_job(question, planner.registry)
    with _under_job():
        if question.aim is Aim.LEAST_CHANGE:
            return least_change(question, planner, job, progress)
        return _Search(question, planner, job, progress).result()


class _Search:
    def __init__(self, question: PileQuestion, planner: Planner, job: Job, progress: Progress) -> None:
        self.question, self.planner, self.progress = question, planner, progress
        self.cache = PlanCache()
        self.facts: dict[Point, _Facts] = {}
        self.least = (0,) * len(question.ranges)
        self.top = tuple([len(one.values) - 1 for one in question.ranges])
        self.job = job
        self.common = self.of(self.least).stops & self.of(self.top).stops
        self.most_bought: int | None = None

    def document(self, point: Point) -> Any:
        """Return the job at a place: cabinets unplaced, and only stock on hand where none is to be bought."""
        document = dict(self.question.job(point))
        if isinstance(document.get("wall"), dict):
            document["wall"] = {key: value for key, value in document["wall"].items() if key != "cabinets_at"}
        stock = document.get("stock")
        if isinstance(stock, dict) and self.question.aim is not Aim.LEAST_BOUGHT:
            document["stock"] = _on_hand(stock)
        return document

    def of(self, point: Point) -> _Facts:
        """Return what a place comes to."""
        if point not in self.facts:
            self.facts[point] = self.worked_out(point)
        return self.facts[point]

    def worked_out(self, point: Point) -> _Facts:
        """Read and plan the job at a place, but for its cutting."""
        try:
            draft = self.planner.draft(JobInput(self.document(point), self.planner.registry), self.cache)
        except (NoGeometryError, UnusableJobError):
            if point == self.least:
                raise
            return _Facts((0,), None, frozenset())
        request = request_of(draft)
        return _Facts(self.worth(draft.job, request.demands, point), request, stop_codes(draft.checks))

    def worth(self, job: Job, demands: tuple[Demand, ...], point: Point) -> Worth:
        """Return what a place is worth: room inside the cabinets' outlines or wood used, then the number of shelves."""
        ranges = zip(self.question.ranges, point, strict=True)
        shelves = sum(int(one.values[place]) for one, place in ranges if one.path[-1] in NUMBERS - {"count"})
        volume = outside_volume(job) // MM**3
        if self.question.aim is Aim.LEAST_LEFT:
            return (sum(one.length * one.width * one.quantity for one in demands), volume)
        return (volume, shelves)

    def grid(self) -> Grid:
        """Return what is searched."""
        return Grid(
            sizes=tuple([len(one.values) for one in self.question.ranges]),
            worth=lambda point: self.of(point).worth,
            possible=self.possible,
            yields=self.yields,
        )

    def possible(self, point: Point) -> bool:
        """Return whether it is not proved that the pile yields neither a place nor a larger one."""
        request = self.of(point).request
        return request is not None and not Pile(request.pieces, request.limits).cannot(request.demands)

    def yields(self, point: Point) -> bool:
        """Return whether the pile yields a place, without stops that others have not and without buying more."""
        facts = self.of(point)
        if facts.request is None or not facts.stops <= self.common:
            return False
        bought = Pile(facts.request.pieces, facts.request.limits).bought(facts.request.demands)
        if bought is None:
            return False
        if self.most_bought is None:
            self.most_bought = bought
        return bought <= self.most_bought

    def report(self, tried: int) -> None:
        """Report how many places are tried."""
        self.progress("pile", tried, limits.PLACES_TRIED)

    def result(self) -> PileResult:
        """Search, and plan the best places whole."""
        self.progress("bound", 0, 1)
        grid = self.grid()
        bound = upper_bound(grid, LOOKED_AT)
        self.progress("bound", 1, 1)
        points = best_points(grid, limits.PLACES_TRIED, SEED, self.report) if bound else []
        answers: list[PileAnswer] = []
        for point in points[: SPARE * self.question.answers]:
            self.progress("answers", len(answers), self.question.answers)
            if len(answers) == self.question.answers:
                break
            document = self.document(point)
            plan = self.planner.plan(JobInput(document, self.planner.registry), cache=self.cache)
            if _cut(plan) and (self.question.aim is Aim.LEAST_BOUGHT or not plan.stock or not plan.stock.buy):
                values = tuple(one.values[place] for one, place in zip(self.question.ranges, point, strict=True))
                answers.append(PileAnswer(document, values, self.of(point).worth, plan, self.question.ranges))
        self.progress("answers", len(answers), self.question.answers)
        answers.sort(key=partial(_rank, self.question.aim), reverse=True)
        return PileResult(self.question, self.job, tuple(answers), bound, grid.tried)


def _rank(aim: Aim, answer: PileAnswer) -> tuple[int, ...]:
    """Return what answers are ordered by: less bought where that is the aim, worth, then leftovers worth keeping."""
    stock = answer.plan.stock
    assert stock is not None
    kept = sum(left.length * left.width for left in stock.leftovers if left.keep)
    bought = sum(bound.bought for bound in stock.bounds) if aim is Aim.LEAST_BOUGHT else 0
    return (-bought, *answer.worth, kept)


def _cut(plan: Plan) -> bool:
    return plan.stock is not None and not plan.stock.short


def _on_hand(stock: dict[str, Any]) -> dict[str, Any]:
    """Return a job's stock without what is only to be bought: sheets and boards whose `copies` are not a number."""
    out = dict(stock)
    for kind in ("sheets", "boards"):
        rows = stock.get(kind)
        if isinstance(rows, list):
            out[kind] = [row for row in rows if not isinstance(row, dict) or row.get("copies") is not None]
    return out
