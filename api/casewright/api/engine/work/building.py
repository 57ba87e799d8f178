"""Putting cabinets together: dry fit before glue, panels before doors, drawers, base, and what holds it."""

from collections.abc import Mapping
from typing import assert_never

from casewright.api.engine.work.grouping import joint_operations
from casewright.api.engine.work.steps import Steps
from casewright.sdk.model import Action, Cabinet, Part, Stage


def build_cabinet(work: Steps, cabinet: Cabinet, parts: list[Part], joined: set[str], struck: list[int]) -> list[int]:
    """Add the steps that put one cabinet together and return those that putting it up waits for.

    `joined` are the ids of parts that any joint holds; `struck` are the steps that mark the wall for its cleats.
    """
    if not parts:
        return []
    groups: Mapping[str, list[Part]] = _by_group(parts)
    case = groups.get("case", [])
    dry = work.add(
        Stage.DRY_FIT, Action.FIT, f"Fit the case of {cabinet.id} together dry and check it for square and size", case
    )
    glued = work.add(
        Stage.GLUE, Action.GLUE, f"Glue and clamp the case of {cabinet.id}; check both diagonals", case, after=[dry]
    )
    frame_done = _frame(work, cabinet, groups.get("face-frame", []), case, glued)
    banded = [p for p in [*case, *groups.get("loose", [])] if p.bands]
    ready = glued if frame_done is None else frame_done
    if banded:
        ready = work.add(
            Stage.BAND, Action.BAND, f"Band the front edges of {cabinet.id} and trim them flush", banded, after=[ready]
        )
    hung = [
        _door(work, cabinet, name, group, joined, ready, case) for name, group in groups.items() if name[:5] == "door-"
    ]
    loose = groups.get("loose", [])
    if loose:
        ready = work.add(
            Stage.HARDWARE, Action.FIT, f"Set shelf pins and loose shelves in {cabinet.id}", loose, after=[ready]
        )
    hung += [_drawer(work, cabinet, name, group, ready) for name, group in groups.items() if name[:7] == "drawer-"]
    base = groups.get("base", [])
    if base:
        hung.append(
            work.add(
                Stage.BASE, Action.SCREW, f"Make the base of {cabinet.id}, fix it and level it", base, after=[ready]
            )
        )
    ends = groups.get("ends", [])
    if ends:
        hung.append(
            work.add(Stage.ENDS, Action.SCREW, f"Screw the end panels on {cabinet.id} from inside", ends, after=[ready])
        )
    return _fix_mounting(work, cabinet, groups.get("mounting", []), [ready, *hung], struck)


def set_cabinet(
    work: Steps, cabinet: Cabinet, parts: list[Part], after: list[int], name: str = "", where: str = ""
) -> int | None:
    """Add the steps that put a cabinet up and lay its counter; return the first, if it is fixed or has a place.

    `name` and `where` say which of several like it and where it goes.
    """
    groups = _by_group(parts)
    mounting, counter = groups.get("mounting", []), groups.get("counter", [])
    title = name or cabinet.id
    put = None
    if mounting or where:
        hung = [*groups.get("case", []), *mounting]
        put = work.add(Stage.HANG, Action.HANG, _how(cabinet, title, where, bool(mounting)), hung, after=after)
    if counter:
        done = after if put is None else [put]
        work.add(
            Stage.COUNTER, Action.SCREW, f"Lay the counter on {title} and screw it from below", counter, after=done
        )
    return put


def _by_group(parts: list[Part]) -> dict[str, list[Part]]:
    groups: dict[str, list[Part]] = {}
    for part in parts:
        groups.setdefault(part.group, []).append(part)
    return groups


def _frame(work: Steps, cabinet: Cabinet, frame: list[Part], case: list[Part], glued: int) -> int | None:
    if not frame:
        return None
    dry = work.add(
        Stage.FACE_FRAME,
        Action.FIT,
        f"Fit the face frame of {cabinet.id} together dry on the case",
        frame,
        after=[glued],
    )
    made = work.add(
        Stage.FACE_FRAME,
        Action.GLUE,
        f"Glue and clamp the face frame of {cabinet.id} flat and square",
        frame,
        after=[dry],
    )
    return work.add(
        Stage.FACE_FRAME,
        Action.GLUE,
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
        fit = f"Fit the panel of {title} dry in its frame: it must slide and the frame must close"
        last = [work.add(Stage.DOORS, Action.FIT, fit, parts, after=last)]
    if any(p.id in joined for p in parts):
        last = [work.add(Stage.DOORS, Action.GLUE, f"Glue and clamp {title}; no glue on the panel", parts, after=last)]
    last += work.extend(joint_operations(parts, work.job.shop.groove_cutters, Stage.DOORS), last)
    return work.add(
        Stage.HARDWARE, Action.FIT, f"Fix hinges and pull, hang {title} and set its gaps", parts, after=[*last, ready]
    )


def _drawer(work: Steps, cabinet: Cabinet, name: str, parts: list[Part], ready: int) -> int:
    title = f"{name.replace('-', ' ')} of {cabinet.id}"
    box = [p for p in parts if p.role != "drawer-front"]
    front = [p for p in parts if p.role == "drawer-front"]
    dry = work.add(Stage.DRAWERS, Action.FIT, f"Fit the box of {title} together dry, its bottom in its grooves", box)
    glue = f"Glue and clamp the box of {title}; no glue on the bottom; check both diagonals"
    glued = work.add(Stage.DRAWERS, Action.GLUE, glue, box, after=[dry])
    bored = work.extend(joint_operations(front, work.job.shop.groove_cutters, Stage.DRAWERS))
    last = [glued, *bored]
    run = work.add(
        Stage.HARDWARE,
        Action.FIT,
        f"Fix the runners and hang the box of {title}; it must open fully",
        box,
        after=[*last, ready],
    )
    return work.add(
        Stage.HARDWARE,
        Action.FIT,
        f"Set the front of {title} to its gaps and screw it on from inside",
        parts,
        after=[run],
    )


def _fix_mounting(work: Steps, cabinet: Cabinet, parts: list[Part], after: list[int], struck: list[int]) -> list[int]:
    """Add the steps that fix cleats and strips to cabinet and wall; return what putting it up waits for."""
    on_wall = [p for p in parts if p.role == "wall-cleat"]
    on_case = [p for p in parts if p.role != "wall-cleat"]
    last = list(after)
    if on_case:
        last.append(
            work.add(Stage.MOUNTING, Action.SCREW, f"Fix cleat and strips to {cabinet.id}", on_case, after=after)
        )
    if on_wall:
        do = f"Screw the wall cleat of {cabinet.id} level into the studs, at the marked points"
        last.append(work.add(Stage.MOUNTING, Action.SCREW, do, on_wall, after=struck))
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
