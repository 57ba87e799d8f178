"""What a hanging answer has to say: what is not known, what is over its limit, what to watch."""

from collections.abc import Iterator

from casewright.sdk.engineering import hanging_places, hanging_solve
from casewright.sdk.engineering.hanging_capacity import NoGravity
from casewright.sdk.engineering.hanging_case import Finding, HangingCase, HangingResult
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.engineering.units import mm

CAUTIONS: tuple[str, ...] = (
    "A cabinet that falls can kill. These figures are a calculation from published equations, not a design: local "
    "code and the judgement of a licensed engineer or builder come first.",
    "Find each stud by more than one sign and drill a small test hole; know what pipes and cables run in the wall "
    "before driving anything.",
    "The lining carries nothing here. Anchors that hold in the lining alone are not counted.",
    "Two people lift; nobody stands below until the anti-lift fastener is in.",
    "Cut both bevels at one setting so that they lie flat, and leave nothing under the cabinet's lower edge that "
    "would stop it bearing on the wall.",
    "The cabinet's own strip and back must be glued and fastened to carry the same load; their joint is not computed.",
    "Doors standing open and anyone leaning or climbing add load that is not counted.",
)


STRIP_LEAST_MM = (12.7, 63.5)
"""Anchor strip, AWS 1st ed. (2009) p. 281 (document read): thickness and width."""


def refusal(problem: OutsideLimits) -> Finding:
    """Turn an equation's refusal into a stop."""
    limit = problem.low if problem.low is not None and problem.value < problem.low else problem.high
    return Finding(problem.check_code, "stop", f"{problem}.", problem.value, limit, problem.unit, problem.source)


def no_gravity(problem: NoGravity) -> Finding:
    """Turn a wood the fastener rules do not cover into a stop."""
    return Finding(
        "fastener-wood",
        "stop",
        f"{problem}: choose a wood the fastener rules cover, or ask an engineer.",
        source="nds-2018-12-3-3a",
    )


def before(case: HangingCase) -> Iterator[Finding]:
    """Yield what is missing from the question."""
    wall = case.wall
    if case.contents_assumed:
        yield Finding(
            "contents-assumed",
            "caution",
            "The job gives no contents, so 15 psf on the bottom and each shelf is taken. Weigh what will go in.",
            case.contents_kg,
            None,
            "kg",
            "kcma-a161-1-5-1",
        )
    if wall.kind == "unknown":
        yield Finding(
            "wall-unknown",
            "stop",
            "The wall is not known. Find out what it is made of, how thick its lining is, and where its studs stand "
            "and of what wood; or, in masonry, which approved anchor it takes.",
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
        )
    elif wall.kind == "studs":
        if not wall.studs_at_mm:
            yield Finding("studs-unknown", "stop", "No stud positions are given. Find and measure the studs.")
        elif not hanging_places.caught_studs(case):
            yield Finding(
                "no-stud",
                "stop",
                "The strip crosses no stud with its end distance kept; the lining alone must not carry a cabinet.",
                source="nds-2018-12-5-1",
            )
        if wall.stud is None:
            yield Finding(
                "stud-wood",
                "stop",
                "The studs' wood is not named. Read the grade stamp; the weakest common group is spruce-pine-fir "
                "(south).",
                source="nds-2018-12-3-3a",
            )
        if case.fastener is None:
            yield Finding("fastener-missing", "stop", "No screw or lag screw is named for the studs.")


def after(case: HangingCase, result: HangingResult) -> Iterator[Finding]:
    """Yield what the numbers say."""
    if result.use is not None:
        worst = max(result.fasteners, key=lambda each: each.use)
        yield Finding(
            "fastener-use",
            "stop" if result.use > 1.0 else "note",
            f"The hardest-worked fastener is {'over' if result.use > 1.0 else 'within'} its limit: {worst.governs}.",
            result.use,
            1.0,
            "",
            "nds-2018-12-4-1",
        )
    if len(result.caught_studs_mm) == 1:
        words = "Only one stud is caught."
        if result.extension is not None:
            longer = result.extension
            words += f" A cleat {longer.by_mm:.0f} mm longer to the {longer.side} would catch another."
        yield Finding("one-stud", "caution", words, source="statics")
    if result.capacity is not None and case.wall.lining_mm > 0.0:
        yield Finding(
            "lining-gap",
            "note",
            "The lining stands as a gap between strip and stud in the yield equations (TR-12, from memory).",
            result.capacity.gap_mm,
            None,
            "mm",
            "awc-tr-12",
        )
    yield from _edges(case, result)
    strip = case.strip
    if strip.thickness_mm < STRIP_LEAST_MM[0] or strip.width_mm < STRIP_LEAST_MM[1]:
        thin = strip.thickness_mm < STRIP_LEAST_MM[0]
        yield Finding(
            "strip-size",
            "caution",
            "The strip is slighter than the woodwork standard's anchor strip, 1/2 by 2 1/2 in.",
            strip.thickness_mm if thin else strip.width_mm,
            STRIP_LEAST_MM[0] if thin else STRIP_LEAST_MM[1],
            "mm",
            "aws-1-p281",
        )
    if result.lift.fits is False:
        yield Finding(
            "lift-room",
            "stop",
            "The ceiling leaves no room to lift the cabinet onto its hook.",
            case.wall.ceiling_mm,
            result.lift.ceiling_needed_mm,
            "mm",
        )
    for proof in result.proofs[-1:]:
        yield Finding(
            "proof-load",
            "note",
            "For comparison only: these fasteners under the cabinet standard's proof load. It is a test load in a "
            "test frame, not a load to hang.",
            proof.use,
            1.0,
            "",
            proof.source,
        )


def _edges(case: HangingCase, result: HangingResult) -> Iterator[Finding]:
    room = hanging_solve.spacing(case)
    if room is None or case.fastener is None or not result.fasteners or case.wall.kind != "studs":
        return
    edge = case.wall.stud_width_mm / 2.0
    stud_edge = (1.5 if not room.advisory else 2.5) * mm(case.fastener.diameter)
    if edge < stud_edge:
        yield Finding(
            "stud-edge", "stop", "The fastener is too thick for the stud's width.", edge, stud_edge, "mm", room.source
        )
    held = result.capacity
    if held is not None and held.penetration_mm > case.wall.stud_depth_mm - mm(case.fastener.diameter):
        yield Finding(
            "fastener-too-long",
            "caution",
            "The fastener reaches the stud's far face, where pipes, cables or the next room's lining may be.",
            held.penetration_mm,
            case.wall.stud_depth_mm,
            "mm",
            "common-practice",
        )
    if room.advisory:
        yield Finding(
            "splitting",
            "note",
            "Under 1/4 in the standard gives no distances, only that wood must not split; these follow its commentary "
            "(from memory). Drill lead holes.",
            source=room.source,
        )
