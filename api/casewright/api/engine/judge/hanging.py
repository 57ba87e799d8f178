"""Whether each wall cabinet stays on its wall, at every place it hangs at, and which neighbours may share a cleat."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.inside import Leaf
from casewright.api.engine.judge.load_path import path_checks
from casewright.api.engine.judge.mounting_case import (
    mounting_case,
    mounting_pointer,
    place_checks,
    spot_pointer,
    spots_of,
)
from casewright.sdk.engineering.hanging import hang
from casewright.sdk.engineering.hanging_places import share_strip
from casewright.sdk.engineering.units import mm
from casewright.sdk.methods import Hanging
from casewright.sdk.model import Check, Finding, HungCabinet, Job, Mounted, SharedCleat, Weight
from casewright.sdk.writer import writer

BESIDE_MM = 50.0
"""Cabinets this much farther apart than the shop leaves at walls still stand side by side (common practice)."""


def unmounted_checks(job: Job) -> tuple[Check, ...]:
    """Return a stop for every wall cabinet without a mounting in a job that gives a wall."""
    if job.wall is None:
        return ()
    message = "a wall cabinet without a mounting is held by nothing; give it one, such as bevel-cleat or screw-strip"
    finding = Finding("mounting-missing", "stop", message, source="statics")
    return tuple([Check(one.pointer, finding) for one in job.cabinets if not one.stands and one.mounting is None])


def hang_cabinet(
    built: Construction, fixing: Hanging, weight: Weight, leaves: Sequence[Leaf]
) -> tuple[HungCabinet, ...]:
    """Return what hanging comes to at every place of a cabinet; nothing where the mounting names no wall strip."""
    if fixing.wall_strip is None:
        return ()
    write = built.write
    hung = []
    for spot in spots_of(built):
        case = mounting_case(built, fixing, weight, leaves, spot)
        hung.append(HungCabinet(spot_pointer(built, spot), case, hang(case, write)))
    return tuple(hung)


def hanging_checks(built: Construction, fixing: Hanging, hung: Sequence[HungCabinet]) -> tuple[Check, ...]:
    """Return what was found at every place, and what cannot be judged.

    A mounting whose place on the wall is not given is a `stop`: nothing can be said of studs, though the wall is known.
    """
    if fixing.wall_strip is None:
        message = "the mounting names no part that its wall fasteners pass through; whether it holds is not judged"
        return (Check(mounting_pointer(built), Finding("strip-unknown", "stop", message, source="statics")),)
    no_place = place_checks(built)
    checks = [check for one in hung for check in (*_checks(fixing, one), *path_checks(built, fixing, one))]
    return (*no_place, *(check for check in checks if not (no_place and check.code == "wall-unknown")))


def _checks(fixing: Hanging, hung: HungCabinet) -> Iterator[Check]:
    for finding in hung.result.findings:
        if finding.code == "anti-lift-missing" and fixing.guarded:
            continue
        yield Check(hung.place, finding)


def mounted_at(mounted: Mounted, hung: HungCabinet) -> Mounted:
    """Return a mounting at one of its places, with what hanging comes to there."""
    cautions = tuple(dict.fromkeys((*mounted.cautions, *hung.result.cautions)))
    return replace(mounted, cautions=cautions, result=hung)


def shared_cleats(job: Job, hung: Sequence[HungCabinet]) -> tuple[SharedCleat, ...]:
    """Judge, for cabinets side by side in one row, whether one unbroken wall cleat may serve both.

    Those that hang on one already are left out.
    """
    studded = [one for one in hung if one.case.wall.kind == "studs"]
    ordered = sorted(studded, key=lambda one: (one.case.bottom_mm, one.case.left_mm))
    reach = mm(job.shop.wall_allowance) + BESIDE_MM
    shared = []
    for left, right in pairwise(ordered):
        a, b = left.case, right.case
        apart = b.left_mm - (a.left_mm + a.width_mm)
        if (
            right.place in left.on_strip
            or {a.mounting, b.mounting} != {"bevel-cleat"}
            or a.bottom_mm != b.bottom_mm
            or apart > reach
        ):
            continue
        if left.result.capacity is not None:
            strip = share_strip((a, b), left.result.capacity, writer(job.units))
            shared.append(SharedCleat((left.place, right.place), strip))
    return tuple(shared)
