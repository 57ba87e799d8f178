"""Where else along the wall a cabinet holds: moves to other studs, and a width that reaches two of them."""

from collections.abc import Container, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial
from itertools import chain, islice, pairwise
from math import fsum

from casewright.plugins.cures.fastening import ALLOWANCE, Beside, Hung, fastenings, hung_of, use_of
from casewright.plugins.cures.moving import (
    STEP,
    Move,
    Place,
    Setting,
    is_free,
    moved,
    moving_words,
    place_settings,
    row_settings,
    shifts,
)
from casewright.plugins.cures.strips import strips
from casewright.sdk.engineering.hanging_case import HangingCase
from casewright.sdk.engineering.hanging_places import caught_studs
from casewright.sdk.engineering.units import NM_PER_MM, mm
from casewright.sdk.methods import Change, Stop
from casewright.sdk.model import Spot
from casewright.sdk.patching import patch_setting
from casewright.sdk.units import INCH, Units, to_number

BEYOND_MM = 70.0
"""How far a cabinet that is made wider reaches past the studs it is to be fixed to."""


def places(hung: Hung) -> Iterator[Change]:
    """Yield the least moves along the wall at which the strip holds, by itself or with other fasteners.

    With others it is tried where it first catches so many studs, and where these stand best about its middle.
    """
    stop, number = hung.stop, hung.stop.spot
    if number is None or number >= len(hung.cases):
        return
    least: dict[int, int] = {}
    middle: dict[int, tuple[float, int]] = {}
    spots = _own_spot(hung, number)
    for by in shifts(stop.plan.job.units):
        there = shifted(hung.cases[number], by)
        use = use_of(there)
        if use is not None and use <= 1.0:
            yield moved(stop, number, (by, 0))
        caught = caught_studs(there)
        least.setdefault(len(caught), by)
        if caught and is_free(stop, spots, by):
            off = abs(fsum(caught) / len(caught) - there.centre_x_mm)
            middle[len(caught)] = min(middle.get(len(caught), (off, by)), (off, by), key=lambda one: one[0])
    for studs, by in sorted(least.items(), reverse=True):
        if studs:
            yield from place_moved(hung, number, (by, 0))
            if studs in middle and middle[studs][1] != by:
                yield from place_moved(hung, number, (middle[studs][1], 0))
    if not any(least):
        for by in _over_studs(hung.cases[number], stop.plan.job.units):
            if is_free(stop, spots, by):
                yield from place_moved(hung, number, (by, 0))


def _over_studs(case: HangingCase, units: Units) -> list[int]:
    """Return the moves along the wall that bring the cabinet's middle over two studs or one, the least first."""
    studs, step = sorted(case.wall.studs_at_mm), STEP[units]
    middles = [*studs, *(sum(pair) / 2.0 for pair in pairwise(studs))]
    moves = {round((middle - case.centre_x_mm) * NM_PER_MM / step) * step for middle in middles}
    return sorted(moves - {0}, key=lambda by: (abs(by), by))


def _own_spot(hung: Hung, number: int) -> tuple[Spot, ...]:
    """Return the place of a cabinet on the wall by its number, where the job has it."""
    wall, cabinet = hung.stop.plan.job.wall, hung.stop.cabinet
    spots = wall.cabinets_at.get(cabinet.id, ()) if wall and cabinet else ()
    return spots[number : number + 1]


def whole_row(hung: Hung) -> Iterator[Change]:
    """Yield all cabinets of the wall moved together, to where this one catches studs, with what then holds it."""
    stop, number, wall = hung.stop, hung.stop.spot, hung.stop.plan.job.wall
    if number is None or number >= len(hung.cases) or wall is None or len(wall.cabinets_at) < 2:
        return
    row = list(chain.from_iterable(wall.cabinets_at.values()))
    least: dict[int, int] = {}
    for by in shifts(stop.plan.job.units):
        least.setdefault(len(caught_studs(shifted(hung.cases[number], by))), by)
    for studs, by in sorted(least.items(), reverse=True):
        if studs:
            words, settings = f"the whole row, {moving_words(stop, (by, 0))}", row_settings(stop, by, row)
            beside = Beside((words,), {}, settings, partial(shifted, by=by))
            hung.left = ALLOWANCE
            yield from islice(chain(fastenings(hung, beside), strips(hung, beside)), 1)


def row_moved(stop: Stop, by: int, spots: Container[Spot]) -> Change | None:
    """Return places moved together along the wall, each of their cabinets fastened as it needs to be there.

    None where no fastening that is weighed holds one of them that is held now.
    """
    wall = stop.plan.job.wall
    assert wall is not None
    moves = {(name, n): by for name, row in wall.cabinets_at.items() for n, spot in enumerate(row) if spot in spots}
    beside_it = ", with what stands beside it" if len(moves) > 1 else ""
    return moves_fastened(stop, f"{moving_words(stop, (by, 0))}{beside_it}", moves)


