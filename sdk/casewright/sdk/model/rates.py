"""A shop's own prices and times, and the operations its times are for."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class Operation:
    """A kind of operation: its title and what it is counted in."""

    title: str
    unit: str


OPERATIONS: Mapping[str, Operation] = {
    "setting": Operation("set a fence, stop or cutter", "settings"),
    "rip": Operation("rip", "cuts"),
    "cross-cut": Operation("cross-cut", "cuts"),
    "groove": Operation("cut a groove", "grooves"),
    "rabbet": Operation("cut a rabbet", "rabbets"),
    "tenon": Operation("cut a tenon", "tenons"),
    "mortise": Operation("cut a mortise", "mortises"),
    "bevel": Operation("saw a bevel", "bevels"),
    "edge-profile": Operation("shape an edge", "edges"),
    "hole": Operation("drill a hole", "holes"),
    "joint": Operation("fit a joint dry", "joints"),
    "glue-up": Operation("glue and clamp", "glue-ups"),
    "band": Operation("band an edge", "m"),
    "door": Operation("make a door fit its opening", "doors"),
    "drawer": Operation("fit a drawer", "drawers"),
    "hinge": Operation("fit a hinge", "hinges"),
    "finish": Operation("finish, a coat", "m2"),
    "hang": Operation("put a cabinet up", "cabinets"),
    "filler": Operation("scribe and fix a filler", "fillers"),
}
"""Operations in working order; a shop's `rates.minutes` names any of them."""


@dataclass(frozen=True, slots=True)
class Rates:
    """The shop's own prices and times; what is not given is not guessed.

    Money is in whole units of `currency`, which has `decimals` digits after the point: `hardware` a piece by item,
    `band_per_m`, `glue_per_kg`, `finish_per_m2` for one coat of `coats`, and `hour` of work. `minutes` are for one
    operation of a kind.
    """

    currency: str = ""
    decimals: int = 2
    hardware: Mapping[str, Decimal] = field(default_factory=dict)
    band_per_m: Mapping[str, Decimal] = field(default_factory=dict)
    glue_per_kg: Decimal | None = None
    finish_per_m2: Decimal | None = None
    coats: int = 1
    hour: Decimal | None = None
    minutes: Mapping[str, Decimal] = field(default_factory=dict)
