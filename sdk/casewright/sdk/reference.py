"""The reference of all that is public, made of docstrings and signatures: what each name is, holds and does."""

import importlib
import inspect
import typing
from collections.abc import Iterator, Mapping
from dataclasses import MISSING, fields, is_dataclass
from enum import Enum
from functools import cache
from typing import Any

from casewright.sdk.geometry import Axis
from casewright.sdk.methods import MeetingKind
from casewright.sdk.model.parts import FeatureKind, Role

FAMILIES = ("kit", "joints", "doors", "mountings", "catalogue", "checks", "styles", "cures", "testing")
"""The public modules, in the order a reader meets them."""

TESTING_NEEDS = frozenset({"hypothesis", "pytest"})
"""What `casewright.sdk.testing` imports that a service does without."""

_NOT_HERE = "Not listed, as `{}` is not installed here: `pip install 'casewright[plugin]'` brings it."
_OURS = "casewright.sdk"
ALIASES: Mapping[str, Any] = {"Axis": Axis, "Role": Role, "FeatureKind": FeatureKind, "MeetingKind": MeetingKind}
"""Types that are written by a name of their own."""


@cache
def reference_text() -> str:
    """Return the page in Markdown: a section a module, then the records that public ones hold."""
    lines = [
        "# Reference",
        "",
        "Every public name of the SDK by the module it is imported from, then the records that those hold, which a "
        "plugin reads and does not import. Lengths are whole nanometres unless a name carries another unit (`_mm`, "
        "`_mm2`, `_kg`).",
    ]
    known: dict[object, str] = {}
    for family in FAMILIES:
        try:
            module = importlib.import_module(f"{_OURS}.{family}")
        except ModuleNotFoundError as error:
            if error.name not in TESTING_NEEDS:
                raise
            lines += ["", f"## casewright.sdk.{family}", "", _NOT_HERE.format(error.name)]
            continue
        lines += ["", f"## casewright.sdk.{family}", "", _words(module.__doc__)]
        for name in sorted(module.__all__, key=lambda word: (word.lower(), word)):
            thing = getattr(module, name)
            again = known.setdefault(thing, name) if _hashable(thing) else name
            if again == name and not any(line == f"### {name}" for line in lines):
                lines += ["", f"### {name}", "", *_described(name, thing)]
    lines += ["", "## Words", ""]
    lines += [f"- `{name}`: {', '.join(f'`{word}`' for word in typing.get_args(one))}" for name, one in ALIASES.items()]
    lines += ["", "## Records that these hold", "", "Read from requests, meetings and designs; not to be imported."]
    names = set(known.values())
    for one in _classes([thing for thing in known if isinstance(thing, type)]):
        again = f" of {one.__module__.rpartition('.')[2]}" if one.__name__ in names else ""
        names.add(one.__name__)
        lines += ["", f"### {one.__name__}{again}", "", *_described(one.__name__, one)]
    return "\n".join(lines) + "\n"


def _hashable(thing: object) -> bool:
    return isinstance(thing, type) or callable(thing)


def _words(text: str | None) -> str:
    """Return a docstring's paragraphs, each on a line of its own."""
    paragraphs = inspect.cleandoc(text or "").split("\n\n")
    return "\n\n".join(" ".join(one.split()) if not one.startswith("*") else one for one in paragraphs)


def _described(name: str, thing: Any) -> list[str]:
    if isinstance(thing, type):
        return _of_class(thing)
    if inspect.isroutine(thing):
        return [f"`{name}{_signature(thing)}`", "", _words(thing.__doc__)]
    if callable(thing) and not typing.get_origin(thing):  # a hook's marker
        return [f"`@{name}` marks a function of a plugin as a hook."]
    if name in ALIASES:
        return [", ".join(f"`{one}`" for one in typing.get_args(thing))]
    if typing.get_origin(thing):
        return [f"`{_type(thing)}`"]
    return [f"`{thing!r}`"]


def _of_class(kind: type) -> list[str]:
    lines = [_words(kind.__doc__ if "__doc__" in vars(kind) else "")] if not _made(kind) else []
    if issubclass(kind, Enum):
        return [*lines, "", ", ".join(f"`{one.name}`" for one in kind)]
    if inspect.isabstract(kind) or any(base.__module__.startswith(_OURS) for base in kind.__bases__):
        over = [base.__name__ for base in kind.__mro__[1:-1] if base.__module__.startswith(_OURS)]
        lines += ["", f"A `{over[0]}`."] if over and not over[0].startswith("_") else []
    if "__init__" in vars(kind) and not is_dataclass(kind):
        lines += ["", f"`{kind.__name__}{_signature(vars(kind)['__init__'])}`".replace(" -> None", "")]
    rows = list(_fields(kind))
    lines += ["", "| field | type | default |", "|---|---|---|", *rows] if rows else []
    lines += [row for name, one in _own(kind) for row in ("", *_member(name, one))]
    return lines


def _made(kind: type) -> bool:
    """Whether a dataclass's docstring is the one that Python makes."""
    return (kind.__doc__ or "").startswith(f"{kind.__name__}(")


