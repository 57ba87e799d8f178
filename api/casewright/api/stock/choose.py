"""Choosing which pieces of stock to use: the cheapest set that the packer can show to hold every part."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from typing import Self

from casewright.api.stock.bounds import least_cost
from casewright.api.stock.cheaper import Cheaper
from casewright.api.stock.exact import fill_exactly, may_be_exact
from casewright.api.stock.fill import fill_at_once, fill_in_turn, fill_pile, is_pile
from casewright.api.stock.moves import Mover
from casewright.api.stock.search import SCORERS, Bin, Space, StepBudget, cost_of, new_bin, no_report, orders

STEPS = (100_000, 10_000_000, 70_000_000, 110_000_000, 340_000_000)
"""Steps of a job by effort: about a twelfth of a second for a million, on a machine of the day."""
EXACT = 3
"""Least effort at which a cutting without waste is looked for, where pieces of stock have just the parts' area."""
FEW = 75
"""Parts of which such a cutting is looked for: of more none is found in the steps there are."""


@dataclass(frozen=True, slots=True)
class Effort:
    """How hard to look, 1 to 5, in `steps` counted steps; `report` is called with each twentieth of them."""

    level: int
    steps: int
    report: Callable[[int], None] = no_report

    @classmethod
    def of(cls, level: int) -> Self:
        """Return the effort of a level for a job of one group."""
        return cls(level, STEPS[level - 1])


@dataclass(slots=True)
class Packing:
    """Pieces of stock with their parts, and the parts that found no place."""

    bins: list[Bin]
    absent: list[int]
    steps: int


def pack(space: Space, effort: Effort, bought: int = 0, share: int = 1) -> Packing:
    """Give the best packing found within the counted steps of an effort.

    `bought` is a proved least of what is bought and `share` how many units of price one unit bought is: once that
    much is reached, only a fifth of the steps that are left go into using less of what is on hand.
    """
    area = least_cost(space, sum(space.area), [w * h for w, h in space.sizes]) or 0
    bound = max(area, bought * share)
    budget = StepBudget(effort.steps, effort.report)
    bins, absent = first_packing(space, budget, bound)
    if (
        not absent
        and effort.level >= EXACT
        and not space.strips
        and len(space.area) <= FEW
        and cost_of(space, bins) > bound
        and may_be_exact(space)
    ):
        exact = fill_exactly(space, budget, budget.steps + budget.left // 2)
        if exact is not None and cost_of(space, exact) < cost_of(space, bins):
            bins = exact
    if not absent:
        bins = Cheaper(space, bins, bound, budget).run((bought + 1) * share)
    return Packing([b for b in bins if b.items], absent, budget.steps)


def first_packing(space: Space, budget: StepBudget, bound: int | None = None) -> tuple[list[Bin], list[int]]:
    """Give pieces of stock with as many parts as find a place, and the parts left.

    Cheap ones are looked for until one costs `bound`, a proved least; without it the first that holds all will do.
    """
    bins, absent = _construct(space, budget, 10**30 if bound is None else bound)
    return _use_all(space, bins, absent, budget) if absent else (bins, absent)


def holds_all(space: Space, steps: int) -> bool:
    """Whether a greedy filling holds every part: `pack` begins with it, so with as many steps it holds them too."""
    return not _construct(space, StepBudget(steps), 10**30)[1]


def _construct(space: Space, budget: StepBudget, bound: int) -> tuple[list[Bin], list[int]]:
    """Give the best of several greedy fillings."""
    best: tuple[list[Bin], list[int]] | None = None
    best_key: tuple[int, int] = (0, 0)
    one = len(space.sizes) == 1 and len(space.area) <= 600
    many = len(space.area) >= 60 and not space.strips
    fills = [(0, scorer) for scorer in SCORERS] + ([(1, scorer) for scorer in SCORERS] if one else [])
    tries = [(order, how, scorer) for order in orders(space) for how, scorer in fills]
    if many:
        first = orders(space)[0]
        tries[1:1] = [(first, 2, 0.0), (first, 2, 0.3)]
    if is_pile(space):
        tries += [(order, 3, scorer) for order in orders(space) for scorer in SCORERS]
    for order, how, scorer in tries:
        if best is not None and budget.steps * 3 > budget.limit:
            return best
        if how == 3:
            bins, absent = fill_pile(space, order, budget, scorer)
        elif how == 1:
            bins, absent = fill_at_once(space, order, budget, scorer)
        else:
            bins, absent = fill_in_turn(space, order, budget, scorer, how == 2)
        key = (sum(space.area[i] for i in absent), cost_of(space, bins))
        if best is None or key < best_key:
            best, best_key = (bins, absent), key
        if not absent and key[1] <= bound:
            return bins, absent
    assert best is not None
    return best


def _use_all(space: Space, bins: list[Bin], absent: list[int], budget: StepBudget) -> tuple[list[Bin], list[int]]:
    """All stock on the table: place as much area as can be placed."""
    used = Counter(b.size for b in bins)
    every = list(bins)
    for t, count in enumerate(space.copies):
        every += [new_bin(space, t) for _ in range(min(count, len(absent) + used[t]) - used[t])]
    if not every:
        return bins, absent
    mover = Mover(space, every, absent, budget)
    mover.run(budget.steps + budget.left // 2)
    return mover.bins, mover.absent
