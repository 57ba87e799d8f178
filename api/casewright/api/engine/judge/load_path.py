"""Whether the load finds its way: from a strip or cleat to the back, from the back and the top to the sides.

Every link names the best of what holds it (glue, groove, screws, wood on wood, dowels); one that nothing covers is a
`stop` that names it. Millimetres and newtons.
"""

from collections.abc import Iterator, Sequence
from math import fsum

from casewright.api.engine.construction.case import BACK, TOP, keys_at
from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import Draft
from casewright.api.engine.judge.joint_strength import Loads, end_ways, glue_way, parts_of, screw_way
from casewright.api.engine.judge.mounting_case import strips_of
from casewright.sdk.engineering import load_path
from casewright.sdk.engineering.load_path import Link
from casewright.sdk.engineering.units import NM_PER_MM, mm
from casewright.sdk.methods import Hanging
from casewright.sdk.model import Check, Finding, HungCabinet, Joint

THIN_BACK = 12_700_000 - 794_000
"""A back that a strip may be fixed to alone: 1/2 in, less 1/32 in of tolerance (AWS 1st ed., 2009, p. 281)."""


def path_links(built: Construction, fixing: Hanging, hung: HungCabinet) -> tuple[Link, ...]:
    """Return the links of the load's way at one place, from the strip inward; none where forces are not known."""
    if hung.result.weight_n == 0.0 or not hung.result.fasteners:
        return ()
    return tuple(_hooked(built, hung) if fixing.bevel_deg is not None else _screwed(built, fixing, hung))


def path_checks(built: Construction, fixing: Hanging, hung: HungCabinet) -> Iterator[Check]:
    """Yield a note on the hardest-worked link, a stop for each that does not hold or that nothing covers."""
    links = path_links(built, fixing, hung)
    if not links:
        return
    for link in links:
        if link.by == "nothing":
            message = f"nothing that is covered here holds {link.name}: glue it, screw it, or let it into a groove"
            yield Check(hung.place, Finding("link-missing", "stop", message, link.load_n, 0.0, "N", link.source))
        elif link.use > 1.0:
            message = f"{link.name} is over what holds it ({link.by}): take a stronger joint there, or hang less on it"
            yield Check(hung.place, Finding("link-use", "stop", message, link.load_n, link.holds_n, "N", link.source))
    worst = max(links, key=lambda link: link.use)
    if worst.use <= 1.0:
        message = (
            f"the load's way from the strip to the sides holds; the hardest-worked link is {worst.name} ({worst.by})"
        )
        yield Check(hung.place, Finding("load-path", "note", message, worst.load_n, worst.holds_n, "N", worst.source))
    back = built.drafts.get(BACK)
    if fixing.bevel_deg is not None and back is not None and back.thickness < THIN_BACK:
        message = (
            "the cleat is fixed to a back thinner than the woodwork standard lets carry a strip; use a thicker back"
        )
        finding = Finding("thin-back", "caution", message, mm(back.thickness), mm(THIN_BACK), "mm", "aws-1-p281")
        yield Check(hung.place, finding)


def _hooked(built: Construction, hung: HungCabinet) -> Iterator[Link]:
    """Yield the links of a hooked cabinet: cleat on back, back in case."""
    weight, pull = hung.result.weight_n, hung.result.pull_n
    factor = hung.case.duration
    for cleat in (draft for draft in built.drafts.values() if draft.role == "cleat"):
        yield _fixed(built, cleat, (weight, pull), factor)
    needed = hung.result.hook.needed_n if hung.result.hook else pull
    yield from _back(built, weight, needed, factor)


def _fixed(built: Construction, strip: Draft, loads: Loads, factor: float) -> Link:
    """Return how a strip is fixed to what it is glued to: loads along that face and away from it."""
    ways = _strip_ways(built, strip, loads, factor)
    return load_path.best(f"{strip.name} on the case", ways or [Link("", fsum(loads), 0.0, "nothing")])


def _strip_ways(built: Construction, strip: Draft, loads: Loads, factor: float) -> list[Link]:
    """Return what holds a strip to all that it is joined to: glue, and screws."""
    return [
        way
        for joint in _joints_of(built, strip.key)
        for way in (glue_way(built, joint, loads, factor), screw_way(built, strip, joint, loads, factor))
    ]


