"""The time budget of a request: the clock decides only whether there is an answer, never what it is.

An alarm raises in the main thread, so this is for a process whose main thread answers, one request at a time, as
`casewright serve` sets it up. Under another server the budget is left to that server.
"""

import signal
import time
from collections.abc import Callable, Iterable, Iterator
from functools import partial
from typing import Any, TypeVar

from casewright.api.web.jobs import lighter_requests
from casewright.api.web.problems import KINDS, ProblemError, problem_body
from casewright.api.wire.plan_document import to_bytes
from casewright.sdk.errors import Problem

Answer = TypeVar("Answer")
LEAST = 0.001


class OverBudgetError(BaseException):  # no error of the job's or a plugin's: nothing below may take it for one
    """Raised in the main thread when a request has used up its time."""


class Budget:
    """Bounds requests of one process by wall-clock seconds."""

    def __init__(self, seconds: float) -> None:
        self.seconds = seconds

    def run(self, work: Callable[[], Answer]) -> Answer:
        """Return what the work answers. Raises `ProblemError` (422) where it takes longer than the budget."""
        try:
            return _armed(self.seconds, work)
        except OverBudgetError:
            raise ProblemError("over-budget", *self.over()) from None

    def lines(self, lines: Iterable[bytes], over: tuple[str, list[Problem]]) -> Iterator[bytes]:
        """Yield lines of JSON; where they take longer than the budget, the problem `over` is the last of them.

        The thread that still works on the job then ends with its worker, which leaves once it has answered.
        """
        until = time.monotonic() + self.seconds
        coming = iter(lines)
        while True:
            try:
                line = _armed(max(LEAST, until - time.monotonic()), partial(next, coming, None))
            except OverBudgetError:
                yield to_bytes({"problem": problem_body(KINDS["over-budget"], *over)})
                return
            if line is None:
                return
            yield line

    def over(self) -> tuple[str, list[Problem]]:
        """Return detail and problem of a request over its budget, with advice that fits its job."""
        rule = f"at most {self.seconds:g} s a request (budget_seconds)"
        fix = f"Send {', or '.join(lighter_requests())}."
        return "The job takes longer than a request may.", [Problem("", rule, "more", fix)]


def _late(_number: int, _frame: Any) -> None:
    raise OverBudgetError


def _armed(seconds: float, work: Callable[[], Answer]) -> Answer:
    """Return what the work answers. Raises `OverBudgetError` after so many seconds, even as the alarm is put off."""
    signal.signal(signal.SIGALRM, _late)
    try:
        signal.setitimer(signal.ITIMER_REAL, seconds)
        return work()
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
