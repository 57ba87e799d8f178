"""Print what holds twelve common wall cabinets on two studs: `python tests/bench/hanging_table.py`.

24 to 42 in wide, 30 in high, 12 in deep, 25 to 60 kg of contents lying in the middle; two studs 16 in apart whose
middle stands `off` in from the cabinet's, so far that both are still caught; bevelled cleats of 3/4 in birch plywood,
of birch plywood with every ply birch, and of red oak. For each the least fastening in the search's order (fewest in a
stud, thinnest, lowest cleat, shortest) that holds without a stop, or, where none does, the greatest contents that any
way carries. Beside it what common practice (two No. 10 x 3 in screws in each stud, a 3 in cleat, no source) comes to,
and the standard's 600 lb proof load on the fastening found. None is forced: a use over 1 is a stop.
"""

import sys
from dataclasses import replace

from casewright.plugins.catalogue.plugin import CATALOGUE
from casewright.sdk.engineering.hanging import hang
from casewright.sdk.engineering.hanging_case import HangingCase, Strip, Wall
from casewright.sdk.engineering.units import MM_PER_IN
from fastenings import (
    Choices,
    Fastening,
    Least,
    fastened,
    greatest_contents_kg,
    least_fastening,
    usual_heights_mm,
    ways,
)

PLY_MM, OAK_MM = 18.0, 0.75 * MM_PER_IN
WIDTHS_IN, CONTENTS_KG, OFF_IN = (24.0, 30.0, 36.0, 42.0), (25.0, 40.0, 60.0), (0.0, 2.0, 4.0)
CLEATS = (
    ("birch ply", CATALOGUE.stuff("birch-plywood"), PLY_MM),
    ("all birch", CATALOGUE.stuff("all-birch-plywood"), PLY_MM),
    ("red oak", CATALOGUE.stuff("red-oak"), OAK_MM),
)
FASTENERS = tuple(
    one
    for one in (*CATALOGUE.screws, *CATALOGUE.lags)
    if one.diameter <= 9_525_000 and 50_800_000 <= one.length <= 101_600_000 and one.diameter >= 4_000_000
)
HIGH_IN, DEEP_IN = 30.0, 12.0


def cabinet(width_in: float, contents_kg: float, off_in: float) -> HangingCase:
    """Return one cabinet; its mass is that of 18 mm birch plywood, a back and two shelves and doors: 685 kg/m3."""
    area = 2 * HIGH_IN * DEEP_IN + 4 * width_in * DEEP_IN + 2 * width_in * HIGH_IN
    mass = area * MM_PER_IN**2 * PLY_MM * 685e-9
    low = HIGH_IN - 0.75 - 2 * 3.0 + PLY_MM / MM_PER_IN
    middle = width_in / 2 + off_in
    studs = tuple((middle + way * 8.0) * MM_PER_IN for way in (-1, 1))
    return HangingCase(
        mounting="bevel-cleat",
        cabinet_kg=mass,
        contents_kg=contents_kg,
        left_mm=0.0,
        width_mm=width_in * MM_PER_IN,
        height_mm=HIGH_IN * MM_PER_IN,
        depth_mm=DEEP_IN * MM_PER_IN,
        centre_x_mm=width_in / 2 * MM_PER_IN,
        centre_out_mm=DEEP_IN / 2 * MM_PER_IN,
        strip=Strip(PLY_MM, 3 * MM_PER_IN, (width_in - 2) * MM_PER_IN, MM_PER_IN, low * MM_PER_IN, CLEATS[0][1]),
        wall=Wall("studs", studs, CATALOGUE.stuff("spruce-pine-fir")),
        fastener=CATALOGUE.screw("screw-10-3"),
        anti_lift=CATALOGUE.lag("lag-1-4-3-1-2"),
        anti_lift_side_mm=1.5 * MM_PER_IN,
        anti_lift_gap_mm=0.5 * MM_PER_IN,
    )


def rows() -> list[tuple[HangingCase, float, str, Least, float | None]]:
    """Return each cabinet with each cleat: case, studs' offset, cleat, the least way, or else what it carries."""
    out = []
    for at, width in enumerate(WIDTHS_IN):
        for turn, contents in enumerate(CONTENTS_KG):
            off = min(OFF_IN[(at + turn) % len(OFF_IN)], width / 2 - 10.0)
            case = cabinet(width, contents, off)
            for name, stuff, thickness in CLEATS:
                choices = Choices(FASTENERS, (1, 2, 3, 4), usual_heights_mm(thickness), ((stuff, thickness),))
                least = least_fastening(case, choices)
                most = None
                if least.fastening is None:
                    loads = [greatest_contents_kg(fastened(case, way)) for way in ways(case, choices)]
                    most = max((kg for kg in loads if kg is not None), default=None)
                out.append((case, off, name, least, most))
    return out


def _words(way: Fastening) -> str:
    return f"{way.per_stud} x {way.fastener.id} a stud, cleat {way.height_mm / MM_PER_IN:g} in"


def main() -> None:
    """Print the table."""
    sys.stdout.write(
        "width  contents  off  cleat      least fastening that holds                       use  likely  600 lb"
        "  practice\n"
    )
    for case, off, name, least, most in rows():
        stuff, thickness = next((wood, thick) for title, wood, thick in CLEATS if title == name)
        practice = Fastening(CATALOGUE.screw("screw-10-3"), 2, 3 * MM_PER_IN, stuff, thickness)
        usual = hang(replace(fastened(case, practice)))
        head = f"{case.width_mm / MM_PER_IN:4.0f}   {case.contents_kg:5.0f} kg  {off:3.0f}  {name:9}  "
        use = f"{usual.use:8.2f}" if usual.use is not None else "       -"
        if least.fastening is None or least.result is None or least.result.likely is None:
            carries = "none" if most is None else f"none; at most {most:.1f} kg of contents"
            sys.stdout.write(f"{head}{carries:46}  {'':21}{use}\n")
            continue
        result = least.result
        assert result.likely is not None
        sys.stdout.write(
            f"{head}{_words(least.fastening):46} {result.use:5.2f}  {result.likely.use:6.2f}  "
            f"{result.proofs[-1].use:6.2f}{use}\n"
        )


if __name__ == "__main__":
    main()
