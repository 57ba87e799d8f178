"""marshmallow fields as JSON Schema, exactly: what the schema allows is what the reader takes, and no more.

apispec knows the fields of marshmallow itself; our strict fields and our choices are told to it here.
"""

import json
from typing import Any

from apispec import APISpec
from apispec.ext.marshmallow import MarshmallowPlugin
from apispec.ext.marshmallow.openapi import OpenAPIConverter
from casewright.api.job import limits
from casewright.api.job.fields import TAPE_NUMBERS, TAPE_WORDS, Constant, MapOf, Pick, Rows, Shelves, Tape
from casewright.api.job.json_patch import JSON_PATCH, AnyPatch
from casewright.sdk.fields import Choice, Count, Flag, Length, Number, Text
from casewright.sdk.units import GREATEST, LENGTH_PATTERN, LONGEST_TEXT, MM
from marshmallow import Schema, fields

_PRINTABLE = "^[^\\u0000-\\u001f\\u007f-\\u009f]*$"
_KEEP = ("description", "x-kind")
_OURS = (Length, Count, Number, Flag, Text, Choice, Constant, Shelves, Tape, Pick, MapOf, Rows, AnyPatch)


class _Converter(OpenAPIConverter):
    """apispec's converter, told about our fields."""

    field_mapping = {**OpenAPIConverter.field_mapping, **dict.fromkeys(_OURS, (None, None))}  # noqa: RUF012

    def init_attribute_functions(self) -> None:
        super().init_attribute_functions()  # type: ignore[no-untyped-call]
        self.attribute_functions.append(self.strict)

    def strict(self, field: fields.Field[Any], ret: dict[str, Any], **_: Any) -> dict[str, Any]:
        """Replace what apispec made of one of our fields."""
        if not isinstance(field, _OURS):
            return {}
        exact = self._exact(field)
        described = {key: ret[key] for key in _KEEP if key in ret}
        default = _default(field)
        ret.clear()
        if field.allow_none:
            exact = {"anyOf": [exact, {"type": "null"}]}
        return {**exact, **described, **default}

    def _exact(self, field: fields.Field[Any]) -> dict[str, Any]:
        if isinstance(field, Pick):
            return {"oneOf": self._branches(field)}
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
        return _plain(field)

    def _branches(self, field: Pick) -> list[dict[str, Any]]:
        """Return the branches of a choice, each a component of its own."""
        common = () if field.common is None else (field.common,)
        out = []
        for method, branch in field.branches.items():
            name = f"{field.group}.{method}"
            out.append(self._component(name, (*common, branch.options), {field.tag: Constant(method)}, branch.title))
        if field.common is not None:
            about = f"Leaves the {field.what} to the house."
            out.append(self._component(f"{field.group}.as-house", common, {}, about))
        return out

    def _component(self, name: str, bases: tuple[type[Schema], ...], own: dict[str, Any], title: str) -> dict[str, Any]:
        if name not in self.spec.components.schemas:
            meta = type("Meta", (), {"unknown": "raise"})
            kind: Any = type(bases[0])
            cls = kind(name, bases, {**own, "Meta": meta, "__doc__": title})
            described = self.schema2jsonschema(cls())  # type: ignore[no-untyped-call]
            self.spec.components.schema(name, {**described, "title": title})
        return {"$ref": f"#/components/schemas/{name}"}


def _default(field: fields.Field[Any]) -> dict[str, Any]:
    value = field.load_default
    if not isinstance(value, (int, float, str)):
        return {}
    if isinstance(field, Length) and isinstance(value, int):
        return {"default": f"{value / MM:.10g} mm"}
    return {"default": value}


def _plain(field: fields.Field[Any]) -> dict[str, Any]:
    if isinstance(field, Length):
        return _length(field)
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
    if isinstance(field, AnyPatch):
        merge = {"type": "object", "description": "a JSON Merge Patch (RFC 7396), in which arrays are wholes"}
        return {"oneOf": [merge, dict(JSON_PATCH)]}
    if isinstance(field, Tape):
        return {"enum": [*TAPE_WORDS, *TAPE_NUMBERS]}
    assert isinstance(field, Shelves)
    heights = {"type": "array", "items": _length(field.height), "maxItems": limits.SHELVES}
    return {"oneOf": [_plain(field.count), heights]}


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
