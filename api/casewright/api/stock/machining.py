"""Settings for grooves, rabbets and holes: all equal ones at one setting, after the parts are cut."""

from __future__ import annotations

from collections.abc import Mapping

from casewright.api.stock.request import Demand, ShopLimits
from casewright.sdk.model import MachinePass, MachineSetting
from casewright.sdk.model.stock import CutterTool


def cutter_for(width: int, cutters: tuple[int, ...]) -> int | None:
    """Give the widest cutter that is not wider than the groove; the groove's own width when no cutters are listed."""
    if not cutters:
        return width
    fit = [c for c in cutters if c <= width]
    return max(fit) if fit else None


def groove_passes(distance: int, width: int, cutter: int) -> list[int]:
    """Fence distances (to the near side of the cutter) that together clear a groove wider than the cutter."""
    found = [distance]
    while found[-1] + cutter < distance + width:
        found.append(min(found[-1] + cutter, distance + width - cutter))
    return found


def machining_settings(
    demands: Mapping[str, Demand], placed: Mapping[str, int], limits: ShopLimits, after: int
) -> tuple[MachineSetting, ...]:
    """One setting for each different (kind, cutter, depth, distance), cutters and depths kept together.

    A groove that no listed cutter can make has no setting here; it is a stop among the cautions.
    """
    found: dict[tuple[CutterTool, int, int, int], list[MachinePass]] = {}
    for name, demand in demands.items():
        count = placed.get(name, 0)
        if not count:
            continue
        for op in demand.machining:
            if op.kind == "hole":
                distances, cutter = [op.distance], op.width
            else:
                chosen = cutter_for(op.width, limits.groove_cutters)
                if chosen is None:
                    continue
                cutter = chosen
                distances = groove_passes(op.distance, op.width, cutter)
            for at, distance in enumerate(distances):
                does = op.kind if len(distances) == 1 else f"{op.kind}, pass {at + 1} of {len(distances)}"
                found.setdefault((op.kind, cutter, op.depth, distance), []).append(
                    MachinePass(0, 0, name, count, does, op.datum)
                )
    return tuple(
        MachineSetting(after + i + 1, kind, distance, cutter, depth, tuple(passes))
        for i, ((kind, cutter, depth, distance), passes) in enumerate(sorted(found.items()))
    )
