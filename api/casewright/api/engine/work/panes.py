"""Panes, and whatever else is bought at its finished size: what to order, and doors glazed when they are finished.

A pane whose stops are set in after it comes last: no door is bored, sanded or finished with glass in it.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from casewright.api.engine.work.assembly import Insertion
from casewright.api.engine.work.gluing import set_in
from casewright.api.engine.work.naming import joined
from casewright.api.engine.work.on_bench import OnBench
from casewright.api.engine.work.setting_in import short_name
from casewright.api.engine.work.steps import Steps
from casewright.api.engine.work.together import Together
from casewright.sdk.loader import Registry
from casewright.sdk.model import Action, HardwareLine, Job, Part, Stage
from casewright.sdk.units import tape_text, to_number
from casewright.sdk.writer import writer

__all__ = ["glaze", "last_in", "order_panes", "pane_lines", "unglazed"]

ON_ITS_FACE = OnBench(-2, flat=True)


def pane_lines(job: Job, parts: Iterable[Part], registry: Registry) -> tuple[HardwareLine, ...]:
    """Return what is bought at its finished size, a line a part."""
    lines = []
    for part in parts:
        material = job.materials[part.material]
        if material.to_size:
            length, width = (f"{to_number(nm, job.units):.10g}" for nm in (part.length, part.width))
            name = f"{registry.catalogue.stuff(material.stuff).title} cut to size, {_size(job, part)}"
            item, use = f"{material.stuff}-{length}x{width}", f"{part.id}, bought to size"
            lines.append(HardwareLine(item, name, part.cabinet, use, part.quantity))
    return tuple(lines)


def _size(job: Job, part: Part) -> str:
    """Return a pane's size as it is ordered: on the tape, and exactly where that is written otherwise."""
    sizes = (part.length, part.width, part.thickness)
    tape = " × ".join(tape_text(nm, job.units, job.tape).removesuffix(f" {job.units}") for nm in sizes)
    exact = " × ".join(writer(job.units).size(nm) for nm in sizes)
    return f"{tape} {job.units}" + (f" ({exact})" if exact != tape else "")


def last_in(job: Job, together: Together) -> tuple[Insertion, ...]:
    """Return what is set into a sub-assembly from its first pane on, where that is panes and what is pinned alone."""
    panes = {part.id for part in together.parts if job.materials[part.material].to_size}
    glued = {name for joint in together.glued for name in (joint.host, joint.guest)}
    insertions = together.order.insertions
    first = next((at for at, one in enumerate(insertions) if panes.intersection(one.parts)), len(insertions))
    last = insertions[first:]
    return () if any(glued.intersection(one.parts) for one in last) else last


def unglazed(job: Job, together: Together) -> Together:
    """Return a sub-assembly without what is set in last."""
    last = {name for one in last_in(job, together) for name in one.parts}
    if not last:
        return together
    order = together.order
    return Together(
        tuple([part for part in together.parts if part.id not in last]),
        replace(order, insertions=order.insertions[: len(order.insertions) - len(last_in(job, together))]),
        tuple([joint for joint in together.joints if not last.intersection((joint.host, joint.guest))]),
        together.hardware,
    )


def order_panes(steps: Steps, title: str, together: Together, after: Sequence[int]) -> list[int]:
    """Add the ordering of a door's panes to the rabbets of its glued frame; return it, if it has any."""
    last = {name for one in last_in(steps.job, together) for name in one.parts}
    panes = [part for part in _panes(steps.job, together) if part.id in last]
    if not panes:
        return []
    rooms = {joint.clearance for joint in together.joints if joint.guest in {part.id for part in panes}}
    words = joined([f"{short_name(part)}, {part.quantity} of {_size(steps.job, part)}" for part in panes])
    do = f"Measure the rabbets of {title}, corner to corner too, and order {words}"
    check = f"{steps.text(min(rooms))} of room at each edge of a pane; the glazier arrises its edges" if rooms else ""
    return [steps.add(Stage.DOORS, do, panes, after, check)]


def glaze(steps: Steps, title: str, together: Together, after: Sequence[int]) -> list[int]:
    """Add the steps that set a finished door's panes in, stops after them; return those that hanging it waits for."""
    last = last_in(steps.job, together)
    if not last:
        return []
    going = {name for one in last for name in one.parts}
    frame = [part for part in together.parts if part.id not in going]
    do = f"Lay {title} on its show face on a blanket and run a thin bed of glazing compound in its rabbets"
    bed = steps.by_hand(Stage.HARDWARE, Action.FIT, do, frame, after)
    order = together.order
    there = [order.first, *(name for one in order.insertions[: -len(last)] for name in one.parts)]
    done = set_in(steps, Stage.HARDWARE, (together, ON_ITS_FACE), (last, there), [bed])
    panes = {part.id for part in _panes(steps.job, together)}
    stops = [part for part in together.parts if part.id in going - panes]
    if not stops:
        return done
    do = f"Pin the stops of {title}, no glue, so that a broken pane can be changed; pins and hammer clear of the glass"
    return [steps.by_hand(Stage.HARDWARE, Action.SCREW, do, stops, done)]


def _panes(job: Job, together: Together) -> list[Part]:
    return [part for part in together.parts if job.materials[part.material].to_size]
