"""Putting cabinets together: dry fit before glue, panels before doors, drawers, base, and what holds it."""

from collections.abc import Mapping, Sequence
from typing import assert_never

from casewright.api.engine.work.grouping import joint_operations
from casewright.api.engine.work.steps import Steps
from casewright.sdk.model import Cabinet, Part, Stage


def build_cabinet(steps: Steps, cabinet: Cabinet, parts: list[Part], joined: set[str], struck: list[int]) -> list[int]:
    """Add the steps that put one cabinet together and return those that putting it up waits for.

    `joined` are the ids of parts that any joint holds; `struck` are the steps that mark the wall for its cleats.
    """
    if not parts:
        return []
    groups: Mapping[str, list[Part]] = _by_group(parts)
    case, loose = groups.get("case", []), groups.get("loose", [])
    dry = steps.add(Stage.DRY_FIT, f"Fit the case of {cabinet.id} together dry and check it for square and size", case)
    glued = steps.glue(Stage.GLUE, f"Glue and clamp the case of {cabinet.id}; check both diagonals", case, after=[dry])
    frame_done = _frame(steps, cabinet, groups.get("face-frame", []), case, glued)
    banded = [p for p in [*case, *loose] if p.bands]
    ready = glued if frame_done is None else frame_done
    if banded:
        do = f"Band the front edges of {cabinet.id} and trim them flush"
        ready = steps.add(Stage.BAND, do, banded, after=[ready])
    hung = [
        _door(steps, _title(name, cabinet), group, joined, ready)
        for name, group in groups.items()
        if name.startswith("door-")
    ]
    if loose:
        ready = steps.add(Stage.HARDWARE, f"Set shelf pins and loose shelves in {cabinet.id}", loose, after=[ready])
    hung += [
        _drawer(steps, _title(name, cabinet), group, ready)
        for name, group in groups.items()
        if name.startswith("drawer-")
    ]
    base, ends = groups.get("base", []), groups.get("ends", [])
    if base:
        hung.append(steps.add(Stage.BASE, f"Make the base of {cabinet.id}, fix it and level it", base, after=[ready]))
    if ends:
        hung.append(steps.add(Stage.ENDS, f"Screw the end panels on {cabinet.id} from inside", ends, after=[ready]))
    return _fix_mounting(steps, cabinet, groups.get("mounting", []), [ready, *hung], struck)


def set_cabinet(
    steps: Steps, cabinet: Cabinet, parts: Sequence[Part], after: Sequence[int], place: tuple[str, str] = ("", "")
) -> int | None:
    """Add the steps that put a cabinet up and lay its counter; return the first, if it is fixed or has a place.

    `place` says which of several like it, and where it goes.
    """
    groups = _by_group(parts)
    mounting, counter = groups.get("mounting", []), groups.get("counter", [])
    name, where = place
    title = name or cabinet.id
    put = None
    if mounting or where:
        do = _how(cabinet, title, where, bool(mounting))
        put = steps.add(Stage.HANG, do, [*groups.get("case", []), *mounting], after=after)
    if counter:
        done = after if put is None else [put]
        steps.add(Stage.COUNTER, f"Lay the counter on {title} and screw it from below", counter, after=done)
    return put


def _by_group(parts: Sequence[Part]) -> dict[str, list[Part]]:
    groups: dict[str, list[Part]] = {}
    for part in parts:
        groups.setdefault(part.group, []).append(part)
    return groups


def _title(group: str, cabinet: Cabinet) -> str:
    return f"{group.replace('-', ' ')} of {cabinet.id}"


def _frame(steps: Steps, cabinet: Cabinet, frame: list[Part], case: list[Part], glued: int) -> int | None:
    if not frame:
        return None
    stage, of = Stage.FACE_FRAME, cabinet.id
    dry = steps.add(stage, f"Fit the face frame of {of} together dry on the case", frame, after=[glued])
    made = steps.glue(stage, f"Glue and clamp the face frame of {of} flat and square", frame, after=[dry])
    do = f"Glue the face frame on the case of {of}, then hold it with brads"
    return steps.glue(stage, do, [*frame, *case], after=[made])


def _door(steps: Steps, title: str, parts: list[Part], joined: set[str], ready: int) -> int:
    last: list[int] = []
    if any(p.role == "door-panel" for p in parts):
        do = f"Fit the panel of {title} dry in its frame: it must slide and the frame must close"
        last = [steps.add(Stage.DOORS, do, parts, after=last)]
    if any(p.id in joined for p in parts):
        last = [steps.glue(Stage.DOORS, f"Glue and clamp {title}; no glue on the panel", parts, after=last)]
    last += steps.extend(joint_operations(parts, steps.job.shop.groove_cutters, Stage.DOORS), last)
    do = f"Fix hinges and pull, hang {title} and set its gaps"
    return steps.add(Stage.HARDWARE, do, parts, after=[*last, ready])


def _drawer(steps: Steps, title: str, parts: list[Part], ready: int) -> int:
    box = [p for p in parts if p.role != "drawer-front"]
    dry = steps.add(Stage.DRAWERS, f"Fit the box of {title} together dry, its bottom in its grooves", box)
    do = f"Glue and clamp the box of {title}; no glue on the bottom; check both diagonals"
    last = [steps.glue(Stage.DRAWERS, do, box, after=[dry])]
    front = [p for p in parts if p.role == "drawer-front"]
    last += steps.extend(joint_operations(front, steps.job.shop.groove_cutters, Stage.DRAWERS))
    do = f"Fix the runners and hang the box of {title}; it must open fully"
    runs = steps.add(Stage.HARDWARE, do, box, after=[*last, ready])
    do = f"Set the front of {title} to its gaps and screw it on from inside"
    return steps.add(Stage.HARDWARE, do, parts, after=[runs])


def _fix_mounting(steps: Steps, cabinet: Cabinet, parts: list[Part], after: list[int], struck: list[int]) -> list[int]:
    """Add the steps that fix cleats and strips to cabinet and wall; return what putting it up waits for."""
    on_wall = [p for p in parts if p.role == "wall-cleat"]
    on_case = [p for p in parts if p.role != "wall-cleat"]
    last = list(after)
    if on_case:
        last.append(steps.add(Stage.MOUNTING, f"Fix cleat and strips to {cabinet.id}", on_case, after=after))
    if on_wall:
        do = f"Screw the wall cleat of {cabinet.id} level into the studs, at the marked points"
        last.append(steps.add(Stage.MOUNTING, do, on_wall, after=struck))
    return last


def _how(cabinet: Cabinet, title: str, where: str, fixed: bool) -> str:
    place = f" {where}" if where else ""
    match cabinet.form:
        case "wall":
            return (
                f"Hang {title}{place} with a helper, doors and shelves off where that is lighter; set the fastener "
                "that stops it lifting off before it is loaded"
            )
        case "base" | "tall":
            return _how_to_set(title, place, fixed)
        case _:
            assert_never(cabinet.form)


def _how_to_set(title: str, place: str, fixed: bool) -> str:
    if not fixed:
        return f"Set {title} level{place}"
    place = place or " in its place"
    return f"Set {title} level{place} and screw it to the wall so that it cannot tip, before it is loaded"
