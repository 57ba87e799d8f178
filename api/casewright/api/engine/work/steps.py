"""Steps of work as they are added: each knows which steps its parts have been through."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from casewright.sdk.model import Job, Part, Stage, Step
from casewright.sdk.units import tape_text


@dataclass(slots=True)
class Steps:
    """Steps so far, and the steps each part waits for."""

    job: Job
    steps: list[Step] = field(default_factory=list)
    done: dict[str, tuple[int, ...]] = field(default_factory=dict)
    texts: dict[int, str] = field(default_factory=dict)

    def add(self, stage: Stage, do: str, parts: Iterable[Part], setting: str = "", after: Iterable[int] = ()) -> int:
        """Add a step over `parts`, after every step those parts have been through and those in `after`."""
        ids = tuple([p.id for p in parts])
        needs = set(after).union(*[self.done.get(part, ()) for part in ids])
        number = len(self.steps) + 1
        self.steps.append(Step(number, stage, do, ids, setting, tuple(sorted(needs))))
        self.done.update(dict.fromkeys(ids, (number,)))
        return number

    def text(self, nm: int) -> str:
        """Return a length as bench text; each is written once."""
        text = self.texts.get(nm)
        if text is None:
            text = self.texts[nm] = tape_text(nm, self.job.units, self.job.tape)
        return text
