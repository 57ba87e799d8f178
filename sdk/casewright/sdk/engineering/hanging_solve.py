"""Loads and use of every fastener for a given set of columns (studs or anchors)."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from casewright.sdk.engineering import adjust, hanging_forces, placement
from casewright.sdk.engineering.hanging_case import Anchor, Capacity, FastenerUse, HangingCase, Hook
from casewright.sdk.engineering.limits import OutsideLimits, within
from casewright.sdk.engineering.units import mm, weight_n

ANCHOR_MARGIN_MM = 12.7


@dataclass(frozen=True, slots=True)
class Load:
    """What the strip carries: the weight, the pull in line with the hook, the hook itself."""

    weight_n: float
    pull_n: float
    hook: Hook | None


def zone_mm(case: HangingCase) -> float:
    """Return the strip's height that has full thickness, where fasteners may stand."""
    if case.mounting == "screw-strip":
        return case.strip.width_mm
    return hanging_forces.flat_zone_mm(case.strip.width_mm, case.strip.thickness_mm, case.bevel_deg)


def spread_rows_mm(number: int, zone: float, low_margin: float, high_margin: float, apart: float) -> tuple[float, ...]:
    """Return heights for `number` fasteners one over another: the outer two at the margins, the rest evenly between.

    One fastener stands in the middle of what the margins leave. Raises `OutsideLimits` when they would stand closer
    than `apart`, or the margins leave nothing. All in mm above the strip's lower edge.
    """
    within("fastener-count", "fasteners in a stud", number, 1, 12, "", "statics")
    room = zone - low_margin - high_margin
    least = apart * (number - 1)
    within(
        "strip-height",
        "height for fasteners in the strip",
        zone,
        low_margin + high_margin + least,
        None,
        "mm",
        "nds-2018-12-5-1",
    )
    if number == 1:
        return (low_margin + room / 2.0,)
    return tuple(low_margin + room * k / (number - 1) for k in range(number))


def spacing(case: HangingCase) -> placement.Spacing | None:
    """Return the placement distances of the case's fastener in its strip (load across the grain); None without one."""
    if case.fastener is None:
        return None
    return placement.spacing(mm(case.fastener.diameter), softwood=case.strip.stuff.family != "hardwood")


def rows_mm(case: HangingCase) -> tuple[float, ...]:
    """Return the heights of the fasteners in each stud above the strip's lower edge; masonry anchors stand in one row.

    The load pushes the strip down on its fasteners, so the loaded edge is the upper one.
    """
    room = spacing(case)
    if case.wall.kind == "masonry" or room is None:
        return spread_rows_mm(1, zone_mm(case), ANCHOR_MARGIN_MM, ANCHOR_MARGIN_MM, 0.0)
    return spread_rows_mm(case.per_stud, zone_mm(case), room.edge, room.loaded_edge, room.rows)


def load(case: HangingCase) -> Load:
    """Return the weight, the hook and the pull that the fasteners must hold.

    With a hook the pull is the greater of what overturning needs and what the frictionless bevel makes of the weight.
    """
    weight = weight_n(case.cabinet_kg + case.contents_kg)
    rows = rows_mm(case)
    height = case.strip.low_mm + sum(rows) / len(rows)
    needed = hanging_forces.overturning_pull_n(weight, case.centre_out_mm, height)
    if case.mounting == "screw-strip":
        return Load(weight, needed, None)
    free = hanging_forces.hook_pull_n(weight, case.bevel_deg)
    sure = hanging_forces.hook_pull_n(weight, case.bevel_deg, case.friction_deg)
    rides_up = needed > sure
    down = hanging_forces.hold_down_n(weight, needed, case.bevel_deg, case.friction_deg)
    hook = Hook(needed, free, sure, rides_up, max(0.0, needed - sure), down)
    return Load(weight, max(needed, free), hook)


