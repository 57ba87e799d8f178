"""The order of work as a graph: each step names the steps that must be done first and the pieces it is done to.

Parts are cut from stock by the cutting plan, joints by shared setting; what goes together in which order follows
from geometry.
"""

from collections.abc import Sequence

from casewright.api.engine.work.building import build_cabinet, prepare_place, set_cabinet
from casewright.api.engine.work.grouping import joint_operations
from casewright.api.engine.work.late import LateCut
from casewright.api.engine.work.machines import Tools
from casewright.api.engine.work.made import Made
from casewright.api.engine.work.naming import NamedParts
from casewright.api.engine.work.putting_up import set_out, set_run
from casewright.api.engine.work.repairing import put_right_parts
from casewright.api.engine.work.steps import Steps
from casewright.api.engine.work.together import Together
from casewright.api.engine.work.wording import Words
from casewright.sdk.model import Job, Operation, Part, Stage


def order_of_work(
    job: Job, made: Made, *, cutting: Sequence[Operation], late: Sequence[LateCut] = ()
) -> tuple[Operation, ...]:
    """Return the steps of the whole job in an order that respects their needs.

    `cutting` is how the parts are cut, `late` what of it waits for a measurement on the work. Cabinets of a run are
    put up one place after another, in the run's order.
    """
    parts, assemblies, run = made.parts, made.assemblies, made.run
    guests = {joint.id: joint.guest for one in assemblies.values() for joint in one.joints}
    words = Words(job, NamedParts.of(parts), made.sides, guests)
    steps = Steps(job, words, Tools.of(job.shop, job.stock), made, late)
    measured = _measure(steps, parts)
    bought = {part.id for part in parts if job.materials[part.material].to_size}
    steps.done.update({part.id: (measured,) for part in parts if part.built or part.id in bought})
    steps.extend(cutting, [measured])
    put_right_parts(steps, parts, [measured])
    at_once = [part for part in parts if part.id not in steps.waits | bought]
    steps.extend(joint_operations(at_once, steps.tools, made), [measured])
    together: dict[str, dict[str, Together]] = {}
    for (cabinet_id, group), assembled in assemblies.items():
        together.setdefault(cabinet_id, {})[group] = assembled
    placed = {standing.cabinet for standing in run.standings} if run else set()
    struck = [set_out(steps, run)] if run else []
    ready: dict[str, list[int]] = {}
    for cabinet in job.cabinets:
        mine = made.by_cabinet.get(cabinet.id, ())
        ready[cabinet.id] = build_cabinet(steps, cabinet, mine, together.get(cabinet.id, {}))
        if cabinet.id not in placed:
            set_cabinet(steps, cabinet, mine, [*ready[cabinet.id], *prepare_place(steps, cabinet, mine, [])])
    if run is not None:
        set_run(steps, run, made.by_cabinet, ready, struck[0])
    return tuple(steps.steps)


def _measure(steps: Steps, parts: Sequence[Part]) -> int:
    used = sorted({part.material for part in parts if not steps.job.materials[part.material].to_size})
    sizes = "; ".join(f"{key} {steps.words.exact(steps.job.materials[key].thickness)}" for key in used)
    do = "Measure every sheet and board with callipers; where one differs from the job, change the job first"
    if steps.job.stock is not None and not steps.job.done and any(part.built for part in parts):
        do += "; stock is counted as listed: list what is left of what the built parts were cut from"
    return steps.add(Stage.MEASURE, do, (), check=sizes)
