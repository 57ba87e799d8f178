"""What every entry of a catalogue must be before any of it is used: types, sizes that a thing can have, known sources.

The rules follow the fields' types. A length is a whole number of nanometres, so a bare 6 or 96 was meant in another
unit: any length but nought is at least 0.1 mm.
"""

import math
import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import fields, is_dataclass
from itertools import pairwise
from types import NoneType, UnionType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

from casewright.sdk.materials import Catalogue
from casewright.sdk.sources import Source
from casewright.sdk.units import MM, exact_text

ID = re.compile("[A-Za-z0-9][A-Za-z0-9_.-]*")
"""What an id looks like: it stands in job documents and names a component of OpenAPI."""

COUNTS = frozenset({"gauge", "holes", "count", "plies", "opening_degrees"})
"""Whole numbers that are no lengths."""

SIGNED = frozenset({"constant"})
"""Lengths that may be below nought."""

NOUGHT = frozenset(
    {"spacing", "slack", "screw_behind", "side_adjustment", "setback", "first_hole", "side_room", "tip", "washer",
     "plate_heights", "least", "edge_least", "hole_depth", "up_to", "wide_door_from", "from_door_end", "projection",
     "plate_setback", "plate_pitch", "screw_spacing", "pitch", "head"}
)  # fmt: skip
"""Lengths that may be nought; any other is a size of the thing itself."""

LEAST, MOST = MM // 10, 10_000 * MM
MOST_COUNT = 10_000

_ORDERED: tuple[tuple[str, ...], ...] = (
    ("edge_least", "edge_usual", "edge_most"),
    ("root", "diameter", "head"),
    ("least", "most"),
    ("tip", "length"),
)
"""Fields of one entry, none greater than the next."""


def faults(catalogue: Catalogue, known: Iterable[str]) -> Iterator[str]:
    """Yield what is wrong with each entry of a catalogue, in words; `known` are the codes of sources it may cite."""
    codes = frozenset(known) | {one.code for one in catalogue.sources if isinstance(one, Source)}
    for family in fields(Catalogue):
        for entry in getattr(catalogue, family.name):
            name = getattr(entry, "id", None) or getattr(entry, "code", "")
            for fault in _entry_faults(entry, codes):
                yield f"catalogue {family.name} {name!r}: {fault}"


def _entry_faults(entry: Any, codes: frozenset[str]) -> Iterator[str]:
    hints = get_type_hints(type(entry))
    faulty = False
    for field in fields(entry):
        value = getattr(entry, field.name)
        fault = _sources_fault(entry, value, codes) if field.name == "sources" else None
        fault = fault or _fault(field.name, value, hints[field.name])
        if fault:
            faulty = True
            yield f"{field.name} {fault}"
    if not faulty:
        yield from _order_faults(entry)


def _fault(name: str, value: Any, kind: Any) -> str | None:
    """Return what is wrong with one value, in words that follow its name; `None` where nothing is."""
    args = get_args(kind)
    if get_origin(kind) in (Union, UnionType):
        if value is None and NoneType in args:
            return None
        return _fault(name, value, next(arg for arg in args if arg is not NoneType))
    if get_origin(kind) is Literal:
        return None if value in args else f"is {value!r}, which is none of {', '.join(map(str, args))}"
    if get_origin(kind) is tuple:
        if not isinstance(value, tuple):
            return f"is {value!r}, which is not a tuple"
        each = args[0] if args[1:] == (Ellipsis,) else None
        kinds = [each] * len(value) if each is not None else list(args)
        if len(kinds) != len(value):
            return f"has {len(value)} values, not {len(kinds)}"
        return next((fault for one, of in zip(value, kinds, strict=True) if (fault := _fault(name, one, of))), None)
    if is_dataclass(kind):
        if not isinstance(value, kind):  # type: ignore[arg-type]
            return f"holds {value!r}, which is not a {kind.__name__}"  # type: ignore[union-attr]
        return next((f"holds one whose {fault}" for fault in _entry_faults(value, frozenset())), None)
    return _PLAIN[kind](name, value)


def _whole(name: str, value: object) -> str | None:
    if type(value) is not int:
        return f"is {value!r}, which is not a whole number" + ("" if name in COUNTS else " of nm; write mm(…)")
    if name in COUNTS:
        return None if 0 <= value <= MOST_COUNT else f"is {value}, which is no count"
    if value == 0 and name in NOUGHT | SIGNED:
        return None
    if value < 0 and name not in SIGNED:
        return f"is {exact_text(value)}, below nought"
    if value == 0:
        return "is nought; give the thing's own size"
    if not LEAST <= abs(value) <= MOST:
        return f"is {exact_text(value)}, which no such thing measures; write mm({value}) if mm were meant"
    return None


def _number(_: str, value: object) -> str | None:
    if isinstance(value, bool) or not isinstance(value, (int, float)) or not math.isfinite(value):
        return f"is {value!r}, which is not a number"
    return f"is {value!r}, below nought" if value < 0 else None


def _text(name: str, value: object) -> str | None:
    if not isinstance(value, str):
        return f"is {value!r}, which is not text"
    if name == "id" and not ID.fullmatch(value):
        return f"is {value!r}; write letters, digits, dot, dash and underscore"
    if any("\ud800" <= letter <= "\udfff" for letter in value):
        return f"is {value!r}, which holds half a letter"
    return "is empty" if name in ("id", "title", "code") and not value.strip() else None


def _flag(_: str, value: object) -> str | None:
    return None if isinstance(value, bool) else f"is {value!r}, which is neither True nor False"


_PLAIN: dict[Any, Callable[[str, object], str | None]] = {int: _whole, float: _number, str: _text, bool: _flag}


def _sources_fault(entry: Any, value: object, codes: frozenset[str]) -> str | None:
    names = {field.name for field in fields(entry)} | {"*"}
    if not isinstance(value, tuple) or not all(isinstance(row, tuple) and len(row) == 2 for row in value):
        return f'are {value!r}; write pairs such as (("*", "common-practice"),)'
    for name, code in value:
        if name not in names:
            return f"name {name!r}, which is no field of it; fields are {', '.join(sorted(names))}"
        if codes and code not in codes:
            habit = "a trade habit is 'common-practice', a document of your own stands in the catalogue's sources"
            return f"cite {code!r}, which nobody lists; {habit}"
    return None if value else 'are empty; write (("*", "common-practice"),) for a trade habit'


def _order_faults(entry: Any) -> Iterator[str]:
    for names in _ORDERED:
        given = [(name, getattr(entry, name)) for name in names if getattr(entry, name, None)]
        for (low, less), (high, more) in pairwise(given):
            if less > more:
                yield f"{low} is {exact_text(less)}, more than {high}, {exact_text(more)}"
