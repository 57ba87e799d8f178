"""Whether hinges and pulls suit their doors: enough of them, far enough apart, and bored in sound wood."""

import math
from collections.abc import Iterator, Sequence

from casewright.api.engine.construction.construction import Construction
from casewright.api.engine.construction.hinges import HungDoor, cup_screw, pin_holes
from casewright.api.engine.construction.pulls import part_at, pull_holes
from casewright.sdk.engineering import adjust
from casewright.sdk.engineering.hinges import LEAST_SPACING, racking_pull_n
from casewright.sdk.engineering.units import mm
from casewright.sdk.engineering.withdrawal import screw_n_mm
from casewright.sdk.model import LENGTH, Check, Finding, Level
from casewright.sdk.writer import Writer

BORE_PLAY = 1_000_000
"""A bore wider than the cup by more than this (1 mm, in nm) is a caution (common practice, no source)."""

LEAST_UNDER_CUP = 2_000_000
"""Wood that should be left under a cup (2 mm, in nm; common practice, no source)."""

HALF_HINGE = 26_000_000
"""A hinge and its plate reach this far (26 mm, in nm) over and under the cup centre (common practice, no source)."""

PLATE_HOLE = 5_000_000
"""Diameter of a hole for a plate's screw (5 mm, in nm; the 32 mm convention)."""

LEAST_BESIDE_PIN = 3_000_000
"""Wood that should be left between a plate's screw and a pin hole (3 mm, in nm; common practice, no source)."""

SHARED = 100_000
"""Holes nearer one another than this (0.1 mm, in nm) are one."""

BRIEF = adjust.DURATION["ten-minutes"]
RACKING = "kcma-a161-1-6-1"
PRACTICE = "common-practice"


def door_hardware_checks(built: Construction, hung: Sequence[HungDoor]) -> tuple[Check, ...]:
    """Judge the hinges and the pull of every door."""
    return tuple([check for one in hung for check in _door_checks(built, one)])


def _door_checks(built: Construction, hung: HungDoor) -> Iterator[Check]:
    door = f"{built.id}/{hung.door.key}"
    for finding in (*_count(hung, built.write), _racking(built, hung), *_overlay(hung)):
        yield Check(door, finding)
    part = f"{built.id}/{hung.part}"
    for finding in (*_bore(hung, built.write), *_land(hung), *_off_wood(built, hung)):
        yield Check(part, finding)
    yield from _shelves(built, hung)
    yield from _pins(built, hung)
    for finding in _pull(built, hung):
        yield Check(door, finding)


def _count(hung: HungDoor, write: Writer) -> Iterator[Finding]:
    """Yield how many hinges a door has and why, and where they are too few or stand too close together."""
    rule, heights, count = hung.rule, hung.heights, len(hung.heights)
    source = hung.hinge.source_code("count_by_height")
    wide = ", and one more for its width" if rule.for_width else ""
    height, mass = write.length(hung.door.height), write.mass_kg(hung.mass_kg)
    words = f"its height of {height} asks for {rule.by_height}, its mass of {mass} for {rule.by_mass}{wide}"
    if count < rule.count:
        message = (
            f"{count} hinges are too few: {words}; set more where the door takes them, or make it taller or lighter"
        )
        yield Finding("hinges-too-few", "caution", message, count, rule.count, "hinges", source)
    else:
        yield Finding("hinge-count", "note", f"{count} hinges: {words}", count, None, "hinges", source)
    if rule.too_heavy:
        yield Finding(
            "hinge-mass",
            "stop",
            "the door is heavier than the hinge's table reaches; make it lighter or choose another hinge",
            round(hung.mass_kg, 3),
            hung.hinge.count_by_mass[-1].up_to_kg,
            "kg",
            hung.hinge.source_code("count_by_mass"),
        )
    spacing = (heights[-1] - heights[0]) // (count - 1)
    if spacing < LEAST_SPACING:
        yield Finding(
            "hinge-spacing",
            "stop",
            "the hinges stand too close together for their cups; make the door taller or lighter",
            spacing,
            LEAST_SPACING,
            LENGTH,
            PRACTICE,
        )


