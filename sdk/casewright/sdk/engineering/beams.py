"""Deflection of shelves and rails as beams, and the shelves that keep a limit.

Newtons, millimetres, megapascals. Loads are totals on the span unless the name says otherwise.
"""

from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from casewright.sdk.engineering.limits import within
from casewright.sdk.engineering.units import MM_PER_IN
from casewright.sdk.writer import Writer

Spread = Literal["uniform", "centre"]
Ends = Literal["pinned", "clamped"]
Overhung = Literal["uniform", "end"]

COEFFICIENTS = MappingProxyType(
    {
        ("uniform", "pinned"): 5.0 / 384.0,
        ("uniform", "clamped"): 1.0 / 384.0,
        ("centre", "pinned"): 1.0 / 48.0,
        ("centre", "clamped"): 1.0 / 192.0,
    }
)
"""k_b by load and ends: Wood Handbook FPL-GTR-190 (2010) Table 9-1 (document read)."""

CANTILEVER = MappingProxyType({"uniform": (1.0 / 8.0, 1.0 / 2.0), "end": (1.0 / 3.0, 1.0)})
"""k_b and k_s of a beam held at one end, by load: FPL-GTR-190 (2010) Table 9-1 (document read)."""

TRUE_MODULUS = 1.10
"""A board's modulus without shear over the one of Table 5-3b, which counts it (FPL-GTR-282, 2021, document read)."""

RIGIDITY_SHARE = 1.0 / 16.0
"""Modulus of rigidity over the modulus along the grain, wood of any kind (from memory)."""

CREEP_FACTOR = 2.0
"""Long-term over first deflection for dry stock indoors: FPL-GTR-190 (2010) ch. 5, creep about equals the first."""


def second_moment_mm4(width_mm: float, depth_mm: float) -> float:
    """Return b h^3 / 12 of a rectangle, `depth_mm` along the load."""
    within("beam-section", "width", width_mm, 1e-3, None, "mm", "fpl-190-eq-9-2")
    within("beam-section", "depth", depth_mm, 1e-3, None, "mm", "fpl-190-eq-9-2")
    return width_mm * depth_mm**3 / 12.0


def bending_deflection_mm(load_n: float, span_mm: float, stiffness_n_mm2: float, k_b: float) -> float:
    """Return k_b W L^3 / (E I): FPL-GTR-190 (2010) eq. 9-2, first term. `stiffness_n_mm2` is E I."""
    within("beam-load", "load", load_n, 0.0, None, "N", "fpl-190-eq-9-2")
    within("beam-span", "span", span_mm, 1e-3, None, "mm", "fpl-190-eq-9-2")
    within("beam-stiffness", "stiffness", stiffness_n_mm2, 1e-3, None, "N·mm²", "fpl-190-eq-9-2")
    return k_b * load_n * span_mm**3 / stiffness_n_mm2


@dataclass(frozen=True, slots=True)
class Section:
    """A rectangle of wood, `depth_mm` along the load; `e_mpa` is its modulus without shear."""

    width_mm: float
    depth_mm: float
    e_mpa: float

    @property
    def stiffness_n_mm2(self) -> float:
        """E I."""
        return self.e_mpa * second_moment_mm4(self.width_mm, self.depth_mm)


def shear_deflection_mm(load_n: float, span_mm: float, section: Section, k_s: float) -> float:
    """Return k_s W L / (G A'), A' = 5 b h / 6: FPL-GTR-190 (2010) eq. 9-2, second term (A' from memory)."""
    within("beam-load", "load", load_n, 0.0, None, "N", "fpl-190-eq-9-2")
    within("beam-span", "span", span_mm, 1e-3, None, "mm", "fpl-190-eq-9-2")
    area = 5.0 * section.width_mm * section.depth_mm / 6.0
    return k_s * load_n * span_mm / (RIGIDITY_SHARE * section.e_mpa * area)


def overhang_mm(load_n: float, length_mm: float, section: Section, load: Overhung = "uniform") -> float:
    """Return how far the free end of a beam held at its other end gives at first, by bending and by shear."""
    k_b, k_s = CANTILEVER[load]
    bent = bending_deflection_mm(load_n, length_mm, section.stiffness_n_mm2, k_b)
    return bent + shear_deflection_mm(load_n, length_mm, section, k_s)


@dataclass(frozen=True, slots=True)
class Nosing:
    """A solid edge glued along a shelf's front, top faces flush.

    Thickness front to back and height, in mm.
    """

    thickness_mm: float
    height_mm: float
    e_mpa: float


def stiffness_n_mm2(depth_mm: float, thickness_mm: float, e_mpa: float, nosing: Nosing | None = None) -> float:
    """Return E I of a shelf `depth_mm` front to back, with an optional nosing as one section.

    Own derivation: transformed section about the common neutral axis; full shear connection by glue. Edge
    band is ignored, as it is too thin to count.
    """
    within("shelf-modulus", "modulus", e_mpa, 1.0, 50_000.0, "MPa", "fpl-190-eq-9-2")
    own = e_mpa * second_moment_mm4(depth_mm, thickness_mm)
    if nosing is None:
        return own
    within("nosing-height", "nosing height", nosing.height_mm, thickness_mm, None, "mm", "statics")
    within("shelf-modulus", "nosing modulus", nosing.e_mpa, 1.0, 50_000.0, "MPa", "fpl-190-eq-9-2")
    shelf_ea = e_mpa * depth_mm * thickness_mm
    nosing_ea = nosing.e_mpa * nosing.thickness_mm * nosing.height_mm
    shelf_y, nosing_y = thickness_mm / 2.0, nosing.height_mm / 2.0
    axis = (shelf_ea * shelf_y + nosing_ea * nosing_y) / (shelf_ea + nosing_ea)
    return (
        own
        + shelf_ea * (shelf_y - axis) ** 2
        + nosing.e_mpa * second_moment_mm4(nosing.thickness_mm, nosing.height_mm)
        + nosing_ea * (nosing_y - axis) ** 2
    )


