"""Rows of parts cut in sequence of one piece: seen on the layouts by their places alone, worked as a saw would."""

from dataclasses import replace
from random import Random

import pytest
from casewright.api.stock import Demand, ShopLimits, StockRequest, in_a_row, plan_stock
from casewright.sdk.model import ShortReason, StockPiece
from stock_cases import MM, NO_TRIM, part, sheet
from stock_checker import check_plan

SEED = 8_800
"""The recorded seed of the random jobs: job i is drawn from `SEED + i`."""


def planned(demands, pieces, limits=NO_TRIM):
    """Return a plan, checked by the independent saw, to which the parts of rows are parts like others."""
    request = StockRequest(tuple(demands), tuple(pieces), limits, effort=1)
    plan = plan_stock(request)
    check_plan(plan, replace(request, demands=tuple(one for demand in demands for one in demand.pieces)))
    return plan


def lying_in_rows(plan, row, gap):
    """Return how many times the parts of a row lie one after another, from either end, `gap` apart and side by side.

    No part counts twice; where rows lie end to end, both ways to count are tried.
    """
    ways = [[(ids, axis) for axis in ("x", "y") for ids in orders] for orders in ((row, row[::-1]), (row[::-1], row))]
    return max(sum(_in_layout(layout, way, gap) for layout in plan.layouts) for way in ways)


def _in_layout(layout, way, gap):
    left = {(p.x, p.y, p.part): p for p in layout.placed}
    count = 0
    for ids, axis in way:
        for first in sorted((p for p in layout.placed if p.part == ids[0]), key=lambda p: (p.x, p.y)):
            places = [(first.x, first.y, ids[0])]
            for name in ids[1:]:
                x, y, _ = places[-1]
                here = left.get(places[-1])
                if here is None:
                    break
                places.append((x + here.dx + gap, y, name) if axis == "x" else (x, y + here.dy + gap, name))
            if len(places) == len(ids) and all(place in left for place in places):
                count += 1
                for place in places:
                    del left[place]
    return count


def test_a_pair_lies_side_by_side_and_a_stack_in_order():
    # Doors 700 x 297 with their grain upright lie a kerf apart across the grain; fronts 597 x 120, 160 and 200 too.
    doors = in_a_row("doors", [part("left", 700, 297, 2), part("right", 700, 297, 2)], False, 3 * MM)
    fronts = [part("top", 597, 120, 2), part("middle", 597, 160, 2), part("low", 597, 200, 2)]
    stack = in_a_row("stack", fronts, False, 3 * MM)
    assert (doors.length, doors.width) == (700 * MM, 597 * MM)
    assert (stack.length, stack.width) == (597 * MM, 486 * MM)
    plan = planned([doors, stack, part("shelf", 560, 300, 5)], [sheet()])
    assert lying_in_rows(plan, ("left", "right"), 3 * MM) == 2
    assert lying_in_rows(plan, ("top", "middle", "low"), 3 * MM) == 2


def test_fronts_of_one_board_follow_each_other_along_its_grain():
    # Three fronts 400 long of a board 130 wide: 3 x 400 and two kerfs along it, each ripped to its own height after.
    fronts = [
        Demand(name, "oak", 19 * MM, 400 * MM, wide * MM, kind="board")
        for name, wide in (("top", 80), ("middle", 100), ("low", 120))
    ]
    board = StockPiece("oak-1", "oak", 19 * MM, 1300 * MM, 130 * MM, 1, kind="board", surfaced="all-sides")
    plan = planned([in_a_row("stack", fronts, True, 3 * MM)], [board])
    assert lying_in_rows(plan, ("top", "middle", "low"), 3 * MM) == 1


def test_blanks_of_a_rough_board_each_carry_what_milling_takes():
    # 25 longer and 6 wider each: 3 x 425 and two kerfs of 3 make 1281, which a board of 1285 just yields.
    fronts = [Demand(str(at), "oak", 19 * MM, 400 * MM, 100 * MM, kind="board") for at in range(3)]
    limits = ShopLimits(kerf=3 * MM, mill_length=25 * MM, mill_width=6 * MM, mill_thickness=5 * MM)
    row = in_a_row("stack", fronts, True, limits.kerf)
    board = StockPiece("oak-1", "oak", 27 * MM, 1281 * MM, 106 * MM, 1, kind="board")
    plan = planned([row], [board], limits)
    assert lying_in_rows(plan, ("0", "1", "2"), (25 + 3) * MM) == 1
    assert plan_stock(StockRequest((row,), (replace(board, length=1280 * MM),), limits)).short


def test_a_row_that_no_piece_holds_is_short_as_a_whole():
    # Either door fits an offcut of 720 x 320; the two beside each other, 597 wide, fit none.
    doors = in_a_row("doors", [part("left", 700, 297), part("right", 700, 297)], False, 3 * MM)
    plan = planned([doors], [sheet("offcut", 720, 320, copies=4, kind="offcut")])
    assert [(one.part, one.quantity, one.reason) for one in plan.short] == [
        ("left", 1, ShortReason.ROW),
        ("right", 1, ShortReason.ROW),
    ]
    (lacking,) = plan.lacking
    assert (lacking.parts, lacking.unmatch) == (2, ("left", "right"))
    (bought,) = lacking.buy
    assert sorted((bought.length, bought.width)) == [597 * MM, 700 * MM]


def whole_sheet_holds(row, trim):
    """Return whether a row lies within a sheet trimmed all round, its grain along the sheet's."""
    length, width = 2440 * MM - 2 * trim, 1220 * MM - 2 * trim
    as_cut, turned = row.length <= length and row.width <= width, row.width <= length and row.length <= width
    return {"along-length": as_cut, "along-width": turned, "free": as_cut or turned}[row.grain]


@pytest.mark.parametrize("turn", range(4))
def test_rows_of_many_shapes_are_cut_in_sequence(turn, full):
    for seed in range(SEED + turn, SEED + (320 if full else 8), 4):
        rng = Random(seed)
        limits = replace(NO_TRIM, edge_trim=rng.choice([0, 2, 10]) * MM, kerf=rng.choice([2, 3]) * MM)
        grain = rng.choice(["along-length", "along-width", "free"])
        demands = [part(f"odd-{k}", rng.randint(200, 900), rng.randint(100, 500), 2) for k in range(rng.randint(0, 6))]
        rows = []
        for k in range(rng.randint(1, 3)):
            along, count = rng.random() < 0.5, rng.randint(1, 2)
            same, alike = rng.randint(150, 700), rng.random() < 0.5
            sizes = [rng.randint(90, 400)] * 3 if alike else [rng.randint(90, 400) for _ in range(rng.randint(2, 4))]
            fronts = [
                part(f"row-{k}-{i}", *((size, same) if along else (same, size)), count, grain=grain)
                for i, size in enumerate(sizes)
            ]
            row = in_a_row(f"row-{k}", fronts, along, limits.kerf)
            if whole_sheet_holds(row, limits.edge_trim):
                rows.append(row)
        scrap = sheet("scrap", 1700, 900, copies=2, kind="offcut", grain=rng.choice(["along-length", "free"]))
        plan = planned([*demands, *rows], [sheet(), scrap], limits)
        assert plan.short == ()
        for row in rows:
            assert lying_in_rows(plan, tuple(one.id for one in row.pieces), limits.kerf) == row.quantity
