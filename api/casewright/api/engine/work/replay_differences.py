"""What simulated cutters took from a part, compared with the part's features."""

from collections.abc import Iterable, Iterator, Mapping, Set
from dataclasses import dataclass, field
from typing import TypeVar

from casewright.api.engine.work.replay_records import AS, Fault
from casewright.sdk.geometry import Axis, Box, Cylinder, Wedge
from casewright.sdk.model.operations import Action
from casewright.sdk.model.parts import Feature, Part

__all__ = ["Removed", "differences", "made_otherwise", "wedge_of"]

_Cut = TypeVar("_Cut", Cylinder, Wedge)


@dataclass(slots=True)
class Removed:
    """What operations have taken from one part, and at which operation each box went."""

    boxes: dict[Box, int] = field(default_factory=dict)
    wedges: dict[Wedge, int] = field(default_factory=dict)
    holes: dict[Cylinder, int] = field(default_factory=dict)
    passes: dict[tuple[int, int], int] = field(default_factory=dict)


def wedge_of(box: Box, along: Axis, first: Axis, second: Axis) -> Wedge:
    """Return a wedge in one form: its corner's axes in rising order, so that equal wedges compare equal."""
    return Wedge(box, along, (first, second) if abs(first) < abs(second) else (second, first))


def differences(made: Removed, part: Part, blank: Box) -> Iterator[Fault]:
    """Yield how what is taken from a part differs from its features, within its blank."""
    boxes, features = made.boxes, part.features
    wanted = [box for feature in features for box in feature.boxes]
    slants = {wedge_of(wedge.box, wedge.along, *wedge.corner) for feature in features for wedge in feature.wedges}
    holes = {_within(hole, blank) for feature in features for hole in feature.holes}
    planned = set(wanted)
    if planned == boxes.keys() and slants == made.wedges.keys() and holes == made.holes.keys() and not made.passes:
        return
    if any(_beyond(box.cut(blank), boxes) for box in planned - boxes.keys()):
        yield Fault(part.id, 0, "a cut is missing or too small")
    for box in boxes.keys() - planned:
        if _beyond(box.cut(blank), wanted):
            yield Fault(part.id, boxes[box], "wood is cut away that should stay")
    yield from _unlike(part.id, slants, made.wedges, "a slanting cut")
    yield from _unlike(part.id, holes, made.holes, "a hole")
    for _, of in made.passes:
        if len({made.passes.get((n, of), 0) for n in range(1, of + 1)}) > 1:
            yield Fault(part.id, 0, "a pass of a cut is missing")
            break


def made_otherwise(made: Removed, part: Part, actions: Mapping[int, Action]) -> Iterator[Fault]:
    """Yield cuts that are made as what they are not; `actions` are those of the operations by their numbers."""
    for feature in part.features:
        action = AS[feature.kind]
        numbers = {made.boxes.get(box) for box in feature.boxes}
        numbers.update(map(made.holes.get, feature.holes))
        wrong = [number for number in numbers if number is not None and actions[number] is not action]
        if wrong and not _shared(part, feature):
            yield Fault(part.id, min(wrong), "a cut is made as another kind of cut")


def _shared(part: Part, feature: Feature) -> bool:
    """Return whether another kind of cut takes the same wood away."""
    return any(
        other.kind != feature.kind and (set(other.boxes) & set(feature.boxes) or set(other.holes) & set(feature.holes))
        for other in part.features
    )


def _unlike(part: str, wanted: Set[_Cut], made: Mapping[_Cut, int], what: str) -> Iterator[Fault]:
    """Yield which cuts that must be alike in all are not made, and which are made that are not wanted."""
    if wanted - made.keys():
        yield Fault(part, 0, f"{what} is missing")
    for extra in made.keys() - wanted:
        yield Fault(part, made[extra], f"{what} is made that is not planned")


def _within(hole: Cylinder, blank: Box) -> Cylinder:
    """Return a hole as deep as the wood it enters at most."""
    size = blank[abs(hole.into) + 2]
    return hole if hole.depth <= size else Cylinder(hole.mouth, hole.into, hole.diameter, size)


def _beyond(box: Box, others: Iterable[Box]) -> bool:
    """Return whether any of a box lies outside every one of the others."""
    rest = [box] if box.volume else []
    for other in others:
        if box.meets(other):
            rest = [piece for one in rest for piece in _less(one, other)]
    return bool(rest)


def _less(box: Box, other: Box) -> list[Box]:
    """Return boxes that fill what of a box lies outside another."""
    if not box.meets(other):
        return [box]
    out = []
    low, high = list(box[:3]), list(box[3:])
    for i in range(3):
        if low[i] < other[i]:
            out.append(Box(*low, *(other[i] if j == i else high[j] for j in range(3))))
            low[i] = other[i]
        if other[i + 3] < high[i]:
            out.append(Box(*(other[i + 3] if j == i else low[j] for j in range(3)), *high))
            high[i] = other[i + 3]
    return out
