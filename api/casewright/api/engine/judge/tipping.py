"""Whether a base or tall cabinet stands: tipping with every door and drawer open, and its fixing to the wall."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.drawers import Drawer
from casewright.api.engine.construction.fronts import PlacedDoor
from casewright.api.engine.construction.inside import Leaf
from casewright.api.engine.judge.contents import drawer_pressure_pa
from casewright.api.engine.judge.mounting_case import mounting_case, place_checks, spot_pointer, spots_of
from casewright.api.engine.judge.weights import Masses
from casewright.sdk.engineering.hanging_capacity import NoGravity
from casewright.sdk.engineering.hanging_case import FastenerUse, HangingCase
from casewright.sdk.engineering.hanging_masonry import anchored_strip
from casewright.sdk.engineering.hanging_places import anchor_columns, caught_studs
from casewright.sdk.engineering.hanging_solve import fastener_capacity, rows_mm
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
    """What opens in front of a standing cabinet, what lies behind it, and what all of its parts weigh."""

    masses: Masses
    doors: Sequence[PlacedDoor]
    drawers: Sequence[Drawer]
    leaves: Sequence[Leaf]


@dataclass(frozen=True, slots=True)
class Balances:
    """How a standing cabinet stands with everything open and loaded, and with a person bearing down on it as well."""

    loaded: Tipping
    leaned: Tipping

    @property
    def pull_n(self) -> float:
        """The pull that a fixing must hold."""
        return max(self.loaded.pull_n, self.leaned.pull_n)


def tipping_balances(built: Construction, fixing: Hanging | None, fronts: Fronts) -> Balances:
    """Return the balances with all doors open at right angles and all drawers out, loaded as the job says.

    Shelves are taken empty, as a cabinet tips soonest. The person bears down where what stands open reaches farthest.
    """
    base, loading = built.cabinet.base, built.cabinet.loading
    line = mm(base.setback if base else 0)
    height = _fixing_height_mm(built, fixing)
    loads = _loads(built, fronts, line)
    person = Load(weight_n(loading.lean_kg), _foremost_mm(built, fronts) - line)
    return Balances(tipping(loads, height, loading.tip_margin), tipping([*loads, person], height, loading.tip_margin))


def _fixing_height_mm(built: Construction, fixing: Hanging | None) -> float:
    return mm(fixing.screw_z if fixing else built.cabinet.height)


def tipping_checks(built: Construction, fixing: Hanging | None, balances: Balances) -> tuple[Check, ...]:
    """Return whether it stands by itself; one that is not fixed and should be is a stop.

    One that stands, but not with a person on what is open, is a caution until it is fixed.
    """
    write = built.write
    loaded, leaned = balances.loaded, balances.leaned
    level: Level = "note" if not _risky(built, balances) else "caution" if fixing else "stop"
    message = f"with every door and drawer open and loaded it {'would tip' if loaded.tips else 'stands by itself'}"
    person = write.mass_kg(built.cabinet.loading.lean_kg)
    message += f" (a margin of {loaded.margin:g} counted{_assumed(built)})"
    if fixing is None and not loaded.tips and built.cabinet.is_tall:
        message += "; what is tall may be pulled over all the same, empty or climbed on"
    if fixing is None:
        message += "; fix it to the wall: give it a mounting such as screw-strip"
    elif balances.pull_n > 0.0:
        message += f"; its fixing must hold a pull of {write.force_n(balances.pull_n)}"
    if fixing is not None and level == "caution":
        message += "; make it fast before anything is put in or opened"
    checks = [Check(built.id, _finding("anti-tip", level, message, loaded))]
    if leaned.tips and not loaded.tips:
        words = f"{person} bearing down on what stands open would tip it"
        words += "; its fixing is judged for that" if fixing else "; fix it to the wall"
        checks.append(Check(built.id, _finding("anti-tip-leaned-on", "note" if fixing else "caution", words, leaned)))
    return tuple(checks)


def _assumed(built: Construction) -> str:
    """Return in words what is taken to lie in the drawers where the job gives no contents."""
    mounting = built.cabinet.mounting
    given = mounting is not None and mounting.contents_kg is not None
    if given or not any(draft.role == "box-bottom" for draft in built.drafts.values()):
        return ""
    pressure, unit = built.write.measured(built.cabinet.loading.shelf_pa, "Pa")
    return f", {pressure:.4g} {unit} taken in its drawers, as the job gives no contents"


def _finding(code: str, level: Level, message: str, balance: Tipping) -> Finding:
    """Return a finding on a balance: what tips over what may, the margin counted."""
    moments = (balance.tipping_n_mm, balance.holding_n_mm / balance.margin)
    tips, may = (round(max(0.0, moment) / 1000.0, 3) for moment in moments)
    return Finding(code, level, message, tips, may, "N·m", "statics")


def _risky(built: Construction, balances: Balances) -> bool:
    return balances.loaded.tips or built.cabinet.is_tall


def stand_cabinet(
    built: Construction, fixing: Hanging, balances: Balances, weight: Weight, leaves: Sequence[Leaf]
) -> tuple[tuple[StandingCabinet, ...], tuple[Check, ...]]:
    """Return what its fixing to the wall comes to at every place, and what was found there."""
    checks = list(place_checks(built))
    height = _fixing_height_mm(built, fixing)
    stands = []
    for spot in spots_of(built):
        stand = StandingCabinet(spot_pointer(built, spot), balances.loaded, balances.leaned, height)
        if spot is not None and fixing.wall_strip is not None:
            case = mounting_case(built, fixing, weight, leaves, spot)
            fasteners, finding = _fix(case, balances.pull_n, _risky(built, balances), built.write)
            checks.append(Check(stand.place, finding))
            if fasteners:
                stand = replace(stand, case=case, fasteners=fasteners)
        stands.append(stand)
    return tuple(stands), tuple(checks)


def _fix(case: HangingCase, pull_n: float, risky: bool, write: Writer) -> tuple[tuple[FastenerUse, ...], Finding]:
    """Share the pull against tipping evenly by the fasteners in the wall; none where that cannot be judged."""
    try:
        columns, rows, holds = _fasteners(case)
    except OutsideLimits as problem:
        message = f"{problem.message(write)}."
        return (), Finding(problem.check_code, "stop", message, problem.value, None, problem.unit)
    except NoGravity as problem:
        return (), Finding("fastener-wood", "stop", f"{problem}", source="nds-2018-12-3-3a")
    if not columns:
        message = "no fastener into a stud is known here; find studs behind the strip, or an approved anchor"
        return (), Finding("no-stud", "stop" if risky else "caution", message, source="statics")
    each = pull_n / (len(columns) * len(rows))
    use = each / holds
    level: Level = "stop" if use > 1.0 else "note"
    message = "each fastener's share of the pull against tipping, over what it holds"
    finding = Finding("tip-fastener-use", level, message, round(use, 4), 1.0, "", "nds-2018-12-2-2")
    governs = "withdrawal or pull-through"
    fasteners = [FastenerUse(x, up, each, 0.0, 0.0, 0.0, use, governs) for x in columns for up in rows]
    return tuple(fasteners), finding


_Fasteners = tuple[tuple[float, ...], tuple[float, ...], float]
"""Where fasteners stand along the wall and over one another, mm, and the pull each holds, N."""


def _fasteners(case: HangingCase) -> _Fasteners:
    """Return the fasteners of a standing cabinet's strip; none where the wall or the fastener is not known."""
    anchor = case.wall.anchor
    if case.wall.kind == "masonry" and anchor is not None:
        holds = min(anchor.pull_n, anchored_strip(anchor, case.strip, case.duration).pull_through_n)
        return anchor_columns(case), rows_mm(case), holds
    if case.wall.kind != "studs" or not caught_studs(case):
        return (), (), 0.0
    allowed = fastener_capacity(case)
    return ((), (), 0.0) if allowed is None else (caught_studs(case), rows_mm(case), allowed.pull_n)