def _row_pulls(case: HangingCase, load: Load, rows: Sequence[float]) -> tuple[float, ...]:
    strip = case.strip
    if case.mounting == "screw-strip":
        moment = load.weight_n * case.centre_out_mm
        return hanging_forces.row_pulls_n(load.pull_n, moment, [strip.low_mm + up for up in rows])
    moment = hanging_forces.cleat_moment_n_mm(
        load.pull_n, load.weight_n, strip.width_mm, strip.thickness_mm, case.bevel_deg
    )
    return hanging_forces.row_pulls_n(load.pull_n, moment, rows)


def _verdict(pull: float, shear: float, capacity: Capacity) -> tuple[float, str]:
    """Return the use of a wood fastener and what governs it."""
    use = adjust.combined_use(pull, shear, capacity.pull_n, capacity.lateral_n)
    if use <= shear / capacity.lateral_n:
        return use, f"sideways, mode {capacity.mode}"
    if use <= pull / capacity.pull_n:
        return use, "head pull-through" if capacity.pull_through_n < capacity.withdrawal_n else "withdrawal"
    return use, "pull and sideways together"


_Loaded = tuple[float, float, float, float, float, float]


def _loaded(
    case: HangingCase, load: Load, columns_mm: Sequence[float], rows: Sequence[float], pulls: Sequence[float]
) -> list[_Loaded]:
    """Return (along, up, pull, sideways, down, shear) of each fastener, in mm and N, column by column."""
    strip = case.strip
    if case.mounting == "screw-strip":
        shares: tuple[float, ...] = (1.0 / len(columns_mm),) * len(columns_mm)
    else:
        shares = hanging_forces.column_shares(columns_mm, case.centre_x_mm, strip.left_mm, strip.right_mm)
    points = [(x, up) for x in columns_mm for up in rows]
    each = [pull * share for share in shares for pull in pulls]
    shears = hanging_forces.shear_vectors_n(load.weight_n, case.centre_x_mm, points)
    return [
        (x, up, pull, sideways, down, math.hypot(sideways, down))
        for (x, up), pull, (sideways, down) in zip(points, each, shears, strict=True)
    ]


def uses(
    case: HangingCase, load: Load, columns_mm: Sequence[float], capacity: Capacity | Anchor
) -> tuple[FastenerUse, ...]:
    """Return every fastener's loads and use, column by column from the left, each from the lowest up.

    With masonry anchors the use is pull over allowable pull plus shear over allowable shear. Raises `OutsideLimits`
    where the group cannot be in balance.
    """
    rows = rows_mm(case)
    fasteners: list[FastenerUse] = []
    for x, up, pull, sideways, down, shear in _loaded(case, load, columns_mm, rows, _row_pulls(case, load, rows)):
        if isinstance(capacity, Anchor):
            within("anchor-approval", "approved pull", capacity.pull_n, 1e-9, None, "N", "statics")
            within("anchor-approval", "approved shear", capacity.shear_n, 1e-9, None, "N", "statics")
            use, governs = pull / capacity.pull_n + shear / capacity.shear_n, "pull and sideways together"
        else:
            use, governs = _verdict(pull, shear, capacity)
        fasteners.append(FastenerUse(x, up, pull, down, sideways, shear, use, governs))
    return tuple(fasteners)


def trial(case: HangingCase, load: Load, capacity: Capacity) -> Callable[[Sequence[float]], bool]:
    """Return a test of columns: whether fasteners in them carry the case, in balance and none over its limit.

    What is the same whichever columns are tried is worked out once.
    """
    try:
        rows = rows_mm(case)
        pulls = _row_pulls(case, load, rows)
    except OutsideLimits:
        return lambda columns: False

    def carries(columns: Sequence[float]) -> bool:
        try:
            loaded = _loaded(case, load, columns, rows, pulls)
            return all(
                adjust.combined_use(pull, shear, capacity.pull_n, capacity.lateral_n) <= 1.0
                for _, _, pull, _, _, shear in loaded
            )
        except OutsideLimits:
            return False

    return carries


def worst(fasteners: Sequence[FastenerUse]) -> float:
    """Return the greatest use."""
    return max(each.use for each in fasteners)
