"""Steps that the job marks as done: that there are such steps, and that what they need is done too."""

from collections.abc import Sequence

from casewright.sdk.errors import NoGeometryError, Problem, pointer_to
from casewright.sdk.model import Check, Finding, Job, Operation

__all__ = ["done_checks", "validate_done"]


def validate_done(job: Job, steps: Sequence[Operation]) -> None:
    """Raise `NoGeometryError` naming each number in `done` that no step has."""
    problems = [
        Problem(
            pointer_to("done", place),
            "the number of a step",
            str(number),
            f"The steps of this job are numbered 1 to {len(steps)}. Take the number out, or give one of these.",
        )
        for place, number in enumerate(job.done)
        if not 0 < number <= len(steps)
    ]
    if problems:
        raise NoGeometryError(*problems)


def done_checks(job: Job, steps: Sequence[Operation]) -> tuple[Check, ...]:
    """Return a caution for each step marked done that needs steps which are not."""
    done = frozenset(job.done)
    out = []
    for number in sorted(done):
        open_needs = [need for need in steps[number - 1].needs if need not in done]
        if open_needs:
            several = len(open_needs) > 1
            first = f"step{'s' if several else ''} {', '.join(map(str, open_needs))}"
            message = (
                f"Step {number} is marked done, and {first}, which must be done before it, "
                f"{'are' if several else 'is'} not. Mark that too, or take the mark away."
            )
            at = pointer_to("done", job.done.index(number))
            out.append(Check(at, Finding("done-before-its-needs", "caution", message, number)))
    return tuple(out)
