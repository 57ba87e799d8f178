"""Whether screws of hinge plates find wood: none in a cut of the part they go in, nor against another door's."""

from collections.abc import Iterator, Sequence
from itertools import combinations

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.hinges import HungDoor
from casewright.api.engine.judge.cut_away import without
from casewright.sdk.geometry import Axis, Cylinder
from casewright.sdk.model import Check, Feature, Finding, Purpose
from casewright.sdk.units import MM
from casewright.sdk.writer import Writer

__all__ = ["plate_checks"]

HOLE = 5 * MM
"""Diameter of a hole for a plate's screw (the 32 mm convention)."""
IN_WOOD = 11 * MM
"""How far a plate's screw goes in: a system screw of 13 mm less the foot of its plate (common practice, no source)."""
FILLED = frozenset({"groove", "rabbet", "dovetail"})
"""Cuts that the wood of another part fills; a hinge at a shelf is a check of its own."""
PRACTICE = "common-practice"
OTHERWISE = "choose another count of hinges (`doors.hinges`) or another height of the door"


def plate_checks(built: Construction, hung: Sequence[HungDoor]) -> Iterator[Check]:
    """Yield where a screw of a hinge plate stands in a cut of its host, or meets one from the other side."""
    standing = [one for one in hung if not one.plates.packing and one.plates.host in built.drafts]
    for one in standing:
        draft = built.drafts[one.plates.host]
        cuts = [
            feature
            for feature in draft.features
            if feature.purpose is not Purpose.SHELF_PINS and feature.kind not in FILLED
        ]
        met = next((cut for cut in cuts if any(_meets(screw, cut) for screw in _screws(one))), None)
        if met is not None:
            message = (
                f"a plate screw of {one.door.key} stands in the cut {met.label!r} and finds no wood there; "
                f"{without(built, met) or OTHERWISE}"
            )
            yield Check(f"{built.id}/{draft.key}", Finding("plate-meets-cut", "caution", message, source=PRACTICE))
    for one, other in combinations(standing, 2):
        if one.plates.host != other.plates.host or one.door.hinge == other.door.hinge:
            continue
        if any(a.meets(b) for a in _screws(one) for b in _screws(other)):
            message = (
                f"plate screws of {one.door.key} and {other.door.key} meet in it from its two sides; "
                f"{_apart(standing, (one, other), built.write)}"
            )
            subject = f"{built.id}/{one.plates.host}"
            yield Check(subject, Finding("plate-meets-plate", "caution", message, source=PRACTICE))


def _apart(standing: Sequence[HungDoor], two: tuple[HungDoor, HungDoor], write: Writer) -> str:
    """Return what to do about screws that meet: a door that may hinge where no other has its plates, else more wood."""
    for one in two:
        left = one.door.hinge == "left"
        beyond = one.door.opening.right if left else one.door.opening.left
        if one.door.partner is None and all(other.plates.host != beyond for other in standing):
            return f"hinge {one.door.key} on its {'right' if left else 'left'} (`hinge_side`)"
    return f"make the case of stuff {write.length(2 * IN_WOOD)} thick or more"


def _screws(hung: HungDoor) -> list[Cylinder]:
    into: Axis = -1 if hung.door.hinge == "left" else 1
    return [Cylinder(at, into, HOLE, IN_WOOD) for at in hung.plate_screws]


def _meets(screw: Cylinder, cut: Feature) -> bool:
    """Return whether a screw's hole comes into what a cut takes; a round one by how far apart their axes are."""
    if any(screw.meets(bore) for bore in cut.holes):
        return True
    return any(screw.envelope.meets(box) for box in cut.waste_boxes)
