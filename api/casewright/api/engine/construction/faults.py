"""Looking over what a method answered before any of it is used.

A fault is reported as a problem that names the plugin and the method; nothing of the answer is used.
"""

from collections.abc import Callable, Mapping
from typing import Any

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.context import Context
from casewright.api.engine.construction.draft import Draft
from casewright.api.engine.solid.solids import Solid
from casewright.sdk.errors import PluginFaultError
from casewright.sdk.geometry import Box, Cylinder, Wedge
from casewright.sdk.methods import DoorDesign, Fit, Hanging, Land, MountDesign
from casewright.sdk.model import Assembly, Feature, Finding, HardwareUse, Joint, JointSpec, PartSpec, Term

AXES = (1, 2, 3, -1, -2, -3)


class _FaultError(Exception):
    """What is wrong with an answer, in words for the plugin's author."""


def _refusing(context: Context, family: str, method: str, look_over: Callable[[], None]) -> None:
    """Run a look-over and name plugin and method in whatever it finds, or trips over."""
    try:
        look_over()
    except _FaultError as fault:
        raise PluginFaultError(context.registry.owner(family, method), method, str(fault)) from None
    except (AttributeError, IndexError, KeyError, TypeError, ValueError) as error:
        told = f"answered something of the wrong shape: {type(error).__name__}: {error}"
        raise PluginFaultError(context.registry.owner(family, method), method, told) from error


def look_over_fit(context: Context, method: str, fit: object, family: str, length: int) -> None:
    """Refuse a fit of the wrong type, with lengths that are not whole nm, or a reason that does not sum.

    `length` is the guest's size along the joint: growth may not take all of it away.
    """
    _refusing(context, family, method, lambda: _fit(fit, length))


def look_over_thickness(context: Context, method: str, thickness: object) -> None:
    """Refuse a door thickness that is not a whole number of nm above zero."""
    _refusing(context, "doors", method, lambda: _above_zero(thickness, "thickness"))


def look_over_reach(context: Context, method: str, reach: object) -> None:
    """Refuse a door's reach behind its back face that is not a whole number of nm, zero or more."""
    _refusing(context, "doors", method, lambda: _not_below_zero(reach, "reach behind the door"))


def look_over_door(context: Context, method: str, design: object, thickness: int) -> None:
    """Refuse a door design that is faulty, not as thick as its style said, or whose hinge land is no part of it."""
    _refusing(context, "doors", method, lambda: _door(context, design, thickness))


def look_over_mount(built: Construction, method: str, design: object) -> None:
    """Refuse a mounting design that is faulty, takes a key that is in use, or cuts into a part there is not."""
    _refusing(built.context, "mountings", method, lambda: _mount(built, design))


def look_over_cuts(built: Construction, solids: Mapping[str, Solid]) -> None:
    """Refuse cuts that reach outside the part they are made in, naming the method that made them."""
    for draft in built.drafts.values():
        if _within(draft.box, solids[f"{built.id}/{draft.key}"]):
            continue
        for feature in draft.features:
            if not draft.box.holds(feature.envelope()):
                family, method = _maker(built, draft, feature)
                cut = feature.envelope()
                raise PluginFaultError(
                    built.registry.owner(family, method),
                    method,
                    f"feature {feature.label!r} reaches outside part {draft.key!r}: "
                    f"cut {cut.size} nm at {cut[:3]}, part {draft.box.size} nm at {draft.box[:3]}",
                )


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


def _be(value: object, kind: type) -> Any:
    if not isinstance(value, kind):
        raise _FaultError(f"answered {type(value).__name__}, which is not a {kind.__name__}")
    return value


def _named(what: str, *of: object) -> str:
    """Return what is at fault in words; `of` is whose it is, if that needs telling."""
    return " ".join([what, *[repr(one) for one in of]])


def _whole(value: object, what: str, *of: object) -> None:
    if type(value) is not int:
        raise _FaultError(f"{_named(what, *of)} is {value!r}, which is not a whole number of nm")


