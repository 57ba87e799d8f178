"""Walking a document by its schema: marshmallow fields say what may stand where, readers walk and collect.

A reader is made once from a schema and used for every document. It visits only the keys that are there, loads
each with its field, and notes every problem with its JSON Pointer instead of stopping at the first. Defaults
are not filled in here: a house may still supply the value.
"""

from abc import ABC, abstractmethod
from collections.abc import Callable, Collection, Container
from typing import Any, Final

from casewright.api.job.fields import MapOf, Rows
from casewright.api.job.problems import Findings, advice
from casewright.sdk.errors import pointer_to
from casewright.sdk.fields import Choice, Count, Flag, Flaw, Length, Number, Text
from casewright.sdk.spelling import nearest_word
from marshmallow import Schema, ValidationError, fields, missing

STRICT = (Choice, Count, Flag, Length, Number, Text)

SHOWN_KEYS = 3

UNREAD: Final = object()
"""What a reader answers for a value that could not be read; its problem is noted."""


class Reader(ABC):
    """Reads one value of a document, noting problems at its pointer."""

    @abstractmethod
    def read(self, value: Any, pointer: str, findings: Findings) -> Any:
        """Return the value as loaded, or `UNREAD`."""


class LeafReader(Reader):
    """Reads a value that one field loads by itself."""

    def __init__(self, field: fields.Field[Any]) -> None:
        self.field = field
        around = (field.validators, getattr(field, "pre_load", ()), getattr(field, "post_load", ()))
        self.bare = isinstance(field, STRICT) and not any(around)
        """Whether loading is the field's own reading alone, without marshmallow's steps around it."""

    def read(self, value: Any, pointer: str, findings: Findings) -> Any:
        """Load the value with the field.

        A length that only its bounds rule out is noted and stood in for, so that the rest can be checked too.
        """
        try:
            if self.bare and value is not None:
                return self.field._deserialize(value, None, None)
            return self.field.deserialize(value)
        except ValidationError as error:
            before = len(findings.schema)
            if value is None and (self.field.required or self.field.metadata.get("needed")):
                findings.add(pointer, "a value", None, "Give a value.")
            else:
                note(error.messages, value, pointer, findings)
            if len(findings.schema) > before:
                return UNREAD
            return self.field.least if isinstance(self.field, Length) else 0


class NullReader(Reader):
    """Lets `null` through where a field allows it."""

    def __init__(self, inner: Reader) -> None:
        self.inner = inner

    def read(self, value: Any, pointer: str, findings: Findings) -> Any:
        """Return None for null."""
        return None if value is None else self.inner.read(value, pointer, findings)


class RowsReader(Reader):
    """Reads an array."""

    def __init__(self, field: Rows, inner: Reader) -> None:
        self.field, self.inner = field, inner

    def read(self, value: Any, pointer: str, findings: Findings) -> Any:
        """Return the list of what each item was read as; unread items are left out."""
        least, most = self.field.least, self.field.most
        if not isinstance(value, list) or not least <= len(value) <= most:
            count = f"{least} to {most}" if least < most else f"{most}"
            fix = f"Give {count} of them." if isinstance(value, list) else "Write an array in square brackets."
            findings.add(pointer, f"an array of {count}", value, fix)
            return UNREAD
        read = self.inner.read
        items = [read(item, f"{pointer}/{i}", findings) for i, item in enumerate(value)]
        return [item for item in items if item is not UNREAD]


class MapReader(Reader):
    """Reads an object whose keys the job chooses."""

    def __init__(self, field: MapOf, inner: Reader) -> None:
        self.field, self.inner = field, inner
        assert field.key_field is not None
        self.key = LeafReader(field.key_field)

    def read(self, value: Any, pointer: str, findings: Findings) -> Any:
        """Return what each value was read as, by key."""
        if not isinstance(value, dict) or len(value) > self.field.most:
            fix = (
                "Give fewer entries." if isinstance(value, dict) else "Write an object in braces, a key for each entry."
            )
            findings.add(pointer, f"an object of at most {self.field.most} entries", value, fix)
            return UNREAD
        out = {}
        for key, item in value.items():
            at = pointer + pointer_to(key)
            if self.key.read(key, at, findings) is not UNREAD:
                got = self.inner.read(item, at, findings)
                if got is not UNREAD:
                    out[key] = got
        return out


