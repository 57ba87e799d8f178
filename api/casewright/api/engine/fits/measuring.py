"""What is taken from the work: what is measured for a fit, and which sizes of which parts follow from it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from math import ceil

from casewright.api.engine.fits.following import reading
from casewright.api.engine.fits.judged import Question, verdict_of
from casewright.sdk.engineering.stack_up import stack_up
from casewright.sdk.geometry import Box
from casewright.sdk.model import Action, FromWork, Job, Measurement, Measuring, Part, Verdict, Where
from casewright.sdk.units import NM_PER_UNIT

__all__ = ["Rule", "measuring"]

APART = ("door-panel", "back", "box-bottom", "drawer-front")
"""Roles of parts that are left out where what a panel goes into is put together dry."""
Reach = tuple[Part, int, int]
"""A part, and where it begins and ends along the axis."""


@dataclass(frozen=True, slots=True)
class Rule:
    """What is measured with: how far a reading is off at most, and how far its marks are apart, in nm."""

    off: int
    mark: Fraction

    @classmethod
    def of(cls, job: Job) -> "Rule":
        """Return the rule of a job's shop."""
        return cls(job.shop.accuracy.of(Action.MEASURE), NM_PER_UNIT[job.units] * job.tape)

    def marks(self, nm: float) -> int:
        """Return a length rounded up to the next mark."""
        return int(ceil(Fraction(nm) / self.mark) * self.mark)


def measuring(question: Question, parts: Mapping[str, Part], copies: tuple[str, ...], rule: Rule) -> Measuring:
    """Return what is measured for a fit, in each of the cabinet's `copies`, and what is cut to it, if anything is."""
    measurement = Measurement(
        between=question.between,
        axis=question.axis,
        where=question.where,
        take=question.take,
        planned=question.room,
        copies=copies,
        dry=_dry(question, parts) if question.where is Where.GROOVE_FLOORS else (),
    )
    links = (reading(question, rule.off), *question.own)
    left, known = stack_up(links), replace(question, links=links, shared=links)
    good, among = verdict_of(known, left) is not Verdict.TAKE_FROM_WORK, len(question.cut)
    full = 0 if good or not among else rule.marks(max(left.cautious / among, question.lean))
    sizes = [
        FromWork(part.id, axis, size, question.room - among * size, among, full)
        for group in question.cut
        for part, axis, size in _lengthened([parts[name] for name in group], question.axis)
    ]
    return Measuring(measurement, tuple(sizes), left, good)


def _dry(question: Question, parts: Mapping[str, Part]) -> tuple[str, ...]:
    """Return the parts that a panel's grooves are in, put together without it: those of its group that are jointed."""
    panel = parts[question.cut[0][0]]
    group = [one for one in parts.values() if (one.cabinet, one.group) == (panel.cabinet, panel.group)]
    return tuple([one.id for one in group if one.id != panel.id and one.role not in APART])


def _lengthened(parts: Sequence[Part], axis: int) -> list[tuple[Part, int, int]]:
    """Return which parts take up what an assembly is longer along an axis, with their own axis and their size along it.

    It is lengthened in the longest stretch between its parts' ends, away from the parts at its own ends: all that runs
    through there is. So a frame's rails grow and its stiles do not.
    """
    reach = [_reach(part, axis) for part in parts]
    first, last = min(low for _, low, _ in reach), max(high for _, _, high in reach)
    marks = sorted({mark for _, low, high in reach for mark in (low, high)})
    at_ends = [(low, high) for _, low, high in reach if (low == first) is not (high == last)]
    spans = list(pairwise(marks))
    between = [one for one in spans if not any(low <= one[0] and one[1] <= high for low, high in at_ends)] or spans
    low, high = max(between, key=lambda one: (one[1] - one[0], one[0]))
    through = [part for part, begins, ends in reach if begins <= low and high <= ends]
    sized = [(part, _own_axis(part, axis)) for part in through]
    return [(part, own, (part.length, part.width)[own - 1]) for part, own in sized if own < 3]


def _reach(part: Part, axis: int) -> Reach:
    box: Box = part.place.box(part.blank)
    return part, box.low(axis), box.high(axis)


def _own_axis(part: Part, axis: int) -> int:
    """Return the part's own axis along an axis of its cabinet: 1 its length, 2 its width, 3 its thickness."""
    ways = (part.place.x, part.place.y, part.place.z)
    return next(number for number, way in enumerate(ways, start=1) if abs(way) == axis)
