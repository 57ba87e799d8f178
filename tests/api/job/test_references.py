"""What a job's own rules say of the rows of its stock as they were written; pointers counted by hand (RFC 6901)."""

from typing import Any

import pytest
from casewright.api.job.document import read_job
from casewright.sdk.errors import Problem, UnusableJobError
from casewright.sdk.loader import Registry

KNOT = {"x": 100, "y": 100, "length": 50, "width": 50}


def piece(name: str, **more: Any) -> dict[str, Any]:
    return {"id": name, "material": "mdf", "length": 1000, "width": 600, **more}


def found(registry: Registry, **stock: Any) -> list[tuple[str, str]]:
    job = {
        "units": "mm",
        "materials": {
            "mdf": {"kind": "sheet", "stuff": "mdf", "thickness": 18},
            "oak": {"kind": "board", "stuff": "red-oak", "thickness": 19},
        },
        "loose_parts": [{"id": "lid", "material": "mdf", "length": 500, "width": 300}],
        "stock": stock,
    }
    with pytest.raises(UnusableJobError) as caught:
        read_job(job, registry)
    problems: tuple[Problem, ...] = tuple(caught.value.problems)
    return [(problem.pointer, problem.got) for problem in problems]


def test_an_id_is_refused_at_its_row_where_one_before_has_a_defect(registry: Registry) -> None:
    sheets = [piece("knotty", defects=[KNOT]), piece("spare"), piece("spare")]
    assert found(registry, sheets=sheets) == [("/stock/sheets/2/id", '"spare"')]


@pytest.mark.parametrize("second", [{}, {"defects": [KNOT]}])
def test_the_id_of_stock_with_a_defect_is_its_own(registry: Registry, second: dict[str, Any]) -> None:
    sheets = [piece("knotty", defects=[KNOT]), piece("knotty", **second)]
    assert found(registry, sheets=sheets) == [("/stock/sheets/1/id", '"knotty"')]


def test_no_row_is_named_as_a_clean_piece_is(registry: Registry) -> None:
    stock = {"sheets": [piece("knotty", defects=[KNOT])], "offcuts": [piece("knotty.1")]}
    assert found(registry, **stock) == [("/stock/offcuts/0/id", '"knotty.1"')]


def test_a_material_is_refused_at_its_row_whatever_is_clean_of_it(registry: Registry) -> None:
    planks = [piece("plank", material="oak"), piece("knotty-plank", material="oak", defects=[KNOT])]
    sheets = [piece("knotty", defects=[KNOT]), *planks]
    assert found(registry, sheets=sheets) == [
        ("/stock/sheets/1/material", "oak, a board"),
        ("/stock/sheets/2/material", "oak, a board"),
    ]
