"""What to mind at the saw. Common practice, no source, unless a line says otherwise; local rules come first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import assert_never

from casewright.api.stock.machining import cutter_for
from casewright.api.stock.request import Demand, ShopLimits
from casewright.sdk.model import SawCaution, SawCut, StockLayout

FULL_SHEET = 1_200_000_000
"""A sheet longer than this is first broken down with a track or a helper."""


GUARD = SawCaution("guard-on", "note", "Riving knife and guard stay on for every cut; wear eye and ear protection.")
STRAIGHT_EDGE = SawCaution(
    "straight-edge", "note", "Joint one face and one edge of each rough board before it meets the fence."
)
BY_CUT = {
    "first-cut": "First cut of a full sheet: use a track saw, or a helper and outfeed support.",
    "beyond-rip-capacity": "Wider than the fence reaches: cut with a track, or a helper.",
    "beyond-crosscut-capacity": "Wider than the cross-cut saw reaches: use a track or a wider sled.",
    "use-sled": "Longer across than along the fence: use a cross-cut sled, not the fence alone.",
    "small-piece": "Too short to ride the fence safely: use a sled with a clamp or a hand saw.",
    "narrow-strip": "Narrow strip beside the fence: use a push block, or cut it on the far side.",
}
"""Messages of the cautions about single cuts, in the order they are given."""


def cautions_of(
    layouts: Sequence[StockLayout], demands: Mapping[str, Demand], placed: Mapping[str, int], limits: ShopLimits
) -> tuple[SawCaution, ...]:
    """All cautions of a plan, one of each kind with the numbers of the cuts it is about."""
    if not layouts:
        return ()
    cuts: dict[str, list[int]] = {code: [] for code in BY_CUT}
    for layout in layouts:
        for cut in layout.cuts:
            for code in _about(cut, limits):
                cuts[code].append(cut.number)
        opening = _first(layout)
        if opening is not None:
            cuts["first-cut"].append(opening.number)
    by_cut = [
        SawCaution(code, "caution", BY_CUT[code], tuple(sorted(numbers))) for code, numbers in cuts.items() if numbers
    ]
    boards = any(layout.kind == "board" for layout in layouts)
    return (GUARD, *by_cut, *_without_cutter(demands, placed, limits), *((STRAIGHT_EDGE,) if boards else ()))


def _about(cut: SawCut, limits: ShopLimits) -> Iterator[str]:
    """Yield the codes of what to mind at one cut."""
    match cut.tool:
        case "track":
            yield "beyond-rip-capacity"
        case "stop":
            if limits.crosscut_capacity is not None and cut.run > limits.crosscut_capacity:
                yield "beyond-crosscut-capacity"
        case "fence":
            if cut.run < limits.small_piece:
                yield "small-piece"
            elif cut.run < cut.across:
                yield "use-sled"
            if cut.fence < limits.small_piece // 3:
                yield "narrow-strip"
        case _:
            assert_never(cut.tool)


def _without_cutter(
    demands: Mapping[str, Demand], placed: Mapping[str, int], limits: ShopLimits
) -> tuple[SawCaution, ...]:
    """Give the stop for parts with a groove that no cutter of the shop can make."""
    parts = tuple(
        sorted(
            name
            for name, demand in demands.items()
            if placed.get(name)
            and any(
                one.kind != "hole" and cutter_for(one.width, limits.groove_cutters) is None for one in demand.machining
            )
        )
    )
    if not parts:
        return ()
    message = "No groove cutter is narrow enough for a groove of these parts."
    return (SawCaution("no-cutter", "stop", message, (), parts),)


def _first(layout: StockLayout) -> SawCut | None:
    """Give the cut that first breaks down a full sheet, unless it is by track already."""
    if layout.kind != "sheet" or max(layout.length, layout.width) <= FULL_SHEET or not layout.cuts:
        return None
    opening = min(layout.cuts, key=lambda cut: cut.number)
    return opening if opening.tool != "track" else None
