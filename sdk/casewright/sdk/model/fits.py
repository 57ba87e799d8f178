"""Fits: distances between two faces that matter, how far they may come out wrong, and what follows. Lengths in nm."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType

from casewright.sdk.engineering.stack_up import StackUp
from casewright.sdk.model.operations import Action, Measurement
from casewright.sdk.units import MM

__all__ = ["Accuracy", "Fit", "FitKind", "FitLink", "FromWork", "Measuring", "UnprovedFit", "Verdict", "WhyUnproved"]

_FIFTH, _TENTH = MM // 5, MM // 10
HALF_WIDTHS: Mapping[Action, int] = MappingProxyType(
    {
        Action.RIP: _FIFTH,
        Action.CROSSCUT: _FIFTH,
        Action.TRIM: _FIFTH,
        Action.THICKNESS: _TENTH,
        Action.GROOVE: _TENTH,
        Action.RABBET: _TENTH,
        Action.NOTCH: MM // 2,
        Action.TENON: _TENTH,
        Action.DOVETAIL: _TENTH,
        Action.PROFILE: _TENTH,
        Action.BORE: _FIFTH,
        Action.BAND: _TENTH // 2,
        Action.FIT: _FIFTH,
        Action.MARK: MM // 2,
        Action.MEASURE: MM // 4,
    }
)
"""How far work may be off, 3 σ, by what is done (common practice of a careful shop, no source).

A reading is to the nearest half millimetre or 1/64 in of a steel rule.
"""


@dataclass(frozen=True, slots=True)
class Accuracy:
    """How far the shop's work may be off: half-widths (3 σ) by what is done, and of bought sheets' thickness."""

    by_action: Mapping[Action, int] = field(default_factory=lambda: dict(HALF_WIDTHS))
    sheet: int = _TENTH

    def of(self, action: Action | None) -> int:
        """Return the half-width of an action; without one, of a bought thickness. Raises `KeyError` for another."""
        return self.sheet if action is None else self.by_action[action]


class FitKind(StrEnum):
    """What a fit is between."""

    DOOR_GAP = "door-gap"
    DOOR_OVERLAP = "door-overlap"
    RUNNER_ROOM = "runner-room"
    SHELF_PLAY = "shelf-play"
    PANEL_PLAY = "panel-play"
    FRAME_FLUSH = "frame-flush"
    STRIP_PLAY = "strip-play"
    RUN_GAP = "run-gap"


class Verdict(StrEnum):
    """What follows from a fit's figures."""

    HOLDS = "holds"
    ADJUST = "adjust"
    TAKE_FROM_WORK = "take-from-the-work"


@dataclass(frozen=True, slots=True)
class FitLink:
    """One link of a chain: `nm` from the face before to the face after, along the fit's axis, of part `part`.

    `half_width` is its 3 σ. Links of one `set_up` share one error. `step` is the step that makes it, `action` what is
    done there; both `None` for a bought thickness, or a wall. `factor` is how far the fit moves for it; half where two
    parts share what one is cut to.
    """

    part: str
    nm: int
    half_width: int
    set_up: str
    action: Action | None = None
    step: int | None = None
    factor: float = 1


@dataclass(frozen=True, slots=True)
class FromWork:
    """A size of a part that is taken from the work: (what is measured - `less`) / `among`, planned as `planned` nm.

    `axis` is of the part: 1 its length, 2 its width. `among` is how many such parts share what is measured. `full` is
    what is left on over that and planed off to fit, where the reading and the cuts may be too far off for the fit.
    """

    part: str
    axis: int
    planned: int
    less: int
    among: int = 1
    full: int = 0


@dataclass(frozen=True, slots=True)
class Measuring:
    """What is taken from the work: what is measured, and the sizes that are cut to it.

    `stack` is how far the fit may still be off when they are: by the reading itself, by their own cuts, by a hand that
    sets them. `good` is whether it then is, or they are left full and planed until it is. `step` is the step that
    measures; `None` where no step does, because the parts cannot be left over size.
    """

    measurement: Measurement
    sizes: tuple[FromWork, ...]
    stack: StackUp
    good: bool
    step: int | None = None

    @property
    def cut(self) -> tuple[str, ...]:
        """The parts that are cut later, each once."""
        return tuple(dict.fromkeys(size.part for size in self.sizes))


@dataclass(frozen=True, slots=True)
class Fit:
    """One fit: `nominal` as planned, good from `least` to `most` (`None`: open); figures of `stack` are in nm.

    `axis` is of the cabinet: 1 across, 2 deep, 3 up. `adjust` is how far hinges may shift it, `measuring` is there for
    a fit to be taken from the work.
    """

    id: str
    kind: FitKind
    cabinet: str
    axis: int
    parts: tuple[str, ...]
    nominal: int
    least: int | None
    most: int | None
    links: tuple[FitLink, ...]
    stack: StackUp
    verdict: Verdict
    adjust: int = 0
    measuring: Measuring | None = None


class WhyUnproved(StrEnum):
    """Why a fit that matters has no chain."""

    NO_BOUNDS = "no-bounds"
    NO_CHAIN = "no-chain"


@dataclass(frozen=True, slots=True)
class UnprovedFit:
    """A fit that matters and of which nothing is proved: it is tried on the work.

    `no-bounds`: nothing fixed stands on both sides of it; `no-chain`: no row of fastened parts leads from one side to
    the other. `axis` is of the cabinet, as a fit's is.
    """

    id: str
    kind: FitKind
    cabinet: str
    axis: int
    why: WhyUnproved
