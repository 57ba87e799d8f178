"""Other ways to fasten one hung cabinet, the least hardware first, and the greatest load a way carries.

Pure searches over `hang`: nothing here is priced or built. Millimetres, kilograms.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from casewright.sdk.engineering import hanging_places
from casewright.sdk.engineering.hanging import hang
from casewright.sdk.engineering.hanging_case import HangingCase, HangingResult
from casewright.sdk.engineering.units import MM_PER_IN, mm
from casewright.sdk.materials import Lag, Screw, Stuff

_HALVINGS = 40
_MOST_KG = 2_000.0


@dataclass(frozen=True, slots=True)
class Fastening:
    """How a strip is fastened: the wall fasteners, how many one over another in each stud, the strip's height and wood.

    `thickness_mm` is the strip's.
    """

    fastener: Screw | Lag
    per_stud: int
    height_mm: float
    stuff: Stuff
    thickness_mm: float


@dataclass(frozen=True, slots=True)
class Choices:
    """What a search may choose from; the order of `woods` is the order of preference, each with its thickness in mm."""

    fasteners: Sequence[Screw | Lag]
    per_stud: Sequence[int]
    heights_mm: Sequence[float]
    woods: Sequence[tuple[Stuff, float]]


@dataclass(frozen=True, slots=True)
class Least:
    """The first way that holds, its result, and how many were tried; `None` twice where none does."""

    fastening: Fastening | None
    result: HangingResult | None
    tried: int


def fastened(case: HangingCase, way: Fastening) -> HangingCase:
    """Return the case fastened another way, its strip still under the top.

    A cleat and its mate are of one height, so a higher pair reaches down by both; a screwed strip by itself alone.
    """
    grows = way.height_mm - case.strip.width_mm
    down = 2.0 * grows if case.mounting == "bevel-cleat" else grows
    strip = replace(
        case.strip,
        width_mm=way.height_mm,
        low_mm=case.strip.low_mm - down,
        stuff=way.stuff,
        thickness_mm=way.thickness_mm,
    )
    return replace(case, fastener=way.fastener, per_stud=way.per_stud, strip=strip)


def ways(case: HangingCase, choices: Choices) -> Iterator[Fastening]:
    """Yield every way there is to choose, the least change first.

    By the wood's place in the choices, then the fasteners in each stud, their diameter, the strip's height, the
    fastener's length. A fastener that would come out of the stud's far side is left out, and a height whose strip would
    reach below the cabinet's lowest bearing.
    """
    for stuff, thickness in choices.woods:
        for number in sorted(choices.per_stud):
            for fastener in sorted(choices.fasteners, key=lambda one: (one.diameter, one.length, one.id)):
                reach = mm(fastener.length) - thickness - case.gap_mm
                if reach > case.wall.stud_depth_mm - mm(fastener.diameter):
                    continue
                for height in sorted(choices.heights_mm):
                    way = Fastening(fastener, number, height, stuff, thickness)
                    if fastened(case, way).strip.low_mm > 0.0:
                        yield way


def least_fastening(case: HangingCase, choices: Choices, most_tries: int = 4_000) -> Least:
    """Return the first of `ways` that holds without a stop. Work is bounded by `most_tries`."""
    tried = 0
    if not hanging_places.column_sets(case):
        return Least(None, None, 0)
    for way in ways(case, choices):
        if tried == most_tries:
            break
        tried += 1
        result = hang(fastened(case, way))
        if not result.stops:
            return Least(way, result, tried)
    return Least(None, None, tried)


def greatest_contents_kg(case: HangingCase) -> float | None:
    """Return the greatest mass of contents that holds without a stop; None where not even the empty cabinet does.

    More load never lowers a use, so the end is found by halving.
    """

    def holds(kg: float) -> bool:
        return not hang(replace(case, contents_kg=kg)).stops

    if not holds(0.0):
        return None
    low, high = 0.0, _MOST_KG
    if holds(high):
        return high
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        low, high = (middle, high) if holds(middle) else (low, middle)
    return low


def usual_heights_mm(thickness_mm: float) -> tuple[float, ...]:
    """Return heights of strip that shops rip: 2 1/2 to 6 in by half inches, as high as a bevel leaves room in.

    Common practice, no source.
    """
    heights = tuple(MM_PER_IN * (2.5 + 0.5 * step) for step in range(8))
    return tuple(height for height in heights if height > 2.0 * thickness_mm)
