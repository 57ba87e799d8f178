"""What no longer goes together as it was planned: parts too long or too short, outsides that come out otherwise."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from casewright.api.engine.as_built.outcome import Deviation, Outside
from casewright.sdk.model import LENGTH, BuiltMeasure, Cabinet, Check, Finding, Level, Repair, StockLayout, StockPlan
from casewright.sdk.units import INCH
from casewright.sdk.writer import Writer

DONE = "/done"
"""The place in the job that says so of what a step marked done has cut."""
SEEN = INCH // 8
"""A cabinet that comes out farther than this from what is asked for stops the work (common practice, no source)."""


def misfit(one: Deviation, write: Writer) -> Check:
    """Return the stop for a part that does not go in as it came out."""
    long, needed = one.off > 0, one.size.nm - one.off
    part, measure = one.part.name, one.size.measure
    how = "over" if long else "under"
    thick = measure is BuiltMeasure.THICKNESS
    less = f"plane it to {write.cut(needed)} where it goes in" if thick else f"trim it to {write.cut(needed)}"
    more = f"pack it by {write.cut(-one.off)} where it goes in" if thick else f"make it up by {write.cut(-one.off)}"
    do = less if long else f"{more}, or cut it again to {write.cut(needed)}"
    message = (
        f"The {part} of {one.part.cabinet} is {write.cut(abs(one.off))} {how} the {measure} that goes with what is "
        f"built: {do}."
    )
    subject = one.part.id if one.size.pointer == DONE else one.size.pointer
    if long:
        return Check(subject, Finding("built-too-long", "stop", message, one.size.nm, needed, LENGTH, "dry-fit"))
    return Check(subject, Finding("built-too-short", "stop", message, one.size.nm, needed, LENGTH, "dry-fit"))


def outside_checks(cabinet: Cabinet, grown: Mapping[Outside, int], write: Writer) -> Iterator[Check]:
    """Yield that a cabinet does not come out as large as is asked for."""
    sizes = {Outside.WIDTH: cabinet.width, Outside.HEIGHT: cabinet.height, Outside.DEPTH: cabinet.depth}
    for size, by in grown.items():
        word = "larger" if by > 0 else "smaller"
        message = (
            f"{cabinet.id} comes out {write.cut(abs(by))} {word} in {size} than asked for, by what is built of "
            "it; what is still to be cut is planned to go with that."
        )
        level: Level = "stop" if abs(by) > SEEN else "caution"
        finding = Finding("built-outside", level, message, sizes[size], sizes[size] - by, LENGTH, "common-practice")
        yield Check(f"{cabinet.pointer}/{size}", finding)


def from_stock(repairs: Iterable[Repair], stock: StockPlan | None) -> tuple[Repair, ...]:
    """Return repairs that say which piece on hand each part that is made again is cut from."""
    at = {placed.part: one for one in reversed(stock.layouts if stock else ()) for placed in one.placed}
    return tuple([_from(one, at) for one in repairs])


def _from(repair: Repair, at: Mapping[str, StockLayout]) -> Repair:
    pieces = dict.fromkeys(f"{at[part].stock} {at[part].number}" for part in repair.again if part in at)
    if not pieces:
        return repair
    return replace(repair, do=f"{repair.do}, from {' and '.join(pieces)}")


def repair_checks(repairs: Iterable[Repair]) -> tuple[Check, ...]:
    """Return a caution for each mistake, with what puts it right."""
    return tuple(
        [
            Check(one.pointer, Finding("built-mistake", "caution", f"{one.do}.", one.mistake, source="common-practice"))
            for one in repairs
        ]
    )
