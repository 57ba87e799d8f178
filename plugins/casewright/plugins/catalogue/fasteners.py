"""Screws, lag screws, nails and brads: sizes of Tables L2 to L4, bending strength of Table I1."""

from typing import NamedTuple

from casewright.sdk.engineering.units import MPA_PER_PSI
from casewright.sdk.materials import Lag, Nail, Screw
from casewright.sdk.units import INCH

_THOU = 25_400

_BENDING_KSI: tuple[tuple[int, float], ...] = (
    (142, 100.0),
    (177, 90.0),
    (236, 80.0),
    (273, 70.0),
    (344, 60.0),
)


def bending_strength_mpa(diameter_thou: int) -> float:
    """Return F_yb by nominal diameter in thousandths of an inch (Table I1); 45 ksi above 0.344 in."""
    ksi = next((strength for most, strength in _BENDING_KSI if diameter_thou <= most), 45.0)
    return ksi * 1000.0 * MPA_PER_PSI


def _length_name(eighths: int) -> str:
    whole, part = divmod(eighths, 8)
    text = {0: "", 2: "1/4", 4: "1/2", 5: "5/8", 6: "3/4"}[part]
    return " ".join(piece for piece in (str(whole) if whole else "", text) if piece)


def _length_id(eighths: int) -> str:
    return _length_name(eighths).replace(" ", "-").replace("/", "-")


_SCREW_SIZES: tuple[tuple[int, int, int, int], ...] = (
    (6, 138, 113, 262),
    (7, 151, 122, 287),
    (8, 164, 131, 312),
    (9, 177, 142, 337),
    (10, 190, 152, 363),
    (12, 216, 171, 414),
    (14, 242, 196, 480),
)
"""Gauge number, then shank, root and head diameter in thousandths of an inch (Table L3)."""

_SCREW_LENGTHS = (4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 32)
"""Lengths in eighths of an inch; 1/2, of No. 6 alone, and 5/8 are hinge screws."""


def _screw(gauge: int, shank: int, root: int, head: int, eighths: int) -> Screw:
    name = _length_name(eighths)
    return Screw(
        id=f"screw-{gauge}-{_length_id(eighths)}",
        title=f"wood screw No. {gauge} × {name} in",
        gauge=gauge,
        diameter=shank * _THOU,
        root=root * _THOU,
        head=head * _THOU,
        length=eighths * INCH // 8,
        f_yb_mpa=bending_strength_mpa(shank),
        sources=(("*", "nds-2018-appendix-l"), ("f_yb_mpa", "nds-2018-appendix-i")),
    )


SCREWS: tuple[Screw, ...] = tuple(
    _screw(*size, eighths)
    for size in _SCREW_SIZES
    for eighths in _SCREW_LENGTHS
    if (eighths > 4 or size[0] == 6) and (eighths <= 8 or size[0] >= 8)
)


class _LagSize(NamedTuple):
    """A row of Table L2: diameter, root and washer in thousandths of an inch, tip E in nm."""

    size: str
    id: str
    diameter: int
    root: int
    washer: int
    tip: int


_LAG_SIZES = (
    _LagSize("1/4", "1-4", 250, 173, 625, 5 * INCH // 32),
    _LagSize("5/16", "5-16", 312, 227, 688, 3 * INCH // 16),  # 0.3125 in; thousandths for its bending strength
    _LagSize("3/8", "3-8", 375, 265, 812, 7 * INCH // 32),
    _LagSize("1/2", "1-2", 500, 371, 1062, 5 * INCH // 16),
)

_LAG_LENGTHS = (16, 20, 24, 28, 32, 40, 48)


def _lag(lag: _LagSize, eighths: int) -> Lag:
    diameter = 5 * INCH // 16 if lag.size == "5/16" else lag.diameter * _THOU
    return Lag(
        id=f"lag-{lag.id}-{_length_id(eighths)}",
        title=f"lag screw {lag.size} × {_length_name(eighths)} in with washer",
        diameter=diameter,
        root=lag.root * _THOU,
        washer=lag.washer * _THOU,
        tip=lag.tip,
        length=eighths * INCH // 8,
        f_yb_mpa=bending_strength_mpa(lag.diameter),
        sources=(
            ("*", "nds-2018-appendix-l"),
            ("f_yb_mpa", "nds-2018-appendix-i"),
            ("washer", "common-practice"),
        ),
    )


LAGS: tuple[Lag, ...] = tuple(_lag(size, eighths) for size in _LAG_SIZES for eighths in _LAG_LENGTHS)

_NAIL_SIZES: tuple[tuple[str, int, int, int], ...] = (
    ("6d", 113, 266, 16),
    ("8d", 131, 281, 20),
    ("10d", 148, 312, 24),
    ("16d", 162, 344, 28),
)

_BRADS: tuple[tuple[int, int, int], ...] = ((18, 47, 8), (18, 47, 10), (18, 47, 12), (16, 63, 16))
"""Wire gauge, shank in thousandths of an inch, length in eighths."""

NAILS: tuple[Nail, ...] = (
    *(
        Nail(
            f"nail-{size}",
            f"common nail {size}",
            shank * _THOU,
            head * _THOU,
            eighths * INCH // 8,
            bending_strength_mpa(shank),
            "structural",
            (("*", "nds-2018-appendix-l4"), ("f_yb_mpa", "nds-2018-appendix-i")),
        )
        for size, shank, head, eighths in _NAIL_SIZES
    ),
    *(
        Nail(
            f"brad-{gauge}-{_length_id(eighths)}",
            f"brad {gauge} ga × {_length_name(eighths)} in",
            shank * _THOU,
            shank * _THOU,
            eighths * INCH // 8,
            bending_strength_mpa(shank),
            "holds parts while glue sets; carries nothing",
            (("*", "common-practice"), ("f_yb_mpa", "nds-2018-appendix-i")),
        )
        for gauge, shank, eighths in _BRADS
    ),
)