def _overlay(hung: HungDoor) -> Iterator[Finding]:
    """Yield where no arm and plate on record come within the hinge's own adjustment of the door's overlay."""
    fitting = hung.fitting
    if fitting is not None and abs(fitting.adjust) > hung.hinge.side_adjustment:
        message = (
            "no arm and plate of this hinge give the door's overlay; the nearest is this far off, more than the hinge "
            "adjusts: pack its plates, or choose another overlay, bore distance or hinge"
        )
        limit, source = hung.hinge.side_adjustment, hung.hinge.source_code("arms")
        yield Finding("hinge-overlay", "caution", message, abs(fitting.adjust), limit, LENGTH, source)


def _racking(built: Construction, hung: HungDoor) -> Finding:
    """Return what the standard's racking test would pull the top hinge with, over what its two cup screws hold.

    A test load for minutes, which sets C_D. Screws in a panel have no source for pulling out: nothing to hold it to.
    """
    apart = max(1.0, mm(hung.heights[-1] - hung.heights[0]))
    pull = racking_pull_n(apart, hung.mass_kg, mm(hung.door.width))
    screw = cup_screw(built, hung)
    stuff = built.stuff(built.drafts[hung.part].material)
    message = "the racking test of the cabinet standard, 65 lbf at 10 in, would pull the top hinge's screws by this"
    message = message if built.write.inches else message.replace("65 lbf at 10 in", "289 N at 254 mm")
    if stuff.g_oven_dry is None or not stuff.holds_screws:
        words = f"{message}; no source says what they hold in {stuff.title}"
        return Finding("door-racking", "note", words, round(pull, 2), None, "N", RACKING)
    holds = 2 * screw_n_mm(stuff.g_oven_dry, mm(screw.diameter)) * mm(min(screw.thread, screw.length)) * BRIEF
    level: Level = "caution" if pull > holds else "note"
    return Finding("door-racking", level, message, round(pull, 2), round(holds, 2), "N", RACKING)


def _bore(hung: HungDoor, write: Writer) -> Iterator[Finding]:
    """Yield where the bore does not suit the hinge."""
    hinge, bore, edge = hung.hinge, hung.bore, hung.edge
    if bore - hinge.cup_diameter > BORE_PLAY:
        yield Finding(
            "bore-wider-than-cup",
            "caution",
            f"the bore is wider than the cup by more than {write.length(BORE_PLAY)}; the flange and screws alone hold "
            "the hinge",
            bore,
            hinge.cup_diameter + BORE_PLAY,
            LENGTH,
            PRACTICE,
        )
    if bore < hinge.cup_diameter:
        message = "the cup does not enter the bore"
        yield Finding("bore-narrower-than-cup", "stop", message, bore, hinge.cup_diameter, LENGTH, PRACTICE)
    if not hinge.edge_least <= edge <= hinge.edge_most:
        message = "the bore stands outside the hinge's range of edge distance"
        limit = hinge.edge_most if edge > hinge.edge_most else hinge.edge_least
        yield Finding("bore-edge-distance", "stop", message, edge, limit, LENGTH, hinge.source_code("edge_most"))


def _land(hung: HungDoor) -> Iterator[Finding]:
    """Yield where the bore leaves too little wood: under it, to the panel and its groove, to the stile's edge."""
    land, reach = hung.land, hung.edge + hung.bore
    left_under = hung.door.design.thickness - hung.hinge.bore_depth
    if left_under < LEAST_UNDER_CUP:
        message = "little or no wood is left under the cup"
        level: Level = "stop" if left_under <= 0 else "caution"
        yield Finding("wood-under-bore", level, message, left_under, LEAST_UNDER_CUP, LENGTH, PRACTICE)
    if land.panel is not None and reach > land.panel:
        message = "the bore runs into the door panel; widen the stile or take the hinge's least edge distance"
        yield Finding("bore-meets-panel", "stop", message, reach, land.panel, LENGTH, PRACTICE)
    elif reach > land.inner_edge:
        message = "the bore breaks out of the stile's inner edge"
        yield Finding("bore-past-stile", "stop", message, reach, land.inner_edge, LENGTH, PRACTICE)
    elif reach > land.clear:
        message = "the bore runs into the panel groove"
        yield Finding("bore-meets-groove", "caution", message, reach, land.clear, LENGTH, PRACTICE)


