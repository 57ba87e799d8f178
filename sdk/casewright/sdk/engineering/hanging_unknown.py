"""Findings on a cabinet to be hung: what is not known of it, its wall or its fasteners, or is outside the equations."""

from collections.abc import Iterator

from casewright.sdk.engineering import hanging_places
from casewright.sdk.engineering.hanging_capacity import NoGravity
from casewright.sdk.engineering.hanging_case import Anchor, HangingCase
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.findings import Finding
from casewright.sdk.writer import Writer


def outside_limits(problem: OutsideLimits, write: Writer) -> Finding:
    """Return the stop for an input that an equation is not good for."""
    limit = problem.low if problem.low is not None and problem.value < problem.low else problem.high
    message = f"{problem.message(write)}."
    return Finding(problem.check_code, "stop", message, problem.value, limit, problem.unit, problem.source)


def no_gravity(problem: NoGravity) -> Finding:
    """Return the stop for a wood that the fastener rules do not cover."""
    message = f"{problem}: choose a wood the fastener rules cover, or ask an engineer."
    return Finding("fastener-wood", "stop", message, source="nds-2018-12-3-3a")


def case_findings(case: HangingCase, write: Writer) -> Iterator[Finding]:
    """Yield what is missing from the case."""
    if case.contents_assumed_pa is not None:
        pressure, unit = write.measured(case.contents_assumed_pa, "Pa")
        message = (
            f"The job gives no contents, so {pressure:.4g} {unit} is taken on the bottom and each shelf. Weigh what "
            "will go in."
        )
        yield Finding("contents-assumed", "caution", message, case.contents_kg, None, "kg", "kcma-a161-1-5-1")
    if not case.contents_placed:
        message = (
            "The contents' centre is taken in the middle of the inside, across and front to back; a job whose heavy "
            "things stand to one side or in front says so."
        )
        yield Finding("contents-centred", "note", message, case.contents_kg, None, "kg", "common-practice")
    wall = case.wall
    if wall.kind == "unknown":
        yield Finding(
            "wall-unknown",
            "stop",
            "The wall is not known. Find out what it is made of, how thick its lining is, and where its studs stand "
            "and of what wood (steel ones take wood backing first); or, in masonry, which approved anchor it takes.",
            source="nds-2018-12-1",
        )
    elif wall.kind == "steel-studs":
        yield Finding(
            "wall-steel-studs",
            "stop",
            "Screws in steel studs are not computed here. Put wood backing between the studs, or ask an engineer.",
            source="nds-2018-12-1",
        )
    elif wall.kind == "masonry" and wall.anchor is None:
        yield Finding(
            "anchor-approval",
            "stop",
            "Wood screws do not hold in masonry. Give the anchor maker's approved pull and shear for this very wall, "
            "with edge distance and hole depth as the approval asks.",
            source="statics",
        )
    elif wall.kind == "masonry" and wall.anchor is not None:
        yield from _stand_off(case, wall.anchor)
    elif wall.kind == "studs":
        yield from _stud_findings(case)


def _stand_off(case: HangingCase, anchor: Anchor) -> Iterator[Finding]:
    """Yield the stop for a strip that stands farther off the masonry than the approved shear allows for."""
    off = case.gap_mm
    if off > anchor.stand_off_mm + 1e-6:
        message = (
            "The strip stands off the masonry by lining and packing, so its anchors bend: their approved shear is for "
            "less. Fix the strip on the masonry itself (a bare wall has a lining of 0; a back set in by the cleat's "
            "thickness asks for no packing), or give the stand-off and the shear approved for it."
        )
        yield Finding("anchor-stand-off", "stop", message, off, anchor.stand_off_mm, "mm", "statics")


def _stud_findings(case: HangingCase) -> Iterator[Finding]:
    if not case.wall.studs_at_mm:
        message = "No stud positions are given. Find and measure the studs."
        yield Finding("studs-unknown", "stop", message, source="statics")
    elif not hanging_places.column_sets(case):
        yield Finding(
            "no-stud",
            "stop",
            "The strip crosses no stud with its end distance kept; the lining alone must not carry a cabinet.",
            source="nds-2018-12-5-1",
        )
    if case.wall.stud is None:
        yield Finding(
            "stud-wood",
            "stop",
            "The studs' wood is not named. Read the grade stamp; the weakest common group is spruce-pine-fir (south).",
            source="nds-2018-12-3-3a",
        )
    if case.fastener is None:
        message = "No screw or lag screw is named for the studs."
        yield Finding("fastener-missing", "stop", message, source="statics")