def _above_zero(value: object, what: str) -> None:
    _whole(value, what)
    if value <= 0:  # type: ignore[operator]  # an int by the line above
        raise _FaultError(f"{what} is {value}, not above zero")


def _not_below_zero(value: object, what: str) -> None:
    _whole(value, what)
    if value < 0:  # type: ignore[operator]  # an int by the line above
        raise _FaultError(f"{what} is {value}, below zero")


def _tuple(value: object, what: str, *of: object) -> None:
    if not isinstance(value, tuple):  # a generator would be empty by the time it is used
        shape = f"{_named(what, *of)} is a {type(value).__name__}, not a tuple"
        raise _FaultError(f"answered something of the wrong shape: {shape}")


def _axis(value: object, what: str, *of: object) -> None:
    if value not in AXES:
        raise _FaultError(f"{_named(what, *of)} is {value!r}, which is not an axis 1, 2, 3, -1, -2 or -3")


def _fit(fit: object, length: int) -> None:
    _be(fit, Fit)
    assert isinstance(fit, Fit)
    _whole(fit.growth, "growth")
    _whole(fit.seat, "seat")
    _whole(fit.clearance, "clearance")
    if fit.clearance < 0:
        raise _FaultError(f"clearance is {fit.clearance}, below zero")
    if length + fit.growth <= 0:
        raise _FaultError(f"growth of {fit.growth} nm leaves nothing of a guest {length} nm long")
    _tuple(fit.why, "why")
    _tuple(fit.host, "host")
    _tuple(fit.guest, "guest")
    _tuple(fit.hardware, "hardware")
    _tuple(fit.findings, "findings")
    if not 0 <= fit.glue_area_mm2 < float("inf"):
        raise _FaultError(f"glue area is {fit.glue_area_mm2!r} mm2")
    _axis(fit.press, "press")
    _terms(fit.why, fit.growth, "growth")
    for feature in (*fit.host, *fit.guest):
        _feature(feature)
    _extras(fit.hardware, fit.findings)


def _terms(why: tuple[Term, ...], size: int, what: str) -> None:
    summed = 0
    for term in why:
        if not isinstance(term, Term) or type(term.nm) is not int:
            raise _FaultError(f"the reason for {what} holds something that is not a Term of whole nm")
        summed += term.nm
    if summed != size:
        raise _FaultError(f"the reason for {what} sums to {summed} nm, not {size} nm")


def _feature(feature: object) -> None:
    if not isinstance(feature, Feature):
        raise _FaultError(f"answered {type(feature).__name__} where a Feature belongs")
    label, boxes, holes, wedges = feature.label, feature.boxes, feature.holes, feature.wedges
    _tuple(boxes, "boxes of feature", label)
    _tuple(holes, "holes of feature", label)
    _tuple(wedges, "wedges of feature", label)
    if not (boxes or holes or wedges):
        raise _FaultError(f"feature {label!r} takes nothing away")
    _axis(feature.entry, "entry of feature", label)
    if feature.run is not None:
        _axis(feature.run, "run of feature", label)
    lengths: list[object] = [n for b in boxes for n in _be(b, Box)]
    for drilled in holes:
        _be(drilled, Cylinder)
        _axis(drilled.into, "way into feature", label)
        lengths += [*drilled.mouth, drilled.diameter, drilled.depth]
    for wedge in wedges:
        lengths += _be(wedge, Wedge).box
    for n in lengths:
        if type(n) is not int:
            raise _FaultError(f"feature {label!r} has a length that is not a whole number of nm")
    for box in (*boxes, *[w.box for w in wedges]):
        if box.volume <= 0:
            raise _FaultError(f"feature {label!r} has a box without volume")
    for drilled in holes:
        if drilled.diameter <= 0 or drilled.depth <= 0:
            raise _FaultError(f"feature {label!r} has a hole without volume")


def _extras(hardware: tuple[HardwareUse, ...], findings: tuple[Finding, ...]) -> None:
    for use in hardware:
        for point in _be(use, HardwareUse).at:
            for n in point:
                if type(n) is not int:
                    _whole(n, f"a place of {use.item}")
    for finding in findings:
        if _be(finding, Finding).level not in ("stop", "caution", "note"):
            raise _FaultError(f"finding {finding.code!r} has the level {finding.level!r}")


