"""Operations as they are added: each knows which operations its parts and pieces have been through."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from casewright.api.engine.work.grouping import joint_operations
from casewright.api.engine.work.late import LateCut
from casewright.api.engine.work.machines import Tools
from casewright.api.engine.work.made import Made
from casewright.api.engine.work.wording import Words
from casewright.sdk.model import Action, CutTo, Job, Machine, Measurement, Operation, Part, Setting, Stage, Workpiece

BY_HAND: Mapping[Stage, Action] = {
    Stage.MEASURE: Action.MEASURE,
    Stage.JOINTS: Action.FIT,
    Stage.DRY_FIT: Action.FIT,
    Stage.GLUE: Action.GLUE,
    Stage.FACE_FRAME: Action.FIT,
    Stage.BAND: Action.BAND,
    Stage.DOORS: Action.FIT,
    Stage.DRAWERS: Action.FIT,
    Stage.HARDWARE: Action.SCREW,
    Stage.BASE: Action.SCREW,
    Stage.ENDS: Action.SCREW,
    Stage.MOUNTING: Action.SCREW,
    Stage.SET_OUT: Action.MARK,
    Stage.HANG: Action.HANG,
    Stage.COUNTER: Action.SCREW,
    Stage.JOIN: Action.SCREW,
    Stage.FILLERS: Action.FIT,
    Stage.FINISH: Action.FINISH,
}
"""What is done by hand in each stage, where a step says no more."""
UNSET = Setting()
"""Of what is done by hand, which needs no setting."""


@dataclass(slots=True)
class Steps:
    """Operations so far, and those each part or piece on its way to parts waits for.

    `late` are cuts that wait for a measurement: they come, with it and with the joints of their parts, just before
    what is first done to one of these parts by hand; `waits` are the parts that are not cut yet because of them. `read`
    are the steps that measure, so far.
    """

    job: Job
    words: Words
    tools: Tools
    made: Made
    late: Sequence[LateCut] = ()
    steps: list[Operation] = field(default_factory=list)
    done: dict[str, tuple[int, ...]] = field(default_factory=dict)
    read: dict[Measurement, int] = field(default_factory=dict)
    waits: set[str] = field(init=False)
    _by_hand: dict[tuple[str, int], Workpiece] = field(default_factory=dict)
    _behind: list[int] = field(default_factory=lambda: [0])  # by number, as bits: all operations that one waits for
    _cuts: dict[tuple[Measurement, ...], list[LateCut]] = field(init=False)
    _later: dict[tuple[Measurement, ...], list[Part]] = field(init=False)

    def __post_init__(self) -> None:
        self.waits = {part for cut in self.late for part in cut.parts}
        self._cuts, self._later = {}, {}
        for cut in self.late:
            self._cuts.setdefault(self.made.waiting.measured_for(min(cut.parts)), []).append(cut)
        for part in self.made.parts:
            if part.id in self.waits:
                self._later.setdefault(self.made.waiting.measured_for(part.id), []).append(part)

    def add(self, stage: Stage, do: str, parts: Iterable[Part], after: Iterable[int] = (), check: str = "") -> int:
        """Add what is done by hand to `parts`, after all those parts have been through and those in `after`."""
        on = self._pieces(parts)
        return self.put(Operation(0, stage, Machine.BY_HAND, BY_HAND[stage], UNSET, on, do=do, check=check), after)

    def put(self, operation: Operation, after: Iterable[int] = ()) -> int:
        """Add an operation whose words are made, after all that its parts have been through and those in `after`."""
        after = tuple(after)
        for one in operation.on:
            if one.part in self.waits:
                self._measured_for(one.part, after)
        number = len(self.steps) + 1
        needs = self._least(after, [one.part for one in operation.on])
        self.steps.append(replace(operation, number=number, needs=needs))
        self.done.update(dict.fromkeys([one.part for one in operation.on], (number,)))
        return number

    def by_hand(self, stage: Stage, action: Action, do: str, parts: Iterable[Part], after: Iterable[int] = ()) -> int:
        """Add an action that is not what is mostly done by hand in its stage, as `add` does."""
        return self.put(Operation(0, stage, Machine.BY_HAND, action, UNSET, self._pieces(parts), do=do), after)

    def wait(self, stage: Stage, do: str, parts: Iterable[Part], after: Iterable[int], minutes: int) -> int:
        """Add a wait of so many minutes, as `add` does."""
        on = self._pieces(parts)
        return self.put(Operation(0, stage, Machine.BY_HAND, Action.WAIT, UNSET, on, do=do, minutes=minutes), after)

    def extend(self, operations: Sequence[Operation], after: Iterable[int] = ()) -> list[int]:
        """Add operations at machines, numbered and with their words, and return their numbers."""
        always = tuple(after)
        for name in dict.fromkeys([one.part for operation in operations for one in operation.on]):
            if name in self.waits:
                self._measured_for(name, always)
        first = len(self.steps) + 1
        for number, operation in enumerate(operations, start=first):
            worked = [name for one in operation.on for name in (one.part, one.piece) if name]
            made = replace(self.tools.placed(operation), number=number, needs=self._least(always, worked))
            self.steps.append(self.words.worded(made))
            given = [name for one in operation.on for name in (one.part, one.keeps, one.leaves) if name]
            for name in dict.fromkeys(given):  # copies of a part may be cut in several operations
                before = () if name in worked else self.done.get(name, ())
                self.done[name] = (*before, number)
        return list(range(first, first + len(operations)))

    def _least(self, after: Iterable[int], names: Iterable[str]) -> tuple[int, ...]:
        """Return what the next operation needs, less what another of its needs waits for already.

        It comes after the operations in `after` and all that the pieces of these names have been through.
        """
        needs = set(after).union(*[self.done.get(name, ()) for name in names])
        behind = 0
        for need in needs:
            behind |= self._behind[need]
        self._behind.append(behind | sum([1 << need for need in needs]))
        return tuple(sorted([need for need in needs if not behind >> need & 1]))

    def _measured_for(self, part: str, after: Iterable[int]) -> None:
        """Add what a part waits for: what is measured, then the cuts and joints of all that waits for it.

        What is measured on parts that wait themselves comes after these are cut.
        """
        wanted = self.made.waiting.measured_for(part)
        cuts, own = self._cuts.pop(wanted), self._later.pop(wanted)
        self.waits.difference_update([one.id for one in own])
        for measurement in wanted:
            if measurement not in self.read:
                self.read[measurement] = self.put(self.words.measuring(measurement), after)
        self.extend([self._cut_to(cut) for cut in cuts], [self.read[one] for one in wanted])
        joints = [self._from_far_end(one) for one in joint_operations(own, self.tools, self.made)]
        self.extend(joints, [self.read[one] for one in wanted])

    def _cut_to(self, cut: LateCut) -> Operation:
        """Return a late cut, set by what is measured for it where it is."""
        if cut.sized is None:
            return cut.operation
        measurement, size = cut.sized
        return replace(cut.operation, cut_to=CutTo(self.read[measurement], size.less, size.among, size.full))

    def _from_far_end(self, operation: Operation) -> Operation:
        """Return a slant set by what is measured, where it is at the other end of what is cut to that."""
        fence, sizes = operation.setting.distance or 0, self.made.waiting.sizes
        lengths = [sizes.get((one.part, one.against.axis)) for one in operation.on if one.against is not None]
        sized = [one for one in lengths if one is not None]
        alike = {(measurement, size.planned, size.less, size.among, size.full) for measurement, size in sized}
        if operation.action is not Action.BEVEL or len(sized) < len(operation.on) or len(alike) != 1:
            return operation
        ((measurement, planned, less, among, full),) = alike
        if 2 * fence < planned:
            return operation
        less += among * (planned - fence)
        return replace(operation, cut_to=CutTo(self.read[measurement], less, among, full))

    def _pieces(self, parts: Iterable[Part]) -> tuple[Workpiece, ...]:
        """Return parts as what is worked on by hand, each the same in every step."""
        on = []
        for part in parts:
            key = part.id, part.quantity
            if key not in self._by_hand:
                self._by_hand[key] = Workpiece(part=part.id, count=part.quantity)
            on.append(self._by_hand[key])
        return tuple(on)

    def text(self, nm: int) -> str:
        """Return a length as bench text."""
        return self.words.text(nm)
