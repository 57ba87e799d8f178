"""Whether there is room to drive every screw: a free straight way along its axis, from outside, when it is driven.

A screw is driven as soon as its joint is closed: what is set in later is not yet in the way. Its axis follows from the
hole or the pocket it goes in by. Parts in the way are taken whole, as before any cut, and the way as wide as the head.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import hypot

from casewright.api.engine.work.together import Assemblies, Together
from casewright.sdk.findings import LENGTH, Finding
from casewright.sdk.geometry import Point, Wedge
from casewright.sdk.hardware import Screw
from casewright.sdk.model import Check, Feature, HardwareLine, Joint, Part
from casewright.sdk.writer import Writer

__all__ = ["driving_checks"]

Vector = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class _Driven:
    """A screw as it is driven: where the driver goes in, which way it stands off, and the part it goes in by."""

    screw: Screw
    at: Vector
    off: Vector
    entered: str


def driving_checks(assemblies: Assemblies, catalogue: Iterable[Screw], driver: int, write: Writer) -> tuple[Check, ...]:
    """Return a caution for each joint whose screws a driver of that length cannot reach, a stop where no screw can.

    `catalogue` are the screws there are, `driver` is how long it is with its bit, in nm.
    """
    screws = {screw.id: screw for screw in catalogue}
    out: list[Check] = []
    for together in assemblies.values():
        there: list[str] = [together.order.first] if together.order.first else list(together.order.locked)
        closed: set[str] = set()
        for insertion in (None, *together.order.insertions):
            there += insertion.parts if insertion is not None else ()
            for joint in together.joints:
                if joint.id not in closed and {joint.host, joint.guest} <= set(there):
                    closed.add(joint.id)
                    out += _checks(together, joint, there, (screws, driver, write))
    return tuple(out)


def _checks(
    together: Together, joint: Joint, there: Sequence[str], how: tuple[Mapping[str, Screw], int, Writer]
) -> Iterator[Check]:
    """Yield what is wrong with the driving of one joint's screws: the worst of them."""
    screws, driver, write = how
    parts = {part.id: part for part in together.parts}
    others = [parts[name] for name in there if name not in (joint.host, joint.guest)]
    ways = [
        _first(driven, others, driver)
        for line in together.hardware
        if line.used_for == joint.id and line.item in screws
        for driven in _driven(line, screws[line.item], joint, parts)
    ]
    blocked = [way for way in ways if way is not None]
    if not blocked:
        return
    room, driven, other = min(blocked, key=lambda way: (way[0], way[2].id))
    short = room < driven.screw.length
    message = (
        f"{driven.screw.title} of {parts[joint.guest].name} to {parts[joint.host].name}, driven from "
        f"{parts[driven.entered].name}, has {write.length(room)} of free way before {other.name} stands in it"
    )
    cure = "; no driver reaches it: screw from the other side, or use another joint"
    less = f"; a driver of {write.length(driver)} does not go in: use an angle driver, or screw from the other side"
    finding = Finding(
        "no-room-for-driver", "stop" if short else "caution", message + (cure if short else less), room, driver, LENGTH,
        "common-practice",
    )  # fmt: skip
    yield Check(joint.id, finding)


def _driven(line: HardwareLine, screw: Screw, joint: Joint, parts: Mapping[str, Part]) -> Iterator[_Driven]:
    """Yield the screws of a line with the ways they are driven from."""
    for name in (joint.host, joint.guest):
        part = parts[name]
        for feature in part.features:
            if feature.joint != joint.id:
                continue
            if feature.kind == "pocket":
                yield from [_Driven(screw, *_aslant(part.place.wedge(w), joint), name) for w in feature.wedges]
            yield from [_Driven(screw, at, off, name) for at, off in _straight(part, feature, line.at)]


def _straight(part: Part, feature: Feature, points: Sequence[Point]) -> Iterator[tuple[Vector, Vector]]:
    """Yield mouth and outward way of the bores whose mouths are where screws are put."""
    for one in feature.holes:
        hole = part.place.cylinder(one)
        if hole.mouth in points:
            off = [0.0, 0.0, 0.0]
            off[abs(hole.into) - 1] = -1.0 if hole.into > 0 else 1.0
            yield (float(hole.mouth[0]), float(hole.mouth[1]), float(hole.mouth[2])), (off[0], off[1], off[2])


def _aslant(wedge: Wedge, joint: Joint) -> tuple[Vector, Vector]:
    """Return where the driver goes in at the foot of a pocket, and the way it stands off, along the pocket's slope."""
    press, face = sorted(wedge.corner, key=lambda axis: abs(axis) != abs(joint.press))
    at = [(wedge.box.low(i) + wedge.box.high(i)) / 2 for i in (1, 2, 3)]
    at[abs(press) - 1] = float(wedge.box.high(abs(press)) if press > 0 else wedge.box.low(abs(press)))
    off = [0.0, 0.0, 0.0]
    for axis, sign in ((press, -1), (face, 1)):
        size = wedge.box.high(abs(axis)) - wedge.box.low(abs(axis))
        off[abs(axis) - 1] = sign * size * (1.0 if axis > 0 else -1.0)
    long = hypot(*off)
    return (at[0], at[1], at[2]), (off[0] / long, off[1] / long, off[2] / long)


def _first(driven: _Driven, others: Sequence[Part], driver: int) -> tuple[int, _Driven, Part] | None:
    """Return how far the way of a driver is free, if it is not as far as the driver is long, and what ends it."""
    met = [(_reach(driven, part), part) for part in others]
    near = [(room, part) for room, part in met if room is not None and room < driver]
    if not near:
        return None
    room, part = min(near, key=lambda one: (one[0], one[1].id))
    return int(room), driven, part


def _reach(driven: _Driven, part: Part) -> float | None:
    """Return how far along its way the driver meets a part, if it ever does."""
    box, half = part.place.box(part.blank), driven.screw.head / 2
    low, high = 0.0, float("inf")
    for i in range(3):
        at, off = driven.at[i], driven.off[i]
        # Along the way itself the driver ends at the part's face; to either side it is as wide as the head.
        wide = half * (1 - abs(off))
        near, far = box[i] - wide, box[i + 3] + wide
        if off == 0:
            if not near < at < far:
                return None
            continue
        ends = sorted(((near - at) / off, (far - at) / off))
        low, high = max(low, ends[0]), min(high, ends[1])
    return low if low < high else None
