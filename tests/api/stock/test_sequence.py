"""The order of saw settings against every order tried one by one."""

from random import Random

import pytest
from casewright.api.stock.sequence import sequence
from casewright.api.stock.tasks import Task


def brute_returns(tasks: list[Task], roots: list[int]) -> int:
    """Fewest returns by trying every order of visits, one cut at a time (own small search, no shared code).

    An exact piece needs one cut less, and a last cut may be made at the other setting.
    """

    def settled(done: frozenset[tuple[int, int]]) -> frozenset[tuple[int, int]]:
        while True:
            there = set(roots) | {tasks[t].cuts[p][1] for t, p in done}
            for t in there - {-1}:
                left = [(t, p) for p in range(len(tasks[t].cuts)) if (t, p) not in done]
                if tasks[t].exact and len(left) == 1:
                    done |= {left[0]}
                    break
            else:
                return done

    every = sum(len(task.cuts) for task in tasks)
    level = {(settled(frozenset()), -1, frozenset[int]())}
    for returns in range(every + 1):
        seen, todo, later = set(level), list(level), set()
        while todo:
            done, now, visited = todo.pop()
            if len(done) == every:
                return returns
            there = (set(roots) | {tasks[t].cuts[p][1] for t, p in done}) - {-1}
            for t in there:
                left = [p for p in range(len(tasks[t].cuts)) if (t, p) not in done]
                for p in left:
                    ways = {tasks[t].cuts[p][0]}
                    if len(left) == 1 and tasks[t].other >= 0:
                        ways.add(tasks[t].other)
                    for setting in ways:
                        state = (settled(done | {(t, p)}), setting, visited | {setting})
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
        order = sequence(tasks, roots)
        assert order.proved
        assert order.returns == brute_returns(tasks, roots)


def replay(tasks: list[Task], roots: list[int], visits: tuple[tuple[int, tuple[tuple[int, int], ...]], ...]) -> None:
    """Make the cuts as listed: each once, of a piece that exists, at its own setting or, the last, at the other."""
    there, left = list(roots), {t: set(range(len(task.cuts))) for t, task in enumerate(tasks)}

    def exists(task: int) -> None:
        if task >= 0:
            there.append(task)
            spare_one(task)

    def spare_one(task: int) -> None:
        if tasks[task].exact and len(left[task]) == 1:
            exists(tasks[task].cuts[left[task].pop()][1])

    for root in roots:
        spare_one(root)
    for setting, made in visits:
        for task, place in made:
            assert task in there
            own = tasks[task].cuts[place][0]
            assert setting == own or (setting == tasks[task].other and left[task] == {place})
            left[task].remove(place)
            exists(tasks[task].cuts[place][1])
            spare_one(task)
    assert not any(left.values())


def test_orders_with_exact_pieces_and_other_settings_can_be_worked() -> None:
    rng, tried = Random(12), 0
    while tried < 60:
        tasks: list[Task] = []

        def grow(depth: int, tasks: list[Task] = tasks) -> int:
            at = len(tasks)
            tasks.append(Task((), False))
            kids = [
                (rng.randint(0, 2), grow(depth + 1) if depth < 2 and rng.random() < 0.5 else -1)
                for _ in range(rng.randint(1, 3))
            ]
            exact = rng.random() < 0.3
            tasks[at] = Task(tuple(kids), exact, -1 if exact else rng.choice([-1, 0, 1, 2]))
            return at

        roots = [grow(0) for _ in range(2)]
        if not 4 <= sum(len(task.cuts) for task in tasks) <= 9:
            continue
        tried += 1
        order = sequence(tasks, roots)
        replay(tasks, roots, order.visits)
        settings = [setting for setting, _ in order.visits]
        fewest = brute_returns(tasks, roots)
        assert order.bound <= fewest <= order.returns == len(settings) - len(set(settings))
        assert not order.proved or order.returns == fewest


# Setting 2 can be spared: an exact piece needs one cut of two, and a last cut may be made at the other setting.
SPARED = [
    ([Task(((0, -1), (1, 1), (0, 2)), False), Task(((0, -1),), False), Task(((2, -1), (1, -1)), True),
      Task(((0, -1), (2, -1)), True)], [0, 3]),
    ([Task(((1, -1), (1, 1)), False), Task(((2, 2),), False, 0), Task(((1, -1),), False, 0),
      Task(((1, -1), (0, -1), (0, -1)), False, 1)], [0, 3]),
]  # fmt: skip


@pytest.mark.parametrize(("tasks", "roots"), SPARED)
def test_what_is_proved_holds_where_a_setting_can_be_spared(tasks: list[Task], roots: list[int]) -> None:
    # By hand for the first: at 1 the second cut of piece 0, at 0 all of its others, piece 1 and piece 3, at 2 piece 2:
    # no setting is gone back to.
    order = sequence(tasks, roots)
    assert brute_returns(tasks, roots) == 0
    assert (order.proved, order.returns) == (True, 0)
