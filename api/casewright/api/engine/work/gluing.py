"""A sub-assembly put together at the bench: sanded where it closes, glued, parts set in one by one, clamped, left.

What goes where follows from the order of assembly alone. A glue-up of more parts than can be set in while the glue is
open is done in lots, each clamped and left before the next.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from casewright.api.engine.work.assembly import Insertion
from casewright.api.engine.work.naming import joined, title
from casewright.api.engine.work.schedule import time_text
from casewright.api.engine.work.steps import Steps
from casewright.api.engine.work.together import Together
from casewright.sdk.geometry import Axis, Box, opposite
from casewright.sdk.model import (
    Action,
    Joint,
    Machine,
    Move,
    Operation,
    Part,
    Setting,
    Side,
    Stage,
    Way,
    Workpiece,
)

__all__ = ["assemble", "clamped"]

WAYS: Mapping[Axis, Way] = {1: Way.RIGHT, -1: Way.LEFT, 2: Way.BACK, -2: Way.FRONT, 3: Way.UP, -3: Way.DOWN}
WORDS: Mapping[Way, str] = {
    Way.RIGHT: "to the right",
    Way.LEFT: "to the left",
    Way.BACK: "to the back",
    Way.FRONT: "to the front",
    Way.UP: "up",
    Way.DOWN: "down",
}
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
    glued = together.glued
    there = [together.order.first] if together.order.first else list(together.order.locked)
    if not glued:
        for insertion in insertions:
            last = [_insert(steps, stage, (together, by_id), (insertion, there), last)]
            there += insertion.parts
        do = f"Bore pilot holes and screw {what} together; check that it is square"
        return [steps.by_hand(stage, Action.SCREW, do, together.parts, last)]
    if _closes_in(together):
        do = f"Sand the faces of {what} that it closes in; leave the joints as they are cut"
        last = [steps.by_hand(Stage.FINISH, Action.SAND, do, together.parts, last)]
    minutes = steps.job.shop.glue.open
    most = max(1, minutes // MINUTES_A_PART)
    for lot in [insertions[at : at + most] for at in range(0, len(insertions), most)]:
        going = [part for insertion in lot for part in insertion.parts]
        do = f"Glue {what}: set {_count(len(going))} in before the glue has been open for {minutes} min"
        reached = [by_id[part] for part in (*there, *going)]
        last = [steps.by_hand(stage, Action.GLUE, do, reached, last)]
        for insertion in lot:
            last = [_insert(steps, stage, (together, by_id), (insertion, there), last)]
            there += insertion.parts
        closed = [joint for joint in glued if {joint.host, joint.guest} <= set(there)]
        now = [joint for joint in closed if {joint.host, joint.guest} & set(going)]
        last = clamped(steps, (stage, what), _clamps(by_id, now), reached, last)
    return last


def _closes_in(together: Together) -> bool:
    """Return whether some face is out of reach once it is together: there is room within, or a panel in a groove."""
    deep = min(Box.union([_box(part) for part in together.parts]).size)
    return deep >= BOTH_EDGES or any(joint.kind == UNCLAMPED for joint in together.joints)


def _short(part: Part) -> str:
    """Return the name of a part among those it is put together with."""
    name = title(part).removesuffix(f" of {part.group.replace('-', ' ')}")
    return name if name[-1].isdigit() else f"the {name}"


def _count(parts: int) -> str:
    return "1 part" if parts == 1 else f"{parts} parts"


def _insert(
    steps: Steps,
    stage: Stage,
    of: tuple[Together, Mapping[str, Part]],
    what: tuple[Insertion, Sequence[str]],
    after: Sequence[int],
) -> int:
    """Add one insertion: parts that go together into what is there, moved one way after another."""
    (together, by_id), (insertion, there) = of, what
    on = []
    met: dict[str, None] = {}
    for name in insertion.parts:
        part = by_id[name]
        joints = [joint for joint in together.joints if _other(joint, name) in there]
        into = tuple(dict.fromkeys(_other(joint, name) for joint in joints))
        met.update(dict.fromkeys(into))
        sides = dict.fromkeys(_faces(part, joint) for joint in joints if joint.glue_area_mm2 > 0)
        on.append(Workpiece(part=name, count=part.quantity, into=into, glue=tuple(sides)))
    moves = tuple([Move(WAYS[leg.way], None if leg.by is None else int(leg.by)) for leg in insertion.legs])
    names = joined([_short(by_id[name]) for name in insertion.parts])
    ways = ", then ".join(
        f"moving {WORDS[move.towards]}" + (f" by {steps.text(move.by)}" if move.by is not None else "")
        for move in moves
    )
    place = f"into {joined([_short(by_id[name]) for name in met])}" if met else "in its place"
    start = f"Stand {_short(by_id[there[0]])} ready, then set" if len(there) == 1 else "Set"
    spread = [steps.words.sides[one.part][side] for one in on for side in one.glue]
    glue = f"; glue on its {joined(list(dict.fromkeys(spread)))}" if spread else ""
    do = f"{start} {names} {place}, {ways}{glue}"
    let_in = _let_in(together, insertion.parts, there)
    do += f"; put in {joined(let_in)} first" if let_in else ""
    operation = Operation(0, stage, Machine.BY_HAND, Action.INSERT, Setting(), tuple(on), (), do, moves=moves)
    return steps.put(operation, after)


def _let_in(together: Together, going: Sequence[str], there: Sequence[str]) -> list[str]:
    """Return how many of what is let into both sides of the joints that close, for one copy."""
    counts: dict[str, int] = {}
    closing = {joint.id for joint in together.joints for name in going if _other(joint, name) in there}
    for line in together.hardware:
        if line.used_for in closing:
            counts[line.name] = counts.get(line.name, 0) + len(line.at)
    return [f"{count} × {name}" for name, count in counts.items() if count]


def _other(joint: Joint, name: str) -> str:
    """Return what a part meets in a joint; nothing where it is not in it."""
    return joint.host if joint.guest == name else joint.guest if joint.host == name else ""


def _faces(part: Part, joint: Joint) -> Side:
    """Return the side of a part that faces the other part of a joint."""
    way = joint.press if joint.guest == part.id else opposite(joint.press)
    frame = (part.place.x, part.place.y, part.place.z)
    n = [abs(axis) for axis in frame].index(abs(way))
    return tuple(Side)[2 * n + (frame[n] == way)]


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
    names = {part.id: _short(part) for part in parts}
    last = list(after)
    if clamps:
        count = sum(one.clamps for one in clamps)
        edges = "at both edges of each" if max(one.clamps for one in clamps) > 1 else "in the middle of each"
        across = joined([names[one.part] for one in clamps])
        copies = max(one.count for one in clamps)
        each = f" for each of {copies}" if copies > 1 else ""
        do = f"Clamp {what} across {across}, {edges}, with cauls: {count} clamp{'s' if count > 1 else ''}{each}"
        check = "both diagonals alike, and no twist"
        operation = Operation(0, stage, Machine.BY_HAND, Action.CLAMP, Setting(), tuple(clamps), (), do, check)
        last = [steps.put(operation, last)]
    how = "clamped" if clamps else "alone"
    do = f"Leave {what} {how} for {time_text(times.clamped)}; no load on it for {time_text(times.cure)} from now"
    wait = steps.by_hand(stage, Action.WAIT, do, parts, last)
    steps.steps[-1] = replace(steps.steps[-1], minutes=times.clamped)
    return [wait]
