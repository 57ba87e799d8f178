"""Where fasteners go along a joint, and how much of it is glued. Lengths in whole nm."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, TypeVar

from casewright.sdk.methods import CannotError, Meeting
from casewright.sdk.units import MM

STEP = 32 * MM
"""Pitch that rows keep to where they fit (the 32 mm convention)."""

ASIDE = 3 * MM
"""Wood left between a fastener and another cut (common practice)."""

_T = TypeVar("_T")


def chosen(options: Mapping[str, Any], name: str, default: _T) -> _T:
    """Return the option, or `default` where the job leaves it out."""
    value = options.get(name)
    return default if value is None else value


def area_mm2(*sizes: tuple[int, int]) -> float:
    """Return the sum of rectangles given in nm as square millimetres."""
    return sum(a * b for a, b in sizes) / MM**2


def mirrored(run: int, count: int, pitch: int) -> tuple[int, ...]:
    """Return `count` points `pitch` apart, symmetric in `run` to the nanometre.

    Where the parts are odd, the middle one of the gaps (or the middle point) takes the odd nanometre.
    """
    first = (run - (count - 1) * pitch) // 2
    near = [first + i * pitch for i in range(count // 2)]
    middle = [run // 2] if count % 2 else []
    return (*near, *middle, *(run - x for x in reversed(near)))


@dataclass(frozen=True, slots=True)
class Spacing:
    """How a row is spaced, in nm: `end` and `least` at least from the ends and from each other, about `pitch` apart.

    `count` overrules the pitch.
    """

    end: int
    pitch: int
    least: int
    count: int | None = None


def row(run: int, spacing: Spacing) -> tuple[int, ...]:
    """Return points along `run`, none nearer its ends than `end`, none nearer each other than `least`.

    They stand about `pitch` apart, on a multiple of 32 mm where that fits; a `pitch` under `least` is kept where there
    is room, for it was wanted. `count` overrules the pitch (fewer are given where so many do not fit). Never empty: one
    point in the middle is the least.
    """
    pitch, least, count = spacing.pitch, spacing.least, spacing.count
    free = run - 2 * spacing.end
    if free < least or count == 1:
        return mirrored(run, 1, 0)
    if count is not None:
        number = min(count, free // least + 1)
        return mirrored(run, number, _on_step(free // (number - 1), least))
    if free < STEP or free < pitch:
        return mirrored(run, 2, _on_step(free, least))
    tries = [p for p in (pitch, pitch - STEP) if p >= max(least, 2 * STEP)] or [pitch]
    best = min(tries, key=lambda p: (free % p, -p))
    return mirrored(run, free // best + 1, best)


def clear_length(meeting: Meeting) -> int:
    """Return the longest stretch along a meeting, in nm, that no other cut crosses."""
    return max(high - low for low, high in _stretches(meeting))


def clear_row(meeting: Meeting, half: int, spacing: Spacing) -> tuple[int, ...]:
    """Return a `row` along a meeting, kept out of what crosses it by `half` (a fastener's half size along x) and 3 mm.

    Each clear stretch long enough for two points takes a row of its own; where a count is given, or no stretch is long
    enough, the longest takes all. Raises `CannotError` where that is too short for one.
    """
    stretches = _stretches(meeting)
    away = half + (ASIDE if meeting.keep_clear else 1)  # a nanometre, for a size that cannot be halved
    longest = max(stretches, key=lambda s: (s[1] - s[0], -s[0]))
    if longest[1] - longest[0] < 2 * away:
        raise too_narrow(meeting, 2 * away)
    within = replace(spacing, end=max(spacing.end, away)) if meeting.keep_clear else spacing
    long = [s for s in stretches if spacing.count is None and s[1] - s[0] >= 2 * within.end + spacing.least]
    points: list[int] = []
    for low, high in long or [longest]:
        points += [low + x for x in row(high - low, within)]
    return tuple(points)


def _stretches(meeting: Meeting) -> list[tuple[int, int]]:
    """Return what is left of a joint between the spans that are kept clear."""
    stretches, at = [], 0
    for low, high in sorted(meeting.keep_clear):
        stretches.append((at, low))
        at = max(at, high)
    return [*stretches, (at, meeting.run)]


def too_narrow(meeting: Meeting, need: int) -> CannotError:
    """Return the refusal of a fastener that takes `need` nm along a joint: it says how long the joint must be.

    Where another cut crosses, the guest may gain at either side of it: the shorter side must do.
    """
    write, stretches = meeting.write, _stretches(meeting)
    shorter = min(high - low for low, high in (stretches[0], stretches[-1]))
    return CannotError(
        "a fastener stands clear of the joint's ends and of the cuts that cross it",
        f"{write.length(clear_length(meeting))} clear of the {write.length(meeting.run)} where {meeting.guest.name} "
        f"meets {meeting.host.name}; this fastener takes {write.length(need)}",
        f"Make {meeting.guest.name} {write.length(meeting.run + need - shorter)} or more along the joint, or use a "
        "smaller fastener or another method.",
    )


def _on_step(pitch: int, least: int) -> int:
    """Return the multiple of 32 mm just below `pitch` if there is one that keeps `least`, else `pitch`."""
    stepped = pitch - pitch % STEP
    return stepped if stepped >= max(least, STEP) else pitch
