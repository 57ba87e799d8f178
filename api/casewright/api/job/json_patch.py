"""JSON Patch (RFC 6902): operations that change a document, each at a place named by a JSON Pointer (RFC 6901).

A patch is read first, and what is wrong with its form is noted by place; then it is applied, as a whole or not at all.
What the answer has of the document is shared with it, and neither is changed. How much one patch may copy, and how
deep a document may become, is bounded: copies of copies would else outgrow any limit on the request.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final, Literal, get_args

from casewright.api.job import limits
from casewright.api.job.problems import Findings, advice, shown
from casewright.sdk.errors import Problem, UnusableJobError, pointer_to, steps_of
from marshmallow import fields

Word = Literal["add", "remove", "replace", "move", "copy", "test"]
WORDS: tuple[str, ...] = get_args(Word)

_ABSENT: Final = object()
_POINTER = re.compile(r"(?:/(?:[^~/]|~[01])*)*")
_INDEX = re.compile(r"0|[1-9][0-9]{0,8}")
_MEMBERS: Mapping[str, tuple[str, ...]] = {
    "add": ("path", "value"),
    "remove": ("path",),
    "replace": ("path", "value"),
    "move": ("path", "from"),
    "copy": ("path", "from"),
    "test": ("path", "value"),
}
_POINTERS = {word: [name for name in members if name != "value"] for word, members in _MEMBERS.items()}
_EXAMPLE = '{"op": "replace", "path": "/cabinets/0/width", "value": 600}'


@dataclass(frozen=True, slots=True)
class Operation:
    """One operation: `path` and `source` (`from`) as the steps of their pointers; `value` where the word takes one."""

    word: Word
    path: tuple[str, ...]
    source: tuple[str, ...] = ()
    value: Any = None


def read_patch(rows: Sequence[Any], at: str, findings: Findings) -> tuple[Operation, ...]:
    """Return the operations of a patch at a place of a request, noting every fault of its form."""
    if len(rows) > limits.PATCH_OPERATIONS:
        rule = f"at most {limits.PATCH_OPERATIONS} operations (patch_operations)"
        findings.add(at, rule, rows, "Change less at a time.")
        return ()
    read = [_operation(row, f"{at}/{i}", findings) for i, row in enumerate(rows)]
    return tuple(operation for operation in read if operation is not None)


def _operation(row: Any, at: str, findings: Findings) -> Operation | None:
    if not isinstance(row, dict):
        findings.add(at, "an operation of JSON Patch (RFC 6902), an object", row, f"Write {_EXAMPLE}.")
        return None
    word = row.get("op")
    if not isinstance(word, str) or word not in WORDS:
        fix = advice(word, WORDS) if isinstance(word, str) else f"Write one of: {', '.join(WORDS)}."
        findings.add(f"{at}/op", "an operation of JSON Patch (RFC 6902)", word, fix)
        return None
    missing = [name for name in _MEMBERS[word] if name not in row]
    for name in missing:
        findings.missing(f"{at}/{name}", f'Add "{name}"; "{word}" needs it.')
    pointers = {name: _steps(row[name], f"{at}/{name}", findings) for name in _POINTERS[word] if name in row}
    if missing or None in pointers.values():
        return None
    source = pointers.get("from") if "from" in _MEMBERS[word] else None
    return Operation(_word(word), pointers["path"] or (), source or (), row.get("value"))


def _word(text: str) -> Word:
    return next(word for word in get_args(Word) if word == text)


def _steps(value: Any, at: str, findings: Findings) -> tuple[str, ...] | None:
    if not isinstance(value, str) or not _POINTER.fullmatch(value):
        rule = "a JSON Pointer (RFC 6901)"
        findings.add(at, rule, value, 'Begin with "/", and write ~0 for ~ and ~1 for / inside a name.')
        return None
    return steps_of(value)


class _CannotError(Exception):
    """Why an operation cannot be done: at which of its members, what would do, what is there."""

    def __init__(self, member: str, rule: str, got: str, fix: str) -> None:
        super().__init__(rule)
        self.member, self.rule, self.got, self.fix = member, rule, got, fix


def patched(document: Any, operations: Sequence[Operation], at: str = "") -> Any:
    """Return the document with every operation applied in turn.

    Raises `UnusableJobError` for the first that cannot be applied, its pointer being a place in the patch, `at`.
    """
    copied = 0
    for i, operation in enumerate(operations):
        try:
            if operation.word == "copy":
                copied += _count(_value(document, operation.source, "from"), limits.PATCH_VALUES - copied)
            document = _applied(document, operation)
        except _CannotError as error:
            raise UnusableJobError(Problem(f"{at}/{i}/{error.member}", error.rule, error.got, error.fix)) from None
    return document


def with_patch(document: Any, patch: Sequence[Mapping[str, Any]]) -> Any:
    """Return the document changed by a JSON Patch that reads well. Raises as `patched` does."""
    return patched(document, read_patch(list(patch), "", Findings()))


def _applied(document: Any, operation: Operation) -> Any:
    match operation.word:
        case "test":
            there = _value(document, operation.path, "path")
            if not equal(there, operation.value):
                fix = "The document is not the one that the patch is for; make the patch anew."
                raise _CannotError("value", f"the value that is there: {shown(there)}", shown(operation.value), fix)
            return document
        case "remove":
            return _put(document, operation.path, _ABSENT, insert=False)
        case "replace":
            _value(document, operation.path, "path")
            return _set(document, operation.path, operation.value, insert=False)
        case "add":
            return _set(document, operation.path, operation.value, insert=True)
        case "copy":
            return _set(document, operation.path, _value(document, operation.source, "from"), insert=True)
        case "move":
            value = _value(document, operation.source, "from")
            if operation.path[: len(operation.source)] == operation.source != operation.path:
                fix = "Move it to a place that is not inside itself."
                raise _CannotError("path", "a place outside what is moved", pointer_to(*operation.path), fix)
            return _set(_put(document, operation.source, _ABSENT, insert=False), operation.path, value, insert=True)


def _set(document: Any, path: tuple[str, ...], value: Any, *, insert: bool) -> Any:
    if len(path) + _depth(value) > limits.JSON_DEPTH:
        rule = f"at most {limits.JSON_DEPTH} objects and arrays inside one another (json_depth)"
        raise _CannotError("path", rule, "more", "Nest less deeply.")
    return _put(document, path, value, insert=insert)


def _value(document: Any, path: tuple[str, ...], member: str) -> Any:
    for i, step in enumerate(path):
        document = document[_key(document, step, path[: i + 1], member)]
    return document


def _put(document: Any, path: tuple[str, ...], value: Any, *, insert: bool) -> Any:
    """Return the document with a value put at a place, or with the place taken out where the value is `_ABSENT`."""
    if not path:
        return None if value is _ABSENT else value
    above = [document]
    for i, step in enumerate(path[:-1]):
        above.append(above[-1][_key(above[-1], step, path[: i + 1], "path")])
    for i in reversed(range(len(path))):
        last = i == len(path) - 1
        changed = above[i].copy() if isinstance(above[i], (dict, list)) else above[i]
        if last and insert and isinstance(changed, dict):
            changed[path[i]] = value
        elif last and insert and isinstance(changed, list):
            changed.insert(_place(changed, path), value)
        else:
            key = _key(changed, path[i], path[: i + 1], "path")
            if value is _ABSENT and last:
                del changed[key]
            else:
                changed[key] = value
        value = changed
    return value


def _place(rows: list[Any], path: tuple[str, ...]) -> int:
    """Return where in an array to insert: an index up to its length, or its end for `-`."""
    step = path[-1]
    if step == "-":
        return len(rows)
    if _INDEX.fullmatch(step) and int(step) <= len(rows):
        return int(step)
    fix = f'Write a number from 0 to {len(rows)}, or "-" for the end.'
    raise _CannotError("path", f"a place in an array of {len(rows)}", pointer_to(*path), fix)


def _key(container: Any, step: str, path: tuple[str, ...], member: str) -> Any:
    """Return the key or index that a step names. Raises `_CannotError` where nothing is there."""
    if isinstance(container, dict):
        if step in container:
            return step
        fix = advice(step, container) if container else "Add what holds it first."
    elif isinstance(container, list):
        if _INDEX.fullmatch(step) and int(step) < len(container):
            return int(step)
        fix = f"Write a number from 0 to {len(container) - 1}." if container else "The array is empty."
    else:
        fix = f"{pointer_to(*path[:-1]) or 'The document'} is {shown(container)}, which holds nothing."
    raise _CannotError(member, "a place that is there", pointer_to(*path), fix)


def equal(a: Any, b: Any) -> bool:
    """Return whether two JSON values are equal as RFC 6902, section 4.6, has it: numbers by value, never true and 1."""
    pairs = [(a, b)]
    while pairs:
        one, other = pairs.pop()
        if isinstance(one, dict) and isinstance(other, dict):
            if one.keys() != other.keys():
                return False
            pairs += [(one[key], other[key]) for key in one]
        elif isinstance(one, list) and isinstance(other, list):
            if len(one) != len(other):
                return False
            pairs += zip(one, other, strict=True)
        elif isinstance(one, bool) is not isinstance(other, bool) or one != other:
            return False
    return True


def _inner(value: Any) -> Iterator[Any]:
    if isinstance(value, dict):
        yield from value.values()
    elif isinstance(value, list):
        yield from value


def _count(value: Any, most: int) -> int:
    """Return how many values a value holds, itself too. Raises `_CannotError` over `most`."""
    count, stack = 0, [value]
    while stack:
        count += 1
        if count > most:
            rule = f"at most {limits.PATCH_VALUES} values copied by one patch (patch_values)"
            raise _CannotError("from", rule, "more", "Copy less.")
        stack.extend(_inner(stack.pop()))
    return count


def _depth(value: Any) -> int:
    """Return how many objects and arrays stand inside one another."""
    deep, level = 0, [value]
    while level := [one for one in level if isinstance(one, (dict, list))]:
        deep += 1
        if deep > limits.JSON_DEPTH:
            return deep
        level = [inner for one in level for inner in _inner(one)]
    return deep


class AnyPatch(fields.Field[Any]):
    """A change of a document in a body: a JSON Merge Patch, or a JSON Patch. It is read by `comparison`."""


def operation_schemas() -> dict[str, dict[str, Any]]:
    """Return the JSON Schema of each operation of a JSON Patch, by its word."""
    pointer = {"type": "string", "pattern": f"^{_POINTER.pattern}$"}
    about: dict[str, dict[str, Any]] = {
        "path": {**pointer, "description": "JSON Pointer into the job"},
        "from": {**pointer, "description": "JSON Pointer of what is moved or copied"},
        "value": {"description": "any JSON value"},
    }
    return {
        word: {
            "type": "object",
            "description": f"{word.capitalize()}, by RFC 6902.",
            "properties": {
                "op": {"type": "string", "const": word, "description": "what to do"},
                **{name: about[name] for name in members},
            },
            "required": ["op", *members],
        }
        for word, members in _MEMBERS.items()
    }
