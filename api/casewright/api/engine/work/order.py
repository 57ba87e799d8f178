"""The order of work as a graph: each step names the steps that must be done first and the parts at hand.

Parts are cut by shared setting and grooves by shared setting; the case is fitted dry before glue; a door's
panel is cut and fitted before the door is glued.
"""

from collections import Counter
from collections.abc import Iterable

from casewright.api.engine.work.building import build_cabinet, set_cabinet
from casewright.api.engine.work.putting_up import set_out, set_run
from casewright.api.engine.work.settings import CutKey, cut_key, describe, shared_keys
from casewright.api.engine.work.steps import Steps
from casewright.sdk.model import Job, Joint, Part, Run, Stage, Step
from casewright.sdk.units import to_number

_SAW = "Riving knife and guard stay on; use a push stick for narrow strips."


def order_of_work(
    job: Job, parts: tuple[Part, ...], joints: tuple[Joint, ...], run: Run | None = None
) -> tuple[Step, ...]:
    """Return the steps of the whole job in an order that respects their needs.

    Cabinets of a run are put up one place after another, in the run's order.
    """
    steps = Steps(job)
    measured = _measure(steps, parts)
    _cut_parts(steps, parts, measured)
    _cut_joints(steps, parts)
    by_cabinet: dict[str, list[Part]] = {}
    for part in parts:
        by_cabinet.setdefault(part.cabinet, []).append(part)
    joined = {joint.guest for joint in joints} | {joint.host for joint in joints}
    placed = {standing.cabinet for standing in run.standings} if run else set()
    struck = [set_out(steps, run)] if run else []
    ready: dict[str, list[int]] = {}
    for cabinet in job.cabinets:
        mine = by_cabinet.get(cabinet.id, [])
        ready[cabinet.id] = build_cabinet(steps, cabinet, mine, joined, struck if cabinet.id in placed else [])
        if cabinet.id not in placed:
            set_cabinet(steps, cabinet, mine, ready[cabinet.id])
    if run is not None:
        set_run(steps, run, by_cabinet, ready, struck[0])
    return tuple(steps.steps)


def _measure(steps: Steps, parts: tuple[Part, ...]) -> int:
    used = sorted({part.material for part in parts})
    thicknesses = "; ".join(f"{key} {steps.text(steps.job.materials[key].thickness)}" for key in used)
    return steps.add(
        Stage.MEASURE,
        "Measure every sheet and board with callipers; where one differs from the job, change the job first",
        (),
        thicknesses,
    )


def _cut_parts(steps: Steps, parts: tuple[Part, ...], measured: int) -> None:
    """Rip every part of one material and width at one fence setting, then cross-cut by shared stop."""
    for part in parts:
        steps.done[part.id] = (measured,)
    rips: dict[tuple[str, int], list[Part]] = {}
    for part in parts:
        rips.setdefault((part.material, part.width), []).append(part)
    texts = _distinct_texts(steps, rips)
    for (material, width), group in sorted(rips.items(), key=lambda item: (item[0][0], -item[0][1])):
        text = texts[material, width]
        steps.add(Stage.CUT, f"Rip {material} to {text} wide. {_SAW}", group, f"fence {text}")
    stops: dict[tuple[str, int], list[Part]] = {}
    for part in parts:
        stops.setdefault((part.material, part.length), []).append(part)
    texts = _distinct_texts(steps, stops)
    for (material, length), group in sorted(stops.items(), key=lambda item: (item[0][0], -item[0][1])):
        text = texts[material, length]
        do = f"Cross-cut {material} to {text} long, all against one stop, and mark each part with its id"
        steps.add(Stage.CUT, do, group, f"stop {text}")


def _distinct_texts(steps: Steps, sizes: Iterable[tuple[str, int]]) -> dict[tuple[str, int], str]:
    """Return the bench text of each material's sizes; sizes that read alike on the tape show their number too."""
    texts = {size: steps.text(size[1]) for size in sizes}
    shared = Counter((material, text) for (material, _), text in texts.items())
    units = steps.job.units
    return {
        (material, nm): f"{text} ({to_number(nm, units):.10g})" if shared[material, text] > 1 else text
        for (material, nm), text in texts.items()
    }


def _cut_joints(steps: Steps, parts: tuple[Part, ...]) -> None:
    """Make every cut of one kind and setting before the setting is changed."""
    wanted = [(part, key) for part in parts for key in dict.fromkeys(cut_key(part, f) for f in part.features)]
    shared = shared_keys(key for _, key in wanted if key.stage == Stage.JOINTS)
    settings: dict[CutKey, dict[str, Part]] = {}
    for part, key in wanted:
        if key in shared:
            settings.setdefault(shared[key], {})[part.id] = part
    for key, group in sorted(settings.items(), key=lambda item: item[0].rank):
        do, setting = describe(key, steps.text)
        steps.add(Stage.JOINTS, do, group.values(), setting)
