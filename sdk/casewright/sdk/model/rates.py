"""A shop's own prices and times, and the operations its times are for."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class TimedWork:
    """A kind of operation: its title and what it is counted in."""

    title: str
    unit: str


TIMED_WORK: Mapping[str, TimedWork] = {
    "setting": TimedWork("set a fence, stop or cutter", "settings"),
    "rip": TimedWork("rip", "cuts"),
    "crosscut": TimedWork("crosscut", "cuts"),
    "groove": TimedWork("cut a groove", "grooves"),
    "rabbet": TimedWork("cut a rabbet", "rabbets"),
    "tenon": TimedWork("cut a tenon", "tenons"),
    "mortise": TimedWork("cut a mortise", "mortises"),
    "bevel": TimedWork("saw a bevel", "bevels"),
    "edge-profile": TimedWork("shape an edge", "edges"),
    "hole": TimedWork("drill a hole", "holes"),
    "joint": TimedWork("fit a joint dry", "joints"),
    "glue-up": TimedWork("glue and clamp", "glue-ups"),
    "band": TimedWork("band an edge", "m"),
    "door": TimedWork("make a door fit its opening", "doors"),
    "drawer": TimedWork("fit a drawer", "drawers"),
    "hinge": TimedWork("fit a hinge", "hinges"),
    "finish": TimedWork("finish, a coat", "m2"),
    "hang": TimedWork("put a cabinet up", "cabinets"),
    "filler": TimedWork("scribe and fix a filler", "fillers"),
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
