"""Putting all cuts of a job into saw settings so that each setting is visited once, or gone back to least often.

A `Task` is a piece with the cuts that part it, each at one setting; a cut needs its piece, and its kid (another task)
exists once it is made. In an `exact` task any one cut may be left out: the last kid is what remains. In a task with an
`other` setting the last cut may be made there instead, with the leftover riding the fence.

Facts used. At a visit every cut that can be made at that setting may as well be made: making more cuts never closes a
way (so a visit is a closure). If a visit makes every remaining cut of a setting that must still be visited, and no
leftover could ride there later, doing it now is never worse, nor is it when that setting was never visited (a first
visit is no return). What is left is a best-first search. Where every setting must be visited, its value is visits so
far and settings that must still be visited, less all settings, and a state is dropped when another had all its cuts
made in no more visits. Where one can be spared, because a piece needs a cut less or a leftover may ride, it is returns
so far and settings already visited that must be visited again, and a state is dropped when another had also been at all
its settings. Both are lower bounds on returns, so the smallest open value is a proved bound when the counted states run
out.
"""

from __future__ import annotations

from collections.abc import Sequence
from heapq import heappop, heappush

from casewright.api.stock.tasks import Task, WorkingOrder, in_turn

LARGE = 400
"""Above so many cuts the list is made in one pass without a search."""
SMALL, SMALL_STATES = 12, 3_000
"""Up to so many settings the search goes on for at least so many states."""
MOST_TRIED = 8
"""How many settings, those with most cuts ready, are weighed at each turn when a list is finished greedily."""
MOST_MET = 1_500
"""How many states are kept to drop later ones that are no better."""

State = tuple[int, int]  # cuts made or freed, cuts whose piece exists


class _Forest:
    """The cuts as bits: which setting each has, what each sets free."""

    def __init__(self, tasks: Sequence[Task], roots: Sequence[int]) -> None:
        self.cuts: list[tuple[int, int]] = []
        self.at: dict[int, int] = {}
        self.task_mask: list[int] = []
        self.exact = 0
        self.spare = 0
        self.other_at: dict[int, int] = {}
        self.kid: list[int] = []
        self.task_of: list[int] = []
        for number, task in enumerate(tasks):
            mask = 0
            for place, (setting, kid) in enumerate(task.cuts):
                bit = 1 << len(self.cuts)
                self.cuts.append((number, place))
                self.kid.append(kid)
                self.task_of.append(number)
                self.at[setting] = self.at.get(setting, 0) | bit
                mask |= bit
                if task.exact:
                    self.exact |= bit
                if task.exact or task.other >= 0:
                    self.spare |= bit
            self.task_mask.append(mask)
            if task.other >= 0:
                self.other_at[task.other] = self.other_at.get(task.other, 0) | mask
        self.tasks = tasks
        self.at = dict(sorted(self.at.items()))
        self.all = (1 << len(self.cuts)) - 1
        self.settings = sorted(self.at.keys() | self.other_at.keys())
        done = ready = 0
        for root in roots:
            done, ready = self.free(root, done, ready)
        self.start: State = (done, ready)
        self.spare_tasks = [n for n, task in enumerate(tasks) if task.exact or task.other >= 0]
        exact = [tasks[n] for n in self.spare_tasks if tasks[n].exact]
        self.every = not self.other_at and all(len({setting for setting, _ in task.cuts}) == 1 for task in exact)

    def free(self, task: int, done: int, ready: int) -> State:
        """Note that a piece exists: its cuts are ready; an exact piece with one kid is that kid."""
        if task < 0:
            return done, ready
        mask = self.task_mask[task]
        ready |= mask
        if self.tasks[task].exact and mask & (mask - 1) == 0:
            done |= mask
            return self.free(self.kid[mask.bit_length() - 1], done, ready)
        return done, ready

    def can(self, state: State, setting: int) -> int:
        """Give the cuts that can be made at a setting now."""
        now = state[1] & self.at.get(setting, 0) & ~state[0]
        late = state[1] & self.other_at.get(setting, 0) & ~state[0] & ~now
        while late:
            low = late & -late
            late ^= low
            if not self.task_mask[self.task_of[low.bit_length() - 1]] & ~state[0] & ~low:
                now |= low
        return now

    def visit(self, state: State, setting: int) -> tuple[State, list[int]]:
        """Make every cut that can be made at a setting."""
        done, ready = state
        made: list[int] = []
        now = self.can(state, setting)
        while now:
            low = now & -now
            cut = low.bit_length() - 1
            task = self.task_of[cut]
            done |= low
            made.append(cut)
            done, ready = self.free(self.kid[cut], done, ready)
            if low & self.exact:
                rest = self.task_mask[task] & ~done
                if rest and rest & (rest - 1) == 0:
                    done |= rest
                    done, ready = self.free(self.kid[rest.bit_length() - 1], done, ready)
            now = self.can((done, ready), setting)
        return (done, ready), made

    def must(self, done: int) -> int:
        """Cuts that must be made at their own setting: all but those of which a piece may spare any one."""
        open_cuts = self.all & ~done
        spare = open_cuts & self.spare
        forced = open_cuts & ~spare
        if spare:
            for task in self.spare_tasks:
                rest = self.task_mask[task] & spare
                if rest:
                    settings = {self.tasks[task].cuts[self.cuts[i][1]][0] for i in _bits(rest)}
                    if len(settings) == 1:
                        forced |= rest & (rest - 1)
        return forced


