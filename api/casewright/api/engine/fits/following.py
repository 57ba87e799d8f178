"""What follows a measurement: a size that is cut to what is measured is off by all that what is measured is off by."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from casewright.api.engine.fits.judged import WAYS, Question, loose
from casewright.sdk.model import Action, FitLink, FromWork

__all__ = ["Followed", "following", "reading"]

SAWN = frozenset({Action.RIP, Action.CROSSCUT, Action.TRIM})


@dataclass(frozen=True, slots=True)
class Followed:
    """A size that is taken from the work, and the fit it is taken for, whose opening it follows."""

    size: FromWork
    question: Question


def following(question: Question, followed: Mapping[str, Iterable[Followed]], half: int) -> Question:
    """Return a fit with the errors that its chain takes over from openings that parts of it are cut to.

    `followed` are sizes by their parts; a reading of an opening is itself off by up to `half` nm. A fit that sizes are
    taken for itself is left as it would be without.
    """
    if followed.keys().isdisjoint([link.part for link in (*question.links, *question.shared)]):
        return question
    return replace(
        question,
        links=tuple(_followed(question, question.links, followed, half)),
        own=tuple(_followed(question, question.own, followed, half)),
        shared=tuple(_followed(question, question.shared, followed, half)),
    )


def reading(question: Question, half: int) -> FitLink:
    """Return the link of what is measured for a fit: it is read once for all that is cut to it, off by up to `half`."""
    first, last = question.between
    return loose(first, f"reading from {first} to {last} {WAYS[question.axis]}", Action.MEASURE, half)


def _followed(
    question: Question, links: Iterable[FitLink], followed: Mapping[str, Iterable[Followed]], half: int
) -> Iterable[FitLink]:
    for link in links:
        yield link
        for one in followed.get(link.part, ()) if link.action in SAWN else ():
            own, same_way = one.question.id == question.id, one.question.axis == question.axis
            if same_way and not own and abs(link.nm) == one.size.planned:
                share = link.factor / one.size.among
                yield from (replace(other, nm=0, factor=other.factor * share) for other in one.question.opening)
                yield replace(reading(one.question, half), factor=share)
