"""What follows from a chain: whether a fit holds, can be adjusted, or is taken from the work."""

from collections.abc import Iterable
from dataclasses import dataclass

from casewright.api.engine.fits.chains import backwards
from casewright.api.engine.fits.set_ups import SetUps
from casewright.sdk.engineering.stack_up import Link, StackUp, stack_up
from casewright.sdk.model import Action, Fit, FitKind, FitLink, Measuring, Verdict
from casewright.sdk.writer import Writer

WAYS = {1: "across", 2: "deep", 3: "up"}
"""What the axes of a cabinet are called."""


@dataclass(frozen=True, slots=True)
class Question:
    """A fit to judge: `links` are its whole chain, `nominal` what is planned, good from `least` to `most`.

    `places` is over how many places hinges, or a hand that centres, spread an error of `shared`; `adjust` is how far
    they reach. `cut` are the parts that would be cut to what is measured between two others.
    """

    kind: FitKind
    id: str
    axis: int
    nominal: int
    least: int | None
    most: int | None
    links: tuple[FitLink, ...]
    cut: tuple[str, ...]
    between: tuple[str, str]
    shared: tuple[FitLink, ...] = ()
    places: int = 1
    adjust: int = 0


def judged(question: Question, cabinet: str, set_ups: SetUps, write: Writer) -> Fit:
    """Return a fit with its figures and what follows from them."""
    whole = _stack(question.links)
    verdict = _verdict(question, whole)
    measured = verdict is Verdict.TAKE_FROM_WORK
    return Fit(
        id=question.id,
        kind=question.kind,
        cabinet=cabinet,
        axis=question.axis,
        parts=tuple(dict.fromkeys((*question.between, *question.cut))),
        nominal=question.nominal,
        least=question.least,
        most=question.most,
        links=question.links,
        stack=whole,
        verdict=verdict,
        adjust=question.adjust,
        measuring=_measuring(question, set_ups, write) if measured else None,
    )


def _verdict(question: Question, whole: StackUp) -> Verdict:
    if _within(question, whole.cautious):
        return Verdict.HOLDS
    spread = _stack(question.shared).cautious / question.places
    if question.adjust and whole.cautious <= question.adjust and _within(question, spread):
        return Verdict.ADJUST
    return Verdict.TAKE_FROM_WORK


def turned(links: Iterable[FitLink]) -> tuple[FitLink, ...]:
    """Return links as they count where their distance is taken away."""
    return tuple([backwards(link) for link in links])


def loose(part: str, set_up: str, action: Action, half_width: int, step: int | None = None) -> FitLink:
    """Return a link without length: a place marked, bored or set by hand."""
    return FitLink(part, 0, half_width, set_up, action, step)


def _stack(links: Iterable[FitLink]) -> StackUp:
    return stack_up(Link(link.set_up, link.half_width, link.factor) for link in links)


def _within(question: Question, error: float) -> bool:
    low, high = question.nominal - error, question.nominal + error
    return (question.least is None or low >= question.least) and (question.most is None or high <= question.most)


def _measuring(question: Question, set_ups: SetUps, write: Writer) -> Measuring:
    """Return where and when it is measured, and what is cut to it."""
    after, outside = _after(question, set_ups), question.kind is FitKind.FRAME_FLUSH
    room = sum(link.nm for link in question.links)
    less = 0 if question.kind is FitKind.RUN_GAP else -room if outside else room
    when = "" if after is None else f"After step {after}: "
    panel = question.kind is FitKind.PANEL_PLAY
    where = "between the groove floors of" if panel else "over" if outside else "between"
    most = "greatest" if outside else "least"
    size = f", {'less' if less > 0 else 'and'} {write.length(abs(less), 4)}" if less else ""
    do = (
        f"{when}measure {WAYS[question.axis]} {where} {question.between[0]} and {question.between[1]} at three places, "
        f"take the {most} and write it here: ________. "
        f"What goes there is cut to that in all{size}."
    )
    return Measuring(question.cut, question.between, after, less, do[0].upper() + do[1:])


def _after(question: Question, set_ups: SetUps) -> int | None:
    """Return the step after which it can be measured: the last that fixes what bounds it.

    What goes in while that is glued up is measured at the dry fit.
    """
    ready = set_ups.glued if question.kind is FitKind.FRAME_FLUSH else set_ups.fixed
    fixed = [ready[part] for part in question.between if part in ready]
    if fixed and question.kind is not FitKind.PANEL_PLAY:
        return max(fixed)
    return min((set_ups.fitted[part] for part in question.between if part in set_ups.fitted), default=None)