def mounted_at(mounted: Mounted, stand: StandingCabinet) -> Mounted:
    """Return a mounting at one of its places, with what standing there comes to; it is not lifted on."""
    return replace(mounted, lift=0, cautions=CAUTIONS, result=stand)


def _loads(built: Construction, fronts: Fronts, line: float) -> list[Load]:
    """Return the weight of every part and of what lies in drawers, by its distance behind the standing `line`, mm."""
    open_at: Mapping[str, float] = {door.key: (door.box.y1 - door.width / 2) / NM_PER_MM for door in fronts.doors}
    travel = {drawer.key: mm(drawer.travel) for drawer in fronts.drawers}
    pressure = drawer_pressure_pa(built, fronts.leaves)
    loads: list[Load] = []
    for key, draft in built.drafts.items():
        kg, (_, y, _) = fronts.masses[key]
        y = open_at.get(draft.group, y) - travel.get(draft.group, 0.0)
        loads.append(Load(weight_n(kg), y - line))
        if draft.role == "box-bottom":
            wide, deep, _ = draft.box.size
            loads.append(Load(pressure * wide * deep * 1e-18, y - line))
    return loads


def _foremost_mm(built: Construction, fronts: Fronts) -> float:
    """Return how far forward what stands open reaches (y, mm): doors, drawers, else the cabinet itself."""
    doors = [door.box.y1 - door.width for door in fronts.doors]
    travel = {drawer.key: drawer.travel for drawer in fronts.drawers}
    rest = [draft.box.y0 - travel.get(draft.group, 0) for draft in built.drafts.values()]
    return min([*doors, *rest]) / NM_PER_MM
