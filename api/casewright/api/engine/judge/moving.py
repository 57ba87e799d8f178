"""Wood that moves: solid panels in their grooves, and solid slabs, over the shop's and the room's humidity."""

from casewright.api.engine.construction.draft import Draft, Work
from casewright.sdk.engineering import movement
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.engineering.moisture import equilibrium_moisture
from casewright.sdk.model import LENGTH, Finding

NM_PER_MM = 1e6


def check_movement(work: Work) -> None:
    """Judge every solid part that is wide across the grain: panels loose in grooves, and whole slabs."""
    solid = [
        d
        for d in work.drafts.values()
        if d.material.kind == "board" and d.role in ("door-panel", "door", "back", "shelf")
    ]
    if not solid:
        return
    air = work.job.climate
    try:
        fitted = equilibrium_moisture(air.shop_c, air.shop_humidity)
        driest = equilibrium_moisture(air.room_c, air.room_driest)
        dampest = equilibrium_moisture(air.room_c, air.room_dampest)
    except OutsideLimits as problem:
        work.find("/climate", Finding(problem.check_code, "caution", f"{problem}; movement is not judged"))
        return
    for draft in solid:
        _check(work, draft, fitted, driest, dampest)


def _check(work: Work, draft: Draft, fitted: float, driest: float, dampest: float) -> None:
    across = abs(draft.width_axis) if draft.grain == "along-length" else abs(draft.length_axis)
    width = draft.box.size[across - 1]
    stuff = work.stuff(draft.material)
    subject = f"{work.id}/{draft.key}"
    if stuff.c_tangential is None:
        work.find(subject, Finding("movement-unknown", "caution", f"no movement is known for {stuff.title}"))
        return
    low, high = min(driest, fitted), max(dampest, fitted)
    joints = [j for j in work.joints if j.guest == subject and abs(j.press) == across]
    clearance = min((j.clearance for j in joints), default=0)
    seat = min((j.seat for j in joints), default=0)
    room = movement.panel_room(
        width / NM_PER_MM, stuff.c_tangential, fitted, low, high,
        (clearance + seat) / NM_PER_MM, clearance / NM_PER_MM,
    )  # fmt: skip
    if draft.role == "door-panel" and joints:
        needed = round(room.gap_each_side_mm * NM_PER_MM)
        works = clearance >= needed and room.hold_each_side_mm > 0
        work.find(
            subject,
            Finding(
                "panel-movement",
                "note" if works else "stop",
                f"the solid panel grows {room.grows_mm:.2f} mm and shrinks {room.shrinks_mm:.2f} mm between "
                f"{low:.1f} and {high:.1f} % moisture; each groove needs this room and must still hold it when driest",
                clearance,
                needed,
                LENGTH,
                "fpl-190-eq-13-2",
            ),
        )
        return
    work.find(
        subject,
        Finding(
            "solid-movement",
            "caution",
            f"solid wood moves across its width by {room.grows_mm + room.shrinks_mm:.2f} mm over the year; "
            "leave that room beside it and let nothing hold it across the grain",
            round((room.grows_mm + room.shrinks_mm) * NM_PER_MM),
            None,
            LENGTH,
            "fpl-190-eq-13-2",
        ),
    )