def moves_fastened(stop: Stop, words: str, moves: Mapping[Place, int]) -> Change | None:
    """Return places moved along the wall, each its own way, their cabinets fastened as they need to be there.

    None where no fastening that is weighed holds one of them that is held now.
    """
    how, patch = [words], patch_setting(stop.document, *_settings(stop, moves))
    for cabinet in stop.plan.job.cabinets:
        going = {number: by for (name, number), by in moves.items() if name == cabinet.id and by}
        hung = hung_of(replace(stop, check=replace(stop.check, subject=cabinet.id))) if going else None
        if hung is None or not hung.cases:
            continue
        there = [shifted(case, going.get(n, 0)) for n, case in enumerate(hung.cases)]
        if all(_holds(case) or not _holds(now) for case, now in zip(there, hung.cases, strict=True)):
            continue
        hung.left = ALLOWANCE
        beside = Beside(case_of=partial(_one_of, was=hung.cases, now=tuple(there)))
        other = next(chain(fastenings(hung, beside), strips(hung, beside)), None)
        if other is None:
            return None
        how.append(f"{cabinet.id} with {other.words}")
        patch += other.patch
    return Change(" and ".join(how), patch)


def _settings(stop: Stop, moves: Mapping[Place, int]) -> Iterator[Setting]:
    for (name, number), by in moves.items():
        yield from place_settings(stop, [(number, (by, 0))], name)


def _holds(case: HangingCase) -> bool:
    use = use_of(case)
    return use is not None and use <= 1.0


def _one_of(case: HangingCase, was: Sequence[HangingCase], now: Sequence[HangingCase]) -> HangingCase:
    return next((there for one, there in zip(was, now, strict=True) if one is case), case)


def place_moved(hung: Hung, number: int, by: Move) -> Iterator[Change]:
    """Yield the move of one place with the least of other fastenings that holds it there, and what holds now.

    A copy elsewhere that no stud holds is another stop: it asks for a move of its own.
    """
    cases = tuple([case for n, case in enumerate(hung.cases) if n == number or caught_studs(case)])
    moved_one = hung.cases[number]
    hung = replace(hung, cases=cases)
    hung.left = ALLOWANCE
    settings = place_settings(hung.stop, [(number, by)])
    case_of = partial(_shifted_one, which=moved_one, by=by[0])
    beside = Beside((moving_words(hung.stop, by),), {}, settings, case_of)
    yield from islice(chain(fastenings(hung, beside), strips(hung, beside)), 1)


def shifted(case: HangingCase, by: int) -> HangingCase:
    """Return a case moved along the wall by so many nm."""
    strip = replace(case.strip, left_mm=case.strip.left_mm + mm(by))
    return replace(case, left_mm=case.left_mm + mm(by), centre_x_mm=case.centre_x_mm + mm(by), strip=strip)


def _shifted_one(case: HangingCase, which: HangingCase, by: int) -> HangingCase:
    return shifted(case, by) if case is which else case


def wider(hung: Hung) -> Iterator[Change]:
    """Yield the cabinet made as wide as two studs ask, the nearest two first; its outside size is given up."""
    stop, number, cabinet = hung.stop, hung.stop.spot, hung.stop.cabinet
    if number is None or number >= len(hung.cases) or cabinet is None or cabinet.count > 1:
        return
    case = hung.cases[number]
    pairs = sorted(pairwise(sorted(case.wall.studs_at_mm)), key=lambda two: abs(sum(two) / 2 - case.centre_x_mm))
    for left, right in pairs[:3]:
        width = right - left + 2 * BEYOND_MM
        if width <= case.width_mm:
            continue
        size = _up(width, stop.write.inches)
        start = round((left - BEYOND_MM) * NM_PER_MM)
        units = stop.plan.job.units
        at = ("wall", "cabinets_at", cabinet.id, number, "x")
        settings: tuple[Setting, ...] = ((stop.at("width"), to_number(size, units)), (at, to_number(start, units)))
        settings += _pushed(hung, start + size - round((case.left_mm + case.width_mm) * NM_PER_MM))
        words = f"a width of {stop.write.cut(size)}, hung {stop.write.cut(start)} from the wall's left end"
        case_of = partial(_widened, left_mm=left - BEYOND_MM, width_mm=width)
        beside = Beside((words,), {}, settings, case_of, keeps=False)
        hung.left = ALLOWANCE
        yield from islice(chain(fastenings(hung, beside), strips(hung, beside)), 1)


def _pushed(hung: Hung, by: int) -> tuple[Setting, ...]:
    """Return what sets all that stands to the right of this cabinet farther right, where it grows there."""
    stop, wall, number = hung.stop, hung.stop.plan.job.wall, hung.stop.spot
    if wall is None or number is None or stop.cabinet is None or by <= 0:
        return ()
    own = wall.cabinets_at[stop.cabinet.id][number].x
    return row_settings(stop, by, [spot for spots in wall.cabinets_at.values() for spot in spots if spot.x > own])


def _up(width_mm: float, inches: bool) -> int:
    """Return a width in nm, up to a whole quarter inch or 5 mm."""
    step = INCH // 4 if inches else 5 * round(NM_PER_MM)
    return -(-round(width_mm * NM_PER_MM) // step) * step


def _widened(case: HangingCase, left_mm: float, width_mm: float) -> HangingCase:
    """Return a case of another width, its mass in proportion, its strip as much shorter as it is now."""
    short = case.width_mm - case.strip.length_mm
    strip = replace(case.strip, left_mm=left_mm + short / 2.0, length_mm=width_mm - short)
    return replace(
        case,
        left_mm=left_mm,
        width_mm=width_mm,
        centre_x_mm=left_mm + width_mm / 2.0,
        cabinet_kg=case.cabinet_kg * width_mm / case.width_mm,
        strip=strip,
    )
