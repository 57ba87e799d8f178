"""Wood that moves: solid panels in their grooves, and solid slabs, over the shop's and the room's humidity."""

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import Draft
from casewright.sdk.engineering import movement
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.engineering.moisture import equilibrium_moisture
from casewright.sdk.engineering.units import NM_PER_MM, mm
from casewright.sdk.model import LENGTH, Check, Finding

_Span = tuple[float, float, float]
"""Moisture as fitted, at the driest and at the dampest, in percent."""


def movement_checks(built: Construction) -> tuple[Check, ...]:
    """Judge every solid part that is wide across the grain: panels loose in grooves, and whole slabs."""
    solid = [
        d
        for d in built.drafts.values()
        if d.material.kind == "board" and d.role in ("door-panel", "door", "back", "shelf")
    ]
    if not solid:
        return ()
    air = built.job.climate
    try:
        moisture = (
            equilibrium_moisture(air.shop_c, air.shop_humidity),
            equilibrium_moisture(air.room_c, air.room_driest),
            equilibrium_moisture(air.room_c, air.room_dampest),
        )
    except OutsideLimits as problem:
        message = f"{problem.message(built.write)}; movement is not judged"
        return (Check("/climate", Finding(problem.check_code, "caution", message)),)
    return tuple([Check(f"{built.id}/{draft.key}", _movement(built, draft, moisture)) for draft in solid])


def _movement(built: Construction, draft: Draft, moisture: _Span) -> Finding:
    fitted, driest, dampest = moisture
    write = built.write
    across = abs(draft.width_axis) if draft.grain == "along-length" else abs(draft.length_axis)
    width = draft.box.size[across - 1]
    stuff = built.stuff(draft.material)
    subject = f"{built.id}/{draft.key}"
    if stuff.c_tangential is None:
        return Finding("movement-unknown", "caution", f"no movement is known for {stuff.title}")
    low, high = min(driest, fitted), max(dampest, fitted)
    joints = [j for j in built.joints if j.guest == subject and abs(j.press) == across]
    clearance = min((j.clearance for j in joints), default=0)
    seat = min((j.seat for j in joints), default=0)
    room = movement.panel_room(
        mm(width), stuff.c_tangential, fitted, low, high,
        mm(clearance + seat), mm(clearance),
    )  # fmt: skip
    if draft.role == "door-panel" and joints:
        needed = round(room.gap_each_side_mm * NM_PER_MM)
        works = clearance >= needed and room.hold_each_side_mm > 0
        then = (
            "its grooves leave it that room and still hold it when driest"
            if works
            else "leave it the limit's room in each groove, deep enough to hold it when driest, or take a sheet for it"
        )
        return Finding(
            "panel-movement",
            "note" if works else "stop",
            f"the solid panel grows {write.length_mm(room.grows_mm)} and shrinks {write.length_mm(room.shrinks_mm)} "
            f"between {low:.1f} and {high:.1f} % moisture; {then}",
            clearance,
            needed,
            LENGTH,
            "fpl-190-eq-13-2",
        )
    moves = room.grows_mm + room.shrinks_mm
    message = (
        f"solid wood moves across its width by {write.length_mm(moves)} over the year; leave that room beside it and "
        "let nothing hold it across the grain"
    )
    return Finding("solid-movement", "caution", message, round(moves * NM_PER_MM), None, LENGTH, "fpl-190-eq-13-2")
