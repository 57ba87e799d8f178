"""Rules for what methods answer with, as tables: each field of a record and what its value must be."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TypeVar, get_args

from casewright.sdk.geometry import Box, Cylinder, Wedge
from casewright.sdk.model import (
    Assembly,
    Feature,
    FeatureKind,
    Finding,
    GrainRule,
    HardwareUse,
    JointSpec,
    Level,
    PartSpec,
    Purpose,
    Role,
    Term,
)
from casewright.sdk.spelling import nearest_word
from casewright.sdk.units import exact_text

AXES = (1, 2, 3, -1, -2, -3)
LEVELS: tuple[Level, ...] = ("stop", "caution", "note")
"""From the worst."""
PHRASE = 160

Rule = Callable[[object], str | None]
"""Returns what is wrong with a value, in words that follow its name; `None` where nothing is."""
Rules = Mapping[str, Rule]
Record = TypeVar("Record")


class FaultError(Exception):
    """What is wrong with an answer, in words for the plugin's author."""


def whole(value: object) -> str | None:
    """Return what keeps a value from being a whole number of nm."""
    return None if type(value) is int else f"is {value!r}, which is not a whole number of nm"


def above_zero(value: object) -> str | None:
    """Return what keeps a value from being a whole number of nm above zero."""
    fault = whole(value)
    return fault or (f"is {exact_text(value)}, not above zero" if value <= 0 else None)  # type: ignore[operator,arg-type]


def not_below_zero(value: object) -> str | None:
    """Return what keeps a value from being a whole number of nm, zero or more."""
    fault = whole(value)
    return fault or (f"is {exact_text(value)}, below zero" if value < 0 else None)  # type: ignore[operator,arg-type]


def area(value: object) -> str | None:
    """Return what keeps a value from being an area in mm²: a finite number, zero or more."""
    fine = isinstance(value, (int, float)) and 0 <= value < float("inf")
    return None if fine else f"is {value!r}, which is no area of zero or more mm²"


def sequence(value: object) -> str | None:
    """Return what keeps a value from being a tuple; a generator would be empty by the time it is used."""
    return None if isinstance(value, tuple) else f"is a {type(value).__name__}, not a tuple"


def two_flags(value: object) -> str | None:
    """Return what keeps a value from being a tuple of two truth values."""
    pair = isinstance(value, tuple) and len(value) == 2 and all(isinstance(one, bool) for one in value)
    return None if pair else f"is {value!r}, not a tuple of two truth values"


def axis(value: object) -> str | None:
    """Return what keeps a value from being a signed axis."""
    return None if value in AXES else f"is {value!r}, which is not an axis 1, 2, 3, -1, -2 or -3"


def word_of(words: Sequence[str]) -> Rule:
    """Return the rule for a value that must be one of a few words; what is refused hears the nearest."""

    def rule(value: object) -> str | None:
        if value in words:
            return None
        near = nearest_word(str(value), words)
        return f"is {value!r}; " + (f"perhaps {near!r}" if near else f"it is one of {', '.join(words)}")

    return rule


def optional(rule: Rule) -> Rule:
    """Return the rule for a value that may be `None`."""
    return lambda value: None if value is None else rule(value)


def phrase(value: object) -> str | None:
    """Return what keeps a value from being a phrase that a step can end with."""
    short = isinstance(value, str) and len(value) <= PHRASE and value.isprintable() and not value.endswith(".")
    return None if short else f"is {value!r}, not one line of at most {PHRASE} characters without a full stop"


FEATURE: Rules = {
    "kind": word_of(get_args(FeatureKind)),
    "boxes": sequence,
    "holes": sequence,
    "wedges": sequence,
    "entry": axis,
    "run": optional(axis),
}
HOLE: Rules = {"into": axis, "diameter": above_zero, "depth": above_zero}
ASSEMBLY: Rules = dict.fromkeys(("parts", "joints", "hardware", "findings"), sequence)
PART: Rules = {
    "role": word_of(get_args(Role)),
    "length_axis": axis,
    "width_axis": axis,
    "features": sequence,
    "grain": word_of(get_args(GrainRule)),
}
JOINT: Rules = {"press": axis, "seat": whole, "clearance": not_below_zero, "glue_area_mm2": area, "note": phrase}


def record(value: object, kind: type[Record]) -> Record:
    """Return a value that must be a record of a kind."""
    if not isinstance(value, kind):
        raise FaultError(f"answered {type(value).__name__}, which is not a {kind.__name__}")
    return value


def check_fields(value: object, rules: Rules, of: str = "", whose: object = None) -> None:
    """Refuse a record with a field that breaks its rule; `of` and `whose` say whose field it is, if that must be."""
    for name, rule in rules.items():
        fault = rule(getattr(value, name))
        if fault is not None:
            owner = f"{of} {whose!r}" if whose is not None else of
            raise FaultError(f"{name.replace('_', ' ') if of else name}{owner} {fault}")


