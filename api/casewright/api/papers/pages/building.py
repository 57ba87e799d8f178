"""The booklet's building pages: joints by setting, the dry fit, glue-up gates, hardware, and drilling."""

from casewright.api.engine.work.lying import piece_words
from casewright.api.papers.facts import Facts
from casewright.api.papers.pages.bench import AT_MACHINES, box
from casewright.api.papers.pages.setting import BOX, CELL, HEAD, SMALL, UNDER, WARN, drawings, gap, para, table
from casewright.api.papers.views.cuts import cuts_of
from casewright.api.papers.views.page import finish
from casewright.api.papers.views.template import template
from casewright.sdk.model import Action, Machine, Operation, Stage
from reportlab.platypus import Flowable


def joints(facts: Facts) -> list[Flowable]:
    """Return the joint cuts, one line a setting."""
    story: list[Flowable] = [para("Joints by setting", HEAD)]
    found = [step for step in facts.plan.steps if step.stage == Stage.JOINTS]
    if not found:
        return [*story, para("No joints are cut.")]
    story.append(para("Make every cut of a line before the setting is changed; try each setting on a scrap of the same "
                      "wood first.", SMALL))  # fmt: skip
    rows = [
        [box(facts, s), s.number, s.do, "; ".join(piece_words(s, facts.parts, facts.sides, facts.tape))] for s in found
    ]
    story.append(table(("", "Step", "What", "How each piece lies"), rows, (4, 6, 38, 54)))
    return story


def dry_fit(facts: Facts) -> list[Flowable]:
    """Return what to look for at the dry fit, joint by joint."""
    plan = facts.plan.dry_fit
    story: list[Flowable] = [para("Dry fit", HEAD)]
    story.append(para("Put everything together without glue. Each guest must reach its seat with the room named here, "
                      "by hand or with light taps; then measure the outside and both diagonals.", SMALL))  # fmt: skip
    if plan.clashes:
        story.append(para("The planned parts clash: do not cut before this is cured.", WARN))
        story += [
            para(f"{c.first} and {c.second} share {facts.writer.volume_mm3(c.volume_mm3)}") for c in plan.clashes[:20]
        ]
    seats = {seat.joint: seat for seat in plan.seats}
    rows: list[list[object]] = []
    for joint in facts.plan.joints:
        seat = seats.get(joint.id)
        depth, room = (seat.seat, seat.clearance) if seat else (joint.seat, joint.clearance)
        fault = "" if seat is None or seat.seated else "DOES NOT SEAT"
        rows.append([BOX, joint.guest, joint.host, joint.method, facts.bare(depth), facts.bare(room), fault])
    if rows:
        story.append(table(("", "Guest", "goes into", "Joint", "Depth", "Room", ""), rows, (4, 28, 28, 16, 10, 10, 10)))
    for cabinet in facts.cabinets.values():
        outside = " × ".join(facts.bare(n) for n in (cabinet.width, cabinet.height, cabinet.depth))
        story.append(para(f"{BOX} {cabinet.id}: outside {outside} {facts.units}, both diagonals alike"))
    story.append(
        para(
            f"{plan.pairs_checked} pairs of parts were tried in the plan: " + "; ".join(plan.approximations) + ".",
            SMALL,
        )
    )
    return story


def _before(step: Operation, by_number: dict[int, Operation]) -> list[Operation]:
    """Return the steps on a glue-up's own parts that must be done first, back to where they were last left clamped."""
    own = set(step.parts)
    seen: dict[int, Operation] = {}
    stack = list(step.needs)
    while stack:
        number = stack.pop()
        if number in seen or number not in by_number or own.isdisjoint(by_number[number].parts):
            continue
        found = by_number[number]
        seen[number] = found
        if found.action is not Action.WAIT:
            stack.extend(found.needs)
    return [seen[n] for n in sorted(seen)]


