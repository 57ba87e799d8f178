"""Problems of a job that came as a table, by the cell each is in and in the table's own marks."""

from typing import Any

import pytest
from casewright.api.job.cells import CellProblem
from casewright.api.job.table import read_table
from casewright.api.use.job_input import JobInput
from casewright.sdk.errors import ProblemsError
from casewright.sdk.loader import Registry

HEADINGS = (
    "id;form;width;height;depth;case.material;base.kind;base.height;at.0.x;at.0.z;"
    "job.units;job.materials.ply.kind;job.materials.ply.stuff;job.materials.ply.thickness;job.wall.lining"
)
SHARED = "mm;sheet;birch-plywood;17,8;12,5"
ROW = "bench;base;600,5;700;300;ply;plinth;100;10,5;0"


def table(**cells: str) -> bytes:
    """Return a table of one cabinet, some of its cells written otherwise."""
    headings = HEADINGS.split(";")
    row = dict(zip(headings, f"{ROW};{SHARED}".split(";"), strict=True)) | cells
    return "\r\n".join((";".join(row), ";".join(row.values()), "")).encode()


def problems(body: bytes, registry: Registry) -> list[CellProblem]:
    with pytest.raises(ProblemsError) as caught:
        JobInput.from_table(body, registry).read()
    assert all(isinstance(one, CellProblem) for one in caught.value.problems)
    return [one for one in caught.value.problems if isinstance(one, CellProblem)]


def test_a_place_on_the_wall_is_the_jobs_by_the_cabinets_id(registry: Registry) -> None:
    read = read_table(table(**{"at.1.x": "700", "at.1.z": "1,5", "count": "2"}), registry)
    wall: dict[str, Any] = {"lining": 12.5, "cabinets_at": {"bench": [{"x": 10.5, "z": 0}, {"x": 700, "z": 1.5}]}}
    assert read.document["wall"] == wall
    assert "at" not in read.document["cabinets"][0]


@pytest.mark.parametrize(
    ("cells", "row", "column", "pointer"),
    [
        ({"at.0.x": "near"}, 2, "at.0.x", "/wall/cabinets_at/bench/0/x"),
        ({"at.0.x": "1.000,5"}, 2, "at.0.x", "/wall/cabinets_at/bench/0/x"),
        ({"at.0.z": ""}, 2, "at.0.z", "/wall/cabinets_at/bench/0/z"),
        ({"at.0.y": "3"}, 1, "at.0.y", ""),
        ({"at": "3"}, 1, "at", ""),
        ({"job.units": ""}, 2, "job.units", "/units"),  # the heading is there: its cell is to be filled
        ({"form": "wall"}, 2, "base.kind", "/cabinets/0/base"),  # of what holds several values, the first of them
        ({"job.materials.ply.thickness": ""}, 2, "job.materials.ply.thickness", "/materials/ply/thickness"),
    ],
)
def test_a_problem_names_the_cell_to_be_mended(
    registry: Registry, cells: dict[str, str], row: int, column: str, pointer: str
) -> None:
    first = problems(table(**cells), registry)[0]
    assert (first.row, first.column, first.pointer) == (row, column, pointer)


def test_what_has_no_column_is_named_as_its_heading_would_be(registry: Registry) -> None:
    body = table().replace(b";job.units", b"").replace(b";mm;", b";")
    assert [(one.row, one.column) for one in problems(body, registry)] == [(1, "job.units")]


def test_half_a_character_of_utf_16_has_a_place_too(registry: Registry) -> None:
    assert [one.row for one in problems(b"\xff\xfei", registry)] == [1]


@pytest.mark.parametrize("cell", ["60O,5", "600,5 milimetres"])
def test_a_problem_of_a_table_with_decimal_commas_has_them_too(registry: Registry, cell: str) -> None:
    (problem,) = problems(table(width=cell), registry)
    assert problem.got == f'"{cell}"'
    assert '"600,5"' in problem.fix  # which does, where "600.5" is refused
    assert JobInput.from_table(table(width="600,5"), registry).read().cabinets
    assert problems(table(width="600.5"), registry)


def test_words_of_a_table_are_shown_as_they_were_written(registry: Registry) -> None:
    (problem,) = problems(table(**{"case.material": "ply 1.5"}), registry)
    assert problem.got == '"ply 1.5"'


def test_a_number_with_a_unit_that_is_none_is_no_fault_of_its_mark(registry: Registry) -> None:
    comma = table(width='"600,5 milimetres"').replace(b";", b",").replace(b"17,8", b"17.8").replace(b"12,5", b"12.5")
    (problem,) = problems(comma.replace(b"10,5", b"10.5"), registry)
    assert (problem.column, problem.rule, problem.got) == ("width", "a length", '"600,5 milimetres"')
