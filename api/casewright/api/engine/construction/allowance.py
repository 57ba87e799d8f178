"""Calling plugins: built-in methods straight, outside ones within a time allowance.

An outside plugin's call is given up after the allowance, so that one that sleeps or never ends fails its own request by
name and no other. A plugin with `MOST_OVERDUE` calls that have not come back is not called again until some have.
"""

import threading
from collections.abc import Callable
from typing import Any

from casewright.sdk.errors import PluginFaultError
from casewright.sdk.loader import Registry
from casewright.sdk.memory import is_want_of_memory
from casewright.sdk.methods import CannotError
from casewright.sdk.places import raised_at
from casewright.sdk.waiting import OverdueError, within

MOST_OVERDUE = 32


def answer_of(registry: Registry, family: str, method: str, ask: Callable[[], Any], *, refusals: bool = False) -> Any:
    """Return what `ask`, a call of a method, answers; with `refusals`, let a `CannotError` of it through.

    Raises `PluginFaultError` for whatever else a method raises but want of memory, and where an outside plugin exits or
    does not answer within `registry.seconds`.
    """
    outside = (family, method) in registry.outside
    try:
        return _within_allowance(registry, family, method, ask) if outside else ask()
    except PluginFaultError:
        raise
    except BaseException as error:
        refused = refusals and isinstance(error, CannotError)
        if refused or is_want_of_memory(error) or not (outside or isinstance(error, Exception)):
            raise
        fault = f"raised {type(error).__name__}: {error}"
        raise PluginFaultError(registry.owner(family, method), method, fault, raised_at(error)) from error


def _within_allowance(registry: Registry, family: str, method: str, ask: Callable[[], Any]) -> Any:
    owner = registry.owner(family, method)
    name = f"plugin {owner}"
    if sum(thread.name == name for thread in threading.enumerate()) >= MOST_OVERDUE:
        raise PluginFaultError(owner, method, f"{MOST_OVERDUE} earlier calls of this plugin have not come back")
    try:
        return within(registry.seconds, name, ask, thread=name)
    except OverdueError as error:
        raise PluginFaultError(owner, method, f"did not answer within {registry.seconds:g} s", error.at) from None
