"""Cures for cabinets that cannot stand or hang where the job has them: moves, sizes, fillers, doors that meet walls."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from functools import partial
from itertools import chain, pairwise
from typing import Any, ClassVar

from casewright.plugins.cures.fastening import ALLOWANCE, Beside, fastenings, hung_of
from casewright.plugins.cures.moving import (
    Move,
    Setting,
    is_free,
    is_open,
    least_free,
    moved,
    row_settings,
    set_out,
    shifts,
)
from casewright.plugins.cures.shifting import moves_fastened, place_moved, row_moved, shifted
from casewright.plugins.cures.spaces import other_hinge_sides
from casewright.plugins.cures.strips import HOOKED, strips
from casewright.sdk.engineering.hanging_case import HangingCase
from casewright.sdk.engineering.hanging_case import Wall as WallCase
from casewright.sdk.errors import steps_of
from casewright.sdk.geometry import Box
from casewright.sdk.methods import Change, CureGenerator, Stop
from casewright.sdk.model import Cabinet, HungCabinet, Spot, Wall
from casewright.sdk.patching import at_path, patch_setting
from casewright.sdk.units import INCH, MM, to_number

TAPE = {"in": INCH // 8, "mm": MM}
HUNG_AT = {"in": 54 * INCH, "mm": 1400 * MM}
"""Where a wall cabinet's bottom is tried where the job says nothing: 54 in over the floor, or 1400 mm (practice)."""

LIFT = 2 * INCH
"""Room left under the ceiling for lifting a cabinet on its hook (common practice, no source)."""

NARROW = 3 * INCH
MOVES = 16
FIRM: Mapping[str, Mapping[str, Any]] = {
    "in": {"height": 7, "per_stud": 5, "fastener": "lag-1-4-3"},
    "mm": {"height": 180, "per_stud": 5, "fastener": "lag-1-4-3"},
}
"""A fastening firm enough for most, where nothing is known of the place yet."""

FILLER = {"in": 2 * INCH, "mm": 50 * MM}


class PlaceCures(CureGenerator):
    """Cures for places on the wall, and for what stands beside."""

    id: ClassVar[str] = "places"
    title: ClassVar[str] = "Places on the wall, outside sizes, fillers"
    codes: ClassVar[frozenset[str]] = frozenset(
        {
            "cabinets-overlap", "ceiling-hit", "door-swing", "filler-no-room", "filler-wide", "filler-width-unknown",
            "lift-room", "obstacle-hit", "place-unknown", "wall-end-passed",
        }
    )  # fmt: skip

    def changes(self, stop: Stop) -> Iterable[Change]:
        """Yield the least moves first, then less of a cabinet, where it cannot be moved."""
        wall, cabinet = stop.plan.job.wall, stop.cabinet
        if wall is None or cabinet is None:
            return
        match stop.check.code:
            case "place-unknown":
                if cabinet.id in wall.cabinets_at or not (wall.studs or wall.masonry):
                    return
                yield from _first_places(stop, wall, cabinet)
            case "filler-no-room" | "filler-wide" | "filler-width-unknown":
                yield from _fillers(stop, wall)
            case "ceiling-hit" | "lift-room":
                yield from _lower(stop)
            case "door-swing":
                yield from other_hinge_sides(stop, cabinet)
                yield from _set_out(stop, (0, NARROW))
                yield from _as_wide_as_places(stop, wall, cabinet)
                yield from _free_rows(stop, wall, NARROW)
                yield from _moves(stop, wall, NARROW)
            case _:
                yield from _set_out(stop, (0,))
                yield from _as_wide_as_places(stop, wall, cabinet)
                yield from _narrower(stop, cabinet, _by(stop))
                yield from _moves(stop, wall, _by(stop))