def _off_wood(built: Construction, hung: HungDoor) -> Iterator[Finding]:
    """Yield where a bore was left out, as it does not lie wholly in its wood."""
    box = built.drafts[hung.part].box
    if all(box.holds(cup.envelope) for cup in hung.cups):
        return
    message = (
        "a hinge bore does not lie wholly in its wood and is left out; widen the stile, make the door taller or "
        "choose a smaller hinge"
    )
    yield Finding("bore-off-wood", "stop", message, box.x1 - box.x0, 2 * (hung.bore // 2) + hung.edge, LENGTH, PRACTICE)


def _shelves(built: Construction, hung: HungDoor) -> Iterator[Check]:
    """Yield where a fixed shelf stands in the way of a hinge or of the driver that fixes its plate."""
    door = hung.door
    region = door.opening.leaf.region
    centres = [door.at[2] + up for up in hung.heights]
    for draft in built.drafts.values():
        box = draft.box
        loose = draft.group == "loose" and hung.plates.packing > 0
        if draft.role != "shelf" or not (draft.group == "case" or loose) or not region.z0 < box.z0 < region.z1:
            continue
        if box.x0 >= region.x1 or box.x1 <= region.x0:
            continue
        room, centre = min((max(box.z0 - z, z - box.z1), z) for z in centres)
        if room < HALF_HINGE:
            way = "up" if box.z0 + box.z1 >= 2 * centre else "down"
            by = built.write.length(HALF_HINGE - room)
            where = "set the shelf on other pins" if loose else f"move the shelf {by} {way} or more"
            message = f"a hinge of {door.key} stands at this shelf; {where}"
            finding = Finding("hinge-near-shelf", "caution", message, room, HALF_HINGE, LENGTH, PRACTICE)
            yield Check(f"{built.id}/{draft.key}", finding)


def _pins(built: Construction, hung: HungDoor) -> Iterator[Check]:
    """Yield where a plate's screw meets a shelf pin hole, or leaves thin wood to it; one that shares a hole is well."""
    near: list[tuple[int, Finding]] = []
    for _, y, z in hung.plate_screws:
        for hole in pin_holes(built, hung.plates):
            apart = math.isqrt((hole.mouth[1] - y) ** 2 + (hole.mouth[2] - z) ** 2)
            wood = apart - (PLATE_HOLE + hole.diameter) // 2
            if wood >= LEAST_BESIDE_PIN or (apart <= SHARED and hole.diameter == PLATE_HOLE):
                continue
            level: Level = "stop" if wood < 0 else "caution"
            clear = built.write.length((PLATE_HOLE + hole.diameter) // 2 + LEAST_BESIDE_PIN)
            message = (
                f"a plate screw of {hung.door.key} and a shelf pin hole leave little or no wood between them; stand "
                f"the pin rows (`case.pins.from_front`) {clear} or more from the plates' row, or on a pitch of "
                f"{built.write.length(hung.hinge.plate_pitch)} in it, whose holes the plates then share"
            )
            finding = Finding("plate-near-pins", level, message, wood, LEAST_BESIDE_PIN, LENGTH, PRACTICE)
            near.append((wood, finding))
    if near:
        yield Check(f"{built.id}/{hung.plates.host}", min(near, key=lambda one: one[0])[1])


def _pull(built: Construction, hung: HungDoor) -> Iterator[Finding]:
    """Yield where a hole of the pull was left out, as it does not lie wholly in one piece of wood."""
    doors, door = built.cabinet.doors, hung.door
    if doors is None or doors.pull is None:
        return
    for drilled in pull_holes(doors.pull, built.registry.catalogue.pull(doors.pull.item), door):
        if part_at(built, door, drilled) is None:
            x = drilled.mouth[0]
            yield Finding(
                "pull-off-wood",
                "stop",
                "a pull hole does not lie wholly in one stile or rail; move the pull or choose another",
                min(abs(x - door.box.x0), abs(door.box.x1 - x)),
                None,
                LENGTH,
                PRACTICE,
            )
