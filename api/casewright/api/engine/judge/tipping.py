"""Whether a base or tall cabinet stands: tipping with every door and drawer open, and its fixing to the wall."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import Draft
from casewright.api.engine.construction.drawers import Drawer
from casewright.api.engine.construction.fronts import PlacedDoor
from casewright.api.engine.construction.inside import Leaf
from casewright.api.engine.judge.mounting_case import mounting_case, place_checks, spot_pointer, spots_of
from casewright.api.engine.judge.weights import Masses
from casewright.sdk.engineering.hanging_capacity import NoGravity, capacity
from casewright.sdk.engineering.hanging_case import FastenerUse, HangingCase
from casewright.sdk.engineering.hanging_places import caught_studs
from casewright.sdk.engineering.hanging_solve import rows_mm
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.engineering.tipping import Load, Tipping, tipping
from casewright.sdk.engineering.units import NM_PER_MM, mm, weight_n
from casewright.sdk.methods import Hanging
from casewright.sdk.model import Check, Finding, Level, Mounted, StandingCabinet, Weight
from casewright.sdk.writer import Writer

CAUTIONS = (
    "A tall or drawered cabinet that is not fixed can tip and kill: fix it to the wall before anything goes in.",
    "Local code and a licensed practitioner's word come before these figures.",
)


@dataclass(frozen=True, slots=True)
class Fronts:
    """What opens in front of a standing cabinet, and what all of its parts weigh."""

    masses: Masses
    doors: Sequence[PlacedDoor]
    drawers: Sequence[Drawer]


def tipping_balance(built: Construction, fixing: Hanging | None, fronts: Fronts) -> Tipping:
    """Return the balance with all doors open at right angles and all drawers out, loaded as the job says.

    Shelves are taken empty, as a cabinet tips soonest.
    """
    base = built.cabinet.base
    line = mm(base.setback if base else 0)
    return tipping(_loads(built, fronts, line), _fixing_height_mm(built, fixing))


def _fixing_height_mm(built: Construction, fixing: Hanging | None) -> float:
    return mm(fixing.screw_z if fixing else built.cabinet.height)


def tipping_check(built: Construction, fixing: Hanging | None, balance: Tipping) -> Check:
    """Return whether it stands by itself; one that is not fixed and should be is a stop."""
    write = built.write
    level: Level = "note" if not _risky(built, balance) else "caution" if fixing else "stop"
    message = f"with every door and drawer open and loaded it {'would tip' if balance.tips else 'stands by itself'}"
    if fixing is None:
        message += "; fix it to the wall: give it a mounting such as screw-strip"
    elif balance.tips:
        message += f"; its fixing must hold a pull of {write.force_n(balance.pull_n)}"
    tips, holds = (round(moment / 1000.0, 3) for moment in (balance.tipping_n_mm, balance.holding_n_mm))
    return Check(built.id, Finding("anti-tip", level, message, tips, holds, "N·m", "statics"))


def _risky(built: Construction, balance: Tipping) -> bool:
    return balance.tips or built.cabinet.is_tall


def stand_cabinet(
    built: Construction, fixing: Hanging, balance: Tipping, weight: Weight, leaves: Sequence[Leaf]
) -> tuple[tuple[StandingCabinet, ...], tuple[Check, ...]]:
    """Return what its fixing to the wall comes to at every place, and what was found there."""
    checks = list(place_checks(built))
    stands = []
    for number, spot in enumerate(spots_of(built)):
        stand = StandingCabinet(spot_pointer(built, number, spot), balance, _fixing_height_mm(built, fixing))
        if spot is not None and fixing.wall_strip is not None:
            case = mounting_case(built, fixing, weight, leaves, spot)
            fasteners, finding = _fix(case, balance.pull_n, _risky(built, balance), built.write)
            checks.append(Check(stand.place, finding))
            if fasteners:
                stand = replace(stand, case=case, fasteners=fasteners)
        stands.append(stand)
    return tuple(stands), tuple(checks)


def _fix(case: HangingCase, pull_n: float, risky: bool, write: Writer) -> tuple[tuple[FastenerUse, ...], Finding]:
    """Share the pull against tipping evenly by the fasteners that meet studs; none where that cannot be judged."""
    studs = caught_studs(case) if case.wall.kind == "studs" else ()
    if not studs or case.fastener is None or case.wall.stud is None:
        message = "no fastener into a stud is known here; find studs behind the strip, or an approved anchor"
        return (), Finding("no-stud", "stop" if risky else "caution", message, source="statics")
    gap = case.wall.lining_mm + case.behind_strip_mm
    strip, wall = case.strip, case.wall
    try:
        allowed = capacity(case.fastener, strip.stuff, strip.thickness_mm, case.wall.stud, wall.stud_depth_mm, gap)
        rows = rows_mm(case)
    except OutsideLimits as problem:
        message = f"{problem.message(write)}."
        return (), Finding(problem.check_code, "stop", message, problem.value, None, problem.unit)
    except NoGravity as problem:
        return (), Finding("fastener-wood", "stop", f"{problem}", source="nds-2018-12-3-3a")
    each = pull_n / (len(studs) * len(rows))
    use = each / allowed.pull_n
    level: Level = "stop" if use > 1.0 else "note"
    message = "each fastener's share of the pull against tipping, over what it holds"
    finding = Finding("tip-fastener-use", level, message, round(use, 4), 1.0, "", "nds-2018-12-2-2")
    governs = "withdrawal or pull-through"
    fasteners = [FastenerUse(x, up, each, 0.0, 0.0, 0.0, use, governs) for x in studs for up in rows]
    return tuple(fasteners), finding


def mounted_at(mounted: Mounted, stand: StandingCabinet) -> Mounted:
    """Return a mounting at one of its places, with what standing there comes to; it is not lifted on."""
    return replace(mounted, lift=0, cautions=CAUTIONS, result=stand)


def _loads(built: Construction, fronts: Fronts, line: float) -> list[Load]:
    """Return the weight of every part and of what lies in drawers, by its distance behind the standing `line`, mm."""
    open_at: Mapping[str, float] = {door.key: (door.box.y1 - door.width / 2) / NM_PER_MM for door in fronts.doors}
    travel = {drawer.key: mm(drawer.travel) for drawer in fronts.drawers}
    loads: list[Load] = []
    for key, draft in built.drafts.items():
        kg, (_, y, _) = fronts.masses[key]
        y = open_at.get(draft.group, y) - travel.get(draft.group, 0.0)
        loads.append(Load(weight_n(kg), y - line))
        if draft.role == "box-bottom":
            loads.append(Load(_drawer_load_n(built, draft), y - line))
    return loads


def _drawer_load_n(built: Construction, bottom: Draft) -> float:
    """Return the weight of what lies in a drawer."""
    wide, deep, _ = bottom.box.size
    return built.cabinet.loading.shelf_pa * wide * deep * 1e-18
