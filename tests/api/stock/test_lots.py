"""The order of cuts lot by lot, followed by hand."""

from dataclasses import replace

import pytest
from casewright.api.stock import ShopLimits, StockRequest, plan_stock
from casewright.api.stock.lots import at_hand
from casewright.api.stock.saw_settings import SawTasks
from casewright.api.stock.tasks import Task, WorkingOrder
from stock_cases import MM, part, sheet
from stock_checker import check_plan
from stock_jobs import SEED, job


def tasks(*rows):
    return SawTasks([], list(rows), [0], [], [])


def order(*visits):
    return WorkingOrder(tuple(enumerate(visits)), 0, True, 0)


def test_a_piece_is_loose_from_the_cut_that_makes_it_to_its_last():
    # Sheet 0 is cut into 1 and 2; 1 has two cuts, the first of which makes 3 with one cut; 2 has one.
    rows = tasks(
        Task(((0, 1), (0, 2)), False), Task(((1, 3), (2, -1)), False), Task(((3, -1),), False), Task(((4, -1),), False)
    )
    # after both cuts of the sheet: 1, 2. Piece 1 cut once: 1, 2, 3. Then 1 done: 2, 3. Then 2 done: 3. Then none.
    assert at_hand(rows, order(((0, 0), (0, 1)), ((1, 0),), ((1, 1),), ((2, 0),), ((3, 0),))) == 3
    # one after the other: 1 alone; 1, 3; 1; none; 2.
    assert at_hand(rows, order(((0, 0),), ((1, 0),), ((3, 0),), ((1, 1),), ((0, 1),), ((2, 0),))) == 2


def test_what_is_left_of_a_piece_cut_exactly_is_there_without_a_cut():
    # Exact sheet 0: its one cut makes 1, and 2 remains; each has one cut.
    rows = tasks(Task(((0, 1), (0, 2)), True), Task(((1, -1),), False), Task(((1, -1),), False))
    assert at_hand(rows, order(((0, 0),), ((1, 0), (2, 0)))) == 2


@pytest.mark.parametrize("seed", range(12))
def test_sheet_by_sheet_a_sheet_is_done_with_before_the_next(seed):
    request = replace(job(SEED + seed), order="by-sheet")
    plan = plan_stock(request)
    check_plan(plan, request)
    cuts = sorted((cut.number, layout.number) for layout in plan.layouts for cut in layout.cuts)
    layouts = [layout for _, layout in cuts]
    assert layouts == sorted(layouts)
    by_setting = plan_stock(replace(request, order="by-setting"))
    assert [pieces_of(layout) for layout in plan.layouts] == [pieces_of(layout) for layout in by_setting.layouts]
    assert plan.returns.by_setting == by_setting.returns.count <= plan.returns.count


def pieces_of(layout):
    return layout.stock, sorted(placed.part for placed in layout.placed)


@pytest.mark.parametrize("seed", [1, 5, 7])
def test_fewer_pieces_at_hand_take_more_settings(seed):
    request = job(SEED + seed)
    free = plan_stock(request)
    for order in ("by-setting", "by-sheet"):
        changed = replace(request, order=order, pieces_at_hand=2)
        few = plan_stock(changed)
        check_plan(few, changed)
        assert few.returns.at_hand < free.returns.at_hand
        assert few.returns.count > free.returns.count
    same = plan_stock(replace(request, pieces_at_hand=free.returns.at_hand))
    assert same.layouts == free.layouts


def test_one_sheet_that_leaves_too_much_is_cut_up_piece_by_piece():
    """Six parts 900 long of one sheet: two pieces of three parts are cut off and wait, or one at a time."""
    parts = [part(name, 900, width, 2) for name, width in (("a", 300), ("b", 250), ("c", 200))]
    request = StockRequest(tuple(parts), (sheet(length=2000, width=900),), ShopLimits(kerf=3 * MM))
    free = plan_stock(request)
    few = plan_stock(replace(request, pieces_at_hand=1))
    check_plan(few, request)
    assert (free.returns.at_hand, few.returns.at_hand) == (2, 1)
    assert free.returns.count == 0 < few.returns.count


@pytest.mark.parametrize("order", ["by-setting", "by-sheet"])
def test_a_piece_of_stock_that_is_a_part_already_takes_no_cut_and_is_passed_over(order):
    pieces = (sheet("exact", 700, 300, copies=1), sheet(length=1500, width=310))
    request = StockRequest((part("p", 700, 300, 3),), pieces, ShopLimits(kerf=3 * MM), order=order)
    plan = plan_stock(request)
    check_plan(plan, request)
    assert {layout.stock: len(layout.cuts) for layout in plan.layouts}["exact"] == 0
