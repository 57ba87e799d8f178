"""Putting cabinets together: dry fit before glue, panels before doors, drawers, base, and what holds it."""

from collections.abc import Mapping

from casewright.api.engine.settings import cut_key
from casewright.api.engine.steps import Steps
from casewright.sdk.model import Cabinet, Part


def build_cabinet(work: Steps, cabinet: Cabinet, parts: list[Part], joined: set[str]) -> None:
    """Add the steps that put one cabinet together and up; `joined` are the ids of parts that any joint holds."""
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
    hung += [_drawer(work, cabinet, name, group, ready) for name, group in groups.items() if name[:7] == "drawer-"]
    base = groups.get("base", [])
    if base:
        hung.append(work.add("base", f"Make the base of {cabinet.id}, fix it and level it", base, after=[ready]))
    counter = groups.get("counter", [])
    mounted = _mount(work, cabinet, groups.get("mounting", []), case, [ready, *hung])
    if counter:
        work.add(
            "counter", f"Lay the counter on {cabinet.id} and screw it from below", counter, after=[mounted or ready]
        )


def _by_group(parts: list[Part]) -> dict[str, list[Part]]:
    groups: dict[str, list[Part]] = {}
    for part in parts:
        groups.setdefault(part.group, []).append(part)
    return groups


def _frame(work: Steps, cabinet: Cabinet, frame: list[Part], case: list[Part], glued: int) -> int | None:
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
    work: Steps, cabinet: Cabinet, name: str, parts: list[Part], joined: set[str], ready: int, case: list[Part]
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


def _drawer(work: Steps, cabinet: Cabinet, name: str, parts: list[Part], ready: int) -> int:
    title = f"{name.replace('-', ' ')} of {cabinet.id}"
    box = [p for p in parts if p.role != "drawer-front"]
    front = [p for p in parts if p.role == "drawer-front"]
    dry = work.add("drawers", f"Fit the box of {title} together dry, its bottom in its grooves", box)
    glued = work.add("drawers", f"Glue and clamp the box of {title}; no glue on the bottom; check both diagonals", box,
                     after=[dry])  # fmt: skip
    bored = [p for p in front if any(cut_key(p, f).stage == "doors" for f in p.features)]
    last = [glued]
    if bored:
        last.append(work.add("drawers", f"Drill the front of {title} for its pull", bored))
    run = work.add(
        "hardware", f"Fix the runners and hang the box of {title}; it must open fully", box, after=[*last, ready]
    )
    return work.add("hardware", f"Set the front of {title} to its gaps and screw it on from inside", parts, after=[run])


def _mount(work: Steps, cabinet: Cabinet, parts: list[Part], case: list[Part], after: list[int]) -> int | None:
    """Add the steps that put the cabinet up and return the last of them, if it is fixed to a wall."""
    on_wall = [p for p in parts if p.role == "wall-cleat"]
    on_case = [p for p in parts if p.role != "wall-cleat"]
    last = list(after)
    if on_case:
        last.append(work.add("mounting", f"Fix cleat and strips to {cabinet.id}", on_case, after=after))
    if not parts:
        return None
    if on_wall:
        last.append(
            work.add("mounting", f"Screw the wall cleat of {cabinet.id} level into the studs, at the marked points",
                     on_wall)
        )  # fmt: skip
    if cabinet.form == "wall":
        do = (
            f"Hang {cabinet.id} with a helper, doors and shelves off where that is lighter; set the fastener that "
            "stops it lifting off before it is loaded"
        )
    else:
        do = f"Set {cabinet.id} level in its place and screw it to the wall so that it cannot tip, before it is loaded"
    return work.add("hang", do, [*case, *parts], after=last)
