"""Whether a base or tall cabinet stands: tipping with every door and drawer open, and its fixing to the wall."""

from typing import Any

from casewright.api.engine.construction.draft import Draft, Work
from casewright.api.engine.construction.drawers import Drawer
from casewright.api.engine.construction.fronts import Hung
from casewright.api.engine.construction.inside import Leaf
from casewright.api.engine.judge.holding import case_of, place_of, spots_of
from casewright.sdk.engineering.hanging_capacity import NoGravity, capacity
from casewright.sdk.engineering.hanging_places import caught_studs
from casewright.sdk.engineering.hanging_solve import rows_mm
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.engineering.tipping import Load, tipping
from casewright.sdk.engineering.units import weight_n
from casewright.sdk.methods import Hanging
from casewright.sdk.model import Finding, Level, Mounted, Spot, Weight

NM_PER_MM = 1e6
Masses = dict[str, tuple[float, tuple[float, float, float]]]
CAUTIONS = (
    "A tall or drawered cabinet that is not fixed can tip and kill: fix it to the wall before anything goes in.",
    "Local code and a licensed practitioner's word come before these figures.",
)


def stand(
    work: Work,
    how: Hanging | None,
    weight: Weight,
    leaves: list[Leaf],
    masses: Masses,
    hung: list[Hung],
    drawers: list[Drawer],
) -> None:
    """Judge tipping with all doors open at right angles and all drawers out, loaded as the job says."""
    base = work.cabinet.base
    line = (base.setback if base else 0) / NM_PER_MM
    height = (how.screw_z if how else work.cabinet.height) / NM_PER_MM
    balance = tipping(_loads(work, masses, hung, drawers, line), height)
    risky = balance.tips or work.cabinet.form == "tall"
    level: Level = "note" if not risky else "caution" if how else "stop"
    message = f"with every door and drawer open and loaded it {'would tip' if balance.tips else 'stands by itself'}"
    if how is None:
        message += "; fix it to the wall: give it a mounting such as screw-strip"
    elif balance.tips:
        message += f"; its fixing must hold a pull of {balance.pull_n:.0f} N"
    tipped, held = (round(m / 1000.0, 3) for m in (balance.tipping_n_mm, balance.holding_n_mm))
    work.find(work.id, Finding("anti-tip", level, message, tipped, held, "N·m", "statics"))
    if how is None:
        return
    mounted = work.mounted.pop()
    spots = spots_of(work)
    for number, spot in enumerate(spots):
        place = place_of(work, number, spot)
        result = {
            "place": place,
            "stands": not balance.tips,
            "tipping_n_m": balance.tipping_n_mm / 1000.0,
            "holding_n_m": balance.holding_n_mm / 1000.0,
            "fixing_height_mm": height,
            "fixing_pull_n": balance.pull_n,
            **_fixing(work, how, weight, leaves, spot, balance.pull_n, place, risky),
        }
        work.mounted.append(Mounted(mounted.cabinet, mounted.method, 0, mounted.lengths, CAUTIONS, result))


def _fixing(
    work: Work,
    how: Hanging,
    weight: Weight,
    leaves: list[Leaf],
    spot: Spot | None,
    pull_n: float,
    place: str,
    risky: bool,
) -> dict[str, Any]:
    """Return the fasteners against tipping at one place: the pull shared evenly by those that meet studs."""
    if spot is None or how.wall_strip is None:
        return {"fasteners": [], "use": None}
    case = case_of(work, how, weight, leaves, spot)
    fastener, stud = case.fastener, case.wall.stud
    studs = caught_studs(case) if case.wall.kind == "studs" else ()
    if not studs or fastener is None or stud is None:
        words = "no fastener into a stud is known here; find studs behind the strip, or an approved anchor"
        work.find(place, Finding("no-stud", "stop" if risky else "caution", words, source="statics"))
        return {"fasteners": [], "use": None}
    gap = case.wall.lining_mm + case.behind_strip_mm
    try:
        held = capacity(fastener, case.strip.stuff, case.strip.thickness_mm, stud, case.wall.stud_depth_mm, gap)
        rows = rows_mm(case)
    except OutsideLimits as problem:
        work.find(place, Finding(problem.check_code, "stop", f"{problem}.", problem.value, None, problem.unit))
        return {"fasteners": [], "use": None}
    except NoGravity as problem:
        work.find(place, Finding("fastener-wood", "stop", f"{problem}", source="nds-2018-12-3-3a"))
        return {"fasteners": [], "use": None}
    each = pull_n / (len(studs) * len(rows))
    use = each / held.pull_n
    level: Level = "stop" if use > 1.0 else "note"
    words = "each fastener's share of the pull against tipping, over what it holds"
    work.find(place, Finding("tip-fastener-use", level, words, round(use, 4), 1.0, "", "nds-2018-12-2-2"))
    fasteners = [
        {"at_mm": x, "up_mm": up, "pull_n": each, "shear_n": 0.0, "use": use, "governs": "withdrawal or pull-through"}
        for x in studs
        for up in rows
    ]
    given = {"fastener": fastener.id, "cleat_low_mm": case.strip.low_mm, "wall": case.wall.kind}
    return {"fasteners": fasteners, "use": use, "given": given}


def _loads(work: Work, masses: Masses, hung: list[Hung], drawers: list[Drawer], line: float) -> list[Load]:
    doors = {door.key: door for door in hung}
    travel = {drawer.key: drawer.travel for drawer in drawers}
    loads: list[Load] = []
    for key, draft in work.drafts.items():
        kg, (_, y, _) = masses[key]
        if draft.group in doors:
            door = doors[draft.group]
            y = (door.box.y1 - door.width / 2) / NM_PER_MM
        elif draft.group in travel:
            y -= travel[draft.group] / NM_PER_MM
        loads.append(Load(weight_n(kg), y - line))
        if draft.role == "box-bottom":
            loads.append(Load(_contents(work, draft), y - line))
    return loads


def _contents(work: Work, draft: Draft) -> float:
    """Return what lies in a drawer, N; shelves are taken empty, as a cabinet tips soonest."""
    size = draft.box.size
    return work.cabinet.loading.shelf_pa * size[0] * size[1] * 1e-18
