"""Whether a pile yields parts at all: proofs by hand, and never against a cutting that there is."""

from casewright.api.stock import Demand, Pile, StockRequest, plan_stock
from casewright.sdk.model import StockPiece
from hypothesis import given, settings
from hypothesis import strategies as st
from stock_cases import MM, NO_TRIM, PLY, part, sheet


def pile(*sizes: tuple[int, int]) -> Pile:
    pieces = [sheet(f"o{k}", length, width, copies=1, kind="offcut") for k, (length, width) in enumerate(sizes)]
    return Pile(tuple(pieces), NO_TRIM)


def test_too_little_area_and_too_long_a_part_are_proved() -> None:
    assert pile((1000, 300)).cannot([part("p", 600, 300, 2)])
    assert pile((1000, 300), (1000, 300)).cannot([part("p", 1001, 100)])
    # the area would do, 3 x 0.18 of 0.6 m2, but each piece holds one: 2 x 600 and a kerf are more than 1000
    assert pile((1000, 300), (1000, 300)).cannot([part("p", 600, 300, 3)])
    assert not pile((1000, 300), (1000, 300)).cannot([part("p", 600, 300, 2)])


def test_nothing_is_bought_of_a_pile_and_what_is_bought_counts_by_cost_else_by_area() -> None:
    assert pile((1000, 300)).bought([part("p", 600, 300)]) == 0
    assert pile((1000, 300)).bought([part("p", 600, 301)]) is None
    full = StockPiece("full", *PLY, 2440 * MM, 1220 * MM)
    assert Pile((full,), NO_TRIM).bought([part("p", 600, 301)]) == 2440 * 1220


@settings(max_examples=60)
@given(
    st.lists(st.tuples(st.integers(300, 1200), st.integers(100, 600)), min_size=1, max_size=3),
    st.lists(st.tuples(st.integers(100, 900), st.integers(60, 400), st.integers(1, 3)), min_size=1, max_size=4),
)
def test_what_a_plan_cuts_is_never_proved_impossible(
    sizes: list[tuple[int, int]], rows: list[tuple[int, int, int]]
) -> None:
    demands: list[Demand] = [part(f"p{k}", a, b, n, grain="free") for k, (a, b, n) in enumerate(rows)]
    question = pile(*sizes)
    plan = plan_stock(StockRequest(tuple(demands), question.pieces, NO_TRIM))
    if not plan.short:
        assert not question.cannot(demands)
    if question.bought(demands) is not None:
        assert not plan.short
