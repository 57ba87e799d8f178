"""Which other joint of the case leaves a cut of one joint out, in words for the checks of cuts that are in the way."""

from casewright.api.engine.construction.construction import Construction
from casewright.sdk.model import Feature

__all__ = ["without"]

FILLED_TEE, FILLED_CORNER = "housed-groove", "rabbet"
"""Joints of the case whose cuts the wood of the other part fills: they bore nothing."""


def without(built: Construction, *cuts: Feature) -> str:
    """Return the first joint to choose otherwise, so that one of these cuts is not made; nothing where none is one."""
    joints = {joint.id: joint for joint in built.joints}
    for cut in cuts:
        joint = joints.get(cut.joint or "")
        kind = joint.kind if joint else ""
        method = {"tee": FILLED_TEE, "corner": FILLED_CORNER}.get(kind)
        if joint is None or method is None or joint.method == method:
            continue
        guest = built.drafts.get(joint.guest.rpartition("/")[2])
        lower = guest is not None and guest.role == "bottom" and built.cabinet.case.bottom_corner is not None
        key = "fixed_joint" if kind == "tee" else "bottom_corner" if lower else "corner"
        return f"set `case.{key}` to {method}, which bores nothing"
    return ""