def _back(built: Construction, weight: float, outward: float, factor: float) -> Iterator[Link]:
    """Yield what holds the case on its back: down, and from leaning away from it."""
    back = built.drafts.get(BACK)
    if back is None:
        return
    joints = _joints_of(built, BACK)
    glued = fsum(joint.glue_area_mm2 for joint in joints)
    stuff = built.stuff(back.material)
    glue = Link("", weight, load_path.glue_n(glued, (stuff,), factor), "glue")
    captured = [joint for joint in joints if _captured(built, joint)]
    resting = max((_run_mm(back, joint) for joint in captured if abs(joint.press) == 3), default=0.0)
    bears = Link("", weight, load_path.bearing_n(resting * mm(back.thickness), factor), "wood on wood")
    screws = [screw_way(built, back, joint, (weight / len(joints), outward / len(joints)), factor) for joint in joints]
    yield load_path.best("the case on its back", [glue, bears, *_all(screws, weight)])
    if len(captured) == len(joints) and joints:
        lip = fsum(_lip_mm2(built, back, joint) for joint in captured)
        holds = lip * load_path.shear_mpa((stuff,), factor)
        yield load_path.best("the back's groove, against leaning out", [Link("", outward, holds, "groove")])
        return
    faces = fsum(_face_mm2(back, joint) for joint in joints)
    drawn = Link("", outward, load_path.glue_n(faces, (stuff,), factor, across=True), "glue")
    yield load_path.best("the back's joint, against being drawn off", [drawn, *_all(screws, outward)])


def _all(screws: Sequence[Link], load: float) -> list[Link]:
    """Return the screws of several joints as one way, as hard-worked as the worst of them."""
    if not screws or any(way.holds_n <= 0.0 for way in screws):
        return []
    return [Link("", load, load / max(way.use for way in screws), "screws")]


def _screwed(built: Construction, fixing: Hanging, hung: HungCabinet) -> Iterator[Link]:
    """Yield the links of a cabinet screwed through its strip: the top bears on the strip and hangs the sides."""
    weight, pull, factor = hung.result.weight_n, hung.result.pull_n, hung.case.duration
    strips = strips_of(built, fixing)
    tops = [built.drafts[key] for key in keys_at(built, TOP)]
    area = fsum(_lies_on(top, strip) for top in tops for strip in strips)
    bears = Link("", weight, load_path.bearing_n(area, factor), "wood on wood")
    yield load_path.best("the top on the hanging strip", [bears])
    share = 1.0 / len(strips)
    for strip in strips:
        ways = _strip_ways(built, strip, (pull * share, 0.0), factor)
        yield load_path.best(f"{strip.name} to the case, against leaning out", ways)
    for top in tops[-1:]:
        for joint in _joints_of(built, top.key):
            yield load_path.best("the top in the sides", list(end_ways(built, joint, weight / 2.0, factor)))


def _joints_of(built: Construction, key: str) -> list[Joint]:
    """Return the joints in which a part is the guest of another."""
    return [joint for joint in built.joints if joint.guest == f"{built.id}/{key}" and joint.kind != "hook"]


def _captured(built: Construction, joint: Joint) -> bool:
    """Return whether the guest's edge stands in a groove, with wood on both sides."""
    host, _ = parts_of(built, joint)
    return any(feature.kind == "groove" and feature.joint == joint.id for feature in host.features)


def _run_mm(back: Draft, joint: Joint) -> float:
    """Return how long a back's joint runs: its height at a side, its width at top and bottom."""
    return mm(back.box.size[2] if abs(joint.press) == 1 else back.box.size[0])


def _face_mm2(back: Draft, joint: Joint) -> float:
    """Return the glued area that would be drawn open: the step a back lies in, or all of it where it lies on edges."""
    if abs(joint.press) == 2:
        return joint.glue_area_mm2
    return min(joint.glue_area_mm2, _run_mm(back, joint) * mm(joint.seat))


def _lip_mm2(built: Construction, back: Draft, joint: Joint) -> float:
    """Return the area along which the wood behind a groove would shear off, where no notch has taken it away."""
    host, _ = parts_of(built, joint)
    rear = max(feature.envelope().y1 for feature in host.features if feature.joint == joint.id)
    notches = [box for feature in host.features if feature.kind == "notch" for box in feature.boxes]
    gone = fsum(mm(box.z1 - box.z0) for box in notches if box.y1 > rear and abs(joint.press) == 1)
    return max(0.0, mm(host.box.y1 - rear)) * max(0.0, _run_mm(back, joint) - gone)


def _lies_on(upper: Draft, lower: Draft) -> float:
    """Return the area, mm2, over which one part lies on another."""
    a, b = upper.box, lower.box
    if a.z0 != b.z1:
        return 0.0
    wide, deep = min(a.x1, b.x1) - max(a.x0, b.x0), min(a.y1, b.y1) - max(a.y0, b.y0)
    return max(0, wide) * max(0, deep) / NM_PER_MM**2
