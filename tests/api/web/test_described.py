"""What the OpenAPI document promises to those who make clients of it: names, unions, patterns, words, examples."""

import json
import re
import subprocess
from collections.abc import Callable, Iterator
from typing import Any

import jsonschema
import pytest
from casewright.api.web.openapi import openapi_document
from casewright.sdk.loader import Registry

SERVED, PACKED = 262_000, 45_000
"""Bytes of the document as served, and packed by gzip, at most."""


@pytest.fixture(scope="module")
def document(registry: Registry) -> dict[str, Any]:
    return openapi_document(registry)


def inside(value: Any, at: str = "") -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield every object of a document with its place; examples hold data, and are left out."""
    if isinstance(value, dict):
        yield at, value
        for key, inner in value.items():
            if key not in ("example", "examples", "default"):
                yield from inside(inner, f"{at}/{key}")
    elif isinstance(value, list):
        for i, inner in enumerate(value):
            yield from inside(inner, f"{at}/{i}")


def target(document: dict[str, Any], schema: dict[str, Any]) -> dict[str, Any]:
    name = schema.get("$ref", "").rpartition("/")[2]
    return document["components"]["schemas"][name] if name else schema


def test_names_are_words_of_any_language(document: dict[str, Any]) -> None:
    names = document["components"]["schemas"]
    assert [name for name in names if not re.fullmatch("[A-Z][A-Za-z0-9]*", name)] == []


def test_every_union_of_objects_has_a_discriminator(document: dict[str, Any]) -> None:
    unions = [(at, one) for at, one in inside(document) if len([o for o in one.get("oneOf", ()) if "$ref" in o]) > 1]
    assert len(unions) >= 8
    for at, union in unions:
        shapes = [target(document, one) for one in union["oneOf"] if "$ref" in one]
        untagged = [one for one in shapes if not any("const" in value for value in one["properties"].values())]
        if untagged:  # the one that leaves the method to the house, and forbids its tag
            assert len(untagged) == 1, at
            assert untagged[0]["additionalProperties"] is False, at
            continue
        tag = union["discriminator"]["propertyName"]
        for word, reference in union["discriminator"]["mapping"].items():
            assert {"$ref": reference} in union["oneOf"], at
            branch = target(document, {"$ref": reference})
            assert branch["properties"][tag]["const"] == word, at
            assert tag in branch["required"], at


def test_a_length_is_described_once(document: dict[str, Any]) -> None:
    text = json.dumps(document["components"]["schemas"])
    assert text.count("[0-9]{1,9}") == 2 * 2  # a Length and a SignedLength, each with whole numbers and decimals
    assert text.count("schemas/Length") > 100


def test_every_property_is_described(document: dict[str, Any]) -> None:
    bare = [
        f"{at}/{name}"
        for at, schema in inside(document)
        for name, one in schema.get("properties", {}).items()
        if isinstance(one, dict) and not (one.get("description") or target(document, one).get("description"))
    ]
    assert bare == []


def test_every_object_is_typed(document: dict[str, Any]) -> None:
    loose = [
        at
        for at, schema in inside(document)
        if schema.get("type") == "object" and not ({"properties", "additionalProperties"} & set(schema))
    ]
    assert loose == []


def test_no_list_of_words_mixes_types(document: dict[str, Any]) -> None:
    for at, schema in inside(document):
        if isinstance(schema.get("enum"), list):
            assert len({type(word) for word in schema["enum"] if word is not None}) == 1, at


def test_patterns_are_of_ecma_262(document: dict[str, Any], needed: Callable[..., None]) -> None:
    needed("node")
    patterns = sorted({one["pattern"] for _, one in inside(document) if isinstance(one.get("pattern"), str)})
    assert patterns
    script = "JSON.parse(process.argv[1]).forEach((one) => new RegExp(one, 'u'))"
    ran = subprocess.run(["node", "-e", script, json.dumps(patterns)], capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stderr


def test_every_answer_and_body_has_an_example_that_matches(document: dict[str, Any]) -> None:
    seen = 0
    for at, one in inside(document["paths"] | document["components"]["requestBodies"]):
        if "schema" not in one or "/content/" not in at or one["schema"].get("format"):
            continue
        given = [one["example"]] if "example" in one else list(one.get("examples", {}).values())
        assert given, at
        for example in given:
            if isinstance(example, dict) and "$ref" in example:
                example = document["components"]["examples"][example["$ref"].rpartition("/")[2]]
            value = (
                example["value"]
                if isinstance(example, dict) and "value" in example and "summary" in example
                else example
            )
            jsonschema.Draft202012Validator({**one["schema"], "components": document["components"]}).validate(value)
            seen += 1
    assert seen > 30


def test_only_what_is_used_stands_in_it(document: dict[str, Any]) -> None:
    used = {one["$ref"] for _, one in inside(document) if isinstance(one.get("$ref"), str)}
    used |= {one["$ref"] for at, one in _examples(document)}
    for kind in ("responses", "schemas", "parameters", "headers", "requestBodies"):
        for name in document["components"].get(kind, {}):
            assert f"#/components/{kind}/{name}" in used, name


def _examples(document: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    for at, one in inside(document):
        for name, example in one.get("examples", {}).items():
            if isinstance(example, dict) and "$ref" in example:
                yield f"{at}/{name}", example


def test_it_says_where_and_whose(document: dict[str, Any]) -> None:
    assert document["servers"] == [{"url": "/"}]
    assert document["info"]["contact"]["name"]
    tags = {tag["name"] for tag in document["tags"]}
    for path, operations in document["paths"].items():
        for operation in operations.values():
            assert set(operation["tags"]) <= tags, path
            assert operation["summary"], path


def test_its_size(document: dict[str, Any]) -> None:
    import gzip

    served = json.dumps(document, separators=(",", ":"), ensure_ascii=False).encode()
    assert len(served) < SERVED
    assert len(gzip.compress(served)) < PACKED
