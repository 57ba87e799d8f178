"""What follows from a chain: whether a fit holds, can be adjusted, or is taken from the work."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from casewright.api.engine.fits.chains import backwards
from casewright.sdk.engineering.stack_up import StackUp, stack_up
from casewright.sdk.model import Action, Fit, FitKind, FitLink, Take, Verdict, Where, WhyUnproved

WAYS = {1: "across", 2: "deep", 3: "up"}
"""What the axes of a cabinet are called."""


@dataclass(frozen=True, slots=True)
class Question:
    """A fit to judge: `links` are its whole chain, `nominal` what is planned, good from `least` to `most`.

    `places` is over how many places hinges, or a hand that centres, spread an error of `shared`; `adjust` is how far
    they reach. `cut` are the parts that would be cut to what is measured between two others, in groups that share it
    evenly, such as the two doors of a pair; `room` is what would be measured, as planned, `opening` its chain and `own`
    the links that are left when it is known. An opening that leans by `lean` over the height of what is square in it
    narrows its gaps by half of that, each at one end.
    """

    kind: FitKind
    id: str
    axis: int
    nominal: int
    least: int | None
    most: int | None
    links: tuple[FitLink, ...]
    cut: tuple[tuple[str, ...], ...]
    between: tuple[str, str]
    room: int
    opening: tuple[FitLink, ...] = ()
    own: tuple[FitLink, ...] = ()
    shared: tuple[FitLink, ...] = ()
    places: int = 1
    adjust: int = 0
    lean: int = 0

    @property
    def where(self) -> Where:
        """What is measured for it."""
        match self.kind:
            case FitKind.FRAME_FLUSH:
                return Where.OVER
            case FitKind.PANEL_PLAY:
                return Where.GROOVE_FLOORS
            case _:
                return Where.BETWEEN

    @property
    def take(self) -> Take:
        """Which reading counts: what goes in must pass the narrowest place, what covers or is scribed the widest."""
        return Take.GREATEST if self.kind in (FitKind.FRAME_FLUSH, FitKind.RUN_GAP) else Take.LEAST


@dataclass(frozen=True, slots=True)
class Unanswered:
    """A fit that cannot be judged, and why."""

    kind: FitKind
    id: str
    axis: int
    why: WhyUnproved


def judged(question: Question, cabinet: str, taken: Collection[str] = ()) -> Fit:
    """Return a fit with its figures and what follows from them; those of `taken` are taken from the work as it is."""
    whole = stack_up(question.links)
    return Fit(
        id=question.id,
        kind=question.kind,
        cabinet=cabinet,
        axis=question.axis,
        parts=tuple(dict.fromkeys((*question.between, *[part for group in question.cut for part in group]))),
        nominal=question.nominal,
        least=question.least,
        most=question.most,
        links=question.links,
        stack=whole,
        verdict=Verdict.TAKE_FROM_WORK if question.id in taken else verdict_of(question, whole),
        adjust=question.adjust,
    )


def verdict_of(question: Question, whole: StackUp) -> Verdict:
    """Return what follows from what a fit's whole chain comes to."""
    split = question.lean / 2
    if _is_good(question, whole.cautious + split):
        return Verdict.HOLDS
    spread = stack_up(question.shared).cautious / question.places + split
    if question.adjust and whole.cautious <= question.adjust and _is_good(question, spread):
        return Verdict.ADJUST
    return Verdict.TAKE_FROM_WORK


def _is_good(question: Question, error: float) -> bool:
    low, high = question.nominal - error, question.nominal + error
    return (question.least is None or low >= question.least) and (question.most is None or high <= question.most)


def turned(links: Iterable[FitLink]) -> tuple[FitLink, ...]:
    """Return links as they count where their distance is taken away."""
    return tuple([backwards(link) for link in links])


def loose(part: str, set_up: str, action: Action, half_width: int, step: int | None = None) -> FitLink:
    """Return a link without length: a place marked, bored or set by hand."""
    return FitLink(part, 0, half_width, set_up, action, step)
