"""Cuts against the parts they are made in: one that reaches outside is the fault of the method that made it."""

from collections.abc import Mapping

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import Draft
from casewright.api.engine.solid.solids import Solid
from casewright.sdk.errors import PluginFaultError
from casewright.sdk.geometry import Box
from casewright.sdk.model import Feature, Joint
from casewright.sdk.units import exact_text


def validate_cuts(built: Construction, solids: Mapping[str, Solid]) -> None:
    """Refuse cuts that reach outside the part they are made in, naming the method that made them."""
    for draft in built.drafts.values():
        if _within(draft.box, solids[f"{built.id}/{draft.key}"]):
            continue
        for feature in draft.features:
            if not draft.box.holds(feature.envelope()):
                family, method = _maker(built, draft, feature)
                raise PluginFaultError(
                    built.registry.owner(family, method),
                    method,
                    f"feature {feature.label!r} reaches outside part {draft.key!r}: {_beyond(draft, feature)}",
                    built.registry.answers_at(family, method),
                )


def _beyond(draft: Draft, feature: Feature) -> str:
    """Return at which faces of its part a cut reaches out, and how far, along the axes of the cabinet."""
    cut, box = feature.envelope(), draft.box
    out = []
    for axis, name in ((1, "x"), (2, "y"), (3, "z")):
        low, high = box.low(axis) - cut.low(axis), cut.high(axis) - box.high(axis)
        out += [f"{exact_text(low)} below its low {name}"] if low > 0 else []
        out += [f"{exact_text(high)} beyond its high {name}"] if high > 0 else []
    return ", ".join(out)


def _within(box: Box, solid: Solid) -> bool:
    """Return whether `box` holds all that is taken away of a part."""
    cuts = (*solid.waste, *[hole.envelope for hole in solid.holes], *[wedge.box for wedge in solid.wedges])
    return all(map(box.holds, cuts))


def _family(built: Construction, joint: Joint) -> str:
    """Return the family of the method that a joint names: doors and mountings name themselves."""
    if joint.kind == "box":
        return "boxes"
    families = {"doors": built.registry.doors, "mountings": built.registry.mountings}
    return next((family for family, known in families.items() if joint.method in known), "joints")


def _maker(built: Construction, draft: Draft, feature: Feature) -> tuple[str, str]:
    """Return family and id of the method that made a cut: its joint's, or the one that makes the part."""
    for joint in reversed(built.joints):
        if joint.id == feature.joint:
            return _family(built, joint), joint.method
    doors, mounting = built.cabinet.doors, built.cabinet.mounting
    if doors is not None and draft.group.startswith("door-"):
        return "doors", doors.style
    return ("mountings", mounting.choice.method) if mounting is not None else ("joints", "unknown")
