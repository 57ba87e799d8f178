"""Grooves that are still to be cut go by the thickness of the very piece that goes into them."""

from collections.abc import Collection

from casewright.api.engine.as_built.outcome import Deviation
from casewright.api.engine.as_built.pieces import Measured
from casewright.api.engine.cabinet import CabinetPlan
from casewright.api.engine.construction.draft import AWAY
from casewright.sdk.model import BuiltMeasure

__all__ = ["cut_anew"]

GROOVES = frozenset({"groove", "rabbet"})


def cut_anew(one: Deviation, plan: CabinetPlan, measured: Measured, grooved: Collection[str]) -> bool:
    """Return whether the grooves for a piece of another thickness than planned are still to be cut, and can be.

    They are not where what they are cut in is measured as it stands put together, or is among the parts `grooved`.
    A piece whose outer side is flush with another's end would no longer be. A door's groove is as wide as its cutter.
    """
    part = one.part
    if one.size.measure is not BuiltMeasure.THICKNESS or part.role not in AWAY:
        return False
    hosts = {joint.id: joint.host for joint in plan.construction.joints if joint.guest == part.id}
    cut = {
        other.id
        for other in plan.parts
        for feature in other.features
        if feature.kind in GROOVES and feature.joint in hosts and other.id == hosts[feature.joint]
    }
    if not cut or not cut.isdisjoint(grooved):
        return False
    return not _together(one, measured) and not _flush(one, plan) and not _stood_on(one, plan)


def _together(one: Deviation, measured: Measured) -> bool:
    """Return whether the case that a piece goes into stands glued up, as one measured it so."""
    if one.part.group != "case":
        return False
    return any(measure.of_case or (measure.of_opening and "/panel" not in key) for key, measure in measured)


def _stood_on(one: Deviation, plan: CabinetPlan) -> bool:
    """Return whether another part of the case is let into the side of a piece that would lie elsewhere."""
    away, joints = AWAY.get(one.part.role, 0), plan.construction.joints
    case = {part.id for part in plan.parts if part.group == "case"}
    return any(joint.host == one.part.id and joint.guest in case and joint.press == -away for joint in joints)


def _flush(one: Deviation, plan: CabinetPlan) -> bool:
    """Return whether a piece lies flush with the outside of its case, or less far in than it is off."""
    case = plan.construction.cabinet.case
    inset = {"top": case.top_inset, "bottom": case.bottom_inset, "back": case.back.inset if case.back else 0}
    return one.part.role in inset and inset[one.part.role] <= max(0, one.off)
