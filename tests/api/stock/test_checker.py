"""The checker must catch what it is there to catch."""

from collections.abc import Callable
from dataclasses import replace

import pytest
from casewright.api.stock import plan_stock
from casewright.sdk.model import SawCut, StockPlan
from stock_checker import check_plan, edge_to_edge, overlap_free
from stock_jobs import SEED, job

# the classic pinwheel: five rectangles no straight edge-to-edge cut can part
PINWHEEL = [(0, 0, 2, 1), (2, 0, 1, 2), (1, 2, 2, 1), (0, 1, 1, 2), (1, 1, 1, 1)]


def test_a_pinwheel_cannot_be_cut_edge_to_edge() -> None:
    assert overlap_free(PINWHEEL, 3, 3)
    assert not edge_to_edge(PINWHEEL, 0)
    assert edge_to_edge(PINWHEEL[:4], 0) is False
    assert edge_to_edge(PINWHEEL[:3], 0)


def test_a_kerf_needs_room_between() -> None:
    assert edge_to_edge([(0, 0, 10, 10), (13, 0, 10, 10)], 3)
    assert not edge_to_edge([(0, 0, 10, 10), (12, 0, 10, 10)], 3)


def test_overlaps_and_overhangs_are_seen() -> None:
    assert not overlap_free([(0, 0, 5, 5), (4, 4, 5, 5)], 10, 10)
    assert not overlap_free([(6, 0, 5, 5)], 10, 10)


def respelt(plan: StockPlan, change: Callable[[SawCut], SawCut | None]) -> StockPlan:
    layouts = [replace(x, cuts=tuple(c for cut in x.cuts if (c := change(cut)) is not None)) for x in plan.layouts]
    return replace(plan, layouts=tuple(layouts))


def spoil_order(plan: StockPlan) -> StockPlan:
    last = max(cut.number for layout in plan.layouts for cut in layout.cuts)
    swapped = {1: last, last: 1}
    return respelt(plan, lambda cut: replace(cut, number=swapped.get(cut.number, cut.number)))


def spoil_setting(plan: StockPlan) -> StockPlan:
    return respelt(plan, lambda cut: replace(cut, setting=1))


def spoil_fence(plan: StockPlan) -> StockPlan:
    layout = plan.layouts[0]
    cut = replace(layout.cuts[0], fence=layout.cuts[0].fence - 1)
    return replace(plan, layouts=(replace(layout, cuts=(cut, *layout.cuts[1:])), *plan.layouts[1:]))


def spoil_cut(plan: StockPlan) -> StockPlan:
    return respelt(plan, lambda cut: None if cut.number == 1 else cut)


def spoil_place(plan: StockPlan) -> StockPlan:
    layout = next(x for x in plan.layouts if len(x.placed) > 1)
    moved = replace(layout.placed[1], x=layout.placed[0].x, y=layout.placed[0].y)
    layouts = tuple(
        replace(x, placed=(x.placed[0], moved, *x.placed[2:])) if x.number == layout.number else x for x in plan.layouts
    )
    return replace(plan, layouts=layouts)


@pytest.mark.parametrize("spoil", [spoil_order, spoil_setting, spoil_fence, spoil_cut, spoil_place])
def test_a_spoilt_plan_is_refused(spoil) -> None:  # type: ignore[no-untyped-def]
    request = job(SEED, 1)
    plan = plan_stock(request)
    check_plan(plan, request)
    with pytest.raises(AssertionError):
        check_plan(spoil(plan), request)
