"""Findings on a hung cabinet: what is over its limit, what to watch."""

import math
from collections.abc import Iterator

from casewright.sdk.engineering import hanging_places, hanging_solve, hanging_strip
from casewright.sdk.engineering.hanging_case import AntiLift, HangingCase, HangingResult, Hook
from casewright.sdk.engineering.placement import SMALL_MM, Spacing
from casewright.sdk.engineering.units import MM_PER_IN, NM_PER_MM, mm
from casewright.sdk.findings import Finding, Level
from casewright.sdk.writer import Writer

CAUTIONS: tuple[str, ...] = (
    "A cabinet that falls can kill. These figures are a calculation from published equations, not a design: local "
    "code and the judgement of a licensed engineer or builder come first.",
    "Find each stud by more than one sign and drill a small test hole; know what pipes and cables run in the wall "
    "before driving anything.",
    "The lining carries nothing here. Anchors that hold in the lining alone are not counted.",
    "Nobody stands below until the anti-lift fastener is in.",
    "Cut both bevels at one setting so that they lie flat, and leave nothing under the cabinet's lower edge that "
    "would stop it bearing on the wall.",
    "Doors standing open and anyone leaning or climbing add load that is not counted.",
)


STRIP_LEAST_MM = (12.7, 63.5)
"""Anchor strip, AWS 1st ed. (2009) p. 281 (document read): thickness and width."""


def no_anti_lift(hook: Hook, write: Writer) -> Finding:
    """Return what it means that nothing stops the cabinet lifting off its hook."""
    if not hook.rides_up:
        message = "Nothing stops the cabinet being knocked up and off its hook. Add an anti-lift fastener."
        return Finding("anti-lift-missing", "caution", message, source="common-practice")
    message = (
        "Tipping pulls harder than the hook surely holds, so the cabinet would ride up the bevel. Fasten it to a stud "
        f"for the {write.force_n(hook.shortfall_n)} that is left (or hold the cabinet down with "
        f"{write.force_n(hook.hold_down_n)}), or set the cleat higher."
    )
    return Finding("hook-rides-up", "stop", message, hook.needed_n, hook.frictionless_n, "N", "statics")


def anti_lift_wall(hook: Hook) -> Finding:
    """Return what it means that the anti-lift fastener goes into a wall whose hold is not computed."""
    level: Level = "stop" if hook.rides_up else "caution"
    message = (
        "The anti-lift fastener's hold cannot be computed in this wall. Name the studs and put it into one, or take an "
        "anchor approved for this wall."
    )
    return Finding("anti-lift-wall", level, message, hook.shortfall_n, None, "N", "statics")


def anti_lift_use(anti_lift: AntiLift, *, rides_up: bool) -> Finding:
    """Return the verdict on the anti-lift fastener; where the hook rides up, the hanging hangs on it."""
    level: Level = "stop" if anti_lift.use > 1.0 else "caution" if rides_up else "note"
    return Finding(
        "anti-lift-hold",
        level,
        "The hook alone is not sure to hold against tipping: the anti-lift fastener is part of the hanging."
        if rides_up
        else "The hook holds against tipping by itself; the anti-lift fastener guards against knocks.",
        anti_lift.needed_n,
        anti_lift.capacity_n,
        "N",
        "nds-2018-12-2-2",
    )


