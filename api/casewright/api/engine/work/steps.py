"""Operations as they are added: each knows which operations its parts and pieces have been through."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from casewright.api.engine.work.machines import Tools
from casewright.api.engine.work.made import Made
from casewright.api.engine.work.wording import Words
from casewright.sdk.model import Action, Job, Machine, Operation, Part, Setting, Stage, Workpiece

BY_HAND: Mapping[Stage, Action] = {
    Stage.MEASURE: Action.MEASURE,
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


@dataclass(slots=True)
class Steps:
    """Operations so far, and those each part or piece on its way to parts waits for."""

    job: Job
    words: Words
    tools: Tools
    made: Made
    steps: list[Operation] = field(default_factory=list)
    done: dict[str, tuple[int, ...]] = field(default_factory=dict)

    def add(self, stage: Stage, do: str, parts: Iterable[Part], after: Iterable[int] = (), check: str = "") -> int:
        """Add what is done by hand to `parts`, after all those parts have been through and those in `after`."""
        on = tuple([Workpiece(part=part.id, count=part.quantity) for part in parts])
        return self.put(Operation(0, stage, Machine.BY_HAND, BY_HAND[stage], Setting(), on, (), do, check), after)

    def put(self, operation: Operation, after: Iterable[int] = ()) -> int:
        """Add an operation whose words are made, after all that its parts have been through and those in `after`."""
        number = len(self.steps) + 1
        needs = set(after).union(*[self.done.get(one.part, ()) for one in operation.on])
        self.steps.append(replace(operation, number=number, needs=tuple(sorted(needs))))
        self.done.update(dict.fromkeys([one.part for one in operation.on], (number,)))
        return number

    def by_hand(self, stage: Stage, action: Action, do: str, parts: Iterable[Part], after: Iterable[int] = ()) -> int:
        """Add an action that is not what is mostly done by hand in its stage, as `add` does."""
        number = self.add(stage, do, parts, after)
        self.steps[-1] = replace(self.steps[-1], action=action)
        return number

    def wait(self, stage: Stage, do: str, parts: Iterable[Part], after: Iterable[int], minutes: int) -> int:
        """Add a wait of so many minutes, as `add` does."""
        number = self.by_hand(stage, Action.WAIT, do, parts, after)
        self.steps[-1] = replace(self.steps[-1], minutes=minutes)
        return number

    def extend(self, operations: Sequence[Operation], after: Iterable[int] = ()) -> list[int]:
        """Add operations at machines, numbered and with their words, and return their numbers."""
        first, always = len(self.steps) + 1, tuple(after)
        for number, operation in enumerate(operations, start=first):
            worked = [name for one in operation.on for name in (one.part, one.piece) if name]
            needs = set(always).union(*[self.done.get(name, ()) for name in worked])
            made = replace(self.tools.placed(operation), number=number, needs=tuple(sorted(needs)))
            self.steps.append(self.words.worded(made))
            given = [name for one in operation.on for name in (one.part, one.keeps, one.leaves) if name]
            for name in dict.fromkeys(given):  # copies of a part may be cut in several operations
                before = () if name in worked else self.done.get(name, ())
                self.done[name] = (*before, number)
        return list(range(first, first + len(operations)))

    def text(self, nm: int) -> str:
        """Return a length as bench text."""
        return self.words.text(nm)
