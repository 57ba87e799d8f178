"""What a mounting says of its hanging, held against the parts it made: nothing that statics turns on may be untrue."""

import math
from collections.abc import Iterable, Sequence
from typing import Literal

from casewright.api.engine.construction.answer_rules import FaultError
from casewright.sdk.geometry import Box
from casewright.sdk.materials import Catalogue
from casewright.sdk.methods import Hanging, MountDesign
from casewright.sdk.model import PartSpec
from casewright.sdk.units import exact_text

SAME_ANGLE = 0.1
"""Degrees by which a bevel that is said may miss the bevel that is cut: whole nanometres round it."""


def check_hanging(design: MountDesign, outside: Box, catalogue: Catalogue, keys: Iterable[str]) -> None:
    """Refuse a hanging that the design's own solids, joints and hardware give the lie. Raises `FaultError`.

    `outside` is the case's box in the cabinet frame, `keys` those of all parts there are.
    """
    hanging = design.hanging
    _check_values(hanging)
    _check_hardware(hanging, catalogue)
    if hanging.anti_lift:
        _check_anti_lift(design, frozenset(keys))
    if hanging.wall_strip is None:
        if hanging.bevel_deg is not None:
            raise FaultError("bevel_deg is given, but no wall_strip that the cabinet hooks on")
        return
    strips = [part for part in design.assembly.parts if part.key.startswith(hanging.wall_strip)]
    if not strips:
        raise FaultError(f"the wall strip {hanging.wall_strip!r} is no part of the mounting")
    wall = max(outside.y1, *[part.box.y1 for part in design.assembly.parts])
    _equal("packed", hanging.packed, wall - max(part.box.y1 for part in strips), "wood between strip and wall")
    low, high = min(part.box.z0 for part in strips), max(part.box.z1 for part in strips)
    _within("hook_z", hanging.hook_z, low, high)
    _check_bearing(design, outside)
    if hanging.bevel_deg is None:
        _within("screw_z", hanging.screw_z, low, high)
        return
    cut = _check_bevel(hanging.bevel_deg, strips)
    _within("screw_z", hanging.screw_z, low, high - cut)
    _check_hook(design, strips)


def _check_values(hanging: Hanging) -> None:
    if type(hanging.per_stud) is not int or hanging.per_stud < 1:
        raise FaultError(f"per_stud is {hanging.per_stud!r}, which is no number of fasteners")
    for name in ("lift", "packed", "anti_lift_side"):
        if getattr(hanging, name) < 0:
            raise FaultError(f"{name} is {exact_text(getattr(hanging, name))}, below zero")
    for row in hanging.lengths:
        if not (isinstance(row, tuple) and len(row) == 2 and isinstance(row[0], str) and type(row[1]) is int):
            raise FaultError(f"lengths holds {row!r}, which is no pair of words and whole nm")
    bevel = hanging.bevel_deg
    number = isinstance(bevel, (int, float)) and not isinstance(bevel, bool)
    if bevel is not None and not (number and 0 < bevel < 90):
        raise FaultError(f"bevel_deg is {bevel!r}, which is no angle between 0 and 90 degrees")


def _check_hardware(hanging: Hanging, catalogue: Catalogue) -> None:
    known = {one.id for one in catalogue.screws} | {one.id for one in catalogue.lags}
    names: tuple[Literal["fastener", "anti_lift"], ...] = ("fastener", "anti_lift")
    for name in names:
        item = getattr(hanging, name)
        if item and item not in known:
            raise FaultError(f"{name} is {item!r}, which is no screw or lag screw of the catalogue")


def _check_anti_lift(design: MountDesign, keys: frozenset[str]) -> None:
    hanging = design.hanging
    key = hanging.anti_lift_strip
    if key not in keys:
        raise FaultError(f"anti_lift_strip is {key!r}, which is no part that the fastener could pass through")
    strip = next((part.box for part in design.assembly.parts if part.key == key), None)
    if strip is not None:
        _equal("anti_lift_side", hanging.anti_lift_side, strip.y1 - strip.y0, f"the wood of {key!r} front to back")


def _check_bearing(design: MountDesign, outside: Box) -> None:
    """Refuse a lowest bearing where nothing begins: neither the case nor a part of the mounting."""
    bearing = design.hanging.bearing_z
    ends = {outside.z0, *[part.box.z0 for part in design.assembly.parts]}
    if bearing not in ends:
        words = ", ".join(exact_text(z) for z in sorted(ends))
        raise FaultError(f"bearing_z is {exact_text(bearing)}; case and mounting begin at {words}")
    if bearing > design.hanging.hook_z:
        raise FaultError("bearing_z is above hook_z: the cabinet would turn over its hook")


def _check_bevel(stated: float, strips: Sequence[PartSpec]) -> int:
    """Refuse a bevel that is not the one cut in each strip; return how high the cut is, in nm."""
    high = 0
    for strip in strips:
        cuts = [wedge.box for feature in strip.features for wedge in feature.wedges if wedge.along == 1]
        if not cuts:
            raise FaultError(f"bevel_deg is {stated:g}, but no bevel is cut along {strip.key!r}")
        for box in cuts:
            cut = math.degrees(math.atan2(box.z1 - box.z0, box.y1 - box.y0))
            if abs(cut - stated) > SAME_ANGLE:
                raise FaultError(f"bevel_deg is {stated:g}, but {strip.key!r} is cut at {cut:.2f} degrees")
            high = max(high, box.z1 - box.z0)
    return high


def _check_hook(design: MountDesign, strips: Sequence[PartSpec]) -> None:
    """Refuse a hook that nothing hangs on, or that the stated lift does not clear."""
    own = {strip.key for strip in strips}
    seats = [joint.seat for joint in design.assembly.joints if joint.host in own and abs(joint.press) == 3]
    if not seats:
        raise FaultError(f"no joint says what hooks on {strips[0].key!r} from above")
    if design.hanging.lift < max(seats):
        lift, deep = exact_text(design.hanging.lift), exact_text(max(seats))
        raise FaultError(f"lift is {lift}, but the hook is {deep} deep: the cabinet must rise as far to engage")


def _equal(name: str, stated: int, made: int, what: str) -> None:
    if stated != made:
        raise FaultError(f"{name} is {exact_text(stated)}, but the parts leave {exact_text(made)} ({what})")


def _within(name: str, stated: int, low: int, high: int) -> None:
    if not low <= stated <= high:
        span = f"{exact_text(low)} to {exact_text(high)}"
        raise FaultError(f"{name} is {exact_text(stated)}, but the wall strip's wood is from {span}")
