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


@pytest.mark.parametrize("stuff", ["steel", "metal", "galvanized-steel"])
def test_studs_of_no_wood_ask_for_wood_backing(registry: Registry, stuff: str) -> None:
    assert "wood backing" in fix_of_studs(registry, stuff)


def test_a_slip_of_the_pen_in_the_studs_wood_does_not(registry: Registry) -> None:
    assert fix_of_studs(registry, "spruce-pin-fir") == 'Write "spruce-pine-fir".'


def fix_of_studs(registry: Registry, stuff: str) -> str:
    job = {
        "units": "mm",
        "materials": {"mdf": {"kind": "sheet", "stuff": "mdf", "thickness": 18}},
        "loose_parts": [{"id": "lid", "material": "mdf", "length": 500, "width": 300}],
        "wall": {"studs": {"at": [400, 800], "stuff": stuff}},
    }
    with pytest.raises(UnusableJobError) as caught:
        read_job(job, registry)
    (problem,) = caught.value.problems
    assert (problem.pointer, problem.got) == ("/wall/studs/stuff", f'"{stuff}"')
    return problem.fix


def test_places_of_cabinets_that_are_all_lacking_are_not_to_be_taken_out(registry: Registry) -> None:
    wall = {"cabinets_at": {"tools": [{"x": 100, "z": 1400}]}}
    with pytest.raises(UnusableJobError) as caught:
        read_job({"units": "mm", "materials": {}, "wall": wall}, registry)
    assert [problem.pointer for problem in caught.value.problems] == ["/cabinets"]
