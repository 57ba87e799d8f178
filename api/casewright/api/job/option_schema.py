"""marshmallow fields as JSON Schema, exactly: what the schema allows is what the reader takes, and no more.

apispec knows the fields of marshmallow itself; our strict fields and our choices are told to it here. Patterns are
ECMA-262's with the flag `u`, and names of components are words of Python and TypeScript alike.
"""

import json
import re
from collections.abc import Callable
from typing import Any

from apispec import APISpec
from apispec.ext.marshmallow import MarshmallowPlugin
from apispec.ext.marshmallow.common import get_unique_schema_name
from apispec.ext.marshmallow.openapi import OpenAPIConverter
from casewright.api.job import limits
from casewright.api.job.fields import TAPE_NUMBERS, TAPE_WORDS, Branch, Constant, Key, MapOf, Pick, Rows, Shelves, Tape
from casewright.api.job.json_patch import AnyPatch, operation_schemas
from casewright.sdk.fields import Choice, Count, Flag, Length, Number, Text
from casewright.sdk.units import GREATEST, LENGTH_PATTERN, LONGEST_TEXT, MM
from marshmallow import Schema, fields

_PRINTABLE = "^[^\\u0000-\\u001f\\u007f-\\u009f]*$"
_ID = "Letters, digits, dot, dash and underscore, beginning with a letter or digit."
_A_LENGTH = "A number in the job's `units`, or text as a tape is read, with a unit or without"
_OURS = (Length, Count, Number, Flag, Text, Choice, Constant, Shelves, Tape, Pick, MapOf, Rows, AnyPatch)


class _Converter(OpenAPIConverter):
    """apispec's converter, told about our fields."""

    field_mapping = {**OpenAPIConverter.field_mapping, **dict.fromkeys(_OURS, (None, None))}  # noqa: RUF012

    def init_attribute_functions(self) -> None:
        super().init_attribute_functions()  # type: ignore[no-untyped-call]
        self.attribute_functions.append(self.strict)
        self._names: dict[str, str] = {}

    def strict(self, field: fields.Field[Any], ret: dict[str, Any], **_: Any) -> dict[str, Any]:
        """Replace what apispec made of one of our fields."""
        if not isinstance(field, _OURS):
            return {}
        exact = self._exact(field)
        described = {key: ret[key] for key in ("description",) if key in ret}
        default = _default(field)
        ret.clear()
        if field.allow_none and isinstance(field, (Length, Key)):
            exact = self._or_null(exact)
        elif field.allow_none:
            union = "oneOf" if "oneOf" in exact else "anyOf"
            exact = {union: [*exact.get(union, [exact]), {"type": "null"}]}
        return {**exact, **described, **default}

    def _or_null(self, reference: dict[str, Any]) -> dict[str, Any]:
        """Return the reference to what another component describes, or null: one component for all that may be so."""
        name = reference["$ref"].rpartition("/")[2] + "OrNull"
        return self._once(name, name, lambda: {"anyOf": [reference, {"type": "null"}]})

    def _exact(self, field: fields.Field[Any]) -> dict[str, Any]:
        if isinstance(field, Pick):
            return self._pick(field)
        if isinstance(field, Rows):
            out = {"type": "array", "items": self.field2property(field.inner), "maxItems": field.most}
            return {**out, "minItems": field.least} if field.least else out
        if isinstance(field, MapOf):
            assert field.value_field is not None
            assert field.key_field is not None
            return {
                "type": "object",
                "propertyNames": _plain(field.key_field),
                "additionalProperties": self.field2property(field.value_field),
                "maxProperties": field.most,
            }
        if isinstance(field, AnyPatch):
            return self._patch()
        if isinstance(field, Length):
            return self._length(field)
        if isinstance(field, Key):
            return self._once("id", "Id", lambda: {**_plain(field), "description": _ID})
        if isinstance(field, Shelves):
            heights = {"type": "array", "items": self._length(field.height), "maxItems": limits.SHELVES}
            return {"anyOf": [_plain(field.count), heights]}
        return _plain(field)

    def _length(self, field: Length) -> dict[str, Any]:
        name, about = ("SignedLength", "either way") if field.least < 0 else ("Length", "not less than zero")
        return self._once(name, name, lambda: {**_length(field), "description": f"{_A_LENGTH}; {about}."})

    def _patch(self) -> dict[str, Any]:
        about = "a JSON Merge Patch (RFC 7396), in which arrays are wholes"
        merge = {"type": "object", "description": about, "additionalProperties": True}
        steps = {
            word: self._once(f"patch {word}", camel(f"patch {word}"), lambda schema=schema: schema)  # type: ignore[misc]
            for word, schema in operation_schemas().items()
        }
        union = {
            "description": "An operation of a JSON Patch.",
            "oneOf": list(steps.values()),
            "discriminator": {"propertyName": "op", "mapping": {word: one["$ref"] for word, one in steps.items()}},
        }
        items = self._once("a step of a patch", "PatchStep", lambda: union)
        steps_of = {"type": "array", "maxItems": limits.PATCH_OPERATIONS, "items": items}
        return {"anyOf": [merge, {**steps_of, "description": "a JSON Patch (RFC 6902)"}]}

    def _pick(self, field: Pick) -> dict[str, Any]:
        """Return the choice of a method, a component of its own; where keys are shared the method may be left out."""
        branches = {branch.id: self._branch(field, branch) for branch in field.branches.values()}
        if field.common is not None:
            about = f"Leaves the {field.what} to the house."
            without = self._object(f"{field.group} without {field.tag}", (field.common,), {}, about)
            return {"oneOf": [*branches.values(), without]}
        union = {
            "description": f"A {field.what}, by its `{field.tag}`.",
            "oneOf": list(branches.values()),
            "discriminator": {
                "propertyName": field.tag,
                "mapping": {key: one["$ref"] for key, one in branches.items()},
            },
        }
        return self._once(f"a {field.what}", camel(field.what), lambda: union)

    def _branch(self, field: Pick, branch: Branch) -> dict[str, Any]:
        bases = (branch.options,) if field.common is None else (field.common, branch.options)
        tag = Constant(branch.id, metadata={"description": f"picks this {field.what.split()[-1]}"})
        return self._object(f"{field.group} {branch.id}", bases, {field.tag: tag}, branch.title)

    def _object(self, words: str, bases: tuple[type[Schema], ...], own: dict[str, Any], title: str) -> dict[str, Any]:
        def described() -> dict[str, Any]:
            meta = type("Meta", (), {"unknown": "raise"})
            kind: Any = type(bases[0])
            cls = kind(camel(words), bases, {**own, "Meta": meta, "__doc__": title})
            schema = self.schema2jsonschema(cls())  # type: ignore[no-untyped-call]
            return {**schema, "description": title}

        return self._once(words, camel(words), described)

    def _once(self, what: str, name: str, described: Callable[[], dict[str, Any]]) -> dict[str, Any]:
        """Return the reference to a component, made where it is first met, by a name that nothing else has."""
        if what not in self._names:
            self._names[what] = get_unique_schema_name(self.spec.components, name)
            self.spec.components.schema(self._names[what], described())
        return {"$ref": f"#/components/schemas/{self._names[what]}"}


