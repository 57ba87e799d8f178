"""Calling plugins: built-in methods straight, outside ones within a time allowance.

An outside plugin's call runs in a thread of its own and is given up after the allowance, so that one that sleeps or
never ends fails its own request by name and no other. The clock decides only whether there is an answer, never what
it is. Python cannot end a thread: a call given up on is asked to stop, and where it does not, its thread lingers. A
plugin with `MOST_OVERDUE` calls that have not come back is not called again until some have.
"""

import ctypes
import sys
import threading
from collections.abc import Callable
from contextvars import copy_context
from dataclasses import dataclass
from typing import Any

from casewright.sdk.errors import PluginFaultError
from casewright.sdk.loader import Registry
from casewright.sdk.places import frame_at, raised_at

MOST_OVERDUE = 32


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
        except BaseException as error:  # handed to the caller, which names the plugin
            self.raised = error


def answer_of(registry: Registry, family: str, method: str, ask: Callable[[], Any]) -> Any:
    """Return what `ask`, a call of a method, answers, or raise what it raises.

    Raises `PluginFaultError` where an outside plugin exits or does not answer within `registry.seconds`.
    """
    if (family, method) not in registry.outside:
        return ask()
    owner = registry.owner(family, method)
    name = f"plugin {owner}"
    if sum(thread.name == name for thread in threading.enumerate()) >= MOST_OVERDUE:
        raise PluginFaultError(owner, method, f"{MOST_OVERDUE} earlier calls of this plugin have not come back")
    call = _Call(ask)
    thread = threading.Thread(target=copy_context().run, args=(call.run,), name=name, daemon=True)
    thread.start()
    thread.join(registry.seconds)
    if thread.is_alive():
        at = frame_at(sys._current_frames().get(thread.ident or 0))
        _give_up(thread)
        raise PluginFaultError(owner, method, f"did not answer within {registry.seconds:g} s", at)
    if isinstance(call.raised, Exception):
        raise call.raised
    if call.raised is not None:
        fault = f"raised {type(call.raised).__name__}: {call.raised}"
        raise PluginFaultError(owner, method, fault, raised_at(call.raised))
    return call.answer


def _give_up(thread: threading.Thread) -> None:
    """Ask a thread to stop: a loop does at its next step, a call that waits outside Python when it returns."""
    if thread.ident is not None:
        ctypes.pythonapi.PyThreadState_SetAsyncExc(ctypes.c_ulong(thread.ident), ctypes.py_object(_GivenUp))
