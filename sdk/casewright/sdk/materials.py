"""What a catalogue holds: stuffs that parts are made of, and the hardware and fasteners that join them.

Frozen data only. Lengths that enter geometry are whole nanometres (1 mm = 1_000_000); other quantities are
floats with the unit in the name. `sources` on each entry pairs a field name with a source code of
`sdk.sources`; the field name ``*`` stands for every field not named.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, Protocol, TypeVar

from casewright.sdk.hardware import (
    CountByHeight,
    CountByMass,
    Dowel,
    Glue,
    Hinge,
    HingeArm,
    HingeGap,
    Lag,
    LooseTenon,
    Nail,
    Pin,
    Pull,
    Screw,
    Slide,
    Sourced,
    Sources,
)
from casewright.sdk.sources import Source
from casewright.sdk.spelling import nearest_words

__all__ = [
    "Catalogue",
    "CountByHeight",
    "CountByMass",
    "Dowel",
    "Glue",
    "Hinge",
    "HingeArm",
    "HingeGap",
    "Lag",
    "LooseTenon",
    "Nail",
    "Pin",
    "Pull",
    "Screw",
    "SheetThickness",
    "Slide",
    "Stuff",
    "UnknownItemError",
]


class UnknownItemError(LookupError):
    """No catalogue entry has the id asked for; `near` holds the nearest known ids."""

    def __init__(self, kind: str, item_id: str, near: tuple[str, ...]) -> None:
        self.kind, self.item_id, self.near = kind, item_id, near
        hint = f"; nearest known: {', '.join(near)}" if near else ""
        super().__init__(f"the catalogue has no {kind} {item_id!r}{hint}")

    def __reduce__(self) -> tuple[type["UnknownItemError"], tuple[str, str, tuple[str, ...]]]:
        """Let it cross from one process to another."""
        return type(self), (self.kind, self.item_id, self.near)


class _Named(Protocol):
    @property
    def id(self) -> str: ...


_N = TypeVar("_N", bound=_Named)


def _find(kind: str, entries: Sequence[_N], item_id: str) -> _N:
    for entry in entries:
        if entry.id == item_id:
            return entry
    known = [entry.id for entry in entries]
    raise UnknownItemError(kind, item_id, nearest_words(item_id, known, 3))


@dataclass(frozen=True, slots=True)
class SheetThickness:
    """A thickness a sheet is sold in: what it is called, the range it measures, and what it is like there.

    `nominal`, `least`, `most` in nm; a modulus or density of None means the stuff's own value holds.
    """

    nominal: int
    least: int
    most: int
    density_kg_m3: float | None = None
    e_along_mpa: float | None = None
    e_across_mpa: float | None = None
    plies: int | None = None


@dataclass(frozen=True, slots=True)
class Stuff(Sourced):
    """A wood or panel as the equations need it, at about 12 % moisture content.

    `density_kg_m3` is the mass in use. `e_along_mpa` is the modulus along the grain as tabulated (for boards
    the centre-loaded value of Table 5-3b, shear included; `beams.TRUE_MODULUS` takes it out again). The two
    specific gravities are never mixed: `g_oven_dry` (NDS fasteners) and `g_12` (Handbook chapter 8).
    `c_radial` and `c_tangential` are fractions per percent of moisture. `holds_screws` is False where no
    source supports screw withdrawal (plywood). `bending_mpa` is the mean modulus of rupture, None where none is on
    record. `to_size` is what comes from its seller at its finished size, as glass does: the shop neither saws, bores
    nor bands it, and fixes nothing to it.
    """

    id: str
    title: str
    kind: Literal["sheet", "board"]
    density_kg_m3: float
    e_along_mpa: float
    e_across_mpa: float | None
    g_oven_dry: float | None
    g_12: float | None
    c_radial: float | None
    c_tangential: float | None
    holds_screws: bool
    family: Literal["hardwood", "softwood", "panel"]
    sources: Sources
    thicknesses: tuple[SheetThickness, ...] = ()
    note: str = ""
    bending_mpa: float | None = None
    to_size: bool = False

    def __hash__(self) -> int:
        """By the id alone: capacities are kept by stuff, and hashing every field would cost as much as they do."""
        return hash(self.id)

    def sheet(self, thickness: int) -> SheetThickness | None:
        """Return the sold thickness nearest to a measured one in nm (None for a stuff without a table)."""
        if not self.thicknesses:
            return None
        return min(self.thicknesses, key=lambda row: (abs((row.least + row.most) // 2 - thickness), row.nominal))

    def density_at(self, thickness: int) -> float:
        """Return the density in kg/m3 of a piece this thick (nm)."""
        row = self.sheet(thickness)
        return self.density_kg_m3 if row is None or row.density_kg_m3 is None else row.density_kg_m3

    def modulus_at(self, thickness: int, *, along: bool = True) -> float | None:
        """Return the bending modulus in MPa of a piece this thick (nm), along or across the grain.

        None if unknown.
        """
        row = self.sheet(thickness)
        if row is not None:
            special = row.e_along_mpa if along else row.e_across_mpa
            if special is not None:
                return special
        return self.e_along_mpa if along else self.e_across_mpa


@dataclass(frozen=True, slots=True)
class Catalogue:
    """One set of stuffs and hardware. Each finder raises `UnknownItemError` naming the nearest known ids.

    `sources` are documents that a plugin cites beside those of `casewright.sdk.sources`.
    """

    stuffs: tuple[Stuff, ...] = ()
    hinges: tuple[Hinge, ...] = ()
    pulls: tuple[Pull, ...] = ()
    screws: tuple[Screw, ...] = ()
    lags: tuple[Lag, ...] = ()
    nails: tuple[Nail, ...] = ()
    pins: tuple[Pin, ...] = ()
    slides: tuple[Slide, ...] = ()
    glues: tuple[Glue, ...] = ()
    dowels: tuple[Dowel, ...] = ()
    loose_tenons: tuple[LooseTenon, ...] = ()
    sources: tuple[Source, ...] = ()

    def stuff(self, item_id: str) -> Stuff:
        """Return a stuff by id."""
        return _find("stuff", self.stuffs, item_id)

    def hinge(self, item_id: str) -> Hinge:
        """Return a hinge by id."""
        return _find("hinge", self.hinges, item_id)

    def pull(self, item_id: str) -> Pull:
        """Return a pull by id."""
        return _find("pull", self.pulls, item_id)

    def screw(self, item_id: str) -> Screw:
        """Return a wood screw by id."""
        return _find("screw", self.screws, item_id)

    def lag(self, item_id: str) -> Lag:
        """Return a lag screw by id."""
        return _find("lag", self.lags, item_id)

    def nail(self, item_id: str) -> Nail:
        """Return a nail or brad by id."""
        return _find("nail", self.nails, item_id)

    def pin(self, item_id: str) -> Pin:
        """Return a shelf pin by id."""
        return _find("pin", self.pins, item_id)

    def slide(self, item_id: str) -> Slide:
        """Return a drawer slide by id."""
        return _find("slide", self.slides, item_id)

    def glue(self, item_id: str) -> Glue:
        """Return a glue by id."""
        return _find("glue", self.glues, item_id)

    def dowel(self, item_id: str) -> Dowel:
        """Return a dowel by id."""
        return _find("dowel", self.dowels, item_id)

    def loose_tenon(self, item_id: str) -> LooseTenon:
        """Return a loose tenon by id."""
        return _find("loose tenon", self.loose_tenons, item_id)
