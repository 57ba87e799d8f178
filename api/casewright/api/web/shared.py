"""What the OpenAPI document would say again and again, said once: components that its places refer to."""

import json
from collections import Counter
from collections.abc import Iterator
from typing import Any

from casewright.api.job.option_schema import camel

Described = dict[str, Any]

GAIN = 200
"""Bytes of JSON that a component must save to be one."""
_REFERENCE = len('{"$ref":"#/components/schemas/"}')


def share_properties(schemas: Described) -> None:
    """Make a component, named by the property, of each property that several schemas describe alike.

    The default stays where it was: a reference may stand beside it, and readers of defaults need follow nothing. What
    is itself a reference, the tag of a union or an object of its own stays too.
    """
    times = Counter((name, _text(one)) for name, one in _properties(schemas) if _may_move(one))
    often = {key: camel(key[0]) for key, count in times.items() if _gain(*key, count) >= GAIN}
    taken = Counter(often.values()) + Counter(list(schemas))
    moved = {key: component for key, component in often.items() if taken[component] == 1}
    for schema in list(schemas.values()):
        for name, one in schema.get("properties", {}).items():
            component = moved.get((name, _text(one)))
            if component is not None:
                schemas[component] = _without_default(one)
                default = {"default": one["default"]} if "default" in one else {}
                schema["properties"][name] = {"$ref": f"#/components/schemas/{component}", **default}


def _properties(schemas: Described) -> Iterator[tuple[str, Described]]:
    for schema in schemas.values():
        yield from schema.get("properties", {}).items()


def _may_move(one: Described) -> bool:
    return not {"$ref", "const", "properties"} & set(one)


def _gain(name: str, text: str, count: int) -> int:
    """Return by how many bytes a document shrinks where what stands so often is said once."""
    return (count - 1) * len(text) - count * (_REFERENCE + len(name))


def _without_default(one: Described) -> Described:
    return {key: value for key, value in one.items() if key != "default"}


def _text(one: Described) -> str:
    return json.dumps(one, sort_keys=True, separators=(",", ":"))
