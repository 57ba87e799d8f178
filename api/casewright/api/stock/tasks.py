"""Pieces and cuts as the sequencer sees them, and the one-pass order for large jobs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Task:
    """A piece to be parted: `cuts` are (setting, task of the kid or -1).

    `other` is the setting at which the last cut may be made instead, with what is left over riding the fence; -1: none.
    """

    cuts: tuple[tuple[int, int], ...]
    exact: bool
    other: int = -1


@dataclass(frozen=True, slots=True)
class WorkingOrder:
    """Visits in order, each (setting, cuts made as (task, place in its cuts)); returns, and what is proved of them.

    A cut made at a setting that is not its own was made with the leftover riding the fence.
    """

    visits: tuple[tuple[int, tuple[tuple[int, int], ...]], ...]
    returns: int
    proved: bool
    bound: int


def in_turn(tasks: Sequence[Task], roots: Sequence[int]) -> WorkingOrder:
    """Give a working order in one pass: settings with every remaining cut ready first, else most cuts ready.

    Linear in cuts and visits; nothing is proved unless no setting is gone back to.
    """
    pending: dict[int, int] = {}
    for task in tasks:
        for setting, _ in task.cuts:
            pending[setting] = pending.get(setting, 0) + 1
    ready: dict[int, list[tuple[int, int]]] = {setting: [] for setting in sorted(pending)}
    gone: set[tuple[int, int]] = set()
    left = [len(task.cuts) for task in tasks]

    def free(at: int) -> None:
        todo = [at]
        while todo:
            at = todo.pop()
            if at < 0:
                continue
            task = tasks[at]
            if task.exact and left[at] == 1:
                todo.append(spare(at))
                continue
            for place, (setting, _) in enumerate(task.cuts):
                ready[setting].append((at, place))

    def spare(at: int) -> int:
        """Give the last kid of an exact piece needs no cut: its setting has one less to make."""
        place = next(p for p in range(len(tasks[at].cuts)) if (at, p) not in gone)
        gone.add((at, place))
        setting, kid = tasks[at].cuts[place]
        pending[setting] -= 1
        return kid

    for root in roots:
        free(root)
    visits: list[tuple[int, tuple[tuple[int, int], ...]]] = []
    while True:
        live = {s: sum(cut not in gone for cut in cuts) for s, cuts in ready.items() if pending[s]}
        live = {s: n for s, n in live.items() if n}
        if not live:
            break
        whole = [s for s, n in live.items() if n == pending[s]]
        setting = whole[0] if whole else max(live, key=lambda s: (live[s], -s))
        made = []
        while ready[setting]:
            cut = ready[setting].pop()
            if cut in gone:
                continue
            gone.add(cut)
            made.append(cut)
            pending[setting] -= 1
            at, place = cut
            left[at] -= 1
            free(tasks[at].cuts[place][1])
            if tasks[at].exact and left[at] == 1:
                free(spare(at))
        visits.append((setting, tuple(made)))
    returns = len(visits) - len({s for s, _ in visits})
    return WorkingOrder(tuple(visits), returns, returns == 0, 0)
