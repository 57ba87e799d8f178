"""A sub-assembly put together at the bench: sanded where it closes, glued, parts set in one by one, clamped, left.

What goes where follows from the order of assembly alone. A glue-up of more parts than can be set in while the glue is
open is done in lots, each clamped and left before the next.
"""

from collections.abc import Mapping, Sequence

from casewright.api.engine.work.assembly import Insertion
from casewright.api.engine.work.cautions import ON_EDGE
from casewright.api.engine.work.naming import joined
from casewright.api.engine.work.on_bench import OnBench, on_bench
from casewright.api.engine.work.pilots import pilot_words
from casewright.api.engine.work.schedule import time_text
from casewright.api.engine.work.setting_in import Seating, merged, short_name, where_from
from casewright.api.engine.work.steps import UNSET, Steps
from casewright.api.engine.work.together import Together
from casewright.sdk.geometry import Axis, Box
from casewright.sdk.model import (
    Action,
    Joint,
    Machine,
    Move,
    Operation,
    Part,
    Stage,
    Way,
    Workpiece,
)

__all__ = ["assemble", "clamped", "set_in"]

WAYS: Mapping[Axis, Way] = {1: Way.RIGHT, -1: Way.LEFT, 2: Way.BACK, -2: Way.FRONT, 3: Way.UP, -3: Way.DOWN}
MINUTES_A_PART = 1
"""What it takes to spread glue on one part and set it in (common practice, no source)."""
BOTH_EDGES = 100_000_000
"""A joint at least this long is clamped at both ends, a shorter one in its middle (common practice), in nm."""
UNCLAMPED = "panel"
"""The kind of joint that its neighbours' clamps close, or that nothing closes."""


