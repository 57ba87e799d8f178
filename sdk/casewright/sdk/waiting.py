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
from dataclasses import dataclass
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


@dataclass(slots=True)
class _Call:
    """One call and what came of it."""

    ask: Callable[[], Any]
    answer: Any = None
    raised: BaseException | None = None

    def run(self) -> None:
        try:
            self.answer = self.ask()
        except BaseException as error:  # handed to whoever waits
            self.raised = error


def within(seconds: float, what: str, ask: Callable[[], Any], *, thread: str = "", aloud: bool = False) -> Any:
    """Return what `ask` answers, or raise what it raises, whatever it is. Raises `OverdueError` after `seconds`.

    `what` says in words what is waited for; `aloud` says it in the log once it takes longer than a second.
    """
    call = _Call(ask)
    runner = threading.Thread(target=copy_context().run, args=(call.run,), name=thread or what, daemon=True)
    runner.start()
    runner.join(min(seconds, PATIENCE) if aloud else seconds)
    if aloud and runner.is_alive() and seconds > PATIENCE:
        log.warning("%s: waiting, up to %g s", what, seconds)
        runner.join(seconds - PATIENCE)
    if runner.is_alive():
        at = frame_at(sys._current_frames().get(runner.ident or 0))
        _give_up(runner)
        raise OverdueError(what, seconds, at)
    if call.raised is not None:
        raise call.raised
    return call.answer


def watched(seconds: float, what: str, ask: Callable[[], Any]) -> Any:
    """Return what `ask` answers, or raise what it raises. Raises `OverdueError` where one call of a plugin lasts on.

    `ask` itself may take as long as it likes, so that many calls can be made of it.
    """
    call = _Call(ask)
    runner = threading.Thread(target=copy_context().run, args=(call.run,), name=what, daemon=True)
    runner.start()
    running, since = None, time.monotonic()
    while True:
        runner.join(STEP)
        if not runner.is_alive():
            break
        frame = sys._current_frames().get(runner.ident or 0)
        outer = outermost(frame)
        if outer is None or outer is not running:
            running, since = outer, time.monotonic()
        elif time.monotonic() - since > seconds:
            at = frame_at(frame)
            _give_up(runner)
            raise OverdueError(what, seconds, at)
    if call.raised is not None:
        raise call.raised
    return call.answer


def _give_up(thread: threading.Thread) -> None:
    """Ask a thread to stop: a loop does at its next step, a call that waits outside Python when it returns."""
    if thread.ident is not None:
        ctypes.pythonapi.PyThreadState_SetAsyncExc(ctypes.c_ulong(thread.ident), ctypes.py_object(_GivenUp))
