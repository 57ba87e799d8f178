"""The published OpenAPI document: as generated, valid, and holding every method's options."""

import json
from pathlib import Path
from typing import Any

import casewright.openapi
import jsonschema
import pytest
from casewright.api.web.openapi import openapi_document, openapi_text
from casewright.sdk.fields import Length, OptionSchema
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.loader import Registry, load
from casewright.sdk.methods import Fit, JointMethod, Meeting
from flask.testing import FlaskClient

PUBLISHED = Path(next(iter(casewright.openapi.__path__)))


@pytest.fixture(scope="module")
def document(registry: Registry) -> dict[str, Any]:
    return openapi_document(registry)


def test_the_published_document_has_not_drifted(registry: Registry) -> None:
    published = (PUBLISHED / "openapi.json").read_text("utf-8")
    assert published == openapi_text(registry), "run: casewright openapi --out openapi/openapi.json"


def test_the_live_document_is_the_published_one(client: FlaskClient) -> None:
    assert client.get("/openapi.json").get_json() == json.loads((PUBLISHED / "openapi.json").read_text("utf-8"))


def test_every_reference_leads_somewhere(document: dict[str, Any]) -> None:
    found: set[str] = set()

    def walk(value: Any) -> None:
        if isinstance(value, dict):
            if isinstance(value.get("$ref"), str):
                found.add(value["$ref"])
            for inner in value.values():
                walk(inner)
        elif isinstance(value, list):
            for inner in value:
                walk(inner)

    walk(document)
    assert found
    for reference in found:
        at: Any = document
        for step in reference.removeprefix("#/").split("/"):
            at = at[step]


def test_every_schema_is_a_schema(document: dict[str, Any]) -> None:
    for schema in document["components"]["schemas"].values():
        jsonschema.Draft202012Validator.check_schema(schema)


def validator(document: dict[str, Any]) -> jsonschema.Draft202012Validator:
    return jsonschema.Draft202012Validator({"$ref": "#/components/schemas/Job", "components": document["components"]})


def test_the_example_matches_the_job_schema(document: dict[str, Any], example: dict[str, Any]) -> None:
    validator(document).validate(example)


def test_the_job_schema_is_strict(document: dict[str, Any], example: dict[str, Any]) -> None:
    check = validator(document)
    example["cabinets"][0]["count"] = "2"
    assert not check.is_valid(example)
    example["cabinets"][0]["count"] = 2
    example["house"]["case"]["corner"]["dept"] = 5
    assert not check.is_valid(example)


def test_every_request_schema_refuses_unknown_keys(document: dict[str, Any]) -> None:
    schemas = document["components"]["schemas"]
    seen: set[str] = set()

    def walk(value: Any) -> None:
        if isinstance(value, list):
            for inner in value:
                walk(inner)
        if not isinstance(value, dict):
            return
        reference = value.get("$ref")
        if isinstance(reference, str) and reference not in seen:
            seen.add(reference)
            if "/schemas/" not in reference:
                return
            schema = schemas[reference.rpartition("/")[2]]
            assert schema.get("type") != "object" or schema["additionalProperties"] is False, reference
            walk(schema)
        for inner in value.values():
            walk(inner)

    walk({"$ref": "#/components/schemas/Job"})
    assert len(seen) > 20


class PegOptions(OptionSchema):
    """Options of a joint of an outside plugin."""

    peg = Length(required=True)


class Peg(JointMethod):
    id, title, options, does = "peg", "Peg", PegOptions, frozenset({"corner"})

    def fit(self, meeting: Meeting, options: Any) -> Fit:
        return Fit()


class Outside:
    @hookimpl
    def casewright_joint_methods(self) -> list[JointMethod]:
        return [Peg()]


def test_an_outside_method_enters_the_live_document() -> None:
    document = openapi_document(load(extra=[("outside", Outside())]))
    peg = document["components"]["schemas"]["JointPeg"]
    assert set(peg["properties"]) == {"method", "peg"}
    assert set(peg["required"]) == {"method", "peg"}
    corner = document["components"]["schemas"]["CornerJoint"]
    assert corner["discriminator"]["mapping"]["peg"] == "#/components/schemas/JointPeg"
    assert {"$ref": "#/components/schemas/JointPeg"} in corner["oneOf"]
