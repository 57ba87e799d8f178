"""Walking a document by its schema: marshmallow fields say what may stand where, readers walk and collect.

A reader is made once from a schema and used for every document. It visits only the keys that are there, loads
each with its field, and notes every problem with its JSON Pointer instead of stopping at the first. Defaults
are not filled in here: a house may still supply the value.
"""

from abc import ABC, abstractmethod
from collections.abc import Mapping
from copy import copy
from dataclasses import dataclass
from typing import Any, Final

from casewright.api.job.fields import Branch, MapOf, Pick, Rows
from casewright.api.job.problems import Findings, advice
from casewright.sdk.errors import PluginFaultError, pointer_to
from casewright.sdk.fields import Choice, Count, Flag, Flaw, Length, Number, Text
from marshmallow import EXCLUDE, Schema, ValidationError, fields, missing

STRICT = (Choice, Count, Flag, Length, Number, Text)

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

        A length that only its bounds rule out is noted and stood in for, so that the rest can be looked over too.
        """
        try:
            if self.bare and value is not None:
                return self.field._deserialize(value, None, None)
            return self.field.deserialize(value)
        except ValidationError as error:
            before = len(findings.schema)
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
            findings.add(pointer, f"an array of {least} to {most}", value, "Give an array of this length.")
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
            findings.add(pointer, f"an object of at most {self.field.most} entries", value, "Give an object.")
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

    def fill(self, readers: "Readers") -> None:
        """Make the readers of the fields; apart from `__init__` because a space holds spaces."""
        declared = self.schema.load_fields
        self.fields = {name: readers.of(field) for name, field in declared.items()}
        self.required = tuple(name for name, field in declared.items() if field.required)
        self.needed = tuple(name for name, field in declared.items() if field.metadata.get("needed"))
        self.defaults = {name: f.load_default for name, f in declared.items() if f.load_default is not missing}

    def read(self, value: Any, pointer: str, findings: Findings) -> Any:
        """Return the keys that are there, loaded; keys that could not be read are left out."""
        if not isinstance(value, dict):
            findings.add(pointer, "an object", value, "Write an object in braces.")
            return UNREAD
        out = {}
        known = self.fields
        for key, item in value.items():
            reader = known.get(key)
            if reader is None:
                unknown(key, known, pointer, findings)
                continue
            got = reader.read(item, f"{pointer}/{key}", findings)
            if got is not UNREAD:
                out[key] = got
        for key in self.required:
            if key not in value:
                findings.missing(f"{pointer}/{key}", f'Add "{key}" here.')
        return out


@dataclass(frozen=True, slots=True)
class Picked:
    """A method as the document picked it: `raw` options as written, `options` as the method's schema loads them."""

    method: str | None
    raw: Mapping[str, Any]
    options: Mapping[str, Any]
    common: Mapping[str, Any]
    pointer: str


