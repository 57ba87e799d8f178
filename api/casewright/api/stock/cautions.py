"""What to mind at the saw. Common practice, no source, unless a line says otherwise; local rules come first."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from casewright.api.stock.model import Caution, Cut, Demand, Layout, ShopLimits
from casewright.api.stock.operations import cutter_for

FULL_SHEET = 1_200_000_000
"""A sheet longer than this is first broken down with a track or a helper."""


def cautions_of(
    layouts: Sequence[Layout], demands: Mapping[str, Demand], placed: Mapping[str, int], limits: ShopLimits
) -> tuple[Caution, ...]:
    """All cautions of a plan, one of each kind with the numbers of the cuts it is about."""
    small: list[int] = []
    sled: list[int] = []
    narrow: list[int] = []
    track: list[int] = []
    wide: list[int] = []
    first: list[int] = []
    for layout in layouts:
        for cut in layout.cuts:
            if cut.tool == "track":
                track.append(cut.number)
            if cut.tool == "fence":
                if cut.run < limits.small_piece:
                    small.append(cut.number)
                elif cut.run < cut.across:
                    sled.append(cut.number)
                if cut.fence < limits.small_piece // 3:
                    narrow.append(cut.number)
            if cut.tool == "stop" and limits.crosscut_capacity is not None and cut.run > limits.crosscut_capacity:
                wide.append(cut.number)
        opening = _first(layout)
        if opening is not None:
            first.append(opening.number)
    found = []
    if layouts:
        found.append(
            Caution("guard-on", "note", "Riving knife and guard stay on for every cut; wear eye and ear protection.")
        )
    for code, level, cuts, message in (
        ("first-cut", "caution", first, "First cut of a full sheet: use a track saw, or a helper and outfeed support."),
        ("beyond-rip-capacity", "caution", track, "Wider than the fence reaches: cut with a track, or a helper."),
        (
            "beyond-crosscut-capacity",
            "caution",
            wide,
            "Wider than the cross-cut saw reaches: use a track or a wider sled.",
        ),
        ("use-sled", "caution", sled, "Longer across than along the fence: use a cross-cut sled, not the fence alone."),
        ("small-piece", "caution", small, "Too short to ride the fence safely: use a sled with a clamp or a hand saw."),
        (
            "narrow-strip",
            "caution",
            narrow,
            "Narrow strip beside the fence: use a push block, or cut it on the far side.",
        ),
    ):
        if cuts:
            assert level == "caution"
            found.append(Caution(code, "caution", message, tuple(sorted(cuts))))
    no_cutter = tuple(
        sorted(
            name
            for name, demand in demands.items()
            if placed.get(name)
            and any(
                op.kind != "hole" and cutter_for(op.width, limits.groove_cutters) is None for op in demand.operations
            )
        )
    )
    if no_cutter:
        found.append(
            Caution(
                "no-cutter", "stop", "No groove cutter is narrow enough for a groove of these parts.", (), no_cutter
            )
        )
    if any(layout.kind == "board" for layout in layouts):
        found.append(
            Caution(
                "straight-edge", "note", "Joint one face and one edge of each rough board before it meets the fence."
            )
        )
    return tuple(found)


def _first(layout: Layout) -> Cut | None:
    """Give the cut that first breaks down a full sheet, unless it is by track already."""
    if layout.kind != "sheet" or max(layout.length, layout.width) <= FULL_SHEET or not layout.cuts:
        return None
    opening = min(layout.cuts, key=lambda cut: cut.number)
    return opening if opening.tool != "track" else None
