"""What one fastener through a strip, across a gap, into a stud can carry. SI inside; equations as printed."""

from functools import lru_cache

from casewright.sdk.engineering import adjust, bearing, placement, withdrawal, yielding
from casewright.sdk.engineering.hanging_case import Capacity
from casewright.sdk.engineering.limits import within
from casewright.sdk.engineering.units import MM_PER_IN, MPA_PER_PSI, inches, mm
from casewright.sdk.materials import Lag, Screw, Stuff

MOST_HEAD_MM = 0.5 * MM_PER_IN
MOST_SIDE_MM = 1.5 * MM_PER_IN


class NoGravity(LookupError):  # noqa: N818 - named for what is missing
    """A stuff has no NDS specific gravity on record, or does not hold screws; `stuff` and `why` say which."""

    def __init__(self, stuff: Stuff, why: str) -> None:
        self.stuff, self.why = stuff, why
        super().__init__(f"{stuff.title}: {why}")


def gravity(stuff: Stuff, *, holds: bool) -> float:
    """Return the oven-dry gravity fasteners are judged by; `holds` asks that screws may be held by the stuff alone."""
    if holds and not stuff.holds_screws:
        raise NoGravity(stuff, "no source supports screws held by it alone")
    if stuff.g_oven_dry is None:
        raise NoGravity(stuff, "no NDS specific gravity is on record")
    return stuff.g_oven_dry


def _depths(fastener: Screw | Lag, side_mm: float, gap_mm: float, main_depth_mm: float) -> tuple[float, float]:
    """Return (penetration with the tip, thread that counts) in the main member, both in mm."""
    reach = mm(fastener.length) - side_mm - gap_mm
    through = max(0.0, reach - main_depth_mm)
    tip = mm(fastener.tip) if isinstance(fastener, Lag) else 0.0
    thread = min(mm(fastener.thread), reach) - max(tip, through)
    return min(reach, main_depth_mm), max(0.0, thread)


def _shear(
    fastener: Screw | Lag, into_main_mm: float, side_mm: float, gravities: tuple[float, float]
) -> yielding.Shear:
    """Return a fastener in shear, its bearing lengths and the bearing of both woods; lags across the grain of both."""
    diameter, root = mm(fastener.diameter), mm(fastener.root)
    angle = 90.0 if isinstance(fastener, Lag) else 0.0
    main, side = (bearing.bearing_psi(g, inches(diameter), angle) * MPA_PER_PSI for g in gravities)
    reduced = bearing.reduction(inches(diameter), inches(root), angle)
    return yielding.Shear(root, into_main_mm, side_mm, main, side, fastener.f_yb_mpa, reduced)


@lru_cache(maxsize=256)
def capacity(
    fastener: Screw | Lag,
    side: Stuff,
    side_mm: float,
    main: Stuff,
    main_depth_mm: float,
    gap_mm: float = 0.0,
    duration: float = 0.9,
    *,
    seated: bool = False,
    end_grain: bool = False,
) -> Capacity:
    """Return what one fastener carries, driven into side grain, or into end grain, dry, indoors.

    Withdrawal NDS 2018 12.2; head pull-through 12.2.5 (a head or washer over 1/2 in, a side member over 1-1/2 in, count
    as those); lateral by TR-12 with the gap and NDS reduction terms. Lags are taken loaded across the grain of both
    members, the lesser value. `duration` is C_D. `seated` takes what fills the gap to bear as the side member does: no
    bound, a likely figure. In end grain a wood screw holds nothing that pulls. Raises `OutsideLimits` (penetration,
    ranges) or `NoGravity`.
    """
    within("duration-factor", "load duration factor", duration, 0.5, 1.6, "", "nds-2018-2-3-2")
    g_main, g_side = gravity(main, holds=True), gravity(side, holds=False)
    lag = isinstance(fastener, Lag)
    diameter = mm(fastener.diameter)
    tip = mm(fastener.tip) if isinstance(fastener, Lag) else 2.0 * diameter
    penetration, thread = _depths(fastener, side_mm, gap_mm, main_depth_mm)
    counted = penetration - (tip if lag else 0.0)
    least = placement.least_penetration_mm("lag" if lag else "screw", diameter)
    into = "penetration right through the stud" if penetration == main_depth_mm else "penetration into the stud"
    within("fastener-penetration", into, counted, least, None, "mm", "nds-2018-12-1")
    per_mm = withdrawal.lag_n_mm(g_main, diameter) if lag else withdrawal.screw_n_mm(g_main, diameter)
    of_grain, sideways = (adjust.END_GRAIN_LAG if lag else 0.0, adjust.END_GRAIN) if end_grain else (1.0, 1.0)
    pull_out = per_mm * thread * duration * of_grain
    head = mm(fastener.washer) if isinstance(fastener, Lag) else mm(fastener.head)
    through = duration * withdrawal.head_pull_through_n(g_side, min(head, MOST_HEAD_MM), min(side_mm, MOST_SIDE_MM))
    shear = _shear(fastener, placement.bearing_length_mm(penetration, tip), side_mm, (g_main, g_side))
    modes = yielding.single_shear_with_gap(shear, 0.0 if seated else gap_mm)
    return Capacity(
        thread_mm=thread,
        penetration_mm=penetration,
        gap_mm=gap_mm,
        withdrawal_n=pull_out,
        pull_through_n=through,
        pull_n=min(pull_out, through),
        lateral_n=duration * sideways * min(modes),
        mode=modes.governing,
        modes_n=tuple(zip(yielding.MODE_NAMES, (duration * sideways * value for value in modes), strict=True)),
    )
