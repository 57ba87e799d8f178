"""When the steps of a plan are done: times in minutes from the start of what is left of the work."""

from dataclasses import dataclass
from fractions import Fraction

__all__ = ["Meanwhile", "Schedule", "Scheduled"]


@dataclass(frozen=True, slots=True)
class Scheduled:
    """The earliest that a step begins and ends, in minutes."""

    number: int
    start: Fraction
    finish: Fraction


@dataclass(frozen=True, slots=True)
class Meanwhile:
    """The first steps that can be done by hand while step `wait` is waited for."""

    wait: int
    steps: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Schedule:
    """What is left of the work, for one person: when each step begins and ends.

    `finish` is the earliest that all is done, `hands_on` the work by hand in it, both in minutes; `untimed` is how many
    steps by hand have no time given and count as nothing.
    """

    steps: tuple[Scheduled, ...] = ()
    finish: Fraction = Fraction(0)
    hands_on: Fraction = Fraction(0)
    untimed: int = 0
    meanwhile: tuple[Meanwhile, ...] = ()
