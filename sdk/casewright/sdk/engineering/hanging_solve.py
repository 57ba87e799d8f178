"""Loads and use of every fastener for a given set of columns (studs or anchors)."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from casewright.sdk.engineering import adjust, group_action, hanging_capacity, hanging_forces, placement
from casewright.sdk.engineering.hanging_case import Anchor, Capacity, FastenerUse, HangingCase, Hook
from casewright.sdk.engineering.hanging_masonry import AnchoredStrip, anchored_strip
from casewright.sdk.engineering.limits import OutsideLimits, within
from casewright.sdk.engineering.units import MPA_PER_PSI, inches, mm, weight_n

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


def most_rows(case: HangingCase) -> int:
    """Return how many fasteners the strip takes one over another at the least distance; 0 where not even one fits."""
    room = spacing(case)
    if room is None:
        return 0
    free = zone_mm(case) - room.edge - room.loaded_edge
    return 0 if free < -1e-9 else 1 + int(free / room.in_row_least + 1e-9)


def height_needed_mm(case: HangingCase, *, advised: bool = False) -> float | None:
    """Return the height of strip that takes the fasteners asked for in each stud; None without a fastener.

    They then stand as near each other as they may or, `advised`, as far apart as is advised.
    """
    room = spacing(case)
    if room is None:
        return None
    taper = case.strip.width_mm - zone_mm(case)
    apart = room.in_row if advised else room.in_row_least
    return room.edge + room.loaded_edge + apart * (case.per_stud - 1) + taper


def rows_mm(case: HangingCase) -> tuple[float, ...]:
    """Return the heights of the fasteners in each stud above the strip's lower edge, as many of them as fit.

    They are one row along the load and the stud's grain. The load pushes the strip down on them, so the loaded edge is
    the upper one. Masonry anchors stand in one row along the wall. Raises `OutsideLimits` where not even one fits.
    """
    room = spacing(case)
    if case.wall.kind == "masonry" or room is None:
        return spread_rows_mm(1, zone_mm(case), ANCHOR_MARGIN_MM, ANCHOR_MARGIN_MM, 0.0)
    number = min(case.per_stud, max(1, most_rows(case)))
    return spread_rows_mm(number, zone_mm(case), room.edge, room.loaded_edge, room.in_row_least)


def apart_mm(case: HangingCase) -> float | None:
    """Return how far the fasteners in a stud stand from each other; None for one alone."""
    rows = rows_mm(case)
    return rows[1] - rows[0] if len(rows) > 1 else None


def fastener_capacity(case: HangingCase, *, seated: bool = False, end_factor: float = 1.0) -> Capacity | None:
    """Return what one fastener of the case carries in its stud beside its fellows; None where that is not known.

    Lateral values take C_g for the row's length and C_Δ, the lesser of that for the distance in the row and of
    `end_factor`, that for the strip's end (NDS 2018 12.5.1.2: the least of any fastener is that of all). `seated` is
    for the likely figure: what lies between strip and stud bears. Raises `OutsideLimits` or `NoGravity`.
    """
    wall, strip = case.wall, case.strip
    if wall.kind != "studs" or wall.stud is None or case.fastener is None:
        return None
    gap = case.gap_mm
    alone = hanging_capacity.capacity(
        case.fastener, strip.stuff, strip.thickness_mm, wall.stud, wall.stud_depth_mm, gap, case.duration, seated=seated
    )
    rows, diameter = rows_mm(case), mm(case.fastener.diameter)
    if len(rows) == 1:
        return replace(alone, lateral_n=alone.lateral_n * end_factor, geometry=end_factor)
    apart = rows[1] - rows[0]
    geometry = min(end_factor, placement.row_factor(apart, diameter))
    across = strip.stuff.e_across_mpa or strip.stuff.e_along_mpa
    stiffness = (
        wall.stud.e_along_mpa / MPA_PER_PSI * inches(wall.stud_width_mm) * inches(wall.stud_depth_mm),
        # 11.3.6.3 (from memory): across the grain one row counts as wide as fasteners stand apart along it, 4 D.
        across / MPA_PER_PSI * inches(strip.thickness_mm) * 4.0 * inches(diameter),
    )
    group = group_action.group_factor(len(rows), inches(apart), inches(diameter), stiffness)
    return replace(alone, lateral_n=alone.lateral_n * geometry * group, geometry=geometry, group=group)


def load(case: HangingCase) -> Load:
    """Return the weight, the hook and the pull that the fasteners must hold.

    With a hook the pull is the greater of what overturning needs and what the frictionless bevel makes of the weight.
    Whether it rides up is judged without friction, which would help.
    """
    weight = weight_n(case.cabinet_kg + case.contents_kg)
    rows = rows_mm(case)
    height = case.strip.low_mm + math.fsum(rows) / len(rows)
    needed = hanging_forces.overturning_pull_n(weight, case.centre_out_mm, height)
    if case.mounting == "screw-strip":
        return Load(weight, needed, None)
    free = hanging_forces.hook_pull_n(weight, case.bevel_deg)
    likely = hanging_forces.ride_up_pull_n(weight, case.bevel_deg, case.friction_deg)
    down = hanging_forces.hold_down_n(weight, needed, case.bevel_deg)
    hook = Hook(needed, free, likely, needed > free, max(0.0, needed - free), down)
    return Load(weight, max(needed, free), hook)


def likely_pull_n(case: HangingCase, load: Load) -> float:
    """Return the pull that fasteners likely hold: the bevel's with friction, or overturning's where that is more."""
    if load.hook is None:
        return load.pull_n
    return max(load.hook.needed_n, hanging_forces.hook_pull_n(load.weight_n, case.bevel_deg, case.friction_deg))


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


def _anchor_verdict(pull: float, shear: float, anchor: Anchor, strip: AnchoredStrip) -> tuple[float, str]:
    """Return the use of a masonry anchor or of the strip at it, whichever is worked harder."""
    within("anchor-approval", "approved pull", anchor.pull_n, 1e-9, None, "N", "statics")
    within("anchor-approval", "approved shear", anchor.shear_n, 1e-9, None, "N", "statics")
    uses = (
        (pull / anchor.pull_n + shear / anchor.shear_n, "pull and sideways together"),
        (pull / strip.pull_through_n, "head pull-through"),
        (shear / strip.bearing_n, "sideways, mode Is"),
    )
    return max(uses, key=lambda one: one[0])


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

    With masonry anchors the use is pull over allowable pull plus shear over allowable shear, or that of the strip under
    the anchor's head. Raises `OutsideLimits` where the group cannot be in balance, `NoGravity` for a strip whose wood
    is not covered.
    """
    rows = rows_mm(case)
    fasteners: list[FastenerUse] = []
    strip = anchored_strip(capacity, case.strip, case.duration) if isinstance(capacity, Anchor) else None
    for x, up, pull, sideways, down, shear in _loaded(case, load, columns_mm, rows, _row_pulls(case, load, rows)):
        if isinstance(capacity, Anchor):
            assert strip is not None
            use, governs = _anchor_verdict(pull, shear, capacity, strip)
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
