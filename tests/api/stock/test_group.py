"""How parts lie on stock."""

import pytest
from casewright.api.stock import Demand, ShopLimits, StockRequest, plan_stock
from casewright.sdk.model import StockPiece
from hypothesis import given, settings
from hypothesis import strategies as st
from stock_cases import INCH, MM
from stock_checker import check_plan

GRAINS = ("along-length", "along-width", "free")


@st.composite
def mixed_jobs(draw: st.DrawFn) -> StockRequest:
    """Parts of sheets and of boards, of every grain, on stock of every grain, in sixteenths of an inch or in mm."""
    unit = draw(st.sampled_from([INCH // 16, MM]))
    mm = 25.4 / 16 if unit != MM else 1

    def size(least: int, most: int) -> int:
        return draw(st.integers(int(least / mm) + 1, int(most / mm))) * unit

    demands, pieces = [], []
    for kind in ("sheet", "board"):
        for k in range(draw(st.integers(1, 3))):
            quantity, grain = draw(st.integers(1, 4)), draw(st.sampled_from(GRAINS))
            demands.append(
                Demand(f"{kind}-part-{k}", kind, 18 * MM, size(40, 700), size(40, 700), quantity, grain, kind)
            )
    for k in range(draw(st.integers(1, 2))):
        grain = draw(st.sampled_from(GRAINS))
        pieces.append(StockPiece(f"sheet-{k}", "sheet", 18 * MM, size(500, 2440), size(300, 1220), grain=grain))
        pieces.append(StockPiece(f"board-{k}", "board", 25 * MM, size(600, 2400), size(80, 300), kind="board"))
    limits = ShopLimits(
        kerf=size(0, 4),
        mill_length=draw(st.sampled_from([0, 25 * MM])),
        mill_width=draw(st.sampled_from([0, 6 * MM])),
        mill_thickness=5 * MM,
    )
    return StockRequest(tuple(demands), tuple(pieces), limits, effort=1)


@settings(max_examples=50)
@given(mixed_jobs())
def test_every_part_lies_and_is_cut_as_its_grain_asks(request: StockRequest) -> None:
    plan = plan_stock(request)
    check_plan(plan, request)
    grains = {piece.id: piece.grain for piece in request.pieces}
    for layout in plan.layouts:
        for placed in layout.placed:
            part = next(d for d in request.demands if d.id == placed.part)
            # the part's own grain axis, seen along (x) or across (y) the stock; sizes as they lie there
            if part.grain != "free" and grains[layout.stock] != "free":
                runs_along_x = (part.grain == "along-length") != placed.turned
                assert runs_along_x == (grains[layout.stock] == "along-length")
            assert placed.dx == (part.width if placed.turned else part.length)


@pytest.mark.parametrize(("unit", "milled"), [(MM, 0), (MM, 25 * MM), (INCH // 16, INCH)])
@pytest.mark.parametrize("grain", ["along-width", "free"])
def test_a_board_part_wider_than_the_board_is_turned(unit: int, milled: int, grain: str) -> None:
    # 68 by 191 on boards 130 wide: only with its width along the board does it fit; its stop is then at 191
    block = Demand("block", "oak", 19 * MM, 68 * unit, 191 * unit, 3, grain, "board")
    rough = StockPiece("rough", "oak", 25 * MM, 900 * unit, 130 * unit, kind="board")
    request = StockRequest((block,), (rough,), ShopLimits(kerf=3 * unit, mill_length=milled, mill_width=milled // 8))
    plan = plan_stock(request)
    check_plan(plan, request)
    (layout,) = plan.layouts
    assert [(p.dx, p.dy, p.turned) for p in layout.placed] == [(191 * unit, 68 * unit, True)] * 3
    assert min(cut.fence for cut in layout.cuts if cut.tool == "stop") == 191 * unit


def test_what_milling_takes_lies_along_the_grain_however_the_part_is_measured() -> None:
    # 191 along the grain and 25 for milling is a blank of 216: three of them and two kerfs of 3 are 654
    block = Demand("block", "oak", 19 * MM, 68 * MM, 191 * MM, 3, "along-width", "board")
    limits = ShopLimits(kerf=3 * MM, mill_length=25 * MM, mill_width=6 * MM)
    for length, boards in ((654, 1), (653, 2)):
        rough = StockPiece("rough", "oak", 25 * MM, length * MM, 74 * MM, kind="board")
        assert len(plan_stock(StockRequest((block,), (rough,), limits)).layouts) == boards


@pytest.mark.parametrize("effort", [1, 2, 3])
@pytest.mark.parametrize(("copies", "parts", "sheets", "short"), [(None, 6, 1, 0), (None, 7, 2, 0), (1, 8, 1, 2)])
def test_a_piece_that_is_narrower_than_every_part_is_left_alone(
    copies: int | None, parts: int, sheets: int, short: int, effort: int
) -> None:
    # 399 and a kerf of 1 are 400: with the kerf 1200 by 800 holds three by two of them, and a strip 150 wide none
    sheet = StockPiece("sheet", "ply", 18 * MM, 1200 * MM, 800 * MM, copies)
    strip = StockPiece("strip", "ply", 18 * MM, 2400 * MM, 150 * MM, 1, kind="offcut")
    square = Demand("square", "ply", 18 * MM, 399 * MM, 399 * MM, parts, "free")
    request = StockRequest((square,), (sheet, strip), ShopLimits(kerf=MM), effort=effort)
    plan = plan_stock(request)
    check_plan(plan, request)
    assert [layout.stock for layout in plan.layouts] == ["sheet"] * sheets
    assert sum(one.quantity for one in plan.short) == short
