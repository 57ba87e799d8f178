"""What shelves and drawers rest on: the ends of fixed shelves and the bottom, shelf pins, the screws of runners."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import fsum

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.draft import Draft
from casewright.api.engine.construction.drawers import SYSTEM_SCREW_WIDTH, Drawer
from casewright.api.engine.construction.inside import Leaf
from casewright.api.engine.judge.contents import drawer_pressure_pa
from casewright.api.engine.judge.joint_strength import end_ways
from casewright.api.engine.judge.shelf_sag import level_loads
from casewright.api.engine.judge.weights import Masses
from casewright.sdk.engineering import adjust, bearing, hanging_forces, load_path
from casewright.sdk.engineering.limits import OutsideLimits
from casewright.sdk.engineering.load_path import Link
from casewright.sdk.engineering.units import G_M_S2, MPA_PER_PSI, NM_PER_MM, inches, mm, weight_n
from casewright.sdk.geometry import Cylinder
from casewright.sdk.materials import Stuff
from casewright.sdk.model import Check, Finding, Level, Purpose

LASTING, BRIEF = adjust.DURATION["permanent"], adjust.DURATION["ten-minutes"]
PINS = 4
"""Pins under a loose shelf."""


@dataclass(frozen=True, slots=True)
class _Support:
    """One thing that carries: its check's code and subject, the link, and the load at which its wood gives way, N.

    Of glue, grooves and dowels that is taken as what they may carry for minutes.
    """

    code: str
    subject: str
    link: Link
    gives_way_n: float


def support_checks(
    built: Construction, masses: Masses, drawers: Sequence[Drawer], leaves: Sequence[Leaf]
) -> tuple[Check, ...]:
    """Judge what carries every level and every drawer; what holds is a note on the hardest-worked of its kind.

    Over its allowable value is a caution, over the load at which the wood gives way a stop.
    """
    supports: dict[tuple[str, str], _Support] = {}
    pressure_pa = drawer_pressure_pa(built, leaves)
    loaded = [(drawer, _loaded_n(built, masses, drawer, pressure_pa)) for drawer in drawers]
    for one in (*_levels(built, masses), *_runners(built, loaded)):
        key = (one.code, one.subject)
        if key not in supports or supports[key].link.use < one.link.use:
            supports[key] = one
    kinds = dict.fromkeys(one.code for one in supports.values())
    worst = [max((s for s in supports.values() if s.code == kind), key=lambda s: s.link.use) for kind in kinds]
    over = [one for one in supports.values() if one.link.use > 1.0]
    checks = [_check(one) for one in [*over, *(one for one in worst if one.link.use <= 1.0)]]
    return (*checks, *(check for drawer, weight in loaded for check in _rated(built, drawer, weight)))


_LESS: Mapping[str, str] = {
    "shelf-pins": "let longer pins in deeper, divide the shelf's space, or load it less",
    "shelf-ends": "divide its space, let it into grooves, or load it less",
    "runner-screws": "divide its space, or load the drawer less",
}
"""What to do about a support that carries too much, by its code."""


def _check(support: _Support) -> Check:
    link = support.link
    level: Level = "note"
    message = f"{link.name} holds what it carries, the hardest-worked of its kind ({link.by})"
    if link.by == "nothing":
        level, message = "stop", f"nothing that is covered here holds {link.name}: glue it, or let it into a groove"
    elif link.use > 1.0:
        level = "stop" if link.load_n > support.gives_way_n else "caution"
        message = f"{link.name} carries more than is allowed on it ({link.by})"
        message += "; the wood gives way" if level == "stop" else ", though less than makes the wood give way"
        message += f": {_LESS[support.code]}"
    finding = Finding(support.code, level, message, round(link.load_n, 3), round(link.holds_n, 3), "N", link.source)
    return Check(support.subject, finding)


def _levels(built: Construction, masses: Masses) -> Iterator[_Support]:
    """Yield the supports of each level: its pins where it is loose, else the joints at its ends."""
    for draft, load_n in level_loads(built, masses):
        subject = f"{built.id}/{draft.key}"
        if draft.group == "loose":
            yield _pins(built, draft, load_n)
            continue
        for joint in built.joints:
            if joint.guest == subject and joint.kind in ("corner", "tee") and abs(joint.press) == 1:
                ways = list(end_ways(built, joint, load_n / 2.0, LASTING))
                link = load_path.best(f"an end of {draft.name}", ways)
                yield _Support("shelf-ends", subject, link, link.holds_n * BRIEF / LASTING)


def _pins(built: Construction, shelf: Draft, load_n: float) -> _Support:
    """Return what one pin holds: a short stiff pin in the weaker side, loaded in the middle of what stands out of it.

    As much stands out as is let in (common practice, no source); the shelf's own play at the ends lengthens the arm.
    """
    play = built.cabinet.case.pins.shelf_play
    alike = {
        (draft.material.stuff, hole.diameter, hole.depth)
        for draft, hole in _holes(built, Purpose.SHELF_PINS)
        if shelf.box.x0 - hole.mouth[0] <= 2 * play and hole.mouth[0] - shelf.box.x1 <= 2 * play
    }
    stuff = built.registry.catalogue.stuff
    yields = [_yield(stuff(of), mm(wide), mm(deep), mm(deep) / 2.0 + mm(play) / 2.0) for of, wide, deep in alike]
    least = min(yields, default=(0.0, 1.0))
    holds = least[0] * LASTING / least[1]
    link = Link(f"each pin of {shelf.name}", load_n / PINS, holds, "wood round the pin" if holds else "nothing")
    return _Support("shelf-pins", f"{built.id}/{shelf.key}", link, least[0])


def _yield(stuff: Stuff, diameter_mm: float, depth_mm: float, arm_mm: float) -> tuple[float, float]:
    """Return at what load the wood round a stiff pin gives way, and the divisor that makes it an allowable one.

    Nothing in wood, or for a pin, that no rule covers.
    """
    if stuff.g_oven_dry is None:
        return 0.0, 1.0
    try:
        pressure = bearing.bearing_psi(stuff.g_oven_dry, inches(diameter_mm), 90.0) * MPA_PER_PSI
        divisor = bearing.reduction(inches(diameter_mm), inches(diameter_mm), 90.0).one
    except OutsideLimits:
        return 0.0, 1.0
    return load_path.short_pin_n(pressure, diameter_mm, depth_mm, arm_mm, 1.0), divisor


def _loaded_n(built: Construction, masses: Masses, drawer: Drawer, pressure_pa: float) -> float:
    """Return what a drawer weighs with what lies in it, in newtons."""
    parts = [(key, draft) for key, draft in built.drafts.items() if draft.group == drawer.key]
    bottoms = [draft for _, draft in parts if draft.role == "box-bottom"]
    contents = fsum(pressure_pa * d.box.size[0] * d.box.size[1] * 1e-18 for d in bottoms)
    return fsum(weight_n(masses[key][0]) for key, _ in parts) + contents


def _rated(built: Construction, drawer: Drawer, weight: float) -> Iterator[Check]:
    """Yield a stop where a drawer with what lies in it is heavier than its runners are rated for."""
    slide, loaded_kg = drawer.slide, weight / G_M_S2
    if slide.rated_kg is not None and loaded_kg > slide.rated_kg:
        carries, rated = built.write.mass_kg(loaded_kg), built.write.mass_kg(slide.rated_kg)
        message = (
            f"with what lies in it it is {carries}, its runners are rated for {rated}: take runners rated for more"
        )
        message += ", divide its space, or load it less"
        figures = round(loaded_kg, 3), slide.rated_kg, "kg", slide.source_code("rated_kg")
        yield Check(f"{built.id}/{drawer.key}", Finding("runner-load", "stop", message, *figures))


def _runners(built: Construction, loaded: Sequence[tuple[Drawer, float]]) -> Iterator[_Support]:
    """Yield the hardest-worked screw of each drawer's runners, the loaded drawer fully out.

    Half its weight hangs on each runner, its travel in front of where it lies shut, over the screws as a group. It
    stands out for minutes, which sets C_D.
    """
    for drawer, weight in loaded:
        parts = [draft for draft in built.drafts.values() if draft.group == drawer.key]
        bottoms = [draft for draft in parts if draft.role == "box-bottom"]
        if not bottoms:
            continue
        middle = (bottoms[0].box.y0 + bottoms[0].box.y1) / 2 - drawer.travel
        low, high = (min(d.box.z0 for d in parts), max(d.box.z1 for d in parts))
        name = f"each runner screw of {drawer.key.replace('-', ' ')}"
        for stuff, holes in _rows(built, low, high):
            points = [(hole.mouth[1] / NM_PER_MM, hole.mouth[2] / NM_PER_MM) for hole in holes]
            shears = hanging_forces.shear_vectors_n(weight / 2.0, middle / NM_PER_MM, points)
            worst = max(abs(down) for _, down in shears)
            gives_way, divisor = min(_yield(stuff, mm(SYSTEM_SCREW_WIDTH), mm(hole.depth), 0.0) for hole in holes)
            holds = gives_way * BRIEF / divisor
            link = Link(name, worst, holds, "screws" if holds else "nothing")
            yield _Support("runner-screws", f"{built.id}/{drawer.key}", link, gives_way)


def _rows(built: Construction, low: int, high: int) -> Iterator[tuple[Stuff, list[Cylinder]]]:
    """Yield the screw holes of each runner between two heights, with the wood they are in: one face, one row.

    A runner on a single screw has no arm to judge and is left out.
    """
    rows: dict[tuple[str, int, int], list[Cylinder]] = {}
    for draft, hole in _holes(built, Purpose.RUNNER):
        if low <= hole.mouth[2] <= high:
            rows.setdefault((draft.key, hole.mouth[0], hole.mouth[2]), []).append(hole)
    for (key, _, _), holes in rows.items():
        if len(holes) > 1:
            yield built.stuff(built.drafts[key].material), holes


def _holes(built: Construction, purpose: Purpose) -> Iterator[tuple[Draft, Cylinder]]:
    for draft in built.drafts.values():
        for feature in draft.features:
            if feature.purpose is purpose:
                for hole in feature.holes:
                    yield draft, hole