def camel(words: str) -> str:
    """Return words and ids as the name of a component: `door cope-and-stick` is `DoorCopeAndStick`."""
    return "".join(word[:1].upper() + word[1:] for word in re.split("[^A-Za-z0-9]+", words))


def _default(field: fields.Field[Any]) -> dict[str, Any]:
    value = field.load_default
    if not isinstance(value, (int, float, str)):
        return {}
    if isinstance(field, Length) and isinstance(value, int):
        return {"default": f"{value / MM:.10g} mm"}
    return {"default": value}


def _plain(field: fields.Field[Any]) -> dict[str, Any]:
    if isinstance(field, Count):
        return {"type": "integer", "minimum": field.least, "maximum": field.most}
    if isinstance(field, Number):
        return {"type": "number", "minimum": field.least, "maximum": field.most}
    if isinstance(field, Flag):
        return {"type": "boolean"}
    if isinstance(field, Text):
        return {
            "type": "string",
            "minLength": field.least,
            "maxLength": field.most,
            "pattern": field.pattern or _PRINTABLE,
        }
    if isinstance(field, Choice):
        return {"type": "string", "enum": list(field.words)}
    if isinstance(field, Constant):
        return {"type": "string", "const": field.word}
    assert isinstance(field, Tape)
    numbers = {"type": "number", "minimum": min(TAPE_NUMBERS), "maximum": max(TAPE_NUMBERS)}
    return {"anyOf": [{"type": "string", "enum": list(TAPE_WORDS)}, numbers]}


def _length(field: Length) -> dict[str, Any]:
    """Return a length: bounds that depend on units are not stated, so breaking them is a 422."""
    most = GREATEST // MM
    signed = field.least < 0
    text = LENGTH_PATTERN if signed else LENGTH_PATTERN.replace("[+-]?", r"\+?", 1)
    return {
        "oneOf": [
            {"type": "number", "minimum": -most if signed else 0, "maximum": most},
            {"type": "string", "maxLength": LONGEST_TEXT, "pattern": text},
        ]
    }


class _Plugin(MarshmallowPlugin):
    Converter = _Converter


def new_spec(title: str, version: str, **info: Any) -> APISpec:
    """Return an empty OpenAPI 3.1 document that understands our fields."""
    return APISpec(
        title=title,
        version=version,
        openapi_version="3.1.0",
        plugins=[_Plugin(schema_name_resolver=lambda schema: _name(schema))],
        info=info,
    )


def _name(schema: Any) -> str:
    cls = schema if isinstance(schema, type) else type(schema)
    return str(cls.__name__)


def option_schema(options: type[Schema]) -> dict[str, Any]:
    """Return the JSON Schema of a method's options by itself; schemas it holds stand under `$defs`."""
    spec = new_spec("options", "1")
    plugin = spec.plugins[0]
    assert isinstance(plugin, MarshmallowPlugin)
    assert plugin.converter is not None
    schema: dict[str, Any] = plugin.converter.schema2jsonschema(options())  # type: ignore[no-untyped-call]
    schema.setdefault("type", "object")
    schema.setdefault("additionalProperties", False)
    if spec.components.schemas:
        schema["$defs"] = dict(spec.components.schemas)
    text = json.dumps(schema).replace("#/components/schemas/", "#/$defs/")
    out: dict[str, Any] = json.loads(text)
    return out
