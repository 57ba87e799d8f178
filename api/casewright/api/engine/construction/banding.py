"""Edge band on slab doors and drawer fronts: on all four edges, its thickness taken off the wood."""

from collections.abc import Iterable
from dataclasses import replace

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import Draft
from casewright.sdk.geometry import Box
from casewright.sdk.model import Band, Finding, Role, Term


def band_fronts(built: Construction) -> Construction:
    """Return a construction whose slab doors and drawer fronts are banded as its cabinet asks.

    A door of several parts has no slab to band: its cabinet is told so.
    """
    doors, drawers = built.cabinet.doors, built.cabinet.drawers
    if doors is not None and doors.band is not None:
        slabs = _single(built, "door")
        built = _banded(built, slabs, doors.band)
        if not slabs and any(draft.group.startswith("door-") for draft in built.drafts.values()):
            message = "the doors' band is not used: only a slab door has edges of its own to band"
            finding = Finding("band-unused", "caution", message, source="common-practice")
            built = built.with_findings(f"{doors.pointer}/band", finding)
    if drawers is not None and drawers.band is not None:
        built = _banded(built, _single(built, "drawer-front"), drawers.band)
    return built


def _single(built: Construction, role: Role) -> list[Draft]:
    """Return the parts of a role that are the only ones of it in their group."""
    drafts = [draft for draft in built.drafts.values() if draft.role == role]
    groups = [draft.group for draft in drafts]
    return [draft for draft in drafts if groups.count(draft.group) == 1]


def _banded(built: Construction, fronts: Iterable[Draft], key: str) -> Construction:
    thick = built.material(key).thickness
    for front in fronts:
        size = min(front.box.size[abs(front.length_axis) - 1], front.box.size[abs(front.width_axis) - 1])
        built.context.require_room(
            size - 2 * thick, f"{built.cabinet.pointer}", "the wood within a front's band", "Use a thinner band."
        )
        built = built.with_parts(_within(front, key, thick))
    return built


def _within(front: Draft, key: str, thick: int) -> Draft:
    """Return a front, which lies across y, with its wood drawn in by the band all round; upright bands run through."""
    x0, y0, z0, x1, y1, z1 = front.box
    wood = Box(x0 + thick, y0, z0 + thick, x1 - thick, y1, z1 - thick)
    boxes = (
        Box(x0, y0, z0, wood.x0, y1, z1),
        Box(wood.x1, y0, z0, x1, y1, z1),
        Box(wood.x0, y0, z0, wood.x1, y1, wood.z0),
        Box(wood.x0, y0, wood.z1, wood.x1, y1, z1),
    )
    less = (Term("band on both edges", -2 * thick),)
    return replace(
        front,
        box=wood,
        why_length=front.why_length + less,
        why_width=front.why_width + less,
        bands=tuple([Band(key, box) for box in boxes]),
    )
