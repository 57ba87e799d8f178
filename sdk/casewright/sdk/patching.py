"""Writing JSON Patches (RFC 6902) on a job document: places set to values, however much of the way there exists yet."""

import copy
from collections.abc import Mapping, Sequence
from typing import Any

from casewright.sdk.errors import pointer_to

__all__ = ["Patch", "Steps", "at_path", "patch_setting"]

Patch = tuple[Mapping[str, Any], ...]
"""Operations of a JSON Patch, as JSON values."""

Steps = tuple[str | int, ...]
"""A place in a document: keys of objects and places in arrays, these as numbers or as a JSON Pointer writes them."""


def at_path(document: Any, steps: Steps) -> Any:
    """Return the value at a place, `None` where there is none."""
    for step in steps:
        if not _has(document, step):
            return None
        document = document[_key(document, step)]
    return document


def patch_setting(document: Mapping[str, Any], *settings: tuple[Steps, Any]) -> Patch:
    """Return the patch that sets each place to its value, in turn; a place that has its value is left alone.

    Objects on the way that are not there, or are null, are made. A last step `-` adds to the end of an array.
    """
    draft = copy.deepcopy(dict(document))
    patch: list[Mapping[str, Any]] = []
    for steps, value in settings:
        there = draft
        for i, step in enumerate(steps[:-1]):
            inner = at_path(there, (step,))
            if inner is None:
                patch.append(_put(there, steps, i, _nested(steps[i + 1 :], value)))
                break
            there = inner
        else:
            if at_path(there, steps[-1:]) != value or (value is None and not _has(there, steps[-1])):
                patch.append(_put(there, steps, len(steps) - 1, value))
    return tuple(patch)


def _put(there: Any, steps: Steps, at: int, value: Any) -> Mapping[str, Any]:
    """Put a value into an object or array of the draft, and return the operation that does it to the document."""
    step = steps[at]
    word = "replace" if _has(there, step) else "add"
    if step == "-":
        there.append(copy.deepcopy(value))
    else:
        there[_key(there, step)] = copy.deepcopy(value)
    return {"op": word, "path": pointer_to(*steps[: at + 1]), "value": value}


def _has(there: Any, step: str | int) -> bool:
    key = _key(there, step)
    if isinstance(there, Mapping):
        return key in there
    return isinstance(there, Sequence) and isinstance(key, int) and key < len(there)


def _key(there: Any, step: str | int) -> str | int:
    """Return a step as what is there takes it: text for an object, a number for an array."""
    if isinstance(there, Mapping):
        return str(step)
    return int(step) if isinstance(step, str) and step.isdecimal() else step


def _nested(steps: Steps, value: Any) -> Any:
    for step in reversed(steps):
        value = [value] if step == "-" else {step: value}
    return value
