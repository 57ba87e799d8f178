"""Waiting for a plugin's code no longer than is allowed, and saying where it was when it was given up.

A call runs in a thread of its own. Python cannot end a thread: a call given up on is asked to stop, and where it does
not (it waits outside Python), its thread lingers. The clock decides only whether there is an answer, never what it is.
"""

import ctypes
import logging
import sys
import threading
import time
from collections.abc import Callable
from contextvars import copy_context
from types import FrameType
from typing import Any

from casewright.sdk.places import frame_at, outermost

log = logging.getLogger("casewright.plugins")

STEP = 0.1
"""Seconds between two looks at a call that is watched."""

PATIENCE = 1.0
"""Seconds after which the log says what is being waited for."""


class OverdueError(Exception):
    """A call that did not come back in time; `at` is the line of the plugin's that ran last, empty where none did."""

    def __init__(self, what: str, seconds: float, at: str) -> None:
        super().__init__(f"{what} did not answer within {seconds:g} s")
        self.at = at


class _GivenUp(BaseException):  # not an error of the plugin's: raised in its thread to end it
    """Raised inside a call that took too long."""


class _Call:
    """One call, run in a thread of its own, and what came of it."""

    def __init__(self, ask: Callable[[], Any], thread: str) -> None:
        self.ask = ask
        self.answer: Any = None
        self.raised: BaseException | None = None
        self.runner = threading.Thread(target=copy_context().run, args=(self._run,), name=thread, daemon=True)
        self.runner.start()

    def _run(self) -> None:
        try:
            self.answer = self.ask()
        except BaseException as error:  # handed to whoever waits
            self.raised = error

    def frame(self) -> FrameType | None:
        """Return the innermost frame that is running."""
        return sys._current_frames().get(self.runner.ident or 0)

    def ended_within(self, seconds: float) -> bool:
        """Wait so long at most, and return whether it has ended."""
        self.runner.join(seconds)
        return not self.runner.is_alive()

    def outcome(self) -> Any:
        """Return what was answered, or raise what was raised."""
        if self.raised is not None:
            raise self.raised
        return self.answer

    def give_up(self) -> None:
        """Ask the thread to stop: a loop does at its next step, a call that waits outside Python when it returns."""
        if self.runner.ident is not None:
            ident = ctypes.c_ulong(self.runner.ident)
            ctypes.pythonapi.PyThreadState_SetAsyncExc(ident, ctypes.py_object(_GivenUp))


def within(seconds: float, what: str, ask: Callable[[], Any], *, thread: str = "", aloud: bool = False) -> Any:
    """Return what `ask` answers, or raise what it raises, whatever it is. Raises `OverdueError` after `seconds`.

    `what` says in words what is waited for; `aloud` says it in the log once it takes longer than a second.
    """
    call = _Call(ask, thread or what)
    ended = call.ended_within(min(seconds, PATIENCE) if aloud else seconds)
    if not ended and aloud and seconds > PATIENCE:
        log.warning("%s: waiting, up to %g s", what, seconds)
        ended = call.ended_within(seconds - PATIENCE)
    if not ended:
        at = frame_at(call.frame())
        call.give_up()
        raise OverdueError(what, seconds, at)
    return call.outcome()


def watched(seconds: float, what: str, ask: Callable[[], Any]) -> Any:
    """Return what `ask` answers, or raise what it raises. Raises `OverdueError` where one call of a plugin lasts on.

    `ask` itself may take as long as it likes, so that many calls can be made of it.
    """
    call = _Call(ask, what)
    running, since = None, time.monotonic()
    while not call.ended_within(STEP):
        frame = call.frame()
        outer = outermost(frame)
        if outer is None or outer is not running:
            running, since = outer, time.monotonic()
        elif time.monotonic() - since > seconds:
            at = frame_at(frame)
            call.give_up()
            raise OverdueError(what, seconds, at)
    return call.outcome()
