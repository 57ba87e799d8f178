"""Where the studs must be, how long the cleat, and whether neighbours may share one. Millimetres along the wall."""

import itertools
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from casewright.sdk.engineering import hanging_solve
from casewright.sdk.engineering.hanging_case import Capacity, Extension, FastenerUse, HangingCase, Lift, Strip
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.writer import MILLIMETRES, Writer

_HALVINGS = 50
TOUCH_MM = 1e-6
"""Places nearer one another than this are one."""

CLEAR_MM = 0.5
"""How much farther than it must a strip is moved, so that the move may be rounded in words."""

_MOST_STUDS = 12
_MOST_NEAR = 4


def end_margin_mm(case: HangingCase) -> float:
    """Return how far from the strip's end its first fastener stands for full value."""
    room = hanging_solve.spacing(case)
    return hanging_solve.ANCHOR_MARGIN_MM if room is None else room.end


@dataclass(frozen=True, slots=True)
class Columns:
    """Studs that fasteners may stand in together, and C_Δ for the one nearest an end of the strip."""

    at_mm: tuple[float, ...]
    end_factor: float


def caught_studs(case: HangingCase) -> tuple[float, ...]:
    """Return the studs that an unbroken piece of the strip crosses with its full end distance kept, from the left."""
    return tuple([x for x, factor in _end_factors(case).items() if factor == 1.0])


def column_sets(case: HangingCase) -> tuple[Columns, ...]:
    """Return the sets of studs that fasteners may stand in: those of full end distance, and with others nearer an end.

    Those others, no nearer than half of it, bring C_Δ for all (NDS 2018 12.5.1). None where the strip crosses no stud.
    """
    factors = _end_factors(case)
    full = [x for x, factor in factors.items() if factor == 1.0]
    near = sorted((x for x in factors if factors[x] < 1.0), key=lambda x: (-factors[x], x))[:_MOST_NEAR]
    sets = [
        Columns(tuple(sorted([*full, *more])), min((factors[x] for x in more), default=1.0))
        for size in range(len(near) + 1)
        for more in itertools.combinations(near, size)
    ]
    return tuple([one for one in sets if one.at_mm])


def nearest_end_mm(case: HangingCase, columns_mm: Sequence[float]) -> float:
    """Return how near columns stand to the ends of the unbroken pieces of strip that they are in, the nearest one."""
    pieces = case.strip.pieces_mm
    return min(max(min(x - left, right - x) for left, right in pieces) for x in columns_mm)


def _end_factors(case: HangingCase) -> dict[float, float]:
    """Return C_Δ for the end distance at every stud that an unbroken piece of the strip crosses, from the left."""
    room, full = hanging_solve.spacing(case), end_margin_mm(case)
    least = full if room is None else room.end_least
    factors: dict[float, float] = {}
    left, right = case.strip.left_mm, case.strip.right_mm
    for x in sorted({x for x in case.wall.studs_at_mm if left <= x <= right}):
        end = nearest_end_mm(case, (x,))
        if end >= least - TOUCH_MM:
            factors[x] = 1.0 if end >= full - TOUCH_MM else end / full
    return factors


def anchor_columns(case: HangingCase) -> tuple[float, ...]:
    """Return places for masonry anchors: the outer two one eighth of the strip from its ends, the rest evenly."""
    n, strip = max(1, case.wall.anchors), case.strip
    if n == 1:
        return (strip.left_mm + strip.length_mm / 2.0,)
    first, span = strip.left_mm + strip.length_mm / 8.0, strip.length_mm * 0.75
    return tuple(first + span * k / (n - 1) for k in range(n))


Carries = Callable[[Sequence[float]], bool]
"""A test of columns: do fasteners in them carry a cabinet? `hanging_solve.trial` makes one."""


def anti_lift_stud(case: HangingCase) -> float | None:
    """Return the stud that the anti-lift fastener goes into: the one caught behind the cabinet nearest its middle."""
    caught = caught_studs(case) or tuple(_end_factors(case))
    behind = [x for x in caught if case.left_mm <= x <= case.left_mm + case.width_mm]
    return min(behind, key=lambda x: (abs(x - case.centre_x_mm), x), default=None)


def works_between(case: HangingCase, carries: Carries) -> tuple[float, float] | None:
    """Return the span of places where one stud alone would do, None if nowhere.

    The use grows with the distance from the centre of gravity, so each end is found by halving.
    """
    margin = end_margin_mm(case)
    low, high = case.strip.left_mm + margin, case.strip.right_mm - margin
    if low > high:
        return None
    best = min(max(case.centre_x_mm, low), high)
    if not carries((best,)):
        return None

    def reach(end: float) -> float:
        if carries((end,)):
            return end
        good, bad = best, end
        for _ in range(_HALVINGS):
            middle = (good + bad) / 2.0
            good, bad = (middle, bad) if carries((middle,)) else (good, middle)
        return good

    return reach(low), reach(high)


def stud_sets(case: HangingCase, carries: Carries) -> tuple[tuple[float, ...], ...]:
    """Return the smallest sets of caught studs that carry the cabinet, all of that size; up to three studs a set.

    Beyond twelve caught studs only the twelve nearest the centre of gravity are tried.
    """
    caught = sorted(caught_studs(case), key=lambda x: (abs(x - case.centre_x_mm), x))[:_MOST_STUDS]
    for size in (1, 2, 3):
        good = [group for group in itertools.combinations(sorted(caught), size) if carries(group)]
        if good:
            return tuple(good)
    return ()