def check_terms(why: tuple[Term, ...], size: int, what: str) -> None:
    """Refuse a reason that is not made of terms of whole nm, or does not sum to the size it is for."""
    summed = 0
    for term in why:
        if not isinstance(term, Term) or type(term.nm) is not int:
            raise FaultError(f"the reason for {what} holds something that is not a Term of whole nm")
        summed += term.nm
    if summed != size:
        raise FaultError(f"the reason for {what} sums to {exact_text(summed)}, not {exact_text(size)}")


def check_feature(feature: object) -> None:
    """Refuse a cut that takes nothing away, or whose waste is no solid of whole nm."""
    if not isinstance(feature, Feature):
        raise FaultError(f"answered {type(feature).__name__} where a Feature belongs")
    label = feature.label
    check_fields(feature, FEATURE, " of feature", label)
    if not isinstance(feature.purpose, Purpose):
        raise FaultError(f"purpose of feature {label!r} is {feature.purpose!r}, which is not a Purpose")
    if not (feature.boxes or feature.holes or feature.wedges):
        raise FaultError(f"feature {label!r} takes nothing away")
    for wedge in feature.wedges:
        across = {abs(one) for one in record(wedge, Wedge).corner if one in AXES}
        if {wedge.along, *across} != {1, 2, 3} or len(wedge.corner) != 2:
            raise FaultError(
                f"feature {label!r} has a wedge along {wedge.along!r} with its corner at {wedge.corner!r}: along is 1, "
                "2 or 3, the corner two signed axes, one of each other way"
            )
    for box in (*feature.boxes, *[record(wedge, Wedge).box for wedge in feature.wedges]):
        if any(whole(n) for n in record(box, Box)):
            raise FaultError(f"feature {label!r} has a length that is not a whole number of nm")
        if box.volume <= 0:
            raise FaultError(f"feature {label!r} has a box without volume")
    for drilled in feature.holes:
        check_fields(record(drilled, Cylinder), HOLE, " of a hole of feature", label)
        if any(whole(n) for n in drilled.mouth):
            raise FaultError(f"feature {label!r} has a length that is not a whole number of nm")


def check_extras(hardware: Iterable[HardwareUse], findings: Iterable[Finding]) -> None:
    """Refuse hardware at places that are not whole nm, and findings of an unknown level."""
    for use in hardware:
        for n in (n for point in record(use, HardwareUse).at for n in point):
            fault = whole(n)
            if fault is not None:
                raise FaultError(f"a place of {use.item} {fault}")
    for finding in findings:
        if record(finding, Finding).level not in LEVELS:
            raise FaultError(f"finding {finding.code!r} has the level {finding.level!r}")


def check_assembly(assembly: object, materials: Iterable[str], others: frozenset[str] = frozenset()) -> frozenset[str]:
    """Refuse an assembly with parts that repeat a key, have no volume, or whose reasons do not sum; return the keys.

    Its joints may name hosts among `others`, the keys of parts it is fixed to.
    """
    made = record(assembly, Assembly)
    check_fields(made, ASSEMBLY)
    keys: set[str] = set()
    for spec in made.parts:
        _check_part(record(spec, PartSpec), materials)
        if spec.key in keys:
            raise FaultError(f"two parts have the key {spec.key!r}")
        keys.add(spec.key)
    for joint in made.joints:
        if record(joint, JointSpec).guest not in keys:
            known = ", ".join(sorted(keys))
            raise FaultError(f"a joint has the guest {joint.guest!r}; its guest is a part of the assembly: {known}")
        if joint.host not in keys | others:
            known = ", ".join(sorted(keys | others))
            raise FaultError(f"a joint has the host {joint.host!r}, which is no part there is; there are {known}")
        check_fields(joint, JOINT, " of a joint")
    check_extras(made.hardware, made.findings)
    return frozenset(keys)


def check_joined(assembly: Assembly, alone: int = 0) -> None:
    """Refuse parts that no joint holds; `alone` is of how many parts one needs none."""
    joined = {key for joint in assembly.joints for key in (joint.host, joint.guest)}
    loose = sorted({part.key for part in assembly.parts} - joined)
    if loose and len(assembly.parts) > alone:
        raise FaultError(f"part {loose[0]!r} is in no joint: nothing says what holds it")


def _check_part(spec: PartSpec, materials: Iterable[str]) -> None:
    key, box = spec.key, record(spec.box, Box)
    if spec.material not in materials:
        raise FaultError(f"part {key!r} names a material {spec.material!r} the job has not")
    fault = next((fault for n in box if (fault := whole(n))), None)
    if fault is not None:
        raise FaultError(f"a length of part {key!r} {fault}")
    if box.volume <= 0:
        raise FaultError(f"part {key!r} has no volume")
    check_fields(spec, PART, " of part", key)
    if abs(spec.length_axis) == abs(spec.width_axis):
        raise FaultError(f"length and width of part {key!r} lie along one line")
    check_terms(spec.why_length, box.size[abs(spec.length_axis) - 1], f"{key} length")
    check_terms(spec.why_width, box.size[abs(spec.width_axis) - 1], f"{key} width")
    for feature in spec.features:
        check_feature(feature)
