"""The fasteners between cabinets and their wall as hardware: just those of the answer, each with its place."""

from collections.abc import Sequence

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.judge.mounting_case import strips_of
from casewright.sdk.engineering.hanging_case import FastenerUse, HangingCase
from casewright.sdk.engineering.hanging_places import anti_lift_stud
from casewright.sdk.engineering.units import NM_PER_MM
from casewright.sdk.geometry import Box, Point
from casewright.sdk.methods import Hanging
from casewright.sdk.model import HardwareLine, HungCabinet, StandingCabinet

ANCHOR = "wall-anchor"
"""The item that stands for an anchor of the maker whose approval the job gives."""


def wall_hardware(
    built: Construction, fixing: Hanging, placed: Sequence[HungCabinet | StandingCabinet]
) -> tuple[HardwareLine, ...]:
    """Return the fasteners of every place of a cabinet; places are numbered, points are in the cabinet's frame."""
    lines: list[HardwareLine] = []
    for number, one in enumerate(placed, start=1):
        if one.case is None or not one.fasteners:
            continue
        used_for = f"{built.id}/mounting" + (f", place {number}" if len(placed) > 1 else "")
        if not isinstance(one, HungCabinet) or one.has_strip:
            lines.append(_wall_line(built, fixing, one.case, one.fasteners, used_for))
        if isinstance(one, HungCabinet):
            lines.extend(_anti_lift_line(built, fixing, one.case, used_for))
    return tuple(lines)


def _wall_line(
    built: Construction, fixing: Hanging, case: HangingCase, fasteners: Sequence[FastenerUse], used_for: str
) -> HardwareLine:
    strip = Box.union([draft.box for draft in strips_of(built, fixing)])
    head = strip.y0 - _nm(case.before_strip_mm)
    points: tuple[Point, ...] = tuple(
        (_nm(one.at_mm - case.left_mm), head, strip.z0 + _nm(one.up_mm)) for one in fasteners
    )
    if case.wall.kind == "masonry" and case.wall.anchor is not None:
        name = f"masonry anchor, {case.wall.anchor.reference}"
        return HardwareLine(ANCHOR, name, built.id, used_for, len(points), points)
    assert case.fastener is not None
    title = case.fastener.title
    return HardwareLine(case.fastener.id, title, built.id, used_for, len(points), points, "into studs")


def _anti_lift_line(built: Construction, fixing: Hanging, case: HangingCase, used_for: str) -> list[HardwareLine]:
    """Return the fastener through the anti-lift strip, at the stud nearest to the centre of gravity."""
    stud, strip = anti_lift_stud(case), built.drafts.get(fixing.anti_lift_strip)
    if case.anti_lift is None or stud is None or strip is None or case.wall.kind != "studs":
        return []
    box = strip.box
    at: Point = (_nm(stud - case.left_mm), box.y0, (box.z0 + box.z1) // 2)
    where = "through the top strip into a stud against lifting"
    return [HardwareLine(case.anti_lift.id, case.anti_lift.title, built.id, used_for, 1, (at,), where)]


def _nm(mm: float) -> int:
    return round(mm * NM_PER_MM)
