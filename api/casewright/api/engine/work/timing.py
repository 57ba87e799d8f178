"""How long each operation takes by the shop's own rates: what these count, shared over the operations that do it.

The total is that of the costs: every kind of work of `rates.minutes` has a quantity in the plan, and is done in these
operations, in proportion to how much of it each does. A kind that the shop gives no time for takes none.

| kind of `rates.minutes` | operations | shared by |
|---|---|---|
| `setting` | of the stages `cut` and `joints` | each the same |
| `rip`, `crosscut` | those that make the cuts of the layouts; without stock `rip`, `crosscut` | cuts; pieces |
| `groove` to `hole` | those whose action makes such cuts | a part's cuts, over the passes that make them |
| `joint` | the dry fit, or else what is first done by hand to the part that goes in | joints |
| `glue-up` | the glue-up of a group, or else where it is screwed together; of frame and case, theirs | glue-ups |
| `band` | `band` | length |
| `door`, `hinge` | where the door is hung | doors; hinges |
| `drawer` | where the drawer is hung | drawers |
| `finish` | the coats, or without any the last sanding | area |
| `hang` | where a cabinet is hung or set | cabinets |
| `filler` | where it is fitted | fillers |
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from casewright.api.engine.work.costs import quantities
from casewright.api.engine.work.operations import cuts_of_rate
from casewright.sdk.loader import Registry
from casewright.sdk.model import Action, Machine, Operation, Part, Plan, Stage

__all__ = ["timed"]

MADE_BY: Mapping[Action, str] = {
    Action.GROOVE: "groove",
    Action.RABBET: "rabbet",
    Action.NOTCH: "rabbet",
    Action.TENON: "tenon",
    Action.DOVETAIL: "tenon",
    Action.MORTISE: "mortise",
    Action.POCKET: "mortise",
    Action.BEVEL: "bevel",
    Action.PROFILE: "edge-profile",
    Action.BORE: "hole",
}
"""The work of the shop's rates that each action at a machine is counted as."""

Shares = dict[int, Fraction]
"""How much of one kind of work each operation does, by its number: in any measure, the same for all of them."""


def timed(plan: Plan, registry: Registry) -> tuple[Operation, ...]:
    """Return the steps of a plan, each with its minutes where the shop's rates have a time for what is done in it.

    Minutes of a wait stay as they are. Those of all other steps sum to the hours of the plan's costs, as far as the
    work is done in some step.
    """
    rates = plan.job.rates
    minutes = rates.minutes if rates else {}
    if not minutes:
        return plan.steps
    bench, amounts = _Bench.of(plan), quantities(plan, registry)
    took: Shares = {}
    for kind, each in minutes.items():
        shares = _shares(kind, plan, bench)
        whole = sum(shares.values(), Fraction(0))
        for number, share in shares.items():
            if share and number:
                took[number] = took.get(number, Fraction(0)) + Fraction(amounts[kind] * each) * share / whole
    return tuple([replace(step, minutes=took[step.number]) if step.number in took else step for step in plan.steps])


def _shares(kind: str, plan: Plan, bench: "_Bench") -> Shares:
    """Return how much of a kind of work each operation does."""
    match kind:
        case "setting":
            return {step.number: Fraction(1) for step in plan.steps if step.stage in (Stage.CUT, Stage.JOINTS)}
        case "rip" | "crosscut":
            return _sawn(plan, kind == "rip")
        case "joint":
            return _summed(_joints(plan, bench))
        case "glue-up":
            return _summed(_glue_ups(plan, bench))
        case "door":
            return _summed((bench.hung(door.parts[0]), bench.counts[door.cabinet]) for door in plan.doors)
        case "hinge":
            return _summed(
                (bench.hung(door.parts[0]), len(door.hinges) * bench.counts[door.cabinet]) for door in plan.doors
            )
        case "drawer":
            drawers = {(part.cabinet, part.group): part.id for part in plan.parts if part.group.startswith("drawer-")}
            return _summed((bench.hung(part), bench.counts[cabinet]) for (cabinet, _), part in drawers.items())
        case "band":
            return bench.by_parts(plan, Action.BAND, Stage.BAND, _banded)
        case "filler":
            return bench.by_parts(plan, Action.FIT, Stage.FILLERS, lambda part: 1)
        case "finish":
            return _finish(plan, bench)
        case "hang":
            return _hung(plan, bench)
        case _:
            return _cut(kind, plan)