def result_findings(case: HangingCase, result: HangingResult, write: Writer) -> Iterator[Finding]:
    """Yield what the numbers say."""
    yield from _use(case, result, write)
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
    yield from _placement_findings(case, result, write)
    yield from _strip_size(case, write)
    yield from _strip_bending(case, result, write)
    if result.lift.fits is False:
        yield Finding(
            "lift-room",
            "stop",
            "The ceiling leaves no room to lift the cabinet onto its hook.",
            case.wall.ceiling_mm,
            result.lift.ceiling_needed_mm,
            "mm",
            "statics",
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


def _use(case: HangingCase, result: HangingResult, write: Writer) -> Iterator[Finding]:
    """Yield how hard the fasteners work, by the bound and likely, and whether one stud alone is caught."""
    if result.use is not None:
        worst = max(result.fasteners, key=lambda each: each.use)
        yield Finding(
            "fastener-use",
            "stop" if result.use > 1.0 else "note",
            f"The hardest-worked fastener is {'over' if result.use > 1.0 else 'within'} its limit: {worst.governs}."
            f"{' Catch more studs, use more or thicker fasteners, or hang less on them.' if result.use > 1.0 else ''}",
            result.use,
            1.0,
            "",
            "nds-2018-12-4-1",
        )
    if len(result.caught_studs_mm) == 1:
        message = "Only one stud is caught."
        if result.extension is not None:
            longer = result.extension
            message += f" A cleat {write.length_mm(longer.by_mm)} longer to the {longer.side} would catch another."
        else:
            message += " The cleat has no room to reach another where the cabinet hangs;"
            move = hanging_places.catching_move(case)
            if move is None:
                message += " it is too short for two anywhere: set wood backing in, and give it as a stud."
            else:
                side = "left" if move < 0.0 else "right"
                message += f" hung {write.length_mm(abs(move))} farther to the {side}, if it may be, it would."
        yield Finding("one-stud", "caution", message, source="statics")
    if result.likely is not None:
        yield Finding(
            "likely-use",
            "note",
            f"Likely, not sure, and no verdict: what the hardest-worked fastener comes to with {result.likely.taken}.",
            result.likely.use,
            1.0,
            "",
            "statics",
        )


def _strip_bending(case: HangingCase, result: HangingResult, write: Writer) -> Iterator[Finding]:
    """Yield whether the strip bends too far between its fasteners, or that nothing is known of it."""
    columns = sorted({each.at_mm for each in result.fasteners})
    if not columns:
        return
    stress, allowed = hanging_strip.bending_mpa(case, result.pull_n, columns), hanging_strip.bending_allowed_mpa(case)
    if allowed is None:
        message = "The bending strength of the strip's wood is not on record; its bending is not judged."
        yield Finding("strip-bending", "caution", message, stress, None, "MPa", "astm-d245")
    elif stress > allowed:
        message = "The strip bends too hard between its fasteners: use a thicker or higher one, or catch another stud."
        yield Finding("strip-bending", "stop", message, stress, allowed, "MPa", "astm-d245")
    gives = hanging_strip.end_give_mm(case, result.pull_n, columns)
    if gives > hanging_strip.GIVE_MM:
        step = _step_mm(write)
        thick, high = hanging_strip.firm_sizes_mm(case, result.pull_n, columns, step)
        sizes = [
            f"{write.cut(round(size * NM_PER_MM))} {word}" for size, word in ((thick, "thick"), (high, "high")) if size
        ]
        message = (
            "The strip's end past its last fasteners gives at least this far outward in the years to come, and leaves "
            "the load to the strip near them. Fasten it nearer its ends"
        )
        message += f", or use a strip {' or '.join(sizes)}." if sizes else "."
        yield Finding("strip-gives", "caution", message, gives, hanging_strip.GIVE_MM, "mm", "fpl-190-eq-9-2")


def _strip_size(case: HangingCase, write: Writer) -> Iterator[Finding]:
    strip, (thickness, height) = case.strip, STRIP_LEAST_MM
    thin = strip.thickness_mm < thickness
    if thin or strip.width_mm < height:
        yield Finding(
            "strip-size",
            "caution",
            "The strip is slighter than the woodwork standard's anchor strip, "
            f"{write.length_mm(thickness)} by {write.length_mm(height)}.",
            strip.thickness_mm if thin else strip.width_mm,
            thickness if thin else height,
            "mm",
            "aws-1-p281",
        )


def _placement_findings(case: HangingCase, result: HangingResult, write: Writer) -> Iterator[Finding]:
    room = hanging_solve.spacing(case)
    if room is None or case.fastener is None or not result.fasteners or case.wall.kind != "studs":
        return
    yield from _row_findings(case, room, write)
    yield from _end_findings(case, result, room)
    edge = case.wall.stud_width_mm / 2.0
    stud_edge = (1.5 if not room.advisory else 2.5) * mm(case.fastener.diameter)
    if edge < stud_edge:
        yield Finding(
            "stud-edge", "stop", "The fastener is too thick for the stud's width.", edge, stud_edge, "mm", room.source
        )
    capacity = result.capacity
    if capacity is not None and capacity.penetration_mm > case.wall.stud_depth_mm - mm(case.fastener.diameter):
        yield Finding(
            "fastener-too-long",
            "caution",
            "The fastener reaches the stud's far face, where pipes, cables or the next room's lining may be.",
            capacity.penetration_mm,
            case.wall.stud_depth_mm,
            "mm",
            "common-practice",
        )
    if room.advisory:
        message = (
            f"Under {write.length_mm(SMALL_MM)} the standard gives no distances, only that wood must not split; these "
            "follow its commentary (from memory). Drill lead holes."
        )
        yield Finding("splitting", "note", message, source=room.source)


def _end_findings(case: HangingCase, result: HangingResult, room: Spacing) -> Iterator[Finding]:
    """Yield that fasteners stand nearer an end of the strip than full value asks."""
    nearest = hanging_places.nearest_end_mm(case, result.caught_studs_mm)
    if nearest < room.end - hanging_places.TOUCH_MM:
        message = (
            "A fastener stands nearer the strip's end than full value asks; all of them are taken to carry less "
            "sideways in proportion (C_Δ). A longer strip, or one moved along, would carry more."
        )
        yield Finding("end-distance", "note", message, nearest, room.end, "mm", room.source)


def _step_mm(write: Writer) -> float:
    """Return the steps in mm that sizes which are offered go by: 1/16 in or 1 mm."""
    return MM_PER_IN / 16.0 if write.inches else 1.0


def _row_findings(case: HangingCase, room: Spacing, write: Writer) -> Iterator[Finding]:
    """Yield what is wrong with fasteners one over another: too many for the strip, or closer than is advised."""
    fit, height = hanging_solve.most_rows(case), hanging_solve.height_needed_mm(case)
    if fit < case.per_stud and height is not None:
        yield Finding(
            "strip-height",
            "stop",
            f"The strip takes {fit} fasteners one over another in a stud, not {case.per_stud}; they are one row along "
            "the load. Figures are for those that fit. Make the strip higher, or use fewer or thinner ones.",
            case.strip.width_mm,
            height,
            "mm",
            room.source,
        )
    apart = hanging_solve.apart_mm(case)
    if apart is not None and room.advisory and apart < room.in_row * (1.0 - 1e-9):
        step = _step_mm(write)
        enough = step * math.ceil((hanging_solve.height_needed_mm(case, advised=True) or case.strip.width_mm) / step)
        yield Finding(
            "screw-spacing",
            "caution",
            "Screws one over another stand along the stud's grain, closer than is advised even with lead holes; the "
            f"wood may split. Make the strip {write.cut(round(enough * NM_PER_MM))} high, or use fewer.",
            apart,
            room.in_row,
            "mm",
            room.source,
        )
