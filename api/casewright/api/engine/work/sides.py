"""What the six sides of a part are called in the trade, from its role and where it stands among its neighbours.

A side is an end, an edge or a face (of the length, the width or the thickness), and has a word for where it looks: by
the cabinet's directions, or, where the trade says it otherwise, inside and outside, inner and outer, show and back.
"""

from collections.abc import Iterable, Mapping

from casewright.sdk.geometry import Box
from casewright.sdk.model.parts import Part
from casewright.sdk.model.sides import Sides

__all__ = ["sides_by_part"]

LOOKS: Mapping[int, str] = {1: "right", -1: "left", 2: "back", -2: "front", 3: "top", -3: "bottom"}
FRONT, BACK = -2, 2
WALLS = frozenset({"side", "end-panel", "box-side", "box-front", "box-back"})
"""Roles whose faces look into a case or a drawer box, and out of it."""
SHOWN = frozenset({"frame-stile", "frame-rail", "door-stile", "door-rail", "door-panel", "door", "drawer-front"})
"""Roles whose front face is the one that shows."""
MEMBERS = frozenset({"frame-stile", "frame-rail", "door-stile", "door-rail"})
"""Roles whose edges look to an opening or out of the frame."""


def sides_by_part(parts: Iterable[Part]) -> dict[str, Sides]:
    """Return the names of the sides of every part, by its id."""
    groups: dict[tuple[str, str], list[Part]] = {}
    for part in parts:
        groups.setdefault((part.cabinet, part.group), []).append(part)
    out: dict[str, Sides] = {}
    for group in groups.values():
        boxes = [part.place.box(part.blank) for part in group]
        round_all = Box.union(boxes)
        out.update({part.id: _sides(part, box, round_all) for part, box in zip(group, boxes, strict=True)})
    return out


def _sides(part: Part, box: Box, group: Box) -> Sides:
    """Return the names of the sides of a part; `group` is the box round the parts it is put together with."""
    place = part.place

    def edge(axis: int) -> str:
        if part.role not in MEMBERS:
            return f"{LOOKS[axis]} edge"
        outer = box.high(axis) == group.high(axis) if axis > 0 else box.low(axis) == group.low(axis)
        far = box.low(axis) == group.low(axis) if axis > 0 else box.high(axis) == group.high(axis)
        if outer == far:
            return f"{LOOKS[axis]} edge"
        return "outer edge" if outer else "inner edge"

    def face(axis: int) -> str:
        if part.role in SHOWN and abs(axis) == BACK:
            return "show face" if axis == FRONT else "back face"
        if part.role in WALLS:
            middle = box.low(axis) + box.high(axis)
            inward = middle < group.low(axis) + group.high(axis)
            return "inside face" if inward == (axis > 0) else "outside face"
        return f"{LOOKS[axis]} face"

    return Sides(
        end_low=f"{LOOKS[-place.x]} end",
        end_high=f"{LOOKS[place.x]} end",
        edge_low=edge(-place.y),
        edge_high=edge(place.y),
        face_low=face(-place.z),
        face_high=face(place.z),
    )
