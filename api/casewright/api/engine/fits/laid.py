"""One cabinet laid out for its fits: which parts bound an opening, and chains through them."""

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from casewright.api.engine.fits.chains import Face, Faces, ends, faces_across
from casewright.api.engine.fits.set_ups import SetUps
from casewright.sdk.geometry import Box, Point
from casewright.sdk.model import Accuracy, Cabinet, DoorLeaf, FitLink, Joint, Part

_FITTED = frozenset(
    {"door-stile", "door-rail", "door-panel", "door", "box-side", "box-front", "box-back", "box-bottom"}
    | {"drawer-front", "cleat", "wall-cleat", "loose"}
)
"""Roles of parts that are fitted to a case and bound none of its openings."""


class _Faces(dict[int, Faces]):
    """The faces across each axis, worked out when they are first asked for: few fits run along all three."""

    def __init__(self, make: Callable[[int], Faces]) -> None:
        super().__init__()
        self.make = make

    def __missing__(self, axis: int) -> Faces:
        self[axis] = made = self.make(axis)
        return made


@dataclass(frozen=True, slots=True)
class Laid:
    """One cabinet's parts, joints and doors, and its faces across each axis."""

    cabinet: Cabinet
    parts: Sequence[Part]
    joints: Sequence[Joint]
    doors: Sequence[DoorLeaf]
    set_ups: SetUps
    accuracy: Accuracy
    faces: Mapping[int, Faces]
    boxes: Mapping[str, Box]
    loose_shelves: tuple[Part, ...]
    """Shelves that no joint holds."""

    @property
    def inset(self) -> bool:
        """Whether doors hang within their openings."""
        return self.cabinet.doors is not None and self.cabinet.doors.hang == "inset"

    def walls(self, at: Point, axis: int, but: Collection[str] = ()) -> tuple[Face, Face] | None:
        """Return the faces that bound the opening round a point, along an axis; `None` where it is open or solid.

        Parts `but` and loose shelves bound nothing.
        """
        i, (j, k) = axis - 1, [other - 1 for other in (1, 2, 3) if other != axis]
        left_out = {*but, *(shelf.id for shelf in self.loose_shelves)}
        low: list[tuple[int, str]] = []
        high: list[tuple[int, str]] = []
        for part in self.parts:
            box = self.boxes[part.id]
            if part.role in _FITTED or part.id in left_out:
                continue
            if not (box[j] < at[j] < box[j + 3] and box[k] < at[k] < box[k + 3]):
                continue
            if box[i + 3] <= at[i]:
                low.append((-box[i + 3], part.id))
            elif box[i] >= at[i]:
                high.append((box[i], part.id))
            else:
                return None
        if not low or not high:
            return None
        (below, first), (above, second) = min(low), min(high)
        return (first, -below, ""), (second, above, "")

    def chain(self, axis: int, first: Face, second: Face, without: Collection[str] = ()) -> tuple[FitLink, ...] | None:
        """Return the links from face to face along an axis, through none of the parts `without`."""
        return self.faces[axis].chain(first, second, without)

    def across(self, axis: int, ids: Iterable[str]) -> tuple[FitLink, ...] | None:
        """Return the links from where parts that are fastened together begin, along an axis, to where they end."""
        names = set(ids)
        reach = [(part.id, *ends(part, self.boxes[part.id], axis)) for part in self.parts if part.id in names]
        if not reach:
            return None
        first, low, _ = min(reach, key=lambda one: one[1])
        last, _, high = max(reach, key=lambda one: one[2])
        return self.chain(axis, (first, low, ""), (last, high, ""))


def laid_out(
    cabinet: Cabinet,
    parts: Sequence[Part],
    joints: Sequence[Joint],
    doors: Sequence[DoorLeaf],
    work: tuple[SetUps, Accuracy],
) -> Laid:
    """Lay out one cabinet: its parts, joints and doors, and how its plan's steps make them."""
    boxes = {part.id: part.place.box(part.blank) for part in parts}
    faces = _Faces(lambda axis: faces_across(axis, parts, boxes, joints, work))
    guests = {joint.guest for joint in joints}
    loose = tuple([part for part in parts if part.role == "shelf" and part.id not in guests])
    return Laid(cabinet, parts, joints, doors, *work, faces, boxes, loose)
