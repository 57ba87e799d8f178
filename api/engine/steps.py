"""Steps of work as they are added: each knows which steps its parts have been through."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from casewright.sdk.model import Job, Part, Step
from casewright.sdk.units import tape_text


@dataclass(slots=True)
class Steps:
    """Steps so far, and the steps each part waits for."""

    job: Job
    steps: list[Step] = field(default_factory=list)
    done: dict[str, set[int]] = field(default_factory=dict)

    def add(self, stage: str, do: str, parts: Iterable[Part], setting: str = "", after: Iterable[int] = ()) -> int:
        """Add a step over `parts`, after every step those parts have been through and those in `after`."""
        ids = [p.id for p in parts]
        needs = set(after)
        for part in ids:
            needs |= self.done.get(part, set())
        number = len(self.steps) + 1
        self.steps.append(Step(number, stage, do, tuple(ids), setting, tuple(sorted(needs))))
        for part in ids:
            self.done[part] = {number}
        return number

    def text(self, nm: int) -> str:
        """Return a length as bench text."""
        return tape_text(nm, self.job.units, self.job.tape)