def _by(stop: Stop) -> int:
    """Return the least move that the check asks for, up to a mark of the tape."""
    value, tape = stop.check.value, TAPE[stop.plan.job.units]
    return -(-abs(round(value)) // tape) * tape if isinstance(value, (int, float)) else tape


def _moves(stop: Stop, wall: Wall, by: int) -> Iterator[Change]:
    """Yield moves of the one place, and of all that stands beyond it on either side with it."""
    number = stop.spot
    if number is None or stop.cabinet is None:
        return
    ways: list[Move] = [(by, 0), (-by, 0), (0, -by), (0, by)]
    if stop.cabinet.stands:
        ways = ways[:2]
    for way in ways:
        yield moved(stop, number, way)
    x = wall.cabinets_at[stop.cabinet.id][number].x
    for sign, side in ((1, "right"), (-1, "left")):
        beyond = [spot for spots in wall.cabinets_at.values() for spot in spots if sign * (spot.x - x) >= 0]
        if len(beyond) > 1:
            words = f"this and all to its {side} {stop.write.cut(by)} to the {side}"
            yield Change(words, patch_setting(stop.document, *row_settings(stop, sign * by, beyond)))
    yield from _free_rows(stop, wall)
    hung = hung_of(stop)
    if hung is not None and number < len(hung.cases):
        for way in ways[:2]:
            yield from place_moved(hung, number, way)
    steps = [step for step in shifts(stop.plan.job.units) if abs(step) > by][::4][:MOVES]
    for step in steps:
        yield moved(stop, number, (step, 0))


def _free_rows(stop: Stop, wall: Wall, more: int = 0) -> Iterator[Change]:
    """Yield the least moves at which nothing is hit, with `more` room: of this place, of it and all beyond, of all."""
    number = stop.spot
    if number is None or stop.cabinet is None:
        return
    own = wall.cabinets_at[stop.cabinet.id][number]
    every = [spot for spots in wall.cabinets_at.values() for spot in spots]
    rows = [[own], [one for one in every if one.x >= own.x], [one for one in every if one.x <= own.x], every]
    tried: list[tuple[int, list[Spot]]] = []
    for sign in (1, -1):
        for row in rows:
            free = least_free(stop, row, sign)
            by = None if free is None else free + sign * more
            if by is not None and (by, row) not in tried and is_free(stop, row, by):
                tried.append((by, row))
    for by, row in sorted(tried, key=lambda one: abs(one[0])):
        change = row_moved(stop, by, row)
        if change is not None:
            yield change


def _set_out(stop: Stop, gaps: Iterable[int]) -> Iterator[Change]:
    """Yield all places of the wall set out anew from one end, so far apart where they would hit one another."""
    for apart in gaps:
        for sign, end in ((1, "left"), (-1, "right")):
            moves = set_out(stop, sign, apart)
            if moves is not None:
                where = f"{stop.write.cut(apart)} apart" if apart else "side by side"
                words = f"the row set out anew from its {end} end, {where} where one would be in another's way"
                change = moves_fastened(stop, words, moves)
                if change is not None:
                    yield change


def _as_wide_as_places(stop: Stop, wall: Wall, cabinet: Cabinet) -> Iterator[Change]:
    """Yield a cabinet as wide as its places leave it, where it reaches past the next place to the right of one."""
    heights = {one.id: one.height for one in stop.plan.job.cabinets}
    every = [(spot, spot.z + heights[name]) for name, spots in wall.cabinets_at.items() for spot in spots]
    left = [
        other.x - own.x
        for own in wall.cabinets_at.get(cabinet.id, ())
        for other, top in every
        if own.x < other.x and own.z < top and other.z < own.z + cabinet.height
    ]
    width = min(left, default=cabinet.width)
    if width < cabinet.width:
        words = f"a width of {stop.write.cut(width)}, to the next place on the wall"
        setting = (stop.at("width"), to_number(width, stop.plan.job.units))
        yield Change(words, patch_setting(stop.document, setting), keeps=False)


def _narrower(stop: Stop, cabinet: Cabinet, by: int) -> Iterator[Change]:
    for size, was in (("width", cabinet.width), ("height", cabinet.height)):
        if was - by > 0 and not (size == "height" and cabinet.stands):
            words = f"a {size} of {stop.write.cut(was - by)}"
            value = to_number(was - by, stop.plan.job.units)
            yield Change(words, patch_setting(stop.document, (stop.at(size), value)), keeps=False)


def _lower(stop: Stop) -> Iterator[Change]:
    """Yield the cabinet hung lower, or made lower, by what it is too high."""
    value, limit = stop.check.value, stop.check.limit
    cabinet, number = stop.cabinet, stop.spot
    if not isinstance(value, (int, float)) or not isinstance(limit, (int, float)) or cabinet is None:
        return
    scale = 1 if stop.check.unit == "length" else MM
    tape = TAPE[stop.plan.job.units]
    by = -(-round(abs(value - limit) * scale) // tape) * tape
    if number is not None and not cabinet.stands:
        for more in (by, 2 * by):
            yield moved(stop, number, (0, -more))
    words = f"a height of {stop.write.cut(cabinet.height - by)}"
    height = (stop.at("height"), to_number(cabinet.height - by, stop.plan.job.units))
    yield Change(words, patch_setting(stop.document, height), keeps=False)


def _first_places(stop: Stop, wall: Wall, cabinet: Cabinet) -> Iterator[Change]:
    """Yield places for all copies of a cabinet: beside what hangs there, or where its middle is at a stud."""
    units = stop.plan.job.units
    others = [(name, spot) for name, spots in wall.cabinets_at.items() for spot in spots]
    widths = {one.id: one.width for one in stop.plan.job.cabinets}
    level = 0 if cabinet.stands else next((spot.z for _, spot in others if spot.z), HUNG_AT[units])
    right = max((spot.x + widths.get(name, 0) for name, spot in others), default=0)
    studs = wall.studs.at if wall.studs else ()
    between = [(a + b - cabinet.width) // 2 for a, b in pairwise(sorted(studs))]
    before = [spot.x - cabinet.count * cabinet.width for _, spot in others]
    starts = [
        right,
        *before,
        *between,
        *(stud - cabinet.width // 2 for stud in studs),
        *(stud - 3 * INCH for stud in studs),
    ]
    firm = FIRM[units]
    options = (("method", cabinet.mounting.choice.method if cabinet.mounting else HOOKED), *firm.items())
    stronger = [(stop.at("mounting", key), value) for key, value in options]
    if wall.ceiling is not None and not cabinet.stands:
        level = max(0, min(level, wall.ceiling - cabinet.height - LIFT))
    open_at = [x for x in sorted(set(starts)) if is_open(stop, [_room(cabinet, x, level)])]
    for start in open_at[:8]:
        places = [
            {"x": to_number(start + n * cabinet.width, units), "z": to_number(level, units)}
            for n in range(cabinet.count)
        ]
        words = f"its place: {stop.write.cut(start)} from the wall's left end, {stop.write.cut(level)} up"
        there = (("wall", "cabinets_at", cabinet.id), places)
        yield Change(words, patch_setting(stop.document, there))
        fastened = _fastened_there(stop, (words, there), start)
        yield fastened or Change(f"{words}, firmly fastened", patch_setting(stop.document, there, *stronger))


def _room(cabinet: Cabinet, x: int, z: int) -> Box:
    """Return the room that all copies of a cabinet take side by side from a place on the wall."""
    return Box(x, 0, z, x + cabinet.count * cabinet.width, 1, z + cabinet.height)


def _fastened_there(stop: Stop, place: tuple[str, Setting], start: int) -> Change | None:
    """Return a first place with the least fastening that holds it there; `None` where the wall's studs are not known.

    The wall is as it is behind the cabinets that hang on it.
    """
    hung = hung_of(stop)
    cases = [one.result.case for one in stop.plan.mounting if isinstance(one.result, HungCabinet)]
    wall = next((case.wall for case in cases if case.wall.kind == "studs"), None)
    if hung is None or not hung.cases or wall is None:
        return None
    words, there = place
    hung.left = ALLOWANCE
    beside = Beside((words,), {}, (there,), partial(_placed, by=start, wall=wall))
    return next(chain(fastenings(hung, beside), strips(hung, beside)), None)


def _placed(case: HangingCase, by: int, wall: WallCase) -> HangingCase:
    return replace(shifted(case, by), wall=wall)


def _fillers(stop: Stop, wall: Wall) -> Iterator[Change]:
    """Yield another width of the filler, none, and room for it."""
    at = steps_of(stop.check.subject)
    units, filler = stop.plan.job.units, at_path(stop.document, at)
    if not isinstance(filler, dict):
        return
    if stop.check.code == "filler-width-unknown":
        value = to_number(FILLER[units], units)
        words = f"a filler {stop.write.cut(FILLER[units])} wide"
        yield Change(words, patch_setting(stop.document, ((*at, "width"), value)))
    elif "width" in filler:
        yield Change("a filler as wide as its gap", patch_setting(stop.document, ((*at, "width"), None)))
    yield from _moves(stop, wall, _by(stop) + TAPE[units])
    yield from _moves(stop, wall, _by(stop) + FILLER[units])
    yield Change("no filler there", patch_setting(stop.document, (at, None)), keeps=False)