class ObjectReader(Reader):
    """Reads an object by a schema: known keys only, required keys there."""

    def __init__(self, schema: Schema) -> None:
        self.schema = schema
        self.name = type(schema).__name__
        self.fields: dict[str, Reader] = {}
        self.defaults: dict[str, Any] = {}
        self.required: tuple[str, ...] = ()
        self.needed: tuple[str, ...] = ()

    def fill(self, reader_of: Callable[[fields.Field[Any]], Reader]) -> None:
        """Make the readers of the fields; apart from `__init__` because a space holds spaces."""
        declared = self.schema.load_fields
        self.fields = {name: reader_of(field) for name, field in declared.items()}
        self.required = tuple(name for name, field in declared.items() if field.required)
        self.needed = tuple(name for name, field in declared.items() if field.metadata.get("needed"))
        self.defaults = {name: f.load_default for name, f in declared.items() if f.load_default is not missing}

    def such_as(self) -> str:
        """Return the keys that such an object has, in words: what it must have, or else the first it may have."""
        keys = self.required or self.needed or tuple(self.fields)[:SHOWN_KEYS]
        return " with " + ", ".join(f'"{key}"' for key in keys) if keys else ""

    def read(self, value: Any, pointer: str, findings: Findings) -> Any:
        """Return the keys that are there, loaded; keys that could not be read are left out."""
        if not isinstance(value, dict):
            findings.add(pointer, "an object", value, f"Write an object in braces{self.such_as()}.")
            return UNREAD
        out = {}
        known = self.fields
        for key, item in value.items():
            reader = known.get(key)
            if reader is None:
                unknown(key, known, value, pointer, findings)
                continue
            got = reader.read(item, f"{pointer}/{key}", findings)
            if got is not UNREAD:
                out[key] = got
        for key in self.required:
            if key not in value:
                findings.missing(f"{pointer}/{key}", self._add(key))
        return out

    def _add(self, key: str) -> str:
        """Return that a key is to be added, with the words it takes or what it is, where its field says so."""
        field = self.schema.load_fields[key]
        if isinstance(field, Choice):
            return advice("", field.words, verb=f'Add "{key}",')
        about = field.metadata.get("description")
        return f'Add "{key}" here: {about}.' if about else f'Add "{key}" here.'


def unknown(key: str, known: Collection[str], beside: Container[str], pointer: str, findings: Findings) -> None:
    """Note a key that nothing reads, naming the nearest one that something does; `beside` are the object's keys."""
    near = nearest_word(key, known)
    if key in findings.at_top:
        fix = f'Write it at "/{key}", at the top of the job, or leave it out.'
    elif not known:
        fix = "Leave it out."
    elif near in beside:
        fix = f'Leave it out: "{near}" is here already.'
    elif near is not None:
        fix = f'Write "{near}".'
    else:
        free = [word for word in known if word not in beside]
        fix = f"{advice('', free, most=20)[:-1]}, or leave it out." if free else "Leave it out."
    findings.add(pointer + pointer_to(key), "a known key", key, fix)


def note(messages: Any, value: Any, pointer: str, findings: Findings) -> None:
    """Note what marshmallow found, which is nested as the value is."""
    if isinstance(messages, dict):
        for key, inner in messages.items():
            if key == "_schema":
                note(inner, value, pointer, findings)
                continue
            try:
                deeper = value[key]
            except (KeyError, IndexError, TypeError):
                deeper = value
            at = pointer if key in ("key", "value") and deeper is value else pointer + pointer_to(key)
            note(inner, deeper, at, findings)
        return
    for message in messages if isinstance(messages, list) else [messages]:
        if isinstance(message, Flaw):
            findings.add(pointer, message.rule, value, message.fix, beyond_schema=message.beyond_schema)
        elif isinstance(message, dict):
            note(message, value, pointer, findings)
        elif value is None:
            alone = pointer.rpartition("/")[2].isdigit()
            findings.add(pointer, "a value", None, f"Give a value, or {'take it' if alone else 'leave the key'} out.")
        else:
            rule = str(message).rstrip(".")
            findings.add(pointer, rule[:1].lower() + rule[1:], value, "Change it so that the rule holds.")