class PickReader(Reader):
    """Reads an object that picks a method."""

    def __init__(self, field: Pick, common: ObjectReader | None) -> None:
        self.field, self.common = field, common
        self.schemas = {i: branch.options(unknown=EXCLUDE) for i, branch in field.branches.items()}
        self.option_keys = {i: option_keys(schema) for i, schema in self.schemas.items()}
        self.common_keys: Mapping[str, Reader] = {} if common is None else common.fields
        self._unset: dict[str, Mapping[str, Any]] = {}

    def read(self, value: Any, pointer: str, findings: Findings) -> Any:
        """Return a `Picked`."""
        field, tag = self.field, self.field.tag
        if not isinstance(value, dict):
            findings.add(pointer, f"an object that picks a {field.what}", value, f'Write {{"{tag}": "…"}}.')
            return UNREAD
        method = value.get(tag)
        if method is None and tag not in value and field.untagged:
            return self._common_only(value, pointer, findings)
        if not isinstance(method, str) or method not in field.branches:
            self._refuse_method(value, pointer, findings)
            return UNREAD
        raw = {k: v for k, v in value.items() if k != tag and k not in self.common_keys}
        common = {k: v for k, v in value.items() if k in self.common_keys}
        loaded = {} if self.common is None else self.common.read(common, pointer, findings)
        options = self.load(method, raw, pointer, findings)
        return UNREAD if options is UNREAD else Picked(method, raw, options, loaded, pointer)

    def load(self, method: str, raw: Mapping[str, Any], pointer: str, findings: Findings) -> Any:
        """Return the method's options with its defaults, or `UNREAD`. Raises `PluginFaultError`."""
        if not raw and method in self._unset:
            return copy(self._unset[method])
        keys = self.option_keys[method]
        good = True
        for key in raw:
            if key not in keys:
                unknown(key, [*keys, *self.common_keys, self.field.tag], pointer, findings)
                good = False
        for key, field in keys.items():
            if field.required and key not in raw:
                findings.missing(f"{pointer}/{key}", f'The {self.field.what} "{method}" needs "{key}".')
                good = False
        branch = self.field.branches[method]
        before = len(findings.schema)
        try:
            options = self.schemas[method].load(raw)
        except ValidationError as error:
            messages: dict[str, Any] = error.normalized_messages()  # type: ignore[no-untyped-call]
            note({k: v for k, v in messages.items() if k in raw or k == "_schema"}, raw, pointer, findings)
            return UNREAD if len(findings.schema) > before or not good else {}
        except Exception as error:  # an option schema is plugin code
            raise faulty(branch, f"its option schema raised {type(error).__name__}") from error
        if not isinstance(options, Mapping):
            raise faulty(branch, "its option schema does not load to a mapping")
        if not raw and good:
            self._unset[method] = copy(options)
        return options if good else UNREAD

    def _common_only(self, value: dict[str, Any], pointer: str, findings: Findings) -> Any:
        assert self.common is not None
        loaded = self.common.read(value, pointer, findings)
        return Picked(None, {}, {}, loaded, pointer)

    def _refuse_method(self, value: dict[str, Any], pointer: str, findings: Findings) -> None:
        tag, what, known = self.field.tag, self.field.what, self.field.branches
        if tag not in value:
            findings.missing(f"{pointer}/{tag}", advice("", known, verb=f"Name a {what},"))
            return
        got = value[tag]
        word = got if isinstance(got, str) else ""
        findings.add(f"{pointer}/{tag}", f"a known {what}", got, advice(word, known))


def faulty(branch: Branch, fault: str) -> PluginFaultError:
    """Return the error that names a branch's plugin and method."""
    return PluginFaultError(branch.plugin, branch.id, fault)


def option_keys(schema: Schema) -> dict[str, fields.Field[Any]]:
    """Return the fields of an option schema by the key that stands in a document."""
    return {field.data_key or name: field for name, field in schema.load_fields.items()}


class Readers:
    """Makes readers for fields and keeps one per schema class, so that schemas may hold themselves."""

    def __init__(self) -> None:
        self._by_class: dict[type[Schema], ObjectReader] = {}

    def object(self, schema: Schema | type[Schema]) -> ObjectReader:
        """Return the reader of a schema."""
        cls = schema if isinstance(schema, type) else type(schema)
        if cls not in self._by_class:
            reader = ObjectReader(cls())
            self._by_class[cls] = reader
            reader.fill(self)
        return self._by_class[cls]

    def of(self, field: fields.Field[Any]) -> Reader:
        """Return the reader of a field."""
        reader = self._plain(field)
        return NullReader(reader) if field.allow_none else reader

    def _plain(self, field: fields.Field[Any]) -> Reader:
        if isinstance(field, fields.Nested):
            return self.object(type(field.schema))
        if isinstance(field, Rows):
            return RowsReader(field, self.of(field.inner))
        if isinstance(field, MapOf):
            assert field.value_field is not None
            return MapReader(field, self.of(field.value_field))
        if isinstance(field, Pick):
            return PickReader(field, None if field.common is None else self.object(field.common))
        return LeafReader(field)


def unknown(key: str, known: Any, pointer: str, findings: Findings) -> None:
    """Note a key that nothing reads, naming the nearest one that something does."""
    fix = advice(key, known, verb="Write", most=20)
    findings.add(pointer + pointer_to(key), "a known key", key, fix if "Write" in fix else "Leave it out.")


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
            findings.add(pointer, "a value", None, "Give a value, or leave the key out.")
        else:
            rule = str(message).rstrip(".")
            findings.add(pointer, rule[:1].lower() + rule[1:], value, "Change it so that the rule holds.")
