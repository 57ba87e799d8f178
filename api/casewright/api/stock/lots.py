"""Cuts put in order lot by lot: each sheet and board by itself, or as many together as leave few loose pieces about.

Within a lot a setting serves all its pieces of stock; from lot to lot it is set anew. A loose piece is one that was cut
off and is still to be cut.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from casewright.api.stock.forest import Block
from casewright.api.stock.request import ShopLimits
from casewright.api.stock.saw_settings import SawTasks, order_cuts
from casewright.api.stock.tasks import Task, WorkingOrder

__all__ = ["Lots", "at_hand", "in_lots"]

Lot = tuple[SawTasks, WorkingOrder]


@dataclass(frozen=True, slots=True)
class Lots:
    """Whether a lot may be several pieces of stock, and how many loose pieces it leaves at most; `None`: any number."""

    together: bool
    most: int | None

    def crowded(self, lot: Lot) -> bool:
        """Return whether a lot leaves more loose pieces than there is room for."""
        return self.most is not None and at_hand(*lot) > self.most


def at_hand(tasks: SawTasks, order: WorkingOrder) -> int:
    """Return how many loose pieces there are at most, after any visit to a setting."""
    left = [len(task.cuts) for task in tasks.tasks]
    done: set[tuple[int, int]] = set()
    loose: set[int] = set()

    def made(at: int, place: int) -> None:
        done.add((at, place))
        left[at] -= 1
        if left[at] == 0:
            loose.discard(at)
        there(tasks.tasks[at].cuts[place][1])
        spare(at)

    def there(at: int) -> None:
        if at >= 0:
            loose.add(at)
            spare(at)

    def spare(at: int) -> None:
        if tasks.tasks[at].exact and left[at] == 1:
            made(at, next(place for place in range(len(tasks.tasks[at].cuts)) if (at, place) not in done))

    for root in tasks.roots:
        spare(root)
    most = 0
    for _, cuts in order.visits:
        for at, place in cuts:
            made(at, place)
        most = max(most, len(loose))
    return most


def in_lots(blocks: Sequence[Block], boards: Sequence[bool], limits: ShopLimits, states: int, how: Lots) -> Lot:
    """Return the cuts of pieces of stock in order, lot by lot.

    Where one piece of stock alone leaves too many loose pieces, each of these is cut up before the next is cut off.
    """
    lots: list[tuple[int, Lot]] = []
    at = 0
    while at < len(blocks):
        taken = 1
        lot = order_cuts(blocks[at : at + 1], boards[at : at + 1], limits, states)
        while how.together and at + taken < len(blocks):
            wider = order_cuts(blocks[at : at + taken + 1], boards[at : at + taken + 1], limits, states)
            if how.crowded(wider):
                break
            lot, taken = wider, taken + 1
        if how.crowded(lot):
            tasks, _ = lot
            lot = min(lot, (tasks, _one_by_one(tasks)), key=lambda one: at_hand(*one))
        lots.append((at, lot))
        at += taken
    return _joined(lots)


def _one_by_one(tasks: SawTasks) -> WorkingOrder:
    """Return the cuts of tasks in such order that what is cut off is cut up before the next is cut off."""
    visits: list[tuple[int, tuple[tuple[int, int], ...]]] = []

    def work(at: int) -> None:
        if at < 0:
            return
        task = tasks.tasks[at]
        cuts = sorted(range(len(task.cuts)), key=lambda place: task.cuts[place][0])
        for place in cuts:
            setting, kid = task.cuts[place]
            if not (task.exact and place == cuts[-1]):
                visits.append((setting, ((at, place),)))
            work(kid)

    for root in tasks.roots:
        work(root)
    returns = len(visits) - len({setting for setting, _ in visits})
    return WorkingOrder(tuple(visits), returns, returns == 0, 0)


def _joined(lots: Sequence[tuple[int, Lot]]) -> Lot:
    """Return lots one after another as one, each given with the place of its first piece of stock.

    Nothing is proved of what is gone back to from lot to lot.
    """
    whole = SawTasks([], [], [], [], [])
    visits: list[tuple[int, tuple[tuple[int, int], ...]]] = []
    for owners, (tasks, order) in lots:
        keys, first = len(whole.keys), len(whole.tasks)
        visits += [(key + keys, tuple([(at + first, place) for at, place in cuts])) for key, cuts in order.visits]
        whole.keys += tasks.keys
        whole.tasks += [_moved(task, keys, first) for task in tasks.tasks]
        whole.roots += [root + first for root in tasks.roots]
        whole.blocks += tasks.blocks
        whole.owner += [owner + owners for owner in tasks.owner]
    seen = list(_distances(whole, visits))
    returns = len(seen) - len(set(seen))
    return whole, WorkingOrder(tuple(visits), returns, returns == 0, 0)


def _moved(task: Task, keys: int, first: int) -> Task:
    cuts = tuple([(setting + keys, kid + first if kid >= 0 else kid) for setting, kid in task.cuts])
    return Task(cuts, task.exact, task.other + keys if task.other >= 0 else task.other)


def _distances(tasks: SawTasks, visits: Sequence[tuple[int, tuple[tuple[int, int], ...]]]) -> Iterator[tuple[str, int]]:
    """Yield what fences and stops are set to, visit by visit; two visits to one distance in a row are one."""
    before = None
    for key, _ in visits:
        _, distance, tool, _ = tasks.keys[key]
        if (tool, distance) != before and tool != "track":
            yield tool, distance
        before = tool, distance
