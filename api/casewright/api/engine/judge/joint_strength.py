"""What holds one joint as planned: its glue, its groove, its dowels, its screws. Newtons and millimetres."""

from collections.abc import Iterator
from dataclasses import replace
from math import fsum

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import Draft
from casewright.sdk.engineering import adjust, hanging_capacity, load_path
from casewright.sdk.engineering.hanging_capacity import NoGravity
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.engineering.load_path import Link
from casewright.sdk.engineering.units import NM_PER_MM, mm
from casewright.sdk.materials import Screw
from casewright.sdk.model import HardwareLine, Joint

Loads = tuple[float, float]
"""A load along a joint's face and one away from it, N."""


def parts_of(built: Construction, joint: Joint) -> tuple[Draft, Draft]:
    """Return the host and the guest of a joint."""
    prefix = f"{built.id}/"
    return built.drafts[joint.host.removeprefix(prefix)], built.drafts[joint.guest.removeprefix(prefix)]


def glue_way(built: Construction, joint: Joint, loads: Loads, factor: float) -> Link:
    """Return what the joint's glue holds of the two loads together, as one load of the first's size."""
    host, guest = parts_of(built, joint)
    woods = built.stuff(host.material), built.stuff(guest.material)
    along, across = (load_path.glue_n(joint.glue_area_mm2, woods, factor, across=way) for way in (False, True))
    if along <= 0.0:
        return Link("", fsum(loads), 0.0, "nothing")
    use = loads[0] / along + loads[1] / across
    return _worked(loads, use, "glue")


def screw_way(built: Construction, part: Draft, joint: Joint, loads: Loads, factor: float) -> Link:
    """Return what the screws that fix a part to its host hold: through the host into it, or through it into the host.

    Screws held by a panel alone have no source for pulling out; along their face they do. In the end of a part they
    hold less sideways, and nothing pulled.
    """
    host, guest = parts_of(built, joint)
    screws = [line for line in built.hardware if _fixes(built, line, part, joint)]
    number = sum(len(line.at) for line in screws)
    if not number:
        return Link("", fsum(loads), 0.0, "nothing")
    screw = built.registry.catalogue.screw(screws[0].item)
    side, main = (host, guest) if joint.method == "glued-and-screwed" else (guest, host)
    try:
        capacity = _screw(built, screw, (side, main), factor, (loads[1] > 0.0, abs(joint.press) == main.length_axis))
    except (OutsideLimits, NoGravity):
        return Link("", fsum(loads), 0.0, "nothing")
    pull, shear = loads[1] / number, loads[0] / number
    if pull == 0.0:
        return _worked(loads, shear / capacity[1], "screws")
    if capacity[0] == 0.0:
        return Link("", fsum(loads), 0.0, "nothing")
    use = adjust.combined_use(pull, shear, *capacity)
    return _worked(loads, use, "screws")


def end_ways(built: Construction, joint: Joint, load: float, factor: float) -> Iterator[Link]:
    """Yield what holds the end of a shelf, a bottom or a top in its host: groove, glue, dowels."""
    host, guest = parts_of(built, joint)
    woods = built.stuff(host.material), built.stuff(guest.material)
    run = max(0.0, mm(min(host.box.y1, guest.box.y1) - max(host.box.y0, guest.box.y0)))
    if joint.seat and any(ft.joint == joint.id and ft.kind in ("groove", "dovetail") for ft in host.features):
        tongue = mm(guest.thickness - _cheeks(guest, joint))
        yield Link("", load, load_path.tongue_n(tongue, run, mm(joint.seat), woods[1], factor), "groove")
    butt = 1.0 if joint.seat else load_path.butt_share(woods[1])
    glue = load_path.glue_n(joint.glue_area_mm2, woods, factor) * butt
    yield Link("", load, glue, "glue")
    area = _pin_area_mm2(built, joint)
    if area:
        yield Link("", load, load_path.dowels_n(area, factor), "dowels")
    if any(_screw_of(built, line.item) for line in built.hardware if line.used_for == joint.id):
        yield screw_way(built, guest, joint, (load, 0.0), factor)


def _worked(loads: Loads, use: float, by: load_path.By) -> Link:
    load = loads[0] or loads[1]
    return Link("", load, load / use if use > 0.0 else load or 1.0, by)


def _screw(
    built: Construction, screw: Screw, parts: tuple[Draft, Draft], factor: float, how: tuple[bool, bool]
) -> tuple[float, float]:
    """Return what one screw holds pulled and sideways, through the first part into the second.

    A panel by itself holds a screw sideways, not pulled. `how` tells whether it is pulled, and whether it is in the
    second part's end.
    """
    side, main = (built.stuff(part.material) for part in parts)
    capacity = hanging_capacity.capacity(
        screw,
        side,
        mm(parts[0].thickness),
        main if how[0] else replace(main, holds_screws=True),
        mm(max(parts[1].box.size)),
        0.0,
        factor,
        end_grain=how[1],
    )
    return capacity.pull_n, capacity.lateral_n


def _fixes(built: Construction, line: HardwareLine, part: Draft, joint: Joint) -> bool:
    """Return whether a line of hardware is screws of this joint, or of the mounting within the part's face."""
    if _screw_of(built, line.item) is None or not line.at:
        return False
    if line.used_for == joint.id:
        return True
    if line.used_for != f"{built.id}/mounting":
        return False
    across = [axis for axis in (1, 2, 3) if axis != abs(joint.press)]
    return all(part.box.low(axis) <= point[axis - 1] <= part.box.high(axis) for point in line.at for axis in across)


def _screw_of(built: Construction, item: str) -> Screw | None:
    return next((screw for screw in built.registry.catalogue.screws if screw.id == item), None)


def _cheeks(guest: Draft, joint: Joint) -> int:
    """Return how much of the guest's thickness its tongue leaves off at this joint."""
    axis = guest.thickness_axis
    spans = {
        (box.low(axis), box.high(axis))
        for feature in guest.features
        if feature.joint == joint.id and feature.kind == "tenon"
        for box in feature.boxes
    }
    return sum(high - low for low, high in spans)


def _pin_area_mm2(built: Construction, joint: Joint) -> float:
    """Return the whole cross-section of a joint's dowels, loose tenons and biscuits."""
    catalogue = built.registry.catalogue
    round_ = {dowel.id: 0.7854 * mm(dowel.diameter) ** 2 for dowel in catalogue.dowels}
    flat = {tenon.id: mm(tenon.thickness) * mm(tenon.width) for tenon in catalogue.loose_tenons}
    areas = {**round_, **flat}
    pins = fsum(areas.get(line.item, 0.0) * len(line.at) for line in built.hardware if line.used_for == joint.id)
    _, guest = parts_of(built, joint)
    slots = [ft for ft in guest.features if ft.joint == joint.id and ft.kind == "biscuit-slot"]
    return pins + fsum(box.volume / box.size[abs(joint.press) - 1] / NM_PER_MM**2 for ft in slots for box in ft.boxes)
