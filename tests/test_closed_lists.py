"""A word of a closed list is known in every place that must know it: a new form, unit or front half added fails here.

What is dispatched by `match` fails type checking as well; these are the places mypy does not see.
"""

from typing import Any, get_args

import pytest
from casewright.api.job.schema import JobSchemas, job_schemas
from casewright.api.job.schema.pieces import Material
from casewright.api.job.schema.run import CORNERS, ENDS, OBSTACLES
from casewright.sdk import model, units, writer
from casewright.sdk.loader import load
from casewright.sdk.model import cabinet, job
from marshmallow import Schema


@pytest.fixture(scope="module")
def schemas() -> JobSchemas:
    return job_schemas(load(discover="built-in"))


def words(schema: type[Schema], field: str) -> set[str]:
    """Return the words a job may write in a field."""
    declared: Any = schema._declared_fields[field]
    return set(declared.words)


def inside(schema: type[Schema], *path: str) -> type[Schema]:
    """Return the schema that stands in a field of another, in rows or not."""
    for name in path:
        field: Any = schema._declared_fields[name]
        nested = getattr(field, "inner", field)
        schema = type(nested.schema)
    return schema


def test_units(schemas: JobSchemas) -> None:
    every = set(get_args(units.Units))
    assert words(schemas.job, "units") == every
    assert set(units.NM_PER_UNIT) == every
    assert {writer.writer(one).units for one in every} == every
    assert set(writer.PLACES) == every


def test_forms(schemas: JobSchemas) -> None:
    assert words(inside(schemas.job, "cabinets"), "form") == set(get_args(model.Form))


def test_fronts(schemas: JobSchemas) -> None:
    assert words(inside(schemas.job, "cabinets", "space"), "front") == set(get_args(cabinet.Front))


@pytest.mark.parametrize(
    ("listed", "known"), [(ENDS, cabinet.EndKind), (OBSTACLES, job.ObstacleKind), (CORNERS, job.Corners)]
)
def test_words_of_a_run(listed: tuple[str, ...], known: Any) -> None:
    assert set(listed) == set(get_args(known))


def test_kinds_of_material() -> None:
    assert words(Material, "kind") == set(get_args(model.Material.__annotations__["kind"]))
