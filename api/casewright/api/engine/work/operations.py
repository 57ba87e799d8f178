"""How often each operation of the shop is done in a plan."""

from collections.abc import Mapping
from decimal import Decimal

from casewright.sdk.loader import Registry
from casewright.sdk.model import Feature, FeatureKind, Part, Plan, Stage

RATED: Mapping[FeatureKind, str] = {
    "groove": "groove",
    "spline-slot": "groove",
    "rabbet": "rabbet",
    "notch": "rabbet",
    "tenon": "tenon",
    "fingers": "tenon",
    "dovetail": "tenon",
    "mortise": "mortise",
    "loose-mortise": "mortise",
    "biscuit-slot": "mortise",
    "pocket": "mortise",
    "bevel": "bevel",
    "edge-profile": "edge-profile",
    "hole": "hole",
}
"""The work of the shop's rates that each kind of cut is counted as."""
EACH: frozenset[FeatureKind] = frozenset({"loose-mortise", "biscuit-slot"})
"""Kinds of cut that are counted by their places."""


def counted(plan: Plan, registry: Registry) -> dict[str, Decimal]:
    """Return how often each operation is done over the whole job; band and finish are counted by their amounts."""
    counts = {cabinet.id: cabinet.count for cabinet in plan.job.cabinets}
    numbers: dict[str, int] = {**_sawn(plan), **_cut(plan)}
    numbers["joint"] = sum(counts[joint.cabinet] for joint in plan.joints)
    numbers["glue-up"] = _glue_ups(plan, counts)
    numbers["door"] = sum(counts[door.cabinet] for door in plan.doors)
    drawers = {(part.cabinet, part.group) for part in plan.parts if part.group.startswith("drawer-")}
    numbers["drawer"] = sum(counts[cabinet] for cabinet, _ in drawers)
    hinges = {hinge.id for hinge in registry.catalogue.hinges}
    numbers["hinge"] = sum(line.quantity for line in plan.hardware if line.item in hinges)
    places = {standing.cabinet for standing in plan.run.standings} if plan.run else set()
    numbers["hang"] = sum(c.count for c in plan.job.cabinets if c.mounting is not None or c.id in places)
    numbers["filler"] = sum(part.quantity for part in plan.parts if part.group == "fillers")
    return {kind: Decimal(count) for kind, count in numbers.items()}


def _sawn(plan: Plan) -> dict[str, int]:
    """Count saw cuts and settings: of the cutting plan where there is one, else one rip and crosscut a part."""
    settings = sum(1 for step in plan.steps if step.stage in (Stage.CUT, Stage.JOINTS))
    if plan.stock is not None:
        cuts = [cut for layout in plan.stock.layouts for cut in layout.cuts]
        rips = sum(1 for cut in cuts if cut.along == "length")
        return {"rip": rips, "crosscut": len(cuts) - rips, "setting": settings}
    pieces = sum(part.quantity for part in plan.parts)
    return {"rip": pieces, "crosscut": pieces, "setting": settings}


def _cut(plan: Plan) -> dict[str, int]:
    counts = dict.fromkeys(RATED.values(), 0)
    for part in plan.parts:
        for feature in part.features:
            counts[RATED[feature.kind]] += _cuts(feature) * part.quantity
    return counts


def cuts_of_rate(part: Part, kind: str) -> int:
    """Return how many cuts one piece of a part has that are counted as a kind of work of the shop's rates."""
    return sum([_cuts(feature) for feature in part.features if RATED[feature.kind] == kind])


def _cuts(feature: Feature) -> int:
    return (len(feature.boxes) if feature.kind in EACH else len(feature.holes)) or 1


def _glue_ups(plan: Plan, counts: Mapping[str, int]) -> int:
    """Count groups of parts that are joined among themselves, and face frames glued on their cases."""
    group = {part.id: part.group for part in plan.parts}
    glued = {
        (joint.cabinet, group[joint.guest])
        for joint in plan.joints
        if group[joint.guest] == group[joint.host] != "mounting"
    }
    framed = [cabinet.count for cabinet in plan.job.cabinets if cabinet.face_frame is not None]
    return sum(counts[cabinet] for cabinet, _ in glued) + sum(framed)
