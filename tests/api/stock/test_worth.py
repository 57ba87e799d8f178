"""Patterns chosen by the worth of parts: sheets cut up by chance, so that one layout on so many sheets is known."""

from random import Random

from casewright.api.stock.fill import fill_in_turn
from casewright.api.stock.search import Bin, Space, StepBudget, orders
from casewright.api.stock.slicing import PART, Node
from casewright.api.stock.worth import LAST, ByWorth
from stock_checker import Rect, edge_to_edge, overlap_free

SHEET = (100, 100)
STEPS = 40_000_000


def cut_up(rng: Random, sheets: int, pieces: int) -> list[tuple[int, int]]:
    """Cut each sheet straight across, always its largest piece next, and then up to 5 off each side of each piece."""
    parts = []
    for _ in range(sheets):
        cut = [SHEET]
        while len(cut) < pieces:
            cut.sort(key=lambda r: r[0] * r[1])
            a, b = cut.pop()
            at = round(max(a, b) * rng.uniform(0.2, 0.8))
            cut += [(at, b), (a - at, b)] if a >= b else [(a, at), (a, b - at)]
        parts += [(a - rng.randrange(6), b - rng.randrange(6)) for a, b in cut]
    return parts


def space_of(parts: list[tuple[int, int]]) -> Space:
    """Every part may be turned."""
    ways = [((a, b, False),) if a == b else ((a, b, False), (b, a, True)) for a, b in parts]
    return Space([SHEET], [10**9], [1], [ways], [a * b for a, b in parts])


def rectangles(node: Node, x: int, y: int, out: list[Rect]) -> list[Rect]:
    if node.axis == PART:
        out.append((x, y, node.w, node.h))
    for kid in node.kids:
        rectangles(kid, x, y, out)
        x, y = (x + kid.w, y) if node.axis == 0 else (x, y + kid.h)
    return out


def check(bins: list[Bin], parts: list[tuple[int, int]]) -> None:
    """Every part once, turned or not, inside its sheet, apart from others, and cut off by straight cuts."""
    assert sorted(i for b in bins for i in b.items) == list(range(len(parts)))
    for b in bins:
        if b.root is None:
            continue
        placed = rectangles(b.root, 0, 0, [])
        assert overlap_free(placed, *SHEET)
        assert edge_to_edge(placed, 0)
        assert sorted(sorted(r[2:]) for r in placed) == sorted(sorted(parts[i]) for i in b.items)


def greedy(space: Space) -> list[Bin]:
    return fill_in_turn(space, orders(space)[0], StepBudget(10**7), 0.0)[0]


def test_parts_cut_from_so_many_sheets_find_room_on_as_many_where_greedy_filling_takes_more():
    for seed in range(3):
        parts = cut_up(Random(seed), 8, 4)
        space = space_of(parts)
        first = greedy(space)
        filled = ByWorth(space, first, 8, StepBudget(STEPS)).run(STEPS)
        assert filled is not None, seed
        assert len(filled) == 8
        check(filled, parts)
        assert len(first) > 8, "the job is too easy"


def test_on_fewer_sheets_than_their_area_nothing_is_found_and_the_steps_are_kept():
    parts = cut_up(Random(1), 8, 4)
    space = space_of(parts)
    budget = StepBudget(STEPS)
    assert ByWorth(space, greedy(space), 7, budget).run(3_000_000) is None
    assert 3_000_000 <= budget.steps < 5_000_000


def test_the_same_job_is_filled_in_the_same_way_again():
    space = space_of(cut_up(Random(2), LAST + 3, 5))
    both = [ByWorth(space, greedy(space), LAST + 3, StepBudget(STEPS)).run(STEPS) for _ in range(2)]
    assert both[0] is not None
    assert both[1] is not None
    assert [b.items for b in both[0]] == [b.items for b in both[1]]