def _on(need: Operation, gate: Operation, names: dict[str, str]) -> str:
    """Return a step in words; of one at a machine, only what is done to the parts of this glue-up."""
    if need.machine is Machine.BY_HAND:
        return need.do
    return f"{need.action}: {', '.join(names[part] for part in need.parts if part in gate.parts)}"


def _is_glue(step: Operation) -> bool:
    return step.action is Action.GLUE and step.stage not in AT_MACHINES


def gates(facts: Facts) -> list[Flowable]:
    """Return each glue-up with what must be ready before the glue is opened; how it is done stands in its steps."""
    story: list[Flowable] = [para("Glue-up gates", HEAD)]
    glue = [step for step in facts.plan.steps if _is_glue(step)]
    if not glue:
        return [*story, para("Nothing is glued.")]
    story.append(para("No glue is opened before every box of its gate is ticked. Clamps set to width, cauls waxed, "
                      "a wet rag and a square at hand, the open time read from the glue's label.", SMALL))  # fmt: skip
    for one in facts.plan.workshop:
        write = facts.writer
        glue_line = write.small_area_mm2(one.glue_area_mm2)
        story.append(para(f"{one.cabinet}: glue on {glue_line}, about {write.mass_g(one.glue_g)}."))
    by_number = {step.number: step for step in facts.plan.steps}
    names = {part.id: part.name for part in facts.plan.parts}
    for step in glue:
        story.append(para(f"Step {step.number}: {step.do}", UNDER))
        story += [
            para(f"{box(facts, need)} {need.number}: {_on(need, step, names)}", CELL)
            for need in _before(step, by_number)
        ]
        story.append(para(f"{BOX} parts at hand: " + ", ".join(step.parts), CELL))
        story.append(gap(3))
    return story


def hardware(facts: Facts) -> list[Flowable]:
    """Return hardware by cabinet and the shopping list over all of them."""
    story: list[Flowable] = [para("Hardware and shopping list", HEAD)]
    if not facts.plan.hardware:
        return [*story, para("This job needs no hardware.")]
    total: dict[tuple[str, str], int] = {}
    for line in facts.plan.hardware:
        total[line.item, line.name] = total.get((line.item, line.name), 0) + line.quantity
    story.append(para("To buy for the whole job", UNDER))
    rows: list[list[object]] = [
        [BOX, n, name, item] for (item, name), n in sorted(total.items(), key=lambda i: i[0][1])
    ]
    story.append(table(("", "Pieces", "What", "Catalogue id"), rows, (4, 10, 60, 30)))
    bands = {w.cabinet: w.band_length for w in facts.plan.workshop if w.band_length}
    for cabinet, nm in bands.items():
        story.append(para(f"Edge band for {cabinet}: {facts.tape(nm)} in all, and some to trim."))
    story.append(para("Where it goes", UNDER))
    used: list[list[object]] = [[h.cabinet, h.quantity, h.name, h.used_for] for h in facts.plan.hardware]
    story.append(table(("Cabinet", "Pieces", "What", "For"), used, (14, 9, 40, 40)))
    return story


def drilling(facts: Facts, paper: str, mark: str) -> list[Flowable]:
    """Return every hole as a row, then the templates at full size."""
    story: list[Flowable] = [para("Drilling", HEAD)]
    rows: list[list[object]] = []
    for part in facts.plan.parts:
        for cut in cuts_of(facts, part):
            if not cut.holes:
                continue
            where = [f"{facts.bare(nm)} from the {facts.sides[part.id][side]}" for side, nm in cut.starts]
            rows.append([BOX, part.id, cut.what, cut.enters, cut.size, "; ".join(where)])
    if not rows:
        return [*story, para("No holes are drilled.")]
    story.append(para("Set the depth stop on a scrap; centre-punch or prick each centre; clamp the part.", SMALL))
    story.append(table(("", "Part", "Holes", "Enter by", "Size", "First centres"), rows, (4, 22, 16, 13, 24, 28)))
    sheets = finish(facts, template(facts, None, paper), paper, mark)
    return [*story, *drawings(sheets)]
