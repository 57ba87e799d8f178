"""What closes a cabinet: its doors and drawers, how they are made, hung and pulled open. Lengths in nm."""

from dataclasses import dataclass
from typing import Literal

from casewright.sdk.model.choices import Choice, Options

__all__ = ["Doors", "Drawers", "Overlays", "PullChoice"]


@dataclass(frozen=True, slots=True)
class Overlays:
    """How far doors lap at each edge of their opening, in nm; `None` as all doors of the cabinet do."""

    left: int | None = None
    right: int | None = None
    top: int | None = None
    bottom: int | None = None


@dataclass(frozen=True, slots=True)
class Drawers:
    """What every drawer of a cabinet shares.

    `slide` `None` takes the longest that fits. `between` is the gap between fronts of a stack, `below` and `above`
    the room round the box in its slot, `bottom_up` from the box's lower edge to the bottom's groove. `band` is
    edge band on all edges of the fronts.
    """

    material: str
    bottom: str
    front: str
    slide: str | None
    corner: Choice
    bottom_joint: Choice
    bottom_up: int
    hang: Literal["overlay", "inset"]
    overlay: int
    gap: int
    between: int
    below: int
    above: int
    pull: str | None
    pointer: str
    band: str | None = None


@dataclass(frozen=True, slots=True)
class PullChoice:
    """A pull and where it sits: from the door's meeting edge and from its lower (or upper) end, to hole centre.

    `from_edge` `None` means the middle of the wood at that edge; `nearest` is the end nearer to a hand.
    """

    item: str
    from_edge: int | None
    from_end: int
    at_end: Literal["lower", "upper", "nearest"]
    direction: Literal["upright", "level"]


@dataclass(frozen=True, slots=True)
class Doors:
    """What every door of a cabinet shares; `band` is edge band on all edges of slab doors."""

    style: str
    options: Options
    pointer: str
    material: str
    panel: str | None
    hang: Literal["overlay", "inset"]
    overlay: int
    gap: int
    meeting_gap: int
    stand_off: int
    hinge: str
    bore: int | None
    bore_edge: int | None
    hinges: int | None
    pull: PullChoice | None
    band: str | None = None
