"""Whether a base or tall cabinet stands: tipping with every door and drawer open, and its fixing to the wall."""

from casewright.api.engine.draft import Draft, Work
from casewright.api.engine.drawers import Drawer
from casewright.api.engine.fronts import Hung
from casewright.sdk.engineering.tipping import Load, tipping
from casewright.sdk.engineering.units import weight_n
from casewright.sdk.methods import Hanging
from casewright.sdk.model import Finding, Level, Mounted

NM_PER_MM = 1e6
Masses = dict[str, tuple[float, tuple[float, float, float]]]
CAUTIONS = (
    "A tall or drawered cabinet that is not fixed can tip and kill: fix it to the wall before anything goes in.",
    "Local code and a licensed practitioner's word come before these figures.",
)


def stand(work: Work, how: Hanging | None, masses: Masses, hung: list[Hung], drawers: list[Drawer]) -> None:
    """Judge tipping with all doors open at right angles and all drawers out, loaded as the job says."""
    base = work.cabinet.base
    line = (base.setback if base else 0) / NM_PER_MM
    loads = _loads(work, masses, hung, drawers, line)
    height = (how.screw_z if how else work.cabinet.height) / NM_PER_MM
    balance = tipping(loads, height)
    fixed = how is not None
    risky = balance.tips or work.cabinet.form == "tall"
    level: Level = "note" if not risky else "caution" if fixed else "stop"
    words = "would tip" if balance.tips else "stands by itself"
    message = f"with every door and drawer open and loaded it {words}"
    if not fixed:
        message += "; fix it to the wall: give it a mounting such as screw-strip"
    elif balance.tips:
        message += f"; its fixing must hold a pull of {balance.pull_n:.0f} N"
    work.find(
        work.id,
        Finding(
            "anti-tip",
            level,
            message,
            round(balance.tipping_n_mm / 1000.0, 3),
            round(balance.holding_n_mm / 1000.0, 3),
            "N·m",
            "statics",
        ),
    )
    if how is not None:
        mounted = work.mounted.pop()
        work.mounted.append(
            Mounted(
                mounted.cabinet,
                mounted.method,
                0,
                mounted.lengths,
                CAUTIONS,
                {
                    "place": work.cabinet.pointer,
                    "stands": not balance.tips,
                    "tipping_n_m": balance.tipping_n_mm / 1000.0,
                    "holding_n_m": balance.holding_n_mm / 1000.0,
                    "fixing_height_mm": height,
                    "fixing_pull_n": balance.pull_n,
                },
            )
        )


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