@dataclass(frozen=True, slots=True)
class _Bench:
    """A plan's parts by id, how many of each cabinet are made, and the steps by hand that each part is in."""

    parts: Mapping[str, Part]
    counts: Mapping[str, int]
    steps: Mapping[str, Sequence[tuple[Operation, frozenset[str]]]]

    @classmethod
    def of(cls, plan: Plan) -> "_Bench":
        """Return the look-ups of a plan."""
        steps: dict[str, list[tuple[Operation, frozenset[str]]]] = {}
        for step in plan.steps:
            if step.machine is Machine.BY_HAND and step.action is not Action.MEASURE:
                on = frozenset([one.part for one in step.on])
                for part in on:
                    steps.setdefault(part, []).append((step, on))
        counts = {cabinet.id: cabinet.count for cabinet in plan.job.cabinets}
        return cls({part.id: part for part in plan.parts}, counts, steps)

    def first(self, parts: Sequence[str], *actions: Action) -> int:
        """Return the first step by hand to all these parts, of the first action that any is; 0 for none."""
        there = [step for step, on in self.steps.get(parts[0], ()) if on.issuperset(parts)]
        return next((step.number for action in actions for step in there if step.action is action), 0)

    def hung(self, part: str) -> int:
        """Return the step in which a door or drawer box with this part is hung; 0 for none."""
        return next((step.number for step, _ in self.steps.get(part, ()) if step.stage is Stage.HARDWARE), 0)

    def by_parts(self, plan: Plan, action: Action, stage: Stage, measure: Callable[[Part], int]) -> Shares:
        """Return the shares of the steps of an action and stage, by a measure of the pieces on them."""
        steps = [step for step in plan.steps if step.stage is stage and step.action is action]
        return _summed((step.number, measure(self.parts[one.part]) * one.count) for step in steps for one in step.on)


def _summed(shares: Iterable[tuple[int, int | Fraction]]) -> Shares:
    out: Shares = {}
    for number, share in shares:
        out[number] = out.get(number, Fraction(0)) + share
    return out


def _sawn(plan: Plan, rip: bool) -> Shares:
    if plan.stock is not None:
        cuts = [cut for layout in plan.stock.layouts for cut in layout.cuts]
        return _summed((cut.step, 1) for cut in cuts if (cut.along == "length") == rip)
    action = Action.RIP if rip else Action.CROSSCUT
    return _summed((step.number, one.count) for step in plan.steps if step.action is action for one in step.on)


def _cut(kind: str, plan: Plan) -> Shares:
    """Each part's cuts of a kind, shared evenly by the lines of the steps that make them: passes, ends, places."""
    lines: dict[str, list[int]] = {}
    for step in plan.steps:
        if MADE_BY.get(step.action) == kind:
            for one in step.on:
                lines.setdefault(one.part, []).append(step.number)
    each = {part.id: Fraction(cuts_of_rate(part, kind) * part.quantity) for part in plan.parts}
    return _summed((number, each[part] / len(numbers)) for part, numbers in lines.items() for number in numbers)


def _joints(plan: Plan, bench: _Bench) -> Iterator[tuple[int, int]]:
    for joint in plan.joints:
        dry = bench.first((joint.guest, joint.host), Action.FIT)
        by_hand = bench.steps.get(joint.guest, ())
        yield dry or (by_hand[0][0].number if by_hand else 0), bench.counts[joint.cabinet]


def _glue_ups(plan: Plan, bench: _Bench) -> Iterator[tuple[int, int]]:
    groups = {part.id: (part.cabinet, part.group) for part in plan.parts}
    seen: set[tuple[str, str]] = set()
    for joint in plan.joints:
        group = groups[joint.guest]
        if group == groups[joint.host] and group[1] != "mounting" and group not in seen:
            seen.add(group)
            at = bench.first((joint.guest, joint.host), Action.GLUE, Action.SCREW)
            yield at, bench.counts[joint.cabinet]
    for cabinet in plan.job.cabinets:
        if cabinet.face_frame is not None:
            one = {group: part for part, (of, group) in groups.items() if of == cabinet.id}
            yield bench.first((one["face-frame"], one["case"]), Action.GLUE), cabinet.count


def _banded(part: Part) -> int:
    return sum(max(band.box.size) for band in part.bands)


def _finish(plan: Plan, bench: _Bench) -> Shares:
    area = {one.cabinet: Fraction(one.finish_area_mm2) * bench.counts[one.cabinet] for one in plan.workshop}
    steps = [step for step in plan.steps if step.stage is Stage.FINISH and step.on]
    home = {step.number: bench.parts[step.on[0].part].cabinet for step in steps}
    coats = [step.number for step in steps if step.action is Action.FINISH]
    last = {home[step.number]: step.number for step in steps if step.action is Action.SAND}
    return {number: area[home[number]] for number in coats or last.values()}


def _hung(plan: Plan, bench: _Bench) -> Shares:
    """Return the shares of steps that put cabinets up: one that is for one of several has the pieces of one."""
    out: Shares = {}
    for step in plan.steps:
        if step.action is Action.HANG and step.on:
            part = bench.parts[step.on[0].part]
            out[step.number] = Fraction(step.on[0].count * bench.counts[part.cabinet], part.quantity)
    return out