def _assembly(context: Context, assembly: object) -> None:
    """Refuse an assembly with parts that repeat a key, have no volume, or whose reasons do not sum."""
    _be(assembly, Assembly)
    assert isinstance(assembly, Assembly)
    for name in ("parts", "joints", "hardware", "findings"):
        _tuple(getattr(assembly, name), name)
    keys: set[str] = set()
    for spec in assembly.parts:
        _spec(context, spec)
        if spec.key in keys:
            raise _FaultError(f"two parts have the key {spec.key!r}")
        keys.add(spec.key)
    for joint in assembly.joints:
        _joint(joint, keys)
    _extras(assembly.hardware, assembly.findings)


def _spec(context: Context, spec: object) -> None:
    _be(spec, PartSpec)
    assert isinstance(spec, PartSpec)
    if spec.material not in context.job.materials:
        raise _FaultError(f"part {spec.key!r} names a material {spec.material!r} the job has not")
    for n in _be(spec.box, Box):
        _whole(n, "a length of part", spec.key)
    if spec.box.volume <= 0:
        raise _FaultError(f"part {spec.key!r} has no volume")
    _axis(spec.length_axis, "length axis of", spec.key)
    _axis(spec.width_axis, "width axis of", spec.key)
    if abs(spec.length_axis) == abs(spec.width_axis):
        raise _FaultError(f"length and width of part {spec.key!r} lie along one line")
    size = spec.box.size
    _terms(spec.why_length, size[abs(spec.length_axis) - 1], f"{spec.key} length")
    _terms(spec.why_width, size[abs(spec.width_axis) - 1], f"{spec.key} width")
    for feature in spec.features:
        _feature(feature)


def _joint(joint: object, keys: set[str]) -> None:
    _be(joint, JointSpec)
    assert isinstance(joint, JointSpec)
    if not {joint.host, joint.guest} <= keys:
        raise _FaultError(f"a joint names {joint.host!r} and {joint.guest!r}, not both parts")
    _axis(joint.press, "press of a joint")
    _whole(joint.seat, "seat of a joint")
    _whole(joint.clearance, "clearance of a joint")
    if joint.clearance < 0:
        raise _FaultError(f"clearance of a joint is {joint.clearance}, below zero")


def _door(context: Context, design: object, thickness: int) -> None:
    _be(design, DoorDesign)
    assert isinstance(design, DoorDesign)
    _assembly(context, design.assembly)
    _above_zero(design.thickness, "thickness")
    if design.thickness != thickness:
        raise _FaultError(f"the door is {design.thickness} nm thick, but its style said {thickness} nm")
    keys = {spec.key for spec in design.assembly.parts}
    for land in (design.left, design.right):
        if _be(land, Land).part not in keys:
            raise _FaultError(f"hinge land names {land.part!r}, which is no part of the door")
        for name in ("clear", "inner_edge", "panel"):
            if name != "panel" or land.panel is not None:
                _whole(getattr(land, name), f"hinge land's {name}")


def _mount(built: Construction, design: object) -> None:
    _be(design, MountDesign)
    assert isinstance(design, MountDesign)
    _assembly(built.context, design.assembly)
    keys = {spec.key for spec in design.assembly.parts}
    taken = sorted(keys & built.drafts.keys())
    if taken:
        raise _FaultError(f"a part has the key {taken[0]!r}, which the cabinet uses already")
    for key, feature in design.features:
        if key not in built.drafts and key not in keys:
            raise _FaultError(f"a feature is for {key!r}, which is no part of the cabinet")
        _feature(feature)
    hanging: Hanging = _be(design.hanging, Hanging)
    for name in ("hook_z", "bearing_z", "lift", "screw_z", "packed", "anti_lift_side"):
        _whole(getattr(hanging, name), name)
    strip = hanging.wall_strip
    if strip is not None and not any(key.startswith(strip) for key in keys):
        raise _FaultError(f"the wall strip {strip!r} is no part of the mounting")
