"""What a plan says about buying, leftovers, shortages, grooves and limits, on cases worked by hand."""

from random import Random

import pytest
from casewright.api.stock import (
    MAX_PARTS,
    Board,
    Demand,
    Operation,
    ShopLimits,
    StockLimitError,
    StockPiece,
    plan_stock,
    to_document,
)
from casewright.api.stock.sequence import sequence
from casewright.api.stock.tasks import Task
from stock_checker import check_plan

MM = 1_000_000
PLY = ("birch", 18 * MM)
NO_TRIM = ShopLimits(kerf=3 * MM)


def part(name: str, length: int, width: int, quantity: int = 1, **more: object) -> Demand:
    return Demand(name, *PLY, length * MM, width * MM, quantity, **more)  # type: ignore[arg-type]


def sheet(name: str = "sheet", length: int = 2440, width: int = 1220, **more: object) -> StockPiece:
    return StockPiece(name, *PLY, length * MM, width * MM, **more)  # type: ignore[arg-type]


def test_parts_that_fill_a_sheet_exactly_but_for_the_kerf() -> None:
    # 2 x 998.5 + 3 kerf = 2000, 2 x 498.5 + 3 = 1000: four parts from one sheet; with a wider kerf no two fit on one
    four = [Demand("p", *PLY, 998_500_000, 498_500_000, 4)]
    stock = [sheet("s", 2000, 1000)]
    assert len(plan_stock(four, stock, (), NO_TRIM).layouts) == 1
    wider = ShopLimits(kerf=3_100_000)
    plan = plan_stock(four, stock, (), wider)
    assert len(plan.layouts) == 4
    check_plan(plan, four, stock, (), wider)


def test_leftovers_are_used_before_a_sheet_is_bought() -> None:
    stock = [sheet(), sheet("offcut", 800, 400, copies=1, offcut=True)]
    plan = plan_stock([part("shelf", 780, 380)], stock, (), NO_TRIM)
    assert [layout.stock for layout in plan.layouts] == ["offcut"]
    assert plan.buy == ()
    assert plan.bounds[0].value == plan.bounds[0].got == 0


def test_the_cheaper_sheet_is_bought_and_proved_least() -> None:
    stock = [sheet("large", 2440, 1220, cost=6000), sheet("small", 1220, 1220, cost=3500)]
    plan = plan_stock([part("p", 1200, 1200)], stock, (), NO_TRIM)
    assert [(p.stock, p.quantity, p.cost) for p in plan.buy] == [("small", 1, 3500)]
    assert plan.bounds[0].value == plan.bounds[0].got == 3500


def test_grain_is_kept_unless_part_or_sheet_is_free() -> None:
    strip = [sheet("s", 2000, 300)]
    assert plan_stock([part("p", 250, 1000)], strip, (), NO_TRIM).short
    assert not plan_stock([part("p", 250, 1000, grain="free")], strip, (), NO_TRIM).short
    assert not plan_stock([part("p", 250, 1000, grain="along-width")], strip, (), NO_TRIM).short
    assert not plan_stock([part("p", 250, 1000)], [sheet("s", 2000, 300, grain="free")], (), NO_TRIM).short


def test_short_parts_name_the_one_purchase_that_cures_them() -> None:
    stock = [sheet(copies=1)]
    demand = [part("p", 1200, 1200, 5)]
    plan = plan_stock(demand, stock, (), NO_TRIM)
    check_plan(plan, demand, stock, (), NO_TRIM)
    (short,) = plan.short
    assert (short.demand, short.quantity) == ("p", 3)
    assert short.cure is not None
    # two to a sheet, so three more parts need two more sheets
    assert (short.cure.stock, short.cure.quantity) == ("sheet", 2)


def test_a_part_larger_than_all_stock_is_short_with_a_common_sheet_as_cure() -> None:
    plan = plan_stock([part("p", 1500, 800)], [sheet("s", 1000, 1000)], (), NO_TRIM)
    assert plan.layouts == ()
    assert plan.short[0].reason.startswith("larger than every piece")
    assert plan.short[0].cure is not None
    assert (plan.short[0].cure.length, plan.short[0].cure.width) == (96 * 25_400_000, 48 * 25_400_000)
    assert plan_stock([part("p", 9000, 800)], [sheet()], (), NO_TRIM).short[0].cure is None


