"""What a method answered, validated before any of it is used.

A fault is a problem that names the plugin and the method; nothing of the answer is used.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager

from casewright.api.engine.construction.answer_rules import (
    FaultError,
    Rules,
    above_zero,
    area,
    axis,
    check_assembly,
    check_extras,
    check_feature,
    check_fields,
    check_joined,
    check_terms,
    not_below_zero,
    optional,
    phrase,
    record,
    sequence,
    two_flags,
    whole,
)
from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.context import Context
from casewright.api.engine.construction.hanging_rules import check_hanging
from casewright.sdk.errors import PluginFaultError
from casewright.sdk.geometry import Box
from casewright.sdk.methods import DoorDesign, Fit, Hanging, Land, MountDesign
from casewright.sdk.places import defined_at
from casewright.sdk.units import exact_text

FIT: Rules = {
    "growth": whole, "seat": whole, "clearance": not_below_zero, "why": sequence, "host": sequence, "guest": sequence,
    "hardware": sequence, "findings": sequence, "press": axis, "glue_area_mm2": area, "note": phrase,
}  # fmt: skip
LAND: Rules = {"clear": whole, "inner_edge": whole, "panel": optional(whole)}
HANGING: Rules = {
    **dict.fromkeys(("hook_z", "bearing_z", "lift", "screw_z", "packed", "anti_lift_side"), whole),
    "through": two_flags,
}


@contextmanager
def _naming(context: Context, family: str, method: str) -> Iterator[None]:
    """Name plugin and method in whatever is found of an answer, or is tripped over."""
    registry = context.registry
    try:
        yield
    except FaultError as fault:
        owner, at = registry.owner(family, method), registry.answers_at(family, method)
        raise PluginFaultError(owner, method, str(fault), at) from None
    except (AttributeError, IndexError, KeyError, TypeError, ValueError) as error:
        owner, at = registry.owner(family, method), registry.answers_at(family, method)
        fault_words = f"answered something of the wrong shape: {type(error).__name__}: {error}"
        raise PluginFaultError(owner, method, fault_words, at) from error


def validate_fit(context: Context, family: str, method: str, answer: object, length: int) -> None:
    """Refuse a fit of the wrong type, with lengths that are not whole nm, or a reason that does not sum.

    `length` is the guest's size along the joint: growth may not take all of it away.
    """
    with _naming(context, family, method):
        fit = record(answer, Fit)
        check_fields(fit, FIT)
        if length + fit.growth <= 0:
            got = f"a growth of {exact_text(fit.growth)} on a guest {exact_text(length)} long"
            raise FaultError(f"{got} leaves nothing of it")
        check_terms(fit.why, fit.growth, "growth")
        for feature in (*fit.host, *fit.guest):
            check_feature(feature)
        check_extras(fit.hardware, fit.findings)


def validate_thickness(context: Context, style: str, thickness: object) -> None:
    """Refuse a door thickness that is not a whole number of nm above zero."""
    _validate_length(context, style, "thickness", above_zero(thickness))


def validate_reach(context: Context, style: str, reach: object) -> None:
    """Refuse a door's reach behind its back face that is not a whole number of nm, zero or more."""
    _validate_length(context, style, "reach behind the door", not_below_zero(reach))


def _validate_length(context: Context, style: str, what: str, fault: str | None) -> None:
    if fault is not None:
        registry = context.registry
        raise PluginFaultError(
            registry.owner("doors", style), style, f"{what} {fault}", defined_at(registry.doors[style])
        )


def validate_door(context: Context, style: str, answer: object, thickness: int, size: tuple[int, int]) -> None:
    """Refuse a door design that is faulty, not as thick as its style said, or whose hinge land is no part of it."""
    with _naming(context, "doors", style):
        design = record(answer, DoorDesign)
        keys = check_assembly(design.assembly, context.job.materials)
        check_fields(design, {"thickness": above_zero})
        if design.thickness != thickness:
            thick, stated = exact_text(design.thickness), exact_text(thickness)
            raise FaultError(f"the door is {thick} thick, but thickness() of its style answered {stated}")
        for land in (design.left, design.right):
            if record(land, Land).part not in keys:
                raise FaultError(f"hinge land names {land.part!r}, which is no part of the door")
            check_fields(land, LAND, " of a hinge land")
        _check_land("left", design, design.left, lambda box: (box.x0, box.x1))
        _check_land("right", design, design.right, lambda box: (size[0] - box.x1, size[0] - box.x0))
        check_joined(design.assembly, alone=1)
        _check_outside(design, *size)


def _check_land(edge: str, design: DoorDesign, land: Land, off: Callable[[Box], tuple[int, int]]) -> None:
    """Refuse hinge land that is not at its edge, or wider than its part; `off` says how far a box lies off the edge."""
    near, far = next(off(part.box) for part in design.assembly.parts if part.key == land.part)
    if near > 0:
        raise FaultError(f"the {edge} hinge land names {land.part!r}, which stands {exact_text(near)} off that edge")
    for name in ("clear", "inner_edge"):
        if getattr(land, name) > far:
            wide = exact_text(getattr(land, name))
            raise FaultError(
                f"{name} of the {edge} hinge land is {wide}, but {land.part!r} is {exact_text(far)} wide there"
            )


def _check_outside(design: DoorDesign, width: int, height: int) -> None:
    """Refuse a door that does not come out as large as was asked, from the origin of the door frame."""
    whole = Box.union([part.box for part in design.assembly.parts])
    if (whole.x0, whole.x1, whole.z0, whole.z1) != (0, width, 0, height):
        made = f"{exact_text(whole.x1 - whole.x0)} × {exact_text(whole.z1 - whole.z0)}"
        at = f"from x {exact_text(whole.x0)}, z {exact_text(whole.z0)}"
        wanted = f"{exact_text(width)} × {exact_text(height)} from 0"
        raise FaultError(f"the door comes out {made} {at}, asked for {wanted}")


def validate_mount(built: Construction, method: str, answer: object, outside: Box) -> None:
    """Refuse a mounting design that is faulty, takes a key in use, cuts what is not there, or lies of its hanging.

    `outside` is the case's box in the cabinet frame.
    """
    with _naming(built.context, "mountings", method):
        design = record(answer, MountDesign)
        keys = check_assembly(design.assembly, built.job.materials, frozenset(built.drafts))
        taken = sorted(keys & built.drafts.keys())
        if taken:
            raise FaultError(f"a part has the key {taken[0]!r}, which the cabinet uses already")
        for key, feature in design.features:
            if key not in built.drafts and key not in keys:
                raise FaultError(f"a feature is for {key!r}, which is no part of the cabinet")
            check_feature(feature)
        check_fields(record(design.hanging, Hanging), HANGING)
        check_joined(design.assembly)
        check_hanging(design, outside, built.registry.catalogue, keys | built.drafts.keys())
        if not design.cautions:
            raise FaultError("the design states no cautions; CAUTIONS of casewright.sdk.mountings has the usual ones")