def _fields(kind: type) -> Iterator[str]:
    """Yield a table row for each field, or for what a class of methods declares."""
    hints = _hints(kind)
    if is_dataclass(kind):
        for f in fields(kind):
            plain = "" if f.default is MISSING else f"`{_shown(f.default)}`"
            yield _row(f.name, hints[f.name], plain)
        return
    defaults = getattr(kind, "_field_defaults", None)
    if defaults is not None:
        for name in kind.__annotations__:
            yield _row(name, hints[name], f"`{_shown(defaults[name])}`" if name in defaults else "")
        return
    if not issubclass(kind, (Enum, Exception)):
        for name, hint in hints.items():
            if not name.startswith("_"):
                yield _row(name, hint, f"`{_shown(getattr(kind, name))}`" if hasattr(kind, name) else "to be given")


def _row(name: str, hint: Any, plain: str) -> str:
    cells = (f"`{name}`", f"`{_type(hint)}`", plain)
    return f"| {' | '.join(cell.replace('|', chr(92) + '|') for cell in cells)} |"


def _hints(kind: type) -> dict[str, Any]:
    """Return what a class and its bases of ours declare, by name."""
    ours = [base for base in reversed(kind.__mro__) if base.__module__.startswith(_OURS)]
    return {name: hint for base in ours for name, hint in inspect.get_annotations(base, eval_str=True).items()}


def _own(kind: type) -> Iterator[tuple[str, Any]]:
    """Yield the public methods and properties of a class, those of our bases included."""
    seen: set[str] = set()
    for base in kind.__mro__:
        if not base.__module__.startswith(_OURS):
            continue
        for name, one in vars(base).items():
            wrapped = isinstance(one, (property, classmethod, staticmethod))
            if not name.startswith("_") and name not in seen and (wrapped or inspect.isfunction(one)) and one.__doc__:
                seen.add(name)
                yield name, one


def _member(name: str, one: Any) -> list[str]:
    if isinstance(one, property):
        return [f"- `{name}`: {_words(one.__doc__)}"]
    function = one.__func__ if isinstance(one, (classmethod, staticmethod)) else one
    return [f"- `{name}{_signature(function)}`: {_words(function.__doc__)}".replace("\n\n", "\n\n  ")]


def _signature(function: Any) -> str:
    """Return parameters and answer, types without the modules they are of."""
    signature = inspect.signature(function)
    hints = inspect.get_annotations(function, eval_str=True)
    shown = []
    for name, one in signature.parameters.items():
        star = "*" if one.kind is one.VAR_POSITIONAL else "**" if one.kind is one.VAR_KEYWORD else ""
        if name in ("self", "cls"):
            continue
        plain = "" if one.default is one.empty else f" = {_shown(one.default)}"
        shown.append(f"{star}{name}: {_type(hints[name])}{plain}" if name in hints else f"{star}{name}{plain}")
    answer = f" -> {_type(hints['return'])}" if "return" in hints else ""
    return f"({', '.join(shown)}){answer}"


def _type(hint: Any) -> str:
    """Return a type as it is written, without modules."""
    for name, alias in ALIASES.items():
        if hint == alias:
            return name
    if hint is type(None):
        return "None"
    if hint is Ellipsis:
        return "..."
    origin, arguments = typing.get_origin(hint), typing.get_args(hint)
    if origin is typing.Literal:
        return " | ".join(repr(one) for one in arguments)
    if origin is typing.ClassVar:
        return _type(arguments[0])
    if arguments and origin is not None:
        name = getattr(origin, "__name__", str(origin))
        if name in ("Union", "UnionType"):
            return " | ".join(_type(one) for one in arguments)
        inner = [f"[{', '.join(map(_type, one))}]" if isinstance(one, list) else _type(one) for one in arguments]
        return f"{name}[{', '.join(inner)}]"
    return getattr(hint, "__name__", str(hint))


def _shown(value: object) -> str:
    if isinstance(value, type):
        return value.__name__
    if isinstance(value, Enum):
        return f"{type(value).__name__}.{value.name}"
    if isinstance(value, frozenset):
        return f"{{{', '.join(sorted(map(repr, value)))}}}"
    if is_dataclass(value):
        return f"a {type(value).__name__}"
    return repr(value)


def _classes(public: list[type]) -> list[type]:
    """Return the records that public ones hold, and those that these hold, by name."""
    types: dict[type, None] = {}
    waiting = list(public)
    while waiting:
        kind = waiting.pop()
        hints = list(_hints(kind).values())
        hints += [hint for _, one in _own(kind) for hint in _hints_of(one)]
        for one in (leaf for hint in hints for leaf in _leaves(hint)):
            if one not in public and one not in types:
                types[one] = None
                waiting.append(one)
    return sorted((one for one in types if not one.__name__.startswith("_")), key=lambda one: one.__name__)


def _hints_of(one: Any) -> list[Any]:
    function: Any = one.fget if isinstance(one, property) else getattr(one, "__func__", one)
    return list(inspect.get_annotations(function, eval_str=True).values())


def _leaves(hint: Any) -> Iterator[type]:
    """Yield the classes of ours that a type names."""
    if isinstance(hint, type) and not typing.get_args(hint):
        if hint.__module__.startswith(_OURS):
            yield hint
        return
    for one in typing.get_args(hint):
        for inner in one if isinstance(one, list) else (one,):
            yield from _leaves(inner)
