"""The described plan is the written one: no key leaves the service that the OpenAPI document does not name."""

from collections.abc import Iterator
from typing import Any

import pytest
from casewright.api import plan
from casewright.api.use.examples import Example, examples
from casewright.api.web.openapi import openapi_document
from casewright.sdk.loader import Registry

Schemas = dict[str, Any]


@pytest.fixture(scope="module")
def schemas(registry: Registry) -> Schemas:
    published: Schemas = openapi_document(registry)["components"]["schemas"]
    return published


def followed(schema: Any, schemas: Schemas) -> list[Any]:
    """Return the schemas one stands for: what a reference leads to, or each of several."""
    if "$ref" in schema:
        return followed(schemas[schema["$ref"].rpartition("/")[2]], schemas)
    several = schema.get("anyOf") or schema.get("oneOf") or schema.get("allOf")
    return [one for each in several for one in followed(each, schemas)] if several else [schema]


def undescribed(value: Any, schema: Any, schemas: Schemas, at: str = "") -> Iterator[str]:
    """Yield the place of every key that no schema names; an object without properties is one of free keys."""
    options = followed(schema, schemas)
    if isinstance(value, list):
        items = [one["items"] for one in options if "items" in one]
        for inner in value if items else ():
            yield from undescribed(inner, items[0], schemas, f"{at}/-")
    if isinstance(value, dict):
        named = {key: inner for one in options for key, inner in one.get("properties", {}).items()}
        for key, inner in value.items() if named else ():
            if key in named:
                yield from undescribed(inner, named[key], schemas, f"{at}/{key}")
            else:
                yield f"{at}/{key}"


@pytest.mark.parametrize("example", examples(), ids=lambda example: example.name)
def test_every_key_of_a_plan_is_described(example: Example, schemas: Schemas) -> None:
    document = plan(example.job())
    assert set(undescribed(document, {"$ref": "#/components/schemas/PlanView"}, schemas)) == set()


def test_every_key_of_stock_with_defects_that_is_left_is_described(schemas: Schemas) -> None:
    knot = {"x": 100, "y": 100, "length": 50, "width": 50}
    lid = {"id": "lid", "material": "mdf", "length": 500, "width": 300}
    used = {"id": "used", "material": "mdf", "length": 700, "width": 300}
    left = {"id": "left", "material": "mdf", "length": 700, "width": 400, "taper": 5, "defects": [knot]}
    materials = {"mdf": {"kind": "sheet", "stuff": "mdf", "thickness": 18}}
    document = plan(
        {
            "units": "mm",
            "materials": materials,
            "loose_parts": [lid],
            "stock": {"offcuts": [used, left]},
        }
    )
    stock = document["stock"]
    assert stock is not None
    assert [one["defects"] for one in stock["after"]["offcuts"]] == [[knot]]  # as the job gives it
    assert set(undescribed(document, {"$ref": "#/components/schemas/PlanView"}, schemas)) == set()


def test_a_key_that_is_not_described_is_noticed(schemas: Schemas) -> None:
    document = {"parts": [{"id": "tools/top", "why": {"height": []}}], "weather": "fair"}
    paths = set(undescribed(document, {"$ref": "#/components/schemas/PlanView"}, schemas))
    assert paths == {"/weather", "/parts/-/why/height"}
