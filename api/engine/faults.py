"""Looking over what a method answered before any of it is used.

A fault is reported as a problem that names the plugin and the method; nothing of the answer is used.
"""

from casewright.api.engine.draft import Draft, Work
from casewright.sdk.errors import PluginFaultError
from casewright.sdk.geometry import Box
from casewright.sdk.methods import DoorDesign, Fit, MountDesign
from casewright.sdk.model import Assembly, Feature, Term, total


def _fault(work: Work, family: str, method: str, fault: str) -> PluginFaultError:
    return PluginFaultError(work.registry.owner(family, method), method, fault)


def _whole(value: object) -> bool:
    return type(value) is int


def look_over_fit(work: Work, method: str, fit: object, family: str = "joints") -> None:
    """Refuse a fit of the wrong type, with lengths that are not whole nm, or a reason that does not sum."""
    if not isinstance(fit, Fit):
        raise _fault(work, family, method, f"answered {type(fit).__name__}, which is not a Fit")
    for name in ("growth", "seat", "clearance"):
        if not _whole(getattr(fit, name)):
            raise _fault(work, family, method, f"{name} is {getattr(fit, name)!r}, which is not a whole number of nm")
    if fit.clearance < 0:
        raise _fault(work, family, method, f"clearance is {fit.clearance}, below zero")
    _look_over_terms(work, family, method, fit.why, fit.growth, "growth")
    for feature in (*fit.host, *fit.guest):
        _look_over_feature(work, family, method, feature)


def _look_over_terms(work: Work, family: str, method: str, why: tuple[Term, ...], size: int, what: str) -> None:
    if not all(isinstance(term, Term) and _whole(term.nm) for term in why):
        raise _fault(work, family, method, f"the reason for {what} holds something that is not a Term of whole nm")
    if total(why) != size:
        raise _fault(work, family, method, f"the reason for {what} sums to {total(why)} nm, not {size} nm")


def _look_over_feature(work: Work, family: str, method: str, feature: object) -> None:
    if not isinstance(feature, Feature):
        raise _fault(work, family, method, f"answered {type(feature).__name__} where a Feature belongs")
    if not (feature.boxes or feature.holes or feature.wedges):
        raise _fault(work, family, method, f"feature {feature.label!r} takes nothing away")
    lengths: list[object] = [n for b in feature.boxes for n in b]
    for drilled in feature.holes:
        lengths += [*drilled.mouth, drilled.diameter, drilled.depth]
    for wedge in feature.wedges:
        lengths += [*wedge.box]
    if not all(type(n) is int for n in lengths):
        raise _fault(work, family, method, f"feature {feature.label!r} has a length that is not a whole number of nm")
    if any(b.volume <= 0 for b in (*feature.boxes, *(w.box for w in feature.wedges))):
        raise _fault(work, family, method, f"feature {feature.label!r} has a box without volume")


def look_over_assembly(work: Work, family: str, method: str, assembly: object) -> None:
    """Refuse an assembly with parts that repeat a key, have no volume, or whose reasons do not sum."""
    if not isinstance(assembly, Assembly):
        raise _fault(work, family, method, f"answered {type(assembly).__name__}, which is not an Assembly")
    keys: set[str] = set()
    for spec in assembly.parts:
        if spec.key in keys:
            raise _fault(work, family, method, f"two parts have the key {spec.key!r}")
        keys.add(spec.key)
        if spec.material not in work.job.materials:
            raise _fault(work, family, method, f"part {spec.key!r} names a material {spec.material!r} the job has not")
        if not all(_whole(n) for n in spec.box):
            raise _fault(work, family, method, f"part {spec.key!r} has a length that is not a whole number of nm")
        if spec.box.volume <= 0:
            raise _fault(work, family, method, f"part {spec.key!r} has no volume")
        size = spec.box.size
        _look_over_terms(work, family, method, spec.why_length, size[abs(spec.length_axis) - 1], f"{spec.key} length")
        _look_over_terms(work, family, method, spec.why_width, size[abs(spec.width_axis) - 1], f"{spec.key} width")
        for feature in spec.features:
            _look_over_feature(work, family, method, feature)
    for joint in assembly.joints:
        if not {joint.host, joint.guest} <= keys:
            raise _fault(work, family, method, f"a joint names {joint.host!r} and {joint.guest!r}, not both parts")


def look_over_door(work: Work, method: str, design: object) -> None:
    """Refuse a door design whose assembly is faulty or whose hinge land names no part of it."""
    if not isinstance(design, DoorDesign):
        raise _fault(work, "doors", method, f"answered {type(design).__name__}, which is not a DoorDesign")
    look_over_assembly(work, "doors", method, design.assembly)
    keys = {spec.key for spec in design.assembly.parts}
    for land in (design.left, design.right):
        if land.part not in keys:
            raise _fault(work, "doors", method, f"hinge land names {land.part!r}, which is no part of the door")


def look_over_mount(work: Work, method: str, design: object) -> None:
    """Refuse a mounting design whose assembly is faulty."""
    if not isinstance(design, MountDesign):
        raise _fault(work, "mountings", method, f"answered {type(design).__name__}, which is not a MountDesign")
    look_over_assembly(work, "mountings", method, design.assembly)


def look_over_cuts(work: Work, draft: Draft, owners: dict[str, tuple[str, str]]) -> None:
    """Refuse cuts that reach outside the part they are made in, naming the method whose joint made them."""
    for feature in draft.features:
        if not draft.box.holds(feature.envelope()):
            family, method = owners.get(feature.joint, ("joints", feature.joint or "unknown"))
            where = _where(feature.envelope(), draft.box)
            raise _fault(work, family, method, f"feature {feature.label!r} reaches outside part {draft.key!r}: {where}")


def _where(cut: Box, part: Box) -> str:
    return f"cut {cut.size} nm at {cut[:3]}, part {part.size} nm at {part[:3]}"
