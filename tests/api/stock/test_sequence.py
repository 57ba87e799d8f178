"""The order of saw settings against every order tried one by one."""

from random import Random

from casewright.api.stock.sequence import sequence
from casewright.api.stock.tasks import Task


def brute_returns(tasks: list[Task], roots: list[int]) -> int:
    """Fewest returns by trying every order of visits, one cut at a time (own small search, no shared code)."""
    from itertools import count

    cuts = [(t, p) for t, task in enumerate(tasks) for p in range(len(task.cuts))]
    start = (frozenset(), None, frozenset())
    level = {start}
    for returns in count():
        seen = set(level)
        todo = list(level)
        later = set()
        while todo:
            done, now, visited = todo.pop()
            if len(done) == len(cuts):
                return returns
            there = set(roots) | {tasks[t].cuts[p][1] for t, p in done}
            for t, p in cuts:
                if (t, p) in done or t not in there:
                    continue
                setting = tasks[t].cuts[p][0]
                state = (done | {(t, p)}, setting, visited | {setting})
                if setting != now and setting in visited:
                    later.add(state)
                elif state not in seen:
                    seen.add(state)
                    todo.append(state)
        level = later
    raise AssertionError


def test_fewest_returns_agree_with_brute_force() -> None:
    rng = Random(11)
    for _ in range(60):
        tasks: list[Task] = []

        def grow(depth: int, tasks: list[Task] = tasks) -> int:
            at = len(tasks)
            tasks.append(Task((), False))
            kids = []
            for _ in range(rng.randint(1, 2)):
                kid = grow(depth + 1) if depth < 2 and rng.random() < 0.6 else -1
                kids.append((rng.randint(0, 3), kid))
            tasks[at] = Task(tuple(kids), False)
            return at

        roots = [grow(0) for _ in range(2)]
        if sum(len(t.cuts) for t in tasks) > 9:
            continue
        found = sequence(tasks, roots)
        assert found.proved
        assert found.returns == brute_returns(tasks, roots)