def test_more_than_the_limit_is_refused_by_name() -> None:
    with pytest.raises(StockLimitError) as caught:
        plan_stock([part("p", 100, 100, MAX_PARTS + 1)], [sheet()])
    assert (caught.value.name, caught.value.value, caught.value.got) == ("parts", MAX_PARTS, MAX_PARTS + 1)
    assert not plan_stock([], [sheet()]).layouts


def test_equal_grooves_are_cut_at_one_setting_and_wide_ones_in_passes() -> None:
    groove = Operation("groove", 10 * MM, 6 * MM, 18 * MM, "bottom")
    demands = [part("a", 700, 300, 2, operations=(groove,)), part("b", 500, 300, 3, operations=(groove,))]
    limits = ShopLimits(kerf=3 * MM, groove_cutters=(6 * MM, 12 * MM))
    plan = plan_stock(demands, [sheet()], (), limits)
    grooves = [s for s in plan.settings if s.tool == "groove"]
    # 18 wide with a 12 cutter: passes at 10 and at 10 + 18 - 12 = 16
    assert [(s.cutter, s.distance) for s in grooves] == [(12 * MM, 10 * MM), (12 * MM, 16 * MM)]
    assert [(p.demand, p.count) for p in grooves[0].passes] == [("a", 2), ("b", 3)]
    narrow = ShopLimits(kerf=3 * MM, groove_cutters=(20 * MM,))
    assert any(c.code == "no-cutter" and c.level == "stop" for c in plan_stock(demands, [sheet()], (), narrow).cautions)


def test_boards_are_ripped_then_cross_cut_to_stops_and_milled() -> None:
    inch = 25_400_000
    rails = [Demand("rail", "oak", 19 * MM, 24 * inch, 2 * inch, 6, kind="board")]
    boards = [Board("rough", "oak", 27 * MM, 7 * inch, 96 * inch)]
    limits = ShopLimits(kerf=inch // 8, mill_length=inch, mill_width=inch // 4, mill_thickness=5 * MM)
    plan = plan_stock(rails, [], boards, limits)
    check_plan(plan, rails, [], boards, limits)
    # blanks are 25 x 2-1/4 in: three to a length, three across 7 in, so one board
    assert len(plan.boards) == 1
    assert set(plan.boards[0].rips) == {2 * inch + inch // 4, 2 * inch}
    assert set(plan.boards[0].stops) == {25 * inch, 24 * inch}
    assert plan_stock(rails, [], [Board("thin", "oak", 20 * MM, 7 * inch, 96 * inch)], limits).short


def test_beyond_the_fence_is_a_track_cut_and_short_pieces_get_a_caution() -> None:
    limits = ShopLimits(kerf=3 * MM, edge_trim=5 * MM, rip_capacity=600 * MM)
    plan = plan_stock([part("p", 1000, 100), part("tiny", 90, 60)], [sheet()], (), limits)
    codes = {c.code for c in plan.cautions}
    assert {"guard-on", "beyond-rip-capacity", "small-piece"} <= codes
    for layout in plan.layouts:
        assert all((cut.tool == "track") == (cut.fence > 600 * MM) for cut in layout.cuts)


def test_the_document_is_plain_values_in_the_callers_units() -> None:
    import json

    plan = plan_stock([part("p", 500, 300, 3)], [sheet()], (), NO_TRIM)
    document = to_document(plan, lambda nm: nm / MM, lambda nm: f"{nm / MM:g} mm")
    assert json.loads(json.dumps(document)) == document
    assert document["returns"] == 0
    kept = [left for left in document["leftovers"] if left["keep"]]
    assert kept
    assert all("birch 18 mm: " in left["line"] for left in kept)
    assert document["layouts"][0]["cuts"][0]["kerf"] == 3


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


def test_a_material_without_any_stock_is_short_while_others_are_cut() -> None:
    sheet = StockPiece("ply", "ply", 18 * MM, 2440 * MM, 1220 * MM)
    wanted = [
        Demand("side", "ply", 18 * MM, 700 * MM, 300 * MM, 2),
        Demand("rail", "oak", 20 * MM, 600 * MM, 40 * MM, 2, kind="board"),
    ]
    plan = plan_stock(wanted, [sheet], [], ShopLimits())
    assert {row.demand for row in plan.short} == {"rail"}
    assert sorted(p.demand for layout in plan.layouts for p in layout.placed) == ["side", "side"]
