"""Putting cabinets together: bands, dry fit, glue, frame, doors and drawers, finish, and only then hardware."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import assert_never

from casewright.api.engine.run.fillers import GROUP as FILLERS
from casewright.api.engine.work.gluing import assemble, clamped
from casewright.api.engine.work.grouping import joint_operations
from casewright.api.engine.work.naming import joined, title
from casewright.api.engine.work.schedule import time_text
from casewright.api.engine.work.steps import Steps
from casewright.api.engine.work.together import Assemblies, Together
from casewright.sdk.model import Action, Cabinet, Part, Stage

ON_WALL = "wall-cleat"


def build_cabinet(steps: Steps, cabinet: Cabinet, parts: Sequence[Part], assemblies: Assemblies) -> list[int]:
    """Add the steps that make one cabinet and return those that putting it up waits for."""
    if not parts:
        return []
    groups: Mapping[str, list[Part]] = _by_group(parts)
    mine = {group: found for (name, group), found in assemblies.items() if name == cabinet.id}
    case, loose = groups.get("case", []), groups.get("loose", [])
    banded = [part for part in [*case, *loose] if part.bands]
    if banded:
        steps.add(Stage.BAND, f"Band the front edges of {cabinet.id} and trim them flush", banded)
    made = _case(steps, cabinet, mine, groups)
    for group in ("mounting", "ends"):
        made = _fixed(steps, cabinet, group, groups.get(group, []), made)
    for group, together in mine.items():
        if group.startswith("door-"):
            made += _door(steps, _title(group, cabinet), together)
        elif group.startswith("drawer-"):
            made += _drawer(steps, _title(group, cabinet), together, groups[group])
        elif group == "base":
            made += assemble(steps, Stage.BASE, f"the base of {cabinet.id}", together, [])
    made = _finish(steps, cabinet, [part for part in parts if part.role != ON_WALL and part.group != FILLERS], made)
    hung = [_hang_door(steps, _title(g, cabinet), groups[g], made) for g in mine if g.startswith("door-")]
    if loose:
        hung.append(steps.add(Stage.HARDWARE, f"Set shelf pins and loose shelves in {cabinet.id}", loose, after=made))
    hung += [_hang_drawer(steps, _title(g, cabinet), groups[g], made) for g in mine if g.startswith("drawer-")]
    return [*made, *hung]


def prepare_place(steps: Steps, cabinet: Cabinet, parts: Sequence[Part], after: Sequence[int]) -> list[int]:
    """Add what stands at the wall before a cabinet comes: its cleats and its base; return what it waits for."""
    groups = _by_group(parts)
    cleats = [part for part in groups.get("mounting", []) if part.role == ON_WALL]
    out = []
    if cleats:
        do = f"Screw the wall cleat of {cabinet.id} level into the studs, at the marked points"
        out.append(steps.add(Stage.MOUNTING, do, cleats, after=after))
    if base := groups.get("base", []):
        do = f"Set the base of {cabinet.id} in its place, level it and fix it"
        out.append(steps.add(Stage.BASE, do, base, after=after))
    return out


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


def _case(steps: Steps, cabinet: Cabinet, mine: Mapping[str, Together], groups: Mapping[str, list[Part]]) -> list[int]:
    """Add the steps that make the case and its face frame, one on the other."""
    case, frame, of = groups.get("case", []), groups.get("face-frame", []), cabinet.id
    dry = steps.add(Stage.DRY_FIT, f"Fit the case of {of} together dry and check it for square and size", case)
    last = assemble(steps, Stage.GLUE, f"the case of {of}", mine["case"], [dry])
    if not frame:
        return last
    stage = Stage.FACE_FRAME
    dry = steps.add(stage, f"Fit the face frame of {of} together dry on the case", frame, after=last)
    made = assemble(steps, stage, f"the face frame of {of}", mine["face-frame"], [dry])
    do = f"Glue the face frame on the case of {of}, then hold it with brads"
    on = steps.by_hand(stage, Action.GLUE, do, [*frame, *case], made)
    return clamped(steps, (stage, f"the face frame on the case of {of}"), (), [*frame, *case], [on])


def _door(steps: Steps, title: str, together: Together) -> list[int]:
    parts, last = together.parts, list[int]()
    if any(part.role == "door-panel" for part in parts):
        do = f"Fit the panel of {title} dry in its frame: it must slide and the frame must close"
        last = [steps.add(Stage.DOORS, do, parts)]
    last = assemble(steps, Stage.DOORS, title, together, last)
    return [*last, *steps.extend(joint_operations(parts, steps.tools, Stage.DOORS), last)]


def _hang_door(steps: Steps, title: str, parts: Sequence[Part], after: Sequence[int]) -> int:
    return steps.add(Stage.HARDWARE, f"Fix hinges and pull, hang {title} and set its gaps", parts, after=after)


def _drawer(steps: Steps, title: str, together: Together, parts: Sequence[Part]) -> list[int]:
    box = together.parts
    dry = steps.add(Stage.DRAWERS, f"Fit the box of {title} together dry, its bottom in its grooves", box)
    last = assemble(steps, Stage.DRAWERS, f"the box of {title}", together, [dry])
    front = [part for part in parts if part not in box]
    return [*last, *steps.extend(joint_operations(front, steps.tools, Stage.DRAWERS))]


def _hang_drawer(steps: Steps, title: str, parts: Sequence[Part], after: Sequence[int]) -> int:
    box = [part for part in parts if part.role != "drawer-front"]
    do = f"Fix the runners and hang the box of {title}; it must open fully"
    runs = steps.add(Stage.HARDWARE, do, box, after=after)
    do = f"Set the front of {title} to its gaps, bore pilot holes and screw it on from inside"
    return steps.add(Stage.HARDWARE, do, parts, after=[runs])


def _fixed(steps: Steps, cabinet: Cabinet, group: str, parts: Sequence[Part], after: list[int]) -> list[int]:
    """Add what is fixed on the case while it is bare: cleats and strips, end panels."""
    own = [part for part in parts if part.role != ON_WALL]
    if not own:
        return after
    if group == "ends":
        do = f"Bore pilot holes and screw the end panels on {cabinet.id} from inside"
        return [*after, steps.add(Stage.ENDS, do, own, after=after)]
    do = f"Bore pilot holes and fix {joined([f'the {title(part)}' for part in own])} to {cabinet.id}"
    return [*after, steps.add(Stage.MOUNTING, do, own, after=after)]


def _finish(steps: Steps, cabinet: Cabinet, parts: Sequence[Part], after: list[int]) -> list[int]:
    """Add the last sanding and the shop's coats over a cabinet in parts, each left to dry."""
    do = f"Sand {cabinet.id} outside, its doors, fronts and shelves; ease the sharp edges"
    last = steps.by_hand(Stage.FINISH, Action.SAND, do, parts, after)
    for number, coat in enumerate(steps.job.shop.finish, start=1):
        last = steps.add(Stage.FINISH, f"Coat {number} on {cabinet.id}: {coat.what}", parts, after=[last])
        if coat.minutes:
            do = f"Let coat {number} on {cabinet.id} dry for {time_text(coat.minutes)}"
            last = steps.by_hand(Stage.FINISH, Action.WAIT, do, parts, [last])
            steps.steps[-1] = replace(steps.steps[-1], minutes=coat.minutes)
    return [last]


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
