"""When each step begins and ends for one person: work by hand one step after another, waits beside it.

The person always takes the first step, by its number, whose needs are finished; where there is none, the next wait
that ends is waited for. A wait begins when what it waits on is finished. Times are whole fractions of minutes from the
start of what is left: steps marked done take none. A step without a time by the shop's rates counts as nothing.
"""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from heapq import heappop, heappush
from math import ceil, lcm

from casewright.api.engine.work.naming import in_a_row, joined
from casewright.sdk.model import Action, Meanwhile, Operation, Schedule, Scheduled

__all__ = ["ranges", "schedule_of", "time_text"]

MOST = 40
"""Steps that are named of those that can be done while something is waited for."""
OPEN = frozenset({Action.GLUE, Action.INSERT})
"""After these the glue is open: what follows them is named with them."""
Times = dict[int, tuple[int, int]]
"""Start and finish of steps, by their numbers, in one part of a minute that all are whole numbers of."""


def schedule_of(steps: Sequence[Operation], done: frozenset[int] = frozenset()) -> Schedule:
    """Return when each step begins and ends, when all is finished, and what can be done while something is waited for.

    `steps` are numbered from 1 and need only steps before them; `done` are numbers of those that are done already.
    """
    left = [step for step in steps if step.number not in done]
    lasts = {step.number: Fraction(step.minutes or 0) for step in left}
    parts = lcm(*[minutes.denominator for minutes in lasts.values()])
    times = _times(left, done, {number: int(minutes * parts) for number, minutes in lasts.items()})
    moments = {at: Fraction(at, parts) for time in times.values() for at in time}
    by_hand = [step for step in left if step.action is not Action.WAIT]
    return Schedule(
        steps=tuple([Scheduled(step.number, *[moments[at] for at in times[step.number]]) for step in left]),
        finish=Fraction(max([finish for _, finish in times.values()], default=0), parts),
        hands_on=sum([lasts[step.number] for step in by_hand], Fraction(0)),
        untimed=sum(1 for step in by_hand if step.minutes is None),
        meanwhile=tuple(_meanwhile(left, times)),
    )


def _times(left: Sequence[Operation], done: frozenset[int], lasts: Mapping[int, int]) -> Times:
    """Return the start and finish of each step that is left, in the order in which they are begun."""
    needs = {step.number: set(step.needs) - done for step in left}
    waited = {step.number for step in left if step.action is Action.WAIT}
    missing = {number: len(before) for number, before in needs.items()}
    after: dict[int, list[int]] = {}
    for number, before in needs.items():
        for need in before:
            after.setdefault(need, []).append(number)
    out: Times = {}
    ready: list[int] = []
    waits: list[tuple[int, int]] = []

    def open_up(number: int) -> None:
        if number not in waited:
            heappush(ready, number)
            return
        start = max([out[need][1] for need in needs[number]], default=0)
        out[number] = (start, start + lasts[number])
        heappush(waits, (start + lasts[number], number))

    def end(number: int) -> None:
        for later in after.get(number, ()):
            missing[later] -= 1
            if not missing[later]:
                open_up(later)

    for number in [number for number, count in missing.items() if not count]:
        open_up(number)
    now = 0
    while ready or waits:
        if not ready:
            now = max(now, waits[0][0])
        while waits and waits[0][0] <= now:
            end(heappop(waits)[1])
        if ready:
            number = heappop(ready)
            out[number] = (now, now + lasts[number])
            now += lasts[number]
            end(number)
    return out


def _meanwhile(left: Sequence[Operation], times: Times) -> Iterator[Meanwhile]:
    """Yield for each wait the first steps by hand that wait neither for it nor for another that is not over then."""
    by_number = {step.number: step for step in left}
    begun = list(times)
    at = {number: place for place, number in enumerate(begun)}
    for wait in left:
        if wait.action is not Action.WAIT:
            continue
        start, place = times[wait.number][0], at[wait.number]
        can: dict[int, None] = {}
        for number in begun[place + 1 :]:
            step = by_number[number]
            if step.action is Action.WAIT:
                continue
            for need in step.needs:
                if need not in can and need in at and (at[need] >= place or times[need][1] > start):
                    break
            else:
                can[number] = None
                if len(can) >= MOST and step.action not in OPEN:
                    break
        if can:
            yield Meanwhile(wait.number, tuple(sorted(can)))


def time_text(minutes: int | float | Fraction) -> str:
    """Return a time in hours and minutes, upward to the whole minute: `1 h 20 min`."""
    whole = ceil(minutes)
    hours, rest = divmod(whole, 60)
    return " ".join(f"{count} {unit}" for count, unit in ((hours, "h"), (rest, "min")) if count) or "0 min"


def ranges(numbers: Sequence[int]) -> str:
    """Return rising numbers as one reads them out, those in a row as from and to: `steps 78 to 85 and 89`."""
    words = [f"{low}" if low == high else f"{low} to {high}" for low, high in in_a_row(numbers)]
    return f"step{'s' if len(numbers) > 1 else ''} {joined(words)}"