def _bits(mask: int) -> list[int]:
    bits = []
    while mask:
        low = mask & -mask
        bits.append(low.bit_length() - 1)
        mask ^= low
    return bits


def sequence(tasks: Sequence[Task], roots: Sequence[int], states: int = 4_000) -> WorkingOrder:
    """Give the order of settings with fewest returns (then fewest visits) within so many searched states.

    `roots` are the tasks whose piece exists at the start. Settings are visited in falling order where all else is
    equal, so callers number them with the first to be used lowest.
    """
    if sum(len(task.cuts) for task in tasks) > LARGE:
        return in_turn(tasks, roots)
    forest = _Forest(tasks, roots)
    states = max(10, states * 60 // max(60, len(forest.cuts)))
    if len(forest.settings) <= SMALL:
        states = max(states, SMALL_STATES)
    open_: list[tuple[int, int, int, State, int, tuple[int, ...]]] = []
    first = _run_safe(forest, forest.start, 0, ())
    heappush(open_, (first[0], first[1], 0, *first[2:]))
    met: list[tuple[int, int, int]] = []
    count = 0
    bound = 0
    while open_:
        value, _, _, state, visited, path = heappop(open_)
        bound = max(bound, value)
        done = state[0]
        if done == forest.all:
            return _result(forest, path, True, bound)
        been = 0 if forest.every else visited
        if any(v <= len(path) and d & done == done and b & been == been for d, b, v in met):
            continue
        if len(met) < MOST_MET:
            met.append((done, been, len(path)))
        if count >= states:
            starts = [(state, visited, path), (forest.start, 0, ())]
            starts += [entry[3:] for entry in sorted(open_, key=lambda e: (e[1], e[0], e[2]))[:3]]
            ends = [_finish(forest, *start) for start in starts]
            best = min(ends, key=lambda end: (len(end) - len(set(end)), len(end)))
            return _result(forest, best, False, bound)
        for setting in forest.settings:
            if forest.can(state, setting):
                count += 1
                after, _made = forest.visit(state, setting)
                step = _run_safe(forest, after, visited | 1 << setting, (*path, setting))
                heappush(open_, (step[0], step[1], count, *step[2:]))
    raise AssertionError("every cut can be made")


def _value(forest: _Forest, state: State, visited: int, path: tuple[int, ...]) -> int:
    """Give a lower bound on the returns of every list that goes on from here."""
    forced = forest.must(state[0])
    if forest.every:
        return len(path) + sum(1 for mask in forest.at.values() if mask & forced) - len(forest.at)
    again = sum(1 for s, mask in forest.at.items() if visited >> s & 1 and mask & forced)
    return len(path) - visited.bit_count() + again


def _run_safe(
    forest: _Forest, state: State, visited: int, path: tuple[int, ...]
) -> tuple[int, int, State, int, tuple[int, ...]]:
    """Make every visit that is never worse; gives (value, visits, state, visited, path)."""
    moved = True
    while moved and state[0] != forest.all:
        moved = False
        forced = forest.must(state[0])
        for first_only in (False, True):
            for setting, mask in forest.at.items():
                pending = mask & ~state[0]
                if not pending & state[1]:
                    continue
                if visited >> setting & 1 if first_only else not mask & forced:
                    continue
                after, _made = forest.visit(state, setting)
                if (mask | forest.other_at.get(setting, 0)) & ~after[0]:
                    continue
                state = after
                path = (*path, setting)
                visited |= 1 << setting
                moved = True
                forced = forest.must(state[0])
            if moved:
                break
    left = (forest.all & ~state[0]).bit_count()
    return _value(forest, state, visited, path), left, state, visited, path


def _finish(forest: _Forest, state: State, visited: int, path: tuple[int, ...]) -> tuple[int, ...]:
    """Finish greedily: the visit that leaves the least value, then the fewest cuts."""
    while state[0] != forest.all:
        best: tuple[tuple[int, int, int], State, int, tuple[int, ...]] | None = None
        open_now = [(-forest.can(state, s).bit_count(), s) for s in forest.settings if forest.can(state, s)]
        for _, setting in sorted(open_now)[:MOST_TRIED]:
            after, _made = forest.visit(state, setting)
            value, left, end, seen, way = _run_safe(forest, after, visited | 1 << setting, (*path, setting))
            key = (value, left, len(way))
            if best is None or key < best[0]:
                best = (key, end, seen, way)
        assert best is not None
        _, state, visited, path = best
    return path


def _result(forest: _Forest, path: tuple[int, ...], proved: bool, bound: int) -> WorkingOrder:
    state = forest.start
    visits = []
    for setting in path:
        state, made = forest.visit(state, setting)
        visits.append((setting, tuple(forest.cuts[i] for i in made)))
    returns = len(path) - len(set(path))
    return WorkingOrder(tuple(visits), returns, proved or returns <= bound, min(bound, returns))
