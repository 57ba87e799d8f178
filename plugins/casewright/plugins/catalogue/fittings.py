"""Shelf pins, drawer slides, glue, dowels and loose tenons in the generic sizes of the trade."""

from casewright.sdk.engineering.units import MPA_PER_PSI
from casewright.sdk.materials import Dowel, Glue, LooseTenon, Pin, Slide
from casewright.sdk.units import INCH, MM

_PRACTICE = (("*", "common-practice"),)


def _psi(low: float, high: float) -> tuple[float, float]:
    return low * MPA_PER_PSI, high * MPA_PER_PSI


PINS: tuple[Pin, ...] = (
    Pin("pin-5", "5 mm shelf pin", 5 * MM, 10 * MM, 32 * MM, 37 * MM, (("*", "practice-32-mm"),)),
    Pin("pin-1-4", "1/4 in shelf pin", INCH // 4, 3 * INCH // 8, INCH, 2 * INCH, _PRACTICE),
)

_SLIDES = ((10, 0.35), (12, 0.42), (14, 0.50), (16, 0.57), (18, 0.64), (20, 0.71), (22, 0.78), (24, 0.85))
"""Length in inches, mass in kg."""

SLIDES: tuple[Slide, ...] = tuple(
    Slide(
        f"side-slide-{inches}",
        f"side-mounted drawer slide, {inches} in",
        INCH // 2,
        45 * MM,
        inches * INCH,
        37 * MM,
        None,
        mass,
        (
            ("*", "common-practice"),
            ("first_hole", "practice-32-mm"),
            ("height_adjustment", "hinge-adjustment"),
            ("depth_adjustment", "hinge-adjustment"),
        ),
        height_adjustment=3 * MM // 2,
        depth_adjustment=2 * MM,
    )
    for inches, mass in _SLIDES
)

GLUES: tuple[Glue, ...] = (
    Glue(
        "pva",
        "white or yellow wood glue",
        168.0,
        _psi(100.0, 150.0),
        _psi(150.0, 200.0),
        _psi(175.0, 250.0),
        (("*", "glue-guide"), ("spread_g_m2", "glue-spread")),
    ),
)

DOWELS: tuple[Dowel, ...] = (
    Dowel("dowel-6-30", "dowel 6 × 30 mm", 6 * MM, 30 * MM, 1 * MM, _PRACTICE),
    Dowel("dowel-8-35", "dowel 8 × 35 mm", 8 * MM, 35 * MM, 1 * MM, _PRACTICE),
    Dowel("dowel-10-40", "dowel 10 × 40 mm", 10 * MM, 40 * MM, 1 * MM, _PRACTICE),
    Dowel("dowel-1-4-1", "dowel 1/4 × 1 in", INCH // 4, INCH, INCH // 32, _PRACTICE),
    Dowel("dowel-3-8-1-1-2", "dowel 3/8 × 1 1/2 in", 3 * INCH // 8, 3 * INCH // 2, INCH // 32, _PRACTICE),
)

LOOSE_TENONS: tuple[LooseTenon, ...] = (
    LooseTenon("tenon-4-16-25", "loose tenon 4 × 16 × 25 mm", 4 * MM, 16 * MM, 25 * MM, 1 * MM, _PRACTICE),
    LooseTenon("tenon-5-20-30", "loose tenon 5 × 20 × 30 mm", 5 * MM, 20 * MM, 30 * MM, 1 * MM, _PRACTICE),
    LooseTenon("tenon-6-24-40", "loose tenon 6 × 24 × 40 mm", 6 * MM, 24 * MM, 40 * MM, 1 * MM, _PRACTICE),
    LooseTenon("tenon-8-32-50", "loose tenon 8 × 32 × 50 mm", 8 * MM, 32 * MM, 50 * MM, 1 * MM, _PRACTICE),
    LooseTenon("tenon-10-40-60", "loose tenon 10 × 40 × 60 mm", 10 * MM, 40 * MM, 60 * MM, 1 * MM, _PRACTICE),
    LooseTenon("tenon-1-4-1-2", "loose tenon 1/4 × 1 × 2 in", INCH // 4, INCH, 2 * INCH, INCH // 16, _PRACTICE),
)
"""Four times as wide as thick, and some six to eight times as long: what a shop makes of its own strips."""
