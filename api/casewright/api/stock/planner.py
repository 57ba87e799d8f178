"""`plan_stock`: parts, stock and a shop in; layouts, settings, purchases, leftovers and cautions out."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from typing import NamedTuple

from casewright.api.stock.answer import Answer
from casewright.api.stock.choose import STEPS, Effort
from casewright.api.stock.fewer_settings import Improver, SawnPiece, first_choice
from casewright.api.stock.group import GroupResult, grouped, solve_group
from casewright.api.stock.lots import Lots, in_lots
from casewright.api.stock.request import Demand, ShopLimits, StockRequest, limits_for, validate
from casewright.api.stock.saw_settings import SawTasks, order_cuts
from casewright.api.stock.search import TWENTIETHS
from casewright.api.stock.sources import Source, crosscut_first, usable_sources
from casewright.api.stock.tasks import WorkingOrder
from casewright.sdk.model import StockPlan

TURNS = (1, 6, 6, 6, 6)
TRIALS = (150, 1_500, 2_500, 3_000, 4_000)
STATES = (100, 500, 600, 800, 1_000)
FEW_CUTS = 100
"""Cuts up to which settings are chosen in all turns: a turn of more takes longer."""

Progress = Callable[[str, int, int], None]
"""Called with a stage, how much of it is done and how much there is at most; it never changes an answer."""


class Ordered(NamedTuple):
    """A choice of layouts, and its cuts in working order."""

    sawn: list[SawnPiece]
    tasks: SawTasks
    order: WorkingOrder

    @property
    def returns_and_visits(self) -> tuple[int, int]:
        """How good the order is, less being better."""
        return self.order.returns, len(self.order.visits)


def no_progress(stage: str, done: int, of: int) -> None:
    """Report nothing."""


def plan_stock(request: StockRequest, progress: Progress = no_progress) -> StockPlan:
    """Say how to cut the parts from the stock, buy least, and visit each saw setting once where that is possible.

    The same request always gives the same answer. Parts that no stock can give are `short` in the answer, never an
    error. Stages of `progress` are `cutting` (twentieths of each material) and `settings` (turns at choosing).
    Raises what `request.validate` raises.
    """
    validate(request)
    results = _packed(request, progress)
    best = _ordered(results, first_choice(results), request)
    if best.sawn and request.fewer_settings:
        best = _with_fewer_settings(results, best, request, progress)
    worked = _in_lots(results, best, request)
    return Answer(request, results, worked.tasks, worked.order).build(best.sawn, best.order.returns)


def _packed(request: StockRequest, progress: Progress) -> list[GroupResult]:
    """Pack each material at each thickness into its stock."""
    groups = grouped(request.demands)
    results: dict[int, GroupResult] = {}
    left = STEPS[request.effort - 1]

    def report(done: int, twentieths: int) -> None:
        progress("cutting", TWENTIETHS * done + twentieths, TWENTIETHS * len(groups))

    # small ones first: what they leave of their share of the steps is for the others
    for done, number in enumerate(sorted(range(len(groups)), key=lambda i: (len(groups[i]), i))):
        report(done, 0)
        parts = groups[number]
        limits = limits_for(request.limits, request.pieces, parts[0])
        sources = usable_sources(parts[0], request.pieces, limits)
        effort = Effort(request.effort, left // (len(groups) - done), partial(report, done))
        results[number] = _solved(parts, sources, limits, effort)
        left = max(0, left - results[number].steps)
        report(done + 1, 0)
    return [results[number] for number in range(len(groups))]


def _solved(parts: list[Demand], sources: list[Source], limits: ShopLimits, effort: Effort) -> GroupResult:
    """Pack one group; rough boards are crosscut before they are ripped where that takes no more wood."""
    if not any(source.piece.rough for source in sources):
        return solve_group(parts, sources, limits, effort)
    each = replace(effort, steps=effort.steps // 2)
    ripped = solve_group(parts, sources, limits, each)
    across = solve_group(parts, crosscut_first(sources), limits, each)
    best = across if _wood(across) <= _wood(ripped) else ripped
    return replace(best, steps=ripped.steps + across.steps)


def _wood(result: GroupResult) -> tuple[int, int, int]:
    """Return how much a packing takes: parts with no place, what is bought, and the area of all that is cut."""
    return len(result.absent), result.used, sum(result.sources[one.size].area for one in result.bins)


def _with_fewer_settings(
    results: Sequence[GroupResult], first: Ordered, request: StockRequest, progress: Progress
) -> Ordered:
    """Choose among equally good layouts the one whose settings are gone back to least."""
    best = first
    cuts = sum(len(s.bin.items) for s in first.sawn)
    trials = max(2, TRIALS[request.effort - 1] * 60 // max(60, cuts))
    turns = TURNS[request.effort - 1]
    if cuts > FEW_CUTS:
        turns = max(1, turns * FEW_CUTS // 2 // cuts)
    for turn in range(turns):
        progress("settings", turn, turns)
        other = _ordered(results, Improver(results, first.sawn, turn).run(trials), request)
        if other.returns_and_visits <= best.returns_and_visits:
            best = other
        if not best.order.returns:
            break
    progress("settings", turns, turns)
    return best


def _ordered(results: Sequence[GroupResult], sawn: list[SawnPiece], request: StockRequest) -> Ordered:
    boards = [results[s.group].kind == "board" for s in sawn]
    return Ordered(sawn, *order_cuts([s.block for s in sawn], boards, request.limits, STATES[request.effort - 1]))


def _in_lots(results: Sequence[GroupResult], best: Ordered, request: StockRequest) -> Ordered:
    """Put the cuts in the order asked for: setting by setting if the pieces at hand allow it, else in lots."""
    how = Lots(request.order == "by-setting", request.pieces_at_hand)
    if how.together and not how.crowded((best.tasks, best.order)):
        return best
    boards = [results[s.group].kind == "board" for s in best.sawn]
    blocks = [s.block for s in best.sawn]
    return Ordered(best.sawn, *in_lots(blocks, boards, request.limits, STATES[request.effort - 1], how))
