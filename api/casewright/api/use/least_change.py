"""The least change of size of a fixed job that saves a sheet or a board, or ends a shortage.

One size of one cabinet is made less, or the same size of all cabinets by as much, in steps; a change that does it is
halved in on, as less wood is needed the smaller a cabinet is. Every answer is planned whole. All is counted.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from casewright.api.engine import Draft, PlanCache
from casewright.api.engine.planner import make_draft
from casewright.api.engine.work.cutting import question_of
from casewright.api.job.ranges import SIZES, PileQuestion, Range
from casewright.api.stock import Progress, StockNeed, StockRequest, stock_need
from casewright.api.use.job_input import JobInput
from casewright.api.use.planning import Planner
from casewright.api.wire.from_stock_document import PileAnswer, PileResult, stop_codes
from casewright.sdk.errors import NoGeometryError, UnusableJobError
from casewright.sdk.model import Job
from casewright.sdk.units import INCH, MM, Units, to_number

STEPS: dict[Units, int] = {"in": INCH // 8, "mm": 2 * MM}
"""What a size is changed by at a time."""
MOST: dict[Units, int] = {"in": 2 * INCH, "mm": 50 * MM}
"""What a size is changed by at most."""
TRIED = 120
"""Changes tried on the stock, at most."""


@dataclass(frozen=True, slots=True)
class _Change:
    """Sizes to change together, each from what it is down, step by step, and the sum of one step."""

    ranges: tuple[Range, ...]

    def question(self, question: PileQuestion) -> PileQuestion:
        """Return the question with the sizes of this change as its ranges."""
        return replace(question, ranges=self.ranges)


def least_change(question: PileQuestion, planner: Planner, job: Job, progress: Progress) -> PileResult:
    """Return the changes found, least first, as answers; `bound` is nothing, as nothing is proved of them.

    Raises as planning the job itself does.
    """
    search = _Search(question, planner, progress)
    now = search.need(job)
    answers: list[tuple[int, PileAnswer]] = []
    for change in _changes(job):
        step = search.least(change, now)
        if step is None:
            continue
        as_question = change.question(question)
        document = as_question.job((step,) * len(change.ranges))
        plan = planner.plan(JobInput(document, planner.registry), cache=search.cache)
        if plan.stock is None or (plan.stock.short and not now.short) or not stop_codes(plan.checks) <= search.stops:
            continue
        values = tuple(one.values[step] for one in change.ranges)
        answers.append((step * len(change.ranges), PileAnswer(document, values, (), plan, change.ranges)))
    answers.sort(key=lambda row: row[0])
    kept = tuple([answer for _, answer in answers[: question.answers]])
    return PileResult(question, job, kept, None, search.tried)


def request_of(draft: Draft) -> StockRequest:
    """Return what is cut for a draft of a job that has stock."""
    assert draft.job.stock is not None
    return question_of(draft.job, draft.job.stock, draft.parts, draft.waiting.over).request


def _changes(job: Job) -> Iterator[_Change]:
    """Yield each size of each cabinet, and each size of all of them where there are several."""
    for key in sorted(SIZES):
        every = tuple([_falling(job, i, key) for i in range(len(job.cabinets))])
        yield from (_Change((one,)) for one in every)
        if len(every) > 1:
            yield _Change(every)


def _falling(job: Job, at: int, key: str) -> Range:
    cabinet, step = job.cabinets[at], STEPS[job.units]
    size: int = getattr(cabinet, key)
    count = min(MOST[job.units], size // 4) // step
    values = tuple([to_number(size - k * step, job.units) for k in range(count + 1)])
    return Range(("cabinets", at, key), values)


class _Search:
    def __init__(self, question: PileQuestion, planner: Planner, progress: Progress) -> None:
        self.question, self.planner, self.progress = question, planner, progress
        self.cache = PlanCache()
        self.tried = 0
        self.stops: frozenset[str] = frozenset()

    def need(self, job: Job) -> StockNeed:
        """Return what the fixed job takes, and keep the codes of its stops."""
        draft = make_draft(job, self.planner.registry, with_stock=False, cache=self.cache)
        self.stops = stop_codes(draft.checks) | {"no-stock"}
        return stock_need(request_of(draft))

    def least(self, change: _Change, now: StockNeed) -> int | None:
        """Return the least step of a change that betters what the job takes, or None where none does."""
        low, high = 0, min(len(one.values) for one in change.ranges) - 1
        if high < 1 or not self.betters(change, high, now):
            return None
        while high - low > 1:
            middle = (low + high) // 2
            if self.betters(change, middle, now):
                high = middle
            else:
                low = middle
        return high

    def betters(self, change: _Change, step: int, now: StockNeed) -> bool:
        """Return whether a step of a change takes less."""
        if self.tried == TRIED:
            return False
        self.tried += 1
        self.progress("changes", self.tried, TRIED)
        document = change.question(self.question).job((step,) * len(change.ranges))
        try:
            draft = self.planner.draft(JobInput(document, self.planner.registry), self.cache)
        except (NoGeometryError, UnusableJobError):
            return False
        if not stop_codes(draft.checks) <= self.stops:
            return False
        return stock_need(request_of(draft)).betters(now)