def extension(case: HangingCase) -> Extension | None:
    """Return the least lengthening of the strip that catches one stud more; None where it has no room to reach one."""
    if case.reach_mm is None:
        return None
    margin = end_margin_mm(case)
    strip = case.strip
    low, high = case.reach_mm[0] - TOUCH_MM, case.reach_mm[1] + TOUCH_MM
    ways: list[Extension] = []
    for x in sorted(set(case.wall.studs_at_mm)):
        if strip.right_mm < x + margin <= high:
            ways.append(Extension("right", x + margin - strip.right_mm, x))
        elif low <= x - margin < strip.left_mm:
            ways.append(Extension("left", strip.left_mm - (x - margin), x))
    return min(ways, key=lambda way: (way.by_mm, way.side), default=None)


def catching_move(case: HangingCase) -> float | None:
    """Return the least move along the wall, to the right if above zero, at which the strip catches two studs.

    None where no two are near enough for it, or where it is broken between them.
    """
    margin, strip = end_margin_mm(case) + CLEAR_MM, case.strip
    moves: list[float] = []
    for left, right in itertools.pairwise(sorted(set(case.wall.studs_at_mm))):
        least, most = right + margin - strip.length_mm - strip.left_mm, left - margin - strip.left_mm
        if least <= most:
            moves.append(min(max(least, 0.0), most))
    moved = ((by, replace(case, strip=_moved(strip, by))) for by in sorted(moves, key=abs))
    return next((by for by, there in moved if len(caught_studs(there)) > 1), None)


def _moved(strip: Strip, by_mm: float) -> Strip:
    breaks = tuple((left + by_mm, right + by_mm) for left, right in strip.breaks_mm)
    return replace(strip, left_mm=strip.left_mm + by_mm, breaks_mm=breaks)


def lift(case: HangingCase) -> Lift:
    """Return the rise that hooking on takes, t tan b plus clearance, and whether the ceiling leaves it."""
    rise = 0.0
    if case.mounting == "bevel-cleat":
        rise = case.strip.thickness_mm * math.tan(math.radians(case.bevel_deg)) + case.hook_clearance_mm
    needed = case.bottom_mm + case.height_mm + rise
    ceiling = case.wall.ceiling_mm
    return Lift(rise, needed, None if ceiling is None else needed <= ceiling + TOUCH_MM)


@dataclass(frozen=True, slots=True)
class SharedStrip:
    """One wall cleat for neighbouring cabinets: whether it works, the worst use over all loadings, or why not."""

    works: bool
    use: float | None
    left_mm: float
    length_mm: float
    studs_mm: tuple[float, ...]
    fasteners: tuple[FastenerUse, ...]
    why_not: str = ""


def one_strip(cases: Sequence[HangingCase]) -> HangingCase | str:
    """Return neighbouring cabinets as one case on one unbroken wall cleat, or in words why they cannot be.

    They must have the same cleat at the same height on the same wall. Loads are those of all of them, for as long as
    the longest of them lasts (the least C_D).
    """
    ordered = sorted(cases, key=lambda case: case.left_mm)
    first = ordered[0]
    left = min(case.strip.left_mm for case in ordered)
    right = max(case.strip.right_mm for case in ordered)

    def section_and_place(case: HangingCase) -> tuple[object, ...]:
        strip = case.strip
        section = (strip.thickness_mm, strip.width_mm, strip.low_mm, strip.stuff, strip.breaks_mm)
        return section, case.wall, case.bevel_deg, case.fastener, case.per_stud, case.strip_over_floor_mm

    if any(case.mounting != "bevel-cleat" for case in ordered):
        return "only bevelled wall cleats can be shared"
    same = section_and_place(first)
    if any(section_and_place(case) != same for case in ordered[1:]):
        return "the cleats differ in section, stuff, height, bevel or fasteners"
    masses = [case.cabinet_kg + case.contents_kg for case in ordered]
    total = math.fsum(masses)
    return replace(
        first,
        strip=replace(first.strip, left_mm=left, length_mm=right - left),
        left_mm=min(case.left_mm for case in ordered),
        width_mm=max(case.left_mm + case.width_mm for case in ordered) - min(case.left_mm for case in ordered),
        cabinet_kg=math.fsum(case.cabinet_kg for case in ordered),
        contents_kg=math.fsum(case.contents_kg for case in ordered),
        duration=min(case.duration for case in ordered),
        centre_x_mm=math.fsum(m * case.centre_x_mm for m, case in zip(masses, ordered, strict=True)) / total,
        centre_out_mm=math.fsum(m * case.centre_out_mm for m, case in zip(masses, ordered, strict=True)) / total,
    )


def share_strip(cases: Sequence[HangingCase], capacity: Capacity, write: Writer = MILLIMETRES) -> SharedStrip:
    """Judge whether neighbouring cabinets may hang on one unbroken wall cleat.

    Judged with all of them loaded and with each hung alone. `capacity` is that of one fastener.
    """
    left = min(case.strip.left_mm for case in cases)
    right = max(case.strip.right_mm for case in cases)

    def not_shared(why: str) -> SharedStrip:
        return SharedStrip(False, None, left, right - left, (), (), why)

    together = one_strip(cases)
    if isinstance(together, str):
        return not_shared(together)
    studs = caught_studs(together)
    if not studs:
        return not_shared("the shared cleat crosses no stud")
    worst_use, worst_set = 0.0, ()  # type: float, tuple[FastenerUse, ...]
    for loading in (together, *(replace(case, strip=together.strip) for case in cases)):
        try:
            fasteners = hanging_solve.uses(loading, hanging_solve.load(loading), studs, capacity)
        except OutsideLimits as problem:
            return not_shared(problem.message(write))
        if not worst_set or hanging_solve.worst(fasteners) > worst_use:
            worst_use, worst_set = hanging_solve.worst(fasteners), fasteners
    why = "" if worst_use <= 1.0 else "its fasteners would be overloaded"
    return SharedStrip(worst_use <= 1.0, worst_use, left, right - left, studs, worst_set, why)