def assemble(steps: Steps, stage: Stage, what: str, together: Together, after: Sequence[int]) -> list[int]:
    """Add the steps that put a sub-assembly together and return those that the next work on it waits for."""
    insertions = together.order.insertions
    last = list(after)
    if not insertions:
        return last
    by_id = {part.id: part for part in together.parts}
    bench, glued = on_bench(together), together.glued
    copies = max(part.quantity for part in together.parts)
    each = f", each of the {copies} in turn" if copies > 1 else ""
    there = [together.order.first] if together.order.first else list(together.order.locked)
    if not glued:
        last += [step for part in there for step in steps.done.get(part, ())]
        last = set_in(steps, stage, (together, bench), (insertions, there), last)
        screws = _hardware_of(steps, together, together.joints)[1]
        how = f": {joined(screws)}" if screws else ""
        do = f"Bore pilot holes and screw {what} together{each}{how}; check that it is square"
        do += pilot_words(steps, together.hardware, [part.material for part in together.parts])
        return [steps.by_hand(stage, Action.SCREW, do, together.parts, last)]
    if _closes_in(together):
        do = f"Sand the faces of {what} that it closes in; leave the joints as they are cut"
        sanded = [part for part in together.parts if not steps.job.materials[part.material].to_size]
        last = [steps.by_hand(stage, Action.SAND, do, sanded, last)]
    joined_parts = {name for joint in together.joints for name in (joint.host, joint.guest)}
    inner = [one for one in insertions if not joined_parts.isdisjoint(one.parts)]
    minutes = steps.job.shop.glue.open
    most = max(1, minutes // MINUTES_A_PART)
    for lot in [inner[at : at + most] for at in range(0, len(inner), most)]:
        going = [part for insertion in lot for part in insertion.parts]
        do = f"Glue {what}, {bench.how}{each}: set {_count(len(going))} in before the glue has been open for "
        reached = [by_id[part] for part in (*there, *going)]
        last = [steps.by_hand(stage, Action.GLUE, f"{do}{time_text(minutes)}", reached, last)]
        last = set_in(steps, stage, (together, bench), (lot, there), last)
        there += going
        closed = [joint for joint in glued if {joint.host, joint.guest} <= set(there)]
        now = [joint for joint in closed if {joint.host, joint.guest} & set(going)]
        last = clamped(steps, (stage, what), _clamps(by_id, now), reached, last)
    outer = [one for one in insertions if one not in inner]
    last = set_in(steps, stage, (together, bench), (outer, there), last)
    if outer:
        applied = [by_id[part] for one in outer for part in one.parts]
        last = clamped(steps, (stage, f"what is glued into {what}"), (), applied, last)
    return last


def set_in(
    steps: Steps,
    stage: Stage,
    of: tuple[Together, OnBench],
    what: tuple[Sequence[Insertion], Sequence[str]],
    after: Sequence[int],
) -> list[int]:
    """Add insertions one after another, those alike as one, into what stands there; return the last of them."""
    (together, bench), (insertions, standing) = of, what
    last, there = list(after), list(standing)
    for run in merged(insertions, together):
        last = [_insert(steps, stage, (together, bench), (run, there), last)]
        there += [part for one in run for part in one.parts]
    return last


def _closes_in(together: Together) -> bool:
    """Return whether some face is out of reach once it is together: there is room within, or a panel in a groove."""
    deep = min(Box.union([_box(part) for part in together.parts]).size)
    return deep >= BOTH_EDGES or any(joint.kind == UNCLAMPED for joint in together.joints)


def _count(parts: int) -> str:
    return "1 part" if parts == 1 else f"{parts} parts"


def _insert(
    steps: Steps,
    stage: Stage,
    of: tuple[Together, OnBench],
    what: tuple[Sequence[Insertion], Sequence[str]],
    after: Sequence[int],
) -> int:
    """Add one insertion, or several alike: parts that go into what is there, moved one way after another."""
    (together, bench), (run, there) = of, what
    by_id = {part.id: part for part in together.parts}
    going = [by_id[name] for insertion in run for name in insertion.parts]
    seats = [Seating.of(together, part, there, steps.made.screws) for part in going]
    on = tuple([Workpiece(part=one.part.id, count=one.part.quantity, into=one.into, glue=one.glue) for one in seats])
    legs = run[0].legs
    moves = tuple([Move(WAYS[leg.way], None if leg.by is None else int(leg.by)) for leg in legs])
    places = dict.fromkeys(one.place(len(run)) for one in seats)
    spread = dict.fromkeys(one.spread(steps, "its" if len(run) == 1 else "each one's") for one in seats)
    names = joined([short_name(part) for part in going])
    turn = ", one after another" if len(run) > 1 else ""
    let_in, driven = _hardware_of(steps, together, [joint for one in seats for joint in one.joints])
    verb = "slide" if any(one.slides(legs[-1].way) for one in seats) else "set"
    do = f"{verb} {names} {', and '.join(places)}"
    if any(one.let_in for one in seats):
        first = by_id[there[0]]
        laid = f"lay {short_name(first)} down, {bench.laid(first, steps.words.sides[first.id], steps.text)}, then "
        do = f"{laid if len(there) == 1 else ''}{do}, {where_from(steps, run[0], bench)}{turn}"
    elif any(one.joints for one in seats):
        do = f"{do}{turn}"
    else:
        do = f"glue {names} in place, {where_from(steps, run[0], bench)}{turn}; pins hold them while the glue sets"
    do += f"; put {joined(let_in)} between" if let_in else ""
    do += "".join(f"; {words}" for words in spread if words)
    notes = dict.fromkeys(joint.note for one in seats for joint in one.joints if joint.note)
    do += "".join(f"; {note}" for note in notes)
    do += f"; once home, drive {joined(driven)}" if driven and together.glued else ""
    do = do[0].upper() + do[1:]
    mind = (ON_EDGE,) if any(steps.job.materials[part.material].to_size for part in going) else ()
    operation = Operation(0, stage, Machine.BY_HAND, Action.INSERT, UNSET, on, (), do, moves=moves, cautions=mind)
    return steps.put(operation, after)


def _pinned_across(host: Part, joint: Joint) -> bool:
    """Return whether what is bored for a joint runs across the way it closes: a pin through cheeks and tongue."""
    into = [host.place.axis(hole.into) for cut in host.features if cut.joint == joint.id for hole in cut.holes]
    return bool(into) and all(abs(way) != abs(joint.press) for way in into)


def _hardware_of(steps: Steps, together: Together, closing: Sequence[Joint]) -> tuple[list[str], list[str]]:
    """Return how much hardware closing joints take in one copy: let into both sides before, and driven in after."""
    by_id = {part.id: part for part in together.parts}
    across = {joint.id for joint in closing if _pinned_across(by_id[joint.host], joint)}
    counts: tuple[dict[str, int], dict[str, int]] = {}, {}
    names = {joint.id for joint in closing}
    for line in together.hardware:
        if line.used_for in names:
            into = counts[line.used_for in across or line.item in steps.made.screws]
            into[line.words] = into.get(line.words, 0) + len(line.at)
    let_in, driven = ([f"{count} × {name}" for name, count in one.items() if count] for one in counts)
    return let_in, driven


def _clamps(by_id: Mapping[str, Part], joints: Sequence[Joint]) -> list[Workpiece]:
    """Return how many clamps press across each part that is let into others, at both edges of long joints."""
    counts: dict[str, int] = {}
    for joint in joints:
        if joint.kind == UNCLAMPED:
            continue
        shared = _box(by_id[joint.host]).cut(_box(by_id[joint.guest]))
        long = max(size for axis, size in enumerate(shared.size, start=1) if axis != abs(joint.press))
        counts[joint.guest] = max(counts.get(joint.guest, 0), 2 if long >= BOTH_EDGES else 1)
    return [Workpiece(part=name, count=by_id[name].quantity, clamps=count) for name, count in counts.items()]


def _box(part: Part) -> Box:
    return part.place.box(part.blank)


def clamped(
    steps: Steps, of: tuple[Stage, str], clamps: Sequence[Workpiece], parts: Sequence[Part], after: Sequence[int]
) -> list[int]:
    """Add clamps across parts and the time all that is glued is left in them; return what comes after waits for."""
    (stage, what), times = of, steps.job.shop.glue
    names = {part.id: short_name(part) for part in parts}
    last = list(after)
    if clamps:
        count = sum(one.clamps for one in clamps)
        edges = "at both edges of each" if max(one.clamps for one in clamps) > 1 else "in the middle of each"
        across = joined([names[one.part] for one in clamps])
        copies = max(one.count for one in clamps)
        each = f" for each of {copies}" if copies > 1 else ""
        do = f"Clamp {what} across {across}, {edges}, with cauls: {count} clamp{'s' if count > 1 else ''}{each}"
        check = "both diagonals alike, and no twist"
        operation = Operation(0, stage, Machine.BY_HAND, Action.CLAMP, UNSET, tuple(clamps), (), do, check)
        last = [steps.put(operation, last)]
    how = "clamped" if clamps else "as it is"
    do = f"Leave {what} {how} for {time_text(times.clamped)}; no load on it for {time_text(times.cure)} from now"
    return [steps.wait(stage, do, parts, last, times.clamped)]