@dataclass(frozen=True, slots=True)
class SagLimit:
    """A sag a shelf may show: the span divided by `ratio`, and never more than `most_mm`."""

    code: str
    ratio: float
    most_mm: float | None
    source: str

    def at(self, span_mm: float) -> float:
        """Return the limit in mm for a span in mm."""
        by_span = span_mm / self.ratio
        return by_span if self.most_mm is None else min(by_span, self.most_mm)

    def message(self, write: Writer) -> str:
        """Return the limit in words."""
        most = "" if self.most_mm is None else f", at most {write.length_mm(self.most_mm)}"
        return f"span/{self.ratio:g}{most}"


LIMITS = MappingProxyType(
    {
        limit.code: limit
        for limit in (
            SagLimit("sixteenth-per-foot", 192.0, MM_PER_IN / 4.0, "kcma-a161-1-5-1"),
            SagLimit("span-over-144", 144.0, None, "aws-1-p253"),
            SagLimit("two-hundredths-per-foot", 600.0, None, "practice-shelf-sag"),
        )
    }
)
"""Selectable limits; `two-hundredths-per-foot` is common practice, no source."""


def sag_mm(
    load_n: float, span_mm: float, stiffness: float, spread: Spread, ends: Ends = "pinned", creep: float = CREEP_FACTOR
) -> float:
    """Return the sag at mid span with creep. `stiffness` is E I in N·mm2; creep 1.0 gives the first deflection.

    Housed ends lie between pinned and clamped; judge them as pinned and quote clamped as the best case.
    """
    within("beam-creep", "creep factor", creep, 1.0, 6.0, "", "fpl-190-creep")
    return creep * bending_deflection_mm(load_n, span_mm, stiffness, COEFFICIENTS[spread, ends])


def longest_span_mm(
    load: float,
    stiffness: float,
    spread: Spread,
    limit: SagLimit,
    ends: Ends = "pinned",
    creep: float = CREEP_FACTOR,
) -> float:
    """Return the longest span that keeps a limit: closed form of `sag_mm` = limit.

    `load` is in N per mm of span for a uniform spread, in N for a centre load. Own algebra on eq. 9-2; with
    creep 1 and span/144 it gives the shelf lengths of AWS 1st ed. (2009) p. 279.
    """
    within("beam-load", "load", load, 1e-12, None, "N", "fpl-190-eq-9-2")
    within("beam-creep", "creep factor", creep, 1.0, 6.0, "", "fpl-190-creep")
    give = stiffness / (COEFFICIENTS[spread, ends] * load * creep)
    power = 4.0 if spread == "uniform" else 3.0
    by_ratio = float((give / limit.ratio) ** (1.0 / (power - 1.0)))
    if limit.most_mm is None:
        return by_ratio
    return min(by_ratio, float((give * limit.most_mm) ** (1.0 / power)))


def stiffness_needed_n_mm2(
    load_n: float, span_mm: float, spread: Spread, limit_mm: float, ends: Ends = "pinned", creep: float = CREEP_FACTOR
) -> float:
    """Return the E I that makes the sag exactly `limit_mm`."""
    within("beam-limit", "sag limit", limit_mm, 1e-6, None, "mm", "fpl-190-eq-9-2")
    return sag_mm(load_n, span_mm, 1.0, spread, ends, creep) / limit_mm


def thickness_needed_mm(stiffness: float, depth_mm: float, e_mpa: float) -> float:
    """Return the shelf thickness whose E I is `stiffness`, without nosing."""
    within("shelf-modulus", "modulus", e_mpa, 1.0, 50_000.0, "MPa", "fpl-190-eq-9-2")
    return float((12.0 * stiffness / (e_mpa * depth_mm)) ** (1.0 / 3.0))


def nosing_needed_mm(
    stiffness: float,
    depth_mm: float,
    thickness_mm: float,
    e_mpa: float,
    nosing_thickness_mm: float,
    nosing_e_mpa: float,
    highest_mm: float = 100.0,
) -> float | None:
    """Return the least nosing height that reaches `stiffness`, to 0.01 mm.

    None when `highest_mm` is not enough.
    """

    def enough(height: float) -> bool:
        nosing = Nosing(nosing_thickness_mm, height, nosing_e_mpa)
        return stiffness_n_mm2(depth_mm, thickness_mm, e_mpa, nosing) >= stiffness

    low, high = thickness_mm, highest_mm
    if high < low or not enough(high):
        return None
    if enough(low):
        return low
    while high - low > 0.005:
        middle = (low + high) / 2.0
        low, high = (low, middle) if enough(middle) else (middle, high)
    return high
