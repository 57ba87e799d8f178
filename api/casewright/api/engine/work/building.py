"""Putting cabinets together: bands, dry fit, glue, frame, doors and drawers, finish, and only then hardware."""

from collections.abc import Mapping, Sequence

from casewright.api.engine.construction.packing import GROUP as PACKING
from casewright.api.engine.run.fillers import GROUP as FILLERS
from casewright.api.engine.work.adjusting import adjusting_words, hinge_adjustments, slide_adjustments
from casewright.api.engine.work.fittings import door_words, front_words, pin_words, runner_words, taper_words
from casewright.api.engine.work.fixed_on_case import frame_words, packing_words, strip_words
from casewright.api.engine.work.gluing import assemble, clamped
from casewright.api.engine.work.grouping import joint_operations
from casewright.api.engine.work.naming import joined, summed_up
from casewright.api.engine.work.panes import glaze, order_panes, unglazed
from casewright.api.engine.work.put_up import NOWHERE, Place, put_up_words
from casewright.api.engine.work.repairing import put_right, set_from_behind, without_panel
from casewright.api.engine.work.schedule import time_text
from casewright.api.engine.work.setting_in import in_order
from casewright.api.engine.work.steps import UNSET, Steps
from casewright.api.engine.work.together import Together
from casewright.api.engine.work.wall_fixing import cleat_words
from casewright.sdk.model import (
    Action,
    Cabinet,
    Coat,
    HungCabinet,
    Job,
    Machine,
    Mistake,
    Operation,
    Part,
    Stage,
    Workpiece,
)

ON_WALL = "wall-cleat"


def build_cabinet(steps: Steps, cabinet: Cabinet, parts: Sequence[Part], mine: Mapping[str, Together]) -> list[int]:
    """Add the steps that make one cabinet and return those that putting it up waits for.

    `mine` is how its groups of parts go together.
    """
    if not parts:
        return []
    begun = len(steps.steps)
    groups: Mapping[str, list[Part]] = _by_group(parts)
    case, loose = groups.get("case", []), groups.get("loose", [])
    banded = [part for part in [*case, *loose] if part.bands]
    later = [part for part in banded if part.id in steps.waits]
    _banded(steps, cabinet, [part for part in banded if part.id not in steps.waits])
    made = _case(steps, cabinet, mine, groups)
    for group in (PACKING, "mounting", "ends"):
        made = _fixed(steps, cabinet, group, groups.get(group, []), made)
    made += _doors(steps, cabinet, {key: one for key, one in mine.items() if key.startswith("door-")})
    made += _drawers(steps, cabinet, {key: one for key, one in mine.items() if key.startswith("drawer-")}, groups)
    if "base" in mine:
        made += assemble(steps, Stage.BASE, f"the base of {cabinet.id}", mine["base"], [])
    _banded(steps, cabinet, later)
    made = _finish(steps, cabinet, [part for part in parts if part.role != ON_WALL and part.group != FILLERS], made)
    for group in (group for group in mine if group.startswith("door-")):
        glaze(steps, _title(group, cabinet), mine[group], made)
    hung = [_hang_door(steps, cabinet, g, groups[g], made) for g in mine if g.startswith("door-")]
    if loose:
        hung.append(steps.add(Stage.HARDWARE, pin_words(steps, cabinet, loose), loose, after=made))
    hung += [_hang_drawer(steps, cabinet, g, groups[g], made) for g in mine if g.startswith("drawer-")]
    return [*made, *hung, *_cured(steps, cabinet, begun)]


def _banded(steps: Steps, cabinet: Cabinet, parts: Sequence[Part]) -> None:
    """Add the banding of the front edges of parts, if there are any."""
    if parts:
        what = summed_up(parts, steps.words.named.every)
        steps.add(Stage.BAND, f"Band the front edges of {what} with {_band(steps, parts)}, and trim them flush", parts)


def _band(steps: Steps, parts: Sequence[Part]) -> str:
    """Return the bands of parts by material and thickness."""
    kinds = dict.fromkeys(band.material for part in parts for band in part.bands)
    return joined([f"{kind}, {steps.text(steps.job.materials[kind].thickness)} thick" for kind in kinds])


