"""Rows of parts: layouts whose best filling is known by construction."""

from casewright.api.stock.levels import fill_levels
from casewright.api.stock.search import Space, StepBudget, new_bin
from casewright.api.stock.slicing import PART, Node

SHEET = (1200, 600)


def space(sizes: list[tuple[int, int]]) -> Space:
    return Space([SHEET], [1], [1], [[((w, h, False),) for w, h in sizes]], [w * h for w, h in sizes])


def rectangles(node: Node, x: int, y: int, out: list[tuple[int, int, int, int, int]]) -> None:
    if node.axis == PART:
        out.append((x, y, node.w, node.h, node.item))
        return
    for kid in node.kids:
        rectangles(kid, x, y, out)
        if node.axis == 0:
            x += kid.w
        else:
            y += kid.h


def laid(sizes: list[tuple[int, int]], columns: bool, stacks: bool) -> tuple[list[int], float, list]:
    given = space(sizes)
    b = new_bin(given, 0)
    left = fill_levels(given, b, list(range(len(sizes))), StepBudget(10**6), columns, 0.1, stacks)
    out: list[tuple[int, int, int, int, int]] = []
    assert b.root is not None
    rectangles(b.root, 0, 0, out)
    return left, b.free, out


def test_two_rows_that_fill_the_sheet_are_found_either_way_round():
    rows = [(400, 250), (500, 250), (300, 250), (700, 350), (500, 350)]
    left, free, placed = laid(rows, columns=False, stacks=False)
    assert (left, free) == ([], 0)
    assert sum(w * h for _, _, w, h, _ in placed) == SHEET[0] * SHEET[1]
    columns = [(450, 200), (450, 400), (750, 100), (750, 500)]
    left, free, placed = laid(columns, columns=True, stacks=False)
    assert (left, free) == ([], 0)


def test_a_row_takes_two_low_parts_over_one_another():
    # one row 600 high: 700 wide, and beside it 500 x 380 over 500 x 220; no two of them are equally high
    sizes = [(700, 600), (500, 380), (500, 220)]
    left, free, placed = laid(sizes, columns=False, stacks=True)
    assert (left, free) == ([], 0)
    assert {item for *_, item in placed} == {0, 1, 2}
    assert all(x + w <= SHEET[0] and y + h <= SHEET[1] for x, y, w, h, _ in placed)


def test_what_is_free_over_rows_is_filled_and_the_rows_stay():
    given = space([(1200, 300), (600, 300), (600, 300)])
    b = new_bin(given, 0)
    assert fill_levels(given, b, [0], StepBudget(10**6), False, 0.1) == []
    assert fill_levels(given, b, [1, 2], StepBudget(10**6), False, 0.1) == []
    assert b.free == 0
    assert sorted(b.items) == [0, 1, 2]
