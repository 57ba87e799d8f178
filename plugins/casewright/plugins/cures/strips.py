"""What may be changed of the strips that a cabinet hangs by: their height, their stuff, the way of hanging."""

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from itertools import chain, islice, zip_longest
from typing import Final

from casewright.plugins.cures.fastening import Beside, Hung, fastenings
from casewright.sdk.engineering.hanging_case import HangingCase
from casewright.sdk.engineering.units import NM_PER_MM, mm
from casewright.sdk.materials import Stuff
from casewright.sdk.methods import Change
from casewright.sdk.units import INCH, MM

HEIGHTS = {
    "in": [n * INCH // 2 for n in (5, 6, 7, 8, 9, 10, 12, 14, 16, 20, 24)],
    "mm": [n * MM for n in (60, 80, 100, 120, 140, 160, 180, 200, 250, 300)],
}
SCREWED: Final = "screw-strip"
HOOKED: Final = "bevel-cleat"


def higher_strips(hung: Hung, beside: Beside) -> Iterator[Beside]:
    """Yield higher strips, the least first."""
    if not hung.cases:
        return
    high = round(beside.case_of(hung.cases[0]).strip.width_mm * NM_PER_MM)
    for height in HEIGHTS[hung.stop.plan.job.units]:
        if height > high:
            words, case_of = f"strips {hung.stop.write.cut(height)} high", partial(_higher, by=(high, height))
            yield beside.with_option(words, "height", hung.size(height), case_of)


def strips(hung: Hung, beside: Beside | None = None) -> Iterator[Change]:
    """Yield higher strips, each with the fasteners that it then needs, and of each other material the least high.

    The two are yielded in turn, as there may be no wood for higher ones of the material that is there; where nothing is
    known of strips as they are, other materials come first.
    """
    beside = Beside() if beside is None else beside
    higher = chain.from_iterable(_with_strips(hung, more) for more in higher_strips(hung, beside))
    others = chain.from_iterable(_least_high(hung, more) for more in _other_strips(hung, beside))
    ways = (higher, others) if hung.use(beside.case_of) is not None else (others, higher)
    yield from (change for turn in zip_longest(*ways) for change in turn if change is not None)


def _least_high(hung: Hung, beside: Beside) -> Iterator[Change]:
    """Yield strips as high as they are, or else the least high ones that hold."""
    ways = chain([beside], higher_strips(hung, beside))
    yield from islice(chain.from_iterable(_with_strips(hung, more) for more in ways), 1)


def _other_strips(hung: Hung, beside: Beside) -> Iterator[Beside]:
    """Yield strips of the job's other materials."""
    now = hung.mounting.choice.options.get("material")
    for key, material in hung.stop.plan.job.materials.items():
        if material.kind != "band" and not material.to_size and key != now:
            stuff = hung.stop.choices.catalogue.stuff(material.stuff)
            case_of = partial(_of, stuff=stuff, thickness=mm(material.thickness))
            yield beside.with_option(f"strips of {key}", "material", key, case_of)


def _with_strips(hung: Hung, more: Beside) -> Iterator[Change]:
    """Yield other strips with the fasteners that they then need; in masonry their anchors stay as they are."""
    if any(case.wall.kind == "masonry" for case in hung.cases):
        if hung.use(more.case_of) is not None:
            yield more.change(hung)
        return
    yield from islice(fastenings(hung, more), 1)


def _higher(case: HangingCase, by: tuple[int, int]) -> HangingCase:
    """Return a case with its strip, and the cabinet's own cleat over it, made higher downward from the top.

    What that weighs more hangs on the fasteners: of a pair of cleats, the cabinet's own.
    """
    was, now = by
    cleats = 2 if case.mounting == HOOKED else 1
    strip = replace(case.strip, width_mm=mm(now), low_mm=case.strip.low_mm - cleats * mm(now - was))
    volume_m3 = strip.thickness_mm * strip.length_mm * mm(now - was) / 1e9
    return replace(case, strip=strip, cabinet_kg=case.cabinet_kg + volume_m3 * strip.stuff.density_kg_m3)


def _of(case: HangingCase, stuff: Stuff, thickness: float) -> HangingCase:
    return replace(case, strip=replace(case.strip, stuff=stuff, thickness_mm=thickness))


def other_mounting(hung: Hung) -> Iterator[Change]:
    """Yield the other way to hang, with the strips and fasteners that it needs."""
    other: str = SCREWED
    words = "a strip inside, screwed to the wall through the back"
    if hung.mounting.choice.method != HOOKED:
        other, words = HOOKED, "a pair of bevelled cleats behind the back"
    case_of = partial(_screwed, back=_back_mm(hung)) if other == SCREWED else hooked
    beside = Beside((words,), {}, (), case_of, other)
    yield beside.change(hung)
    yield from islice(fastenings(hung, beside), 2)
    for more in higher_strips(hung, beside):
        yield from islice(fastenings(hung, more), 1)


def _back_mm(hung: Hung) -> float:
    """Return how thick the cabinet's back is, with the room behind it."""
    cabinet = hung.stop.cabinet
    back = cabinet.case.back if cabinet else None
    return 0.0 if back is None else mm(hung.stop.plan.job.materials[back.material].thickness + back.inset)


def _screwed(case: HangingCase, back: float) -> HangingCase:
    """Return a hooked case as one whose strip is screwed through the back, as high as its upper cleat stands."""
    strip = replace(case.strip, low_mm=case.strip.low_mm + case.strip.width_mm - case.strip.thickness_mm)
    return replace(case, mounting=SCREWED, behind_strip_mm=back, strip=strip, anti_lift=None)


def hooked(case: HangingCase) -> HangingCase:
    """Return a screwed case as one that hooks on a cleat below its own; one that hooks as it is."""
    if case.mounting == HOOKED:
        return case
    low = case.strip.low_mm - case.strip.width_mm + case.strip.thickness_mm
    strip = replace(case.strip, low_mm=low)
    return replace(case, mounting=HOOKED, behind_strip_mm=0.0, before_strip_mm=0.0, strip=strip)
