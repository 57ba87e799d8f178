"""The order of work as a graph: each step names the steps that must be done first and the parts at hand.

Parts are cut by shared setting and grooves by shared setting; the case is fitted dry before glue; a door's
panel is cut and fitted before the door is glued.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from casewright.api.engine.settings import CutKey, cut_key, describe
from casewright.sdk.model import Cabinet, Job, Joint, Part, Step
from casewright.sdk.units import tape_text

_SAW = "Riving knife and guard stay on; use a push stick for narrow strips."


@dataclass(slots=True)
class _Work:
    """Steps so far, and the steps each part waits for."""

    job: Job
    steps: list[Step] = field(default_factory=list)
    done: dict[str, set[int]] = field(default_factory=dict)

    def add(self, stage: str, do: str, parts: Iterable[Part], setting: str = "", after: Iterable[int] = ()) -> int:
        """Add a step over `parts`, after every step those parts have been through and those in `after`."""
        ids = [p.id for p in parts]
        needs = set(after)
        for part in ids:
            needs |= self.done.get(part, set())
        number = len(self.steps) + 1
        self.steps.append(Step(number, stage, do, tuple(ids), setting, tuple(sorted(needs))))
        for part in ids:
            self.done[part] = {number}
        return number

    def text(self, nm: int) -> str:
        """Return a length as bench text."""
        return tape_text(nm, self.job.units, self.job.tape)


def order_of_work(job: Job, parts: tuple[Part, ...], joints: tuple[Joint, ...]) -> tuple[Step, ...]:
    """Return the steps of the whole job in an order that respects their needs."""
    work = _Work(job)
    measured = _measure(work, parts)
    _cut_parts(work, parts, measured)
    _cut_joints(work, parts)
    by_cabinet: dict[str, list[Part]] = {}
    for part in parts:
        by_cabinet.setdefault(part.cabinet, []).append(part)
    joined = {joint.guest for joint in joints} | {joint.host for joint in joints}
    for cabinet in job.cabinets:
        _build(work, cabinet, by_cabinet.get(cabinet.id, []), joined)
    return tuple(work.steps)


def _measure(work: _Work, parts: tuple[Part, ...]) -> int:
    used = sorted({part.material for part in parts})
    said = "; ".join(f"{key} {work.text(work.job.materials[key].thickness)}" for key in used)
    return work.add(
        "measure",
        "Measure every sheet and board with callipers; where one differs from the job, change the job first",
        (),
        said,
    )


def _cut_parts(work: _Work, parts: tuple[Part, ...], measured: int) -> None:
    """Rip every part of one material and width at one fence setting, then cross-cut by shared stop."""
    for part in parts:
        work.done[part.id] = {measured}
    rips: dict[tuple[str, int], list[Part]] = {}
    for part in parts:
        rips.setdefault((part.material, part.width), []).append(part)
    for (material, width), group in sorted(rips.items(), key=lambda item: (item[0][0], -item[0][1])):
        work.add("cut", f"Rip {material} to {work.text(width)} wide. {_SAW}", group, f"fence {work.text(width)}")
    stops: dict[tuple[str, int], list[Part]] = {}
    for part in parts:
        stops.setdefault((part.material, part.length), []).append(part)
    for (material, length), group in sorted(stops.items(), key=lambda item: (item[0][0], -item[0][1])):
        work.add(
            "cut",
            f"Cross-cut {material} to {work.text(length)} long, all against one stop, and mark each part with its id",
            group,
            f"stop {work.text(length)}",
        )


def _cut_joints(work: _Work, parts: tuple[Part, ...]) -> None:
    """Make every cut of one kind and setting before the setting is changed."""
    settings: dict[CutKey, list[Part]] = {}
    for part in parts:
        for key in dict.fromkeys(cut_key(part, feature) for feature in part.features):
            if key.stage == "joints":
                settings.setdefault(key, []).append(part)
    for key, group in sorted(settings.items(), key=lambda item: item[0].rank):
        do, setting = describe(key, work.text)
        work.add("joints", do, group, setting)


def _build(work: _Work, cabinet: Cabinet, parts: list[Part], joined: set[str]) -> None:
    if not parts:
        return
    groups: Mapping[str, list[Part]] = _by_group(parts)
    case = groups.get("case", [])
    dry = work.add("dry-fit", f"Fit the case of {cabinet.id} together dry and check it for square and size", case)
    glued = work.add("glue", f"Glue and clamp the case of {cabinet.id}; check both diagonals", case, after=[dry])
    frame_done = _frame(work, cabinet, groups.get("face-frame", []), case, glued)
    banded = [p for p in [*case, *groups.get("loose", [])] if p.bands]
    ready = glued if frame_done is None else frame_done
    if banded:
        ready = work.add("band", f"Band the front edges of {cabinet.id} and trim them flush", banded, after=[ready])
    hung = [
        _door(work, cabinet, name, group, joined, ready, case) for name, group in groups.items() if name[:5] == "door-"
    ]
    loose = groups.get("loose", [])
    if loose:
        ready = work.add("hardware", f"Set shelf pins and loose shelves in {cabinet.id}", loose, after=[ready])
    _mount(work, cabinet, groups.get("mounting", []), case, [ready, *hung])


def _by_group(parts: list[Part]) -> dict[str, list[Part]]:
    groups: dict[str, list[Part]] = {}
    for part in parts:
        groups.setdefault(part.group, []).append(part)
    return groups


def _frame(work: _Work, cabinet: Cabinet, frame: list[Part], case: list[Part], glued: int) -> int | None:
    if not frame:
        return None
    dry = work.add("face-frame", f"Fit the face frame of {cabinet.id} together dry on the case", frame, after=[glued])
    made = work.add("face-frame", f"Glue and clamp the face frame of {cabinet.id} flat and square", frame, after=[dry])
    return work.add(
        "face-frame",
        f"Glue the face frame on the case of {cabinet.id}, then hold it with brads",
        [*frame, *case],
        after=[made],
    )


def _door(
    work: _Work, cabinet: Cabinet, name: str, parts: list[Part], joined: set[str], ready: int, case: list[Part]
) -> int:
    title = f"{name.replace('-', ' ')} of {cabinet.id}"
    panels = [p for p in parts if p.role == "door-panel"]
    last: list[int] = []
    if panels:
        last = [work.add("doors", f"Fit the panel of {title} dry in its frame: it must slide and the frame must close",
                         parts, after=last)]  # fmt: skip
    if any(p.id in joined for p in parts):
        last = [work.add("doors", f"Glue and clamp {title}; no glue on the panel", parts, after=last)]
    bored = [p for p in parts if any(cut_key(p, f).stage == "doors" for f in p.features)]
    if bored:
        last = [
            work.add("doors", f"Bore {title} for hinge cups and pull from the drilling positions", bored, after=last)
        ]
    return work.add("hardware", f"Fix hinges and pull, hang {title} and set its gaps", parts, after=[*last, ready])


def _mount(work: _Work, cabinet: Cabinet, parts: list[Part], case: list[Part], after: list[int]) -> None:
    on_wall = [p for p in parts if p.role == "wall-cleat"]
    on_case = [p for p in parts if p.role != "wall-cleat"]
    last = list(after)
    if on_case:
        last.append(work.add("mounting", f"Fix cleat and strips to {cabinet.id}", on_case, after=after))
    if not parts:
        return
    if on_wall:
        last.append(
            work.add("mounting", f"Screw the wall cleat of {cabinet.id} level into the studs, at the marked points",
                     on_wall)
        )  # fmt: skip
    work.add(
        "hang",
        f"Hang {cabinet.id} with a helper, doors and shelves off where that is lighter; set the fastener that stops "
        "it lifting off before it is loaded",
        [*case, *parts],
        after=last,
    )