def _cured(steps: Steps, cabinet: Cabinet, begun: int) -> list[int]:
    """Add the rest of the time that the glue of a cabinet's steps cures before it carries a load; return it, if any.

    Glue that is left in clamps has cured so long already, that of what it hangs by has not.
    """
    own, glue = steps.steps[begun:], steps.job.shop.glue
    clamps = [step.number for step in own if step.action is Action.WAIT and step.stage != Stage.FINISH]
    strips = [step.number for step in own if step.stage is Stage.MOUNTING]
    rest = glue.cure if strips else glue.cure - glue.clamped
    if not (clamps or strips) or rest <= 0:
        return []
    do = f"Let the glue of {cabinet.id} cure for {time_text(rest)} more before it is put up"
    return [steps.wait(Stage.HARDWARE, do, (), [*clamps, *strips], rest)]


def prepare_place(
    steps: Steps, cabinet: Cabinet, parts: Sequence[Part], after: Sequence[int], places: Sequence[tuple[str, str]] = ()
) -> list[int]:
    """Add what stands at the wall before a cabinet comes: its cleats and its base; return what it waits for.

    `places` are names and JSON Pointers of the places of those alike; without any, the wall is not known.
    """
    groups = _by_group(parts)
    cleats = [part for part in groups.get("mounting", []) if part.role == ON_WALL]
    out = []
    if cleats:
        rows = [(name, steps.made.hung(pointer)) for name, pointer in places] or [(cabinet.id, None)]
        begun = [(name, hung) for name, hung in rows if hung is None or hung.has_strip]
        for name, hung in begun:
            own = [part for part in cleats if hung is None or hung.cleat in ("", part.id)]
            on = [Workpiece(part=part.id, count=max(1, part.quantity // len(begun))) for part in own]
            do = cleat_words(steps, joined(_on_cleat(steps, hung) or [name]), hung)
            screw = Operation(0, Stage.MOUNTING, Machine.BY_HAND, Action.SCREW, UNSET, tuple(on), (), do)
            out.append(steps.put(screw, after))
    if base := groups.get("base", []):
        each = f", each of the {cabinet.count}," if cabinet.count > 1 else ""
        do = f"Set the base of {cabinet.id}{each} in its place, pack it level and fix it so that it cannot shift"
        out.append(steps.add(Stage.BASE, do, base, after=after))
    return out


def _on_cleat(steps: Steps, hung: HungCabinet | None) -> list[str]:
    """Return the names of the cabinets that hang on one wall cleat with this; none where it has its own."""
    names = {one.pointer: one.name for one in steps.made.run.standings} if steps.made.run else {}
    return [] if hung is None else [names[place] for place in hung.on_strip]


def set_cabinet(
    steps: Steps, cabinet: Cabinet, parts: Sequence[Part], after: Sequence[int], place: Place = NOWHERE
) -> int | None:
    """Add the steps that put a cabinet up and lay its counter; return the first, if it is fixed or has a place."""
    groups = _by_group(parts)
    mounting, counter = groups.get("mounting", []), groups.get("counter", [])
    title = place.name or cabinet.id
    copies = cabinet.count if place.name else 1
    put = None
    if mounting or place.where or groups.get("base"):
        own = [*groups.get("case", []), *(part for part in mounting if part.role != ON_WALL)]
        on = tuple([Workpiece(part=part.id, count=part.quantity // copies) for part in own])
        do = put_up_words(steps, cabinet, place, bool(mounting))
        put = steps.put(Operation(0, Stage.HANG, Machine.BY_HAND, Action.HANG, UNSET, on, (), do), after)
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
    size = " × ".join(steps.text(nm) for nm in (cabinet.width, cabinet.height))
    dry = _dry(steps, Stage.DRY_FIT, f"the case of {of}", mine["case"], "every joint closed, both diagonals alike")
    last = assemble(steps, Stage.GLUE, f"the case of {of}", mine["case"], [dry])
    if not frame:
        return last
    stage, what = Stage.FACE_FRAME, f"the face frame of {of}"
    dry = _dry(steps, stage, what, mine["face-frame"], f"laid on the case it stands as planned all round, {size}", last)
    made = assemble(steps, stage, what, mine["face-frame"], [dry])
    on = steps.by_hand(stage, Action.GLUE, frame_words(steps, cabinet, frame, case), [*frame, *case], made)
    return clamped(steps, (stage, f"the face frame on the case of {of}"), (), [*frame, *case], [on])


def _dry(steps: Steps, stage: Stage, what: str, together: Together, check: str, after: Sequence[int] = ()) -> int:
    """Add the dry fit of what joints hold of a sub-assembly, in the order in which it is glued."""
    together = together.jointed
    order = f" in the order of the glue-up: {in_order(together)}" if together.order.insertions else ""
    do = f"Fit {what} together dry{order}"
    return steps.add(stage, do, together.parts, after, check)


def _doors(steps: Steps, cabinet: Cabinet, doors: Mapping[str, Together]) -> list[int]:
    """Add the steps that make the doors of a cabinet: each is glued, then all are bored at each setting once."""
    glued = {group: _door(steps, cabinet, group, together) for group, together in doors.items()}
    last = [number for numbers in glued.values() for number in numbers]
    parts = [part for together in doors.values() for part in together.parts]
    worked = [part for part in parts if not steps.job.materials[part.material].to_size]
    made = [*last, *steps.extend(joint_operations(worked, steps.tools, steps.made, Stage.DOORS), last)]
    for group, together in doors.items():
        title = _title(group, cabinet)
        order_panes(steps, title, together, glued[group])
        made += _edged(steps, title, together.parts, made)
    return made


def _door(steps: Steps, cabinet: Cabinet, group: str, together: Together) -> list[int]:
    """Add the steps that put one door together."""
    title, door = _title(group, cabinet), (cabinet.id, group)
    glued, last = without_panel(steps, door, together), list[int]()
    bare = unglazed(steps.job, glued)
    panels = {part.id for part in together.parts if part.role == "door-panel"}
    if panels:
        fixed = any(joint.glue_area_mm2 > 0 and {joint.host, joint.guest} & panels for joint in together.joints)
        floats = bare is together and not fixed
        check = "the panel slides by hand and the frame closes round it" if floats else "every joint closed"
        last = [_dry(steps, Stage.DOORS, title, bare, check)]
    last = assemble(steps, Stage.DOORS, title, bare, last)
    last = set_from_behind(steps, door, (together, glued), title, last)
    last = put_right(steps, door, Mistake.WRONG_SIDE, bare.parts, last)
    if words := taper_words(steps, cabinet, group, title):
        last = [steps.by_hand(Stage.DOORS, Action.FIT, words, bare.parts, last)]
    return last


def _edged(steps: Steps, title: str, parts: Sequence[Part], after: Sequence[int]) -> list[int]:
    """Add the banding of a front, after the cuts that are measured from its bare edges; return it, if there is any."""
    banded = [part for part in parts if part.bands]
    if not banded:
        return []
    do = f"Band the edges of {title} with {_band(steps, banded)}, the two upright ones last, and trim them flush"
    return [steps.add(Stage.BAND, do, banded, after)]


def _hang_door(steps: Steps, cabinet: Cabinet, group: str, parts: Sequence[Part], after: Sequence[int]) -> int:
    door = next((one for one in steps.made.doors_of(cabinet.id) if one.id == f"{cabinet.id}/{group}"), None)
    do = door_words(steps, cabinet, door, _title(group, cabinet))
    hinge = steps.made.hinges.get(cabinet.doors.hinge) if cabinet.doors is not None else None
    reach = adjusting_words(hinge_adjustments(hinge), steps.text) if hinge is not None else ""
    check = f"even gaps, closing free; hinge screws: {reach}" if reach else "even gaps, and it closes without touching"
    hung = steps.add(Stage.HARDWARE, do, parts, after, check)
    return put_right(steps, (cabinet.id, group), Mistake.MEETS_NEIGHBOUR, parts, [hung])[0]


def _drawers(
    steps: Steps, cabinet: Cabinet, drawers: Mapping[str, Together], groups: Mapping[str, Sequence[Part]]
) -> list[int]:
    """Add the steps that make the drawers of a cabinet: each box is glued, then all fronts are bored together."""
    last = [number for group, together in drawers.items() for number in _box(steps, _title(group, cabinet), together)]
    fronts = {key: [part for part in groups[key] if part not in one.parts] for key, one in drawers.items()}
    every = [part for some in fronts.values() for part in some]
    made = steps.extend(joint_operations(every, steps.tools, steps.made, Stage.DRAWERS))
    banded = [_edged(steps, f"the front of {_title(key, cabinet)}", some, made) for key, some in fronts.items()]
    return [*last, *made, *[number for numbers in banded for number in numbers]]


def _box(steps: Steps, title: str, together: Together) -> list[int]:
    """Add the steps that put the box of a drawer together."""
    dry = _dry(steps, Stage.DRAWERS, f"the box of {title}", together, "its bottom in its grooves, both diagonals alike")
    return assemble(steps, Stage.DRAWERS, f"the box of {title}", together, [dry])


def _hang_drawer(steps: Steps, cabinet: Cabinet, group: str, parts: Sequence[Part], after: Sequence[int]) -> int:
    box, name = [part for part in parts if part.role != "drawer-front"], _title(group, cabinet)
    lines = steps.made.used(f"{cabinet.id}/{group}")
    slide = next((steps.made.slides[line.item] for line in lines if line.item in steps.made.slides), None)
    reach = adjusting_words(slide_adjustments(slide), steps.text) if slide is not None else ""
    check = f"it runs free and level; slots of the slides: {reach}" if reach else ""
    runs = steps.add(Stage.HARDWARE, runner_words(steps, cabinet, group, box, name), box, after, check)
    return steps.add(Stage.HARDWARE, front_words(steps, cabinet, group, parts, name), parts, after=[runs])


def _fixed(steps: Steps, cabinet: Cabinet, group: str, parts: Sequence[Part], after: list[int]) -> list[int]:
    """Add what is fixed on the case while it is bare: cleats and strips, end panels."""
    own = [part for part in parts if part.role != ON_WALL]
    if not own:
        return after
    if group == "ends":
        do = f"Bore pilot holes and screw the end panels on {cabinet.id} from inside"
        return [*after, steps.add(Stage.ENDS, do, own, after=after)]
    if group == PACKING:
        do = packing_words(steps, cabinet, own)
        return [*after, steps.by_hand(Stage.FACE_FRAME, Action.SCREW, do, own, after)]
    notes = dict.fromkeys(note for part in own for note in steps.made.notes.get(part.id, ()))
    do = "; ".join([strip_words(steps, cabinet, own), *notes])
    return [*after, steps.add(Stage.MOUNTING, do, own, after=after)]


def _finish(steps: Steps, cabinet: Cabinet, parts: Sequence[Part], after: list[int]) -> list[int]:
    """Add the last sanding and the shop's coats over a cabinet in parts, each left to dry."""
    own = {_beside_case(part) for part in parts} - {""}
    do = f"Sand {cabinet.id} outside{f', and its {joined(sorted(own))}' if own else ''}; ease the sharp edges"
    parts = [part for part in parts if not steps.job.materials[part.material].to_size]
    last = steps.by_hand(Stage.FINISH, Action.SAND, do, parts, after)
    for number, coat in enumerate(_coats(steps.job), start=1):
        last = steps.add(Stage.FINISH, f"Coat {number} on {cabinet.id}: {coat.what}", parts, after=[last])
        if coat.minutes:
            do = f"Let coat {number} on {cabinet.id} dry for {time_text(coat.minutes)}"
            last = steps.wait(Stage.FINISH, do, parts, [last], coat.minutes)
    return [last]


def _beside_case(part: Part) -> str:
    """Return what a part belongs to that is sanded beside the outside of its case; nothing for the case's own."""
    if part.group.startswith("door-"):
        return "doors"
    return "drawer fronts" if part.role == "drawer-front" else "shelves" if part.group == "loose" else ""


def _coats(job: Job) -> tuple[Coat, ...]:
    """Return the shop's coats, or those that its rates count where they have a price or a time for finish."""
    rates = job.rates
    counted = rates is not None and (rates.finish_per_m2 is not None or "finish" in rates.minutes)
    return job.shop.finish or (Coat("the shop's finish", 0),) * (rates.coats if rates and counted else 0)
