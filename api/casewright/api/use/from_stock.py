"""From stock: the best few jobs that the stock on hand yields, of a job whose sizes are ranges.

Each place in the ranges is a job like any other: read, its cabinets planned, its parts cut. What no place can be worth
more than is shown by area and the longest parts. Where cabinets stand on a wall is left out of the search; an answer
keeps it where its cabinets go there.
"""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import replace
from functools import partial
from typing import Any

from casewright.api.engine import Draft, PlanCache
from casewright.api.job import limits
from casewright.api.job.document import read_job
from casewright.api.job.ranges import NUMBERS, Aim, PileQuestion, read_question
from casewright.api.stock import Pile, Progress, no_progress
from casewright.api.use.given import json_values
from casewright.api.use.job_input import JobInput
from casewright.api.use.least_change import least_change, request_of
from casewright.api.use.loading import installed
from casewright.api.use.pile_outlines import Outlines
from casewright.api.use.pile_search import Grid, Point, Worth, best_points, upper_bound
from casewright.api.use.pile_sizes import PileSizes, Planned
from casewright.api.use.planning import Planner
from casewright.api.wire.from_stock_document import (
    PileAnswer,
    PileResult,
    from_stock_document,
    stop_codes,
)
from casewright.api.wire.made_by import fingerprint
from casewright.sdk.errors import NoGeometryError, Problem, ProblemsError, UnusableJobError
from casewright.sdk.loader import Registry
from casewright.sdk.model import Job, Part, Plan
from casewright.sdk.units import MM

LOOKED_AT = 400
"""Boxes of places that are looked at for the bound."""
STEPS = 24_000_000
"""Counted steps of all that is tried on the pile: some two seconds."""
DRAFTED, DECIDED = 3_000, 200
"""Counted steps that planning a place takes for each part of it, and that a place takes in any case."""
SEED = 20_240_229
SPARE = 4
"""Times as many places as answers that are planned, at most, as a plan may refuse what the search took."""
NO_ROOM_THERE = frozenset({"cabinets-overlap", "obstacle-hit", "wall-end-passed", "ceiling-hit"})
"""Codes of stops that a cabinet does not go where the job puts it."""
NO_WOOD = UnusableJobError(
    Problem("/stock", "stock on hand to cut from", "none", 'List sheets with "copies", offcuts or boards in it.')
)


def from_stock_answer(question: PileQuestion, planner: Planner, progress: Progress = no_progress) -> dict[str, Any]:
    """Return what `from_stock` does as JSON values. Raises as it does, places named under `/job`."""
    result = from_stock(question, planner, progress)
    return from_stock_document(result, planner.made_by, fingerprint(question.as_json, planner.registry))


