"""Pieces and cuts as the sequencer sees them, and the one-pass order for large jobs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
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
    todo = _Todo(tasks)
    for root in roots:
        todo.free(root)
    visits: list[tuple[int, tuple[tuple[int, int], ...]]] = []
    while (setting := todo.next_setting()) is not None:
        visits.append((setting, tuple(todo.visit(setting))))
    returns = len(visits) - len({s for s, _ in visits})
    return WorkingOrder(tuple(visits), returns, returns == 0, 0)


class _Todo:
    """The cuts that are still to be made: how many of each setting, and which of them have their pieces there."""

    def __init__(self, tasks: Sequence[Task]) -> None:
        self.tasks = tasks
        self.pending = Counter(setting for task in tasks for setting, _ in task.cuts)
        self.ready: dict[int, list[tuple[int, int]]] = {setting: [] for setting in sorted(self.pending)}
        self.gone: set[tuple[int, int]] = set()
        self.left = [len(task.cuts) for task in tasks]

    def free(self, at: int) -> None:
        """Make the cuts of a piece ready that is there; where its last kid needs no cut, that kid is there too."""
        todo = [at]
        while todo:
            at = todo.pop()
            if at < 0:
                continue
            task = self.tasks[at]
            if task.exact and self.left[at] == 1:
                todo.append(self.spare(at))
                continue
            for place, (setting, _) in enumerate(task.cuts):
                self.ready[setting].append((at, place))

    def spare(self, at: int) -> int:
        """Give the last kid of an exact piece, which needs no cut: its setting has one less to make."""
        place = next(p for p in range(len(self.tasks[at].cuts)) if (at, p) not in self.gone)
        self.gone.add((at, place))
        setting, kid = self.tasks[at].cuts[place]
        self.pending[setting] -= 1
        return kid

    def next_setting(self) -> int | None:
        """Give the setting to visit next, or None when no cut is ready."""
        live = {s: sum(cut not in self.gone for cut in cuts) for s, cuts in self.ready.items() if self.pending[s]}
        live = {s: n for s, n in live.items() if n}
        whole = [s for s, n in live.items() if n == self.pending[s]]
        return whole[0] if whole else max(live, key=lambda s: (live[s], -s), default=None)

    def visit(self, setting: int) -> Iterator[tuple[int, int]]:
        """Make every cut of a setting that is ready, and those that become so by it; yield each."""
        ready = self.ready[setting]
        while ready:
            cut = ready.pop()
            if cut in self.gone:
                continue
            self.gone.add(cut)
            self.pending[setting] -= 1
            at, place = cut
            self.left[at] -= 1
            self.free(self.tasks[at].cuts[place][1])
            if self.tasks[at].exact and self.left[at] == 1:
                self.free(self.spare(at))
            yield cut
