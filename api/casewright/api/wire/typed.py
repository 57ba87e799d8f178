"""The published schemas as Python's typed dictionaries, so that editors and type checkers know a job and its plan.

`casewright openapi --types FILE` writes the module that `casewright.api` exports them from.
"""

import keyword
from collections.abc import Iterator, Mapping
from typing import Any

ROOTS: Mapping[str, str] = {
    "JobDocument": "Job",
    "PlanDocument": "PlanView",
    "PartsDocument": "PartsView",
    "StepsDocument": "StepsView",
    "FitsDocument": "FitsView",
    "BuiltDocument": "BuiltView",
    "CuresDocument": "CuresView",
    "FromStockDocument": "FromStockView",
}
"""Names by which a program knows the documents, and the components they are."""

_LENGTHS = frozenset({"Length", "SignedLength"})
_PLAIN = {"string": "str", "integer": "int", "number": "float", "boolean": "bool", "null": "None"}
_HEAD = '''"""Jobs and plans as typed dictionaries. Written by `casewright openapi --types`: not by hand."""

# ruff: noqa
# fmt: off

from decimal import Decimal
from fractions import Fraction
from typing import Any, Literal, NotRequired, TypeAlias, TypedDict

Length: TypeAlias = int | float | str | Decimal | Fraction
"""A number in the job's units, or text as a tape is read, with a unit or without."""
SignedLength: TypeAlias = Length
Id: TypeAlias = str
"""Letters, digits, dot, dash and underscore, beginning with a letter or digit."""
'''


def typed_source(document: Mapping[str, Any]) -> str:
    """Return the text of a module that defines the documents of an OpenAPI document."""
    schemas: Mapping[str, Any] = document["components"]["schemas"]
    names = sorted(_reached(schemas, list(ROOTS.values())) - _LENGTHS - {"Id"})
    parts = [_HEAD]
    parts += [_definition(name, schemas[name]) for name in names if "properties" in schemas[name]]
    parts += [f"{name}: TypeAlias = {_quoted(schemas[name])}\n" for name in names if "properties" not in schemas[name]]
    parts += [f"{root}: TypeAlias = {name}\n" for root, name in ROOTS.items()]
    return "\n".join(parts)


def _reached(schemas: Mapping[str, Any], start: list[str]) -> set[str]:
    """Return the names of components that the first ones lead to, themselves among them."""
    reached: set[str] = set()
    while start:
        name = start.pop()
        if name not in reached:
            reached.add(name)
            start += [_name(reference) for reference in references(schemas[name])]
    return reached


def references(value: Any) -> Iterator[str]:
    """Yield every reference in a piece of an OpenAPI document."""
    if isinstance(value, dict):
        if isinstance(value.get("$ref"), str):
            yield value["$ref"]
        for inner in value.values():
            yield from references(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from references(inner)


def _name(reference: str) -> str:
    return reference.rpartition("/")[2]


def _definition(name: str, schema: Mapping[str, Any]) -> str:
    """Return a typed dictionary; by a call where a key is no name of Python's."""
    required = frozenset(schema.get("required", ()))
    kinds = {
        key: _type(one) if key in required else f"NotRequired[{_type(one)}]"
        for key, one in schema["properties"].items()
    }
    about = schema.get("description", name)
    if all(key.isidentifier() and not keyword.iskeyword(key) for key in kinds):
        lines = [f'    {key}: "{kind}"' for key, kind in kinds.items()]
        return "\n".join([f"class {name}(TypedDict):", f'    """{about}"""', "", *lines, ""])
    lines = [f'    "{key}": "{kind}",' for key, kind in kinds.items()]
    return "\n".join([f'{name} = TypedDict("{name}", {{', *lines, "})", f'"""{about}"""', ""])


def _quoted(schema: Mapping[str, Any]) -> str:
    return f'"{_type(schema)}"'


def _type(schema: Mapping[str, Any]) -> str:
    """Return the type of what a schema describes."""
    if "$ref" in schema:
        return _name(schema["$ref"])
    if "const" in schema:
        return f"Literal[{schema['const']!r}]".replace('"', "'")
    if "enum" in schema:
        words = [repr(word) for word in schema["enum"] if word is not None]
        nothing = " | None" if None in schema["enum"] else ""
        return f"Literal[{', '.join(words)}]{nothing}"
    for either in ("anyOf", "oneOf"):
        if either in schema:
            return " | ".join(dict.fromkeys(_type(one) for one in schema[either]))
    kind = schema.get("type")
    if isinstance(kind, list):
        return " | ".join(_type({**schema, "type": one}) for one in kind)
    if kind == "array":
        return f"list[{_type(schema['items'])}]"
    if kind == "object":
        values = schema.get("additionalProperties")
        return f"dict[str, {_type(values) if isinstance(values, dict) and values else 'Any'}]"
    return _PLAIN.get(str(kind), "Any")