def from_stock_of_job(
    job: Mapping[str, Any], aim: str, answers: int, registry: Registry | None = None
) -> dict[str, Any]:
    """Return what the pile yields of a job given as JSON values. Raises as `from_stock` does, places under `/job`."""
    planner = Planner(installed() if registry is None else registry)
    question = read_question(json_values({"job": job, "aim": aim, "answers": answers}), planner.registry)
    return from_stock_answer(question, planner)


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

    Stages of `progress`: `bound`, `pile` (hundredths of what may be tried) and `answers` (planned whole), or `changes`
    for the least one. Raises what reading the job with the least sizes raises, and `UnusableJobError` where it lists no
    stock.
    """
    job = least_job(question, planner.registry)
    with _under_job():
        if question.aim is Aim.LEAST_CHANGE:
            return least_change(question, planner, job, progress)
        return _Search(question, planner, job, progress).result()


class _Search:
    def __init__(self, question: PileQuestion, planner: Planner, job: Job, progress: Progress) -> None:
        self.question, self.planner, self.progress, self.job = question, planner, progress, job
        self.cache = PlanCache()
        self.outlines = Outlines(question, job)
        self.steps = 0
        self.least = (0,) * len(question.ranges)
        least = self.draft(self.least)
        assert least is not None
        request = request_of(least)
        self.pile = Pile(request.pieces, request.limits)
        self.common = stop_codes(least.checks) & self.stops(tuple([len(one.values) - 1 for one in question.ranges]))
        self.sizes = PileSizes(question.ranges, [one.id for one in job.cabinets], self.planned, self.common)
        self.most_bought = self.bought(self.least)

    def document(self, point: Point) -> Any:
        """Return the job at a place: cabinets unplaced, and only stock on hand where none is to be bought."""
        document = self.placed(point)
        if isinstance(document.get("wall"), dict):
            document["wall"] = {key: value for key, value in document["wall"].items() if key != "cabinets_at"}
        return document

    def placed(self, point: Point) -> dict[str, Any]:
        """Return the job at a place with its cabinets where the job puts them on its wall."""
        document = dict(self.question.job(point))
        stock = document.get("stock")
        if isinstance(stock, dict) and self.question.aim.on_hand_only:
            document["stock"] = _on_hand(stock)
        return document

    def draft(self, point: Point) -> Draft | None:
        """Read the job at a place and plan it but for its cutting; `None` where it has no geometry.

        Raises where that is the place of the least sizes.
        """
        try:
            draft = self.planner.draft(JobInput(self.document(point), self.planner.registry), self.cache)
        except (NoGeometryError, UnusableJobError):
            if point == self.least:
                raise
            return None
        self.steps += DRAFTED * len(draft.parts)
        return draft

    def planned(self, point: Point) -> Planned | None:
        """Return what is cut for each cabinet at a place, and its stops."""
        draft = self.draft(point)
        if draft is None:
            return None
        names = {one.id for one in draft.job.cabinets}
        parts: dict[str, list[Part]] = {}
        for part in draft.parts:
            parts.setdefault(part.cabinet if part.cabinet in names else "", []).append(part)
        demands = {name: request_of(replace(draft, parts=tuple(some))).demands for name, some in parts.items()}
        return Planned(demands, stop_codes(draft.checks))

    def stops(self, point: Point) -> frozenset[str]:
        """Return the codes of a place's stops."""
        draft = self.draft(point)
        return frozenset() if draft is None else stop_codes(draft.checks)

    def bought(self, point: Point) -> int | None:
        """Return what is bought for a place; `None` where no cutting is found."""
        demands = self.sizes.demands(point)
        return None if demands is None else self.pile.bought(demands)

    def worth(self, point: Point) -> Worth:
        """Return what a place is worth: room inside the cabinets' outlines or wood used, then the number of shelves."""
        volume = self.outlines.volume(point) // MM**3
        if self.question.aim is Aim.LEAST_LEFT:
            demands = self.sizes.demands(point) or ()
            return (sum(one.length * one.width * one.quantity for one in demands), volume)
        ranges = zip(self.question.ranges, point, strict=True)
        shelves = sum(int(one.values[place]) for one, place in ranges if one.path[-1] in NUMBERS - {"count"})
        return (volume, shelves)

    def grid(self) -> Grid:
        """Return what is searched."""
        sizes = tuple([len(one.values) for one in self.question.ranges])
        return Grid(sizes, worth=self.worth, possible=self.possible, yields=self.yields)

    def possible(self, point: Point) -> bool:
        """Return whether it is not proved that the pile yields neither a place nor a larger one."""
        demands = self.sizes.demands(point)
        return demands is not None and not self.pile.cannot(demands)

    def yields(self, point: Point) -> bool:
        """Return whether the pile yields a place, without stops that others have not and without buying more."""
        return self.within(self.bought(point)) and self.sizes.allowed(point)

    def within(self, bought: int | None) -> bool:
        """Return whether a place is cut and no more is bought for it than for the least sizes."""
        return bought is not None and self.most_bought is not None and bought <= self.most_bought

    def holds(self, point: Point) -> bool:
        """Return whether a place yields once it is planned itself."""
        draft = self.draft(point)
        if draft is None or not stop_codes(draft.checks) <= self.common:
            return False
        return self.within(self.pile.bought(request_of(draft).demands))

    def used(self, grid: Grid) -> int:
        """Return how much of what may be tried is tried, in hundredths."""
        steps = self.steps + self.pile.steps + DECIDED * grid.decided
        return min(100, max(100 * grid.tried // limits.PLACES_TRIED, 100 * steps // STEPS))

    def result(self) -> PileResult:
        """Search, and plan the best places whole."""
        self.progress("bound", 0, 1)
        grid = self.grid()
        bound = upper_bound(grid, LOOKED_AT)
        self.progress("bound", 1, 1)

        def more() -> bool:
            used = self.used(grid)
            self.progress("pile", used, 100)
            return used < 100

        points = best_points(grid, SEED, more) if bound else []
        self.progress("pile", 100, 100)
        answers: list[PileAnswer] = []
        for point in points[: SPARE * self.question.answers]:
            self.progress("answers", len(answers), self.question.answers)
            if len(answers) == self.question.answers:
                break
            if not self.holds(point):
                continue
            document, plan = self.answer(point)
            if _cut(plan) and (self.question.aim is Aim.LEAST_BOUGHT or not plan.stock or not plan.stock.buy):
                values = tuple(one.values[place] for one, place in zip(self.question.ranges, point, strict=True))
                answers.append(PileAnswer(document, values, self.worth(point), plan, self.question.ranges))
        self.progress("answers", len(answers), self.question.answers)
        answers.sort(key=partial(_rank, self.question.aim), reverse=True)
        least = None if answers else self.planned_whole(self.document(self.least))
        return PileResult(self.question, self.job, tuple(answers), bound, grid.tried, least)

    def answer(self, point: Point) -> tuple[dict[str, Any], Plan]:
        """Return the job at a place and its plan: with its cabinets on the wall where they go there, else without."""
        document = self.document(point)
        if self.job.wall is not None and self.job.wall.cabinets_at:
            placed = self.placed(point)
            with suppress(NoGeometryError, UnusableJobError):
                plan = self.planned_whole(placed)
                if not stop_codes(plan.checks) & NO_ROOM_THERE:
                    return placed, plan
        return document, self.planned_whole(document)

    def planned_whole(self, document: Any) -> Plan:
        """Return the whole plan of a job's document."""
        return self.planner.plan(JobInput(document, self.planner.registry), cache=self.cache)


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
