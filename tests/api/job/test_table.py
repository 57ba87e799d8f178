"""CSV in: one cabinet a row; problems name row and column. The CSV form is RFC 4180."""

from typing import Any

import pytest
from casewright.api.job.problems import UnusableJobError
from casewright.api.job.table import read_table
from casewright.sdk.errors import BadDocumentError
from casewright.sdk.loader import Registry
from flask.testing import FlaskClient

HEAD = "id,width,height,depth,case.material,case.corner.method,space.fixed_shelves,job.units"
JOB = "job.materials.ply.kind,job.materials.ply.stuff,job.materials.ply.thickness"
ROW = "bench,600,700,300,ply,rabbet,1,mm,sheet,birch-plywood,17.8"
GOOD = f"{HEAD},{JOB}\r\n{ROW}\r\nshelf,800,700,300,ply,rabbet,,,,,\r\n"


def test_a_table_is_the_same_job_as_its_document(registry: Registry) -> None:
    assert read_table(GOOD.encode(), registry).document == {
        "units": "mm",
        "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 17.8}},
        "cabinets": [
            {
                "id": "bench",
                "width": 600,
                "height": 700,
                "depth": 300,
                "case": {"material": "ply", "corner": {"method": "rabbet"}},
                "space": {"fixed_shelves": 1},
            },
            {
                "id": "shelf",
                "width": 800,
                "height": 700,
                "depth": 300,
                "case": {"material": "ply", "corner": {"method": "rabbet"}},
            },
        ],
    }


@pytest.mark.parametrize(
    ("head", "cell", "expected"),
    [
        ("id", "600", {"id": "600"}),
        ("width", "600", {"width": 600}),
        ("width", "23 5/8 in", {"width": "23 5/8 in"}),
        ("width", "600.5", {"width": 600.5}),
        ("width", "0600", {"width": "0600"}),
        ("count", "2", {"count": 2}),
        ("title", "3", {"title": "3"}),
        ("title", "true", {"title": "true"}),
        ("space.fixed_shelves.0", "200", {"space": {"fixed_shelves": [200]}}),
        ("space.tiers.0.front", "door", {"space": {"tiers": [{"front": "door"}]}}),
        ("doors.panel", "thin", {"doors": {"panel": "thin"}}),
        ("case.corner.depth", "5", {"case": {"corner": {"depth": 5}}}),
        ('"title"', '"a, ""b"""', {"title": 'a, "b"'}),
    ],
)
def test_cells_follow_the_field_at_their_path(
    registry: Registry, head: str, cell: str, expected: dict[str, Any]
) -> None:
    document = read_table(f"{head}\n{cell}\n".encode(), registry).document
    assert document["cabinets"] == [expected]


def test_a_byte_order_mark_is_no_part_of_the_heading(registry: Registry) -> None:
    assert read_table(b"\xef\xbb\xbfid\na\n", registry).document["cabinets"] == [{"id": "a"}]


@pytest.mark.parametrize(
    ("text", "row", "column", "rule", "fix"),
    [
        ("widht\n5\n", 1, "widht", "known keys", '"width"'),
        ("case.corner\nx\n", 1, "case.corner", "ends at a value", "case.corner.method"),
        ("space.tiers\nx\n", 1, "space.tiers", "ends at a value", "space.tiers.0"),
        ("case\nx\n", 1, "case", "ends at a value", "case."),
        ("id,id\na,b\n", 1, "id", "each column once", "second"),
        ("job.cabinets.0.id\na\n", 1, "job.cabinets.0.id", "path into the job", "columns"),
        ("id\na,b\n", 2, "", "1 cells", "heading"),
        ("id,job.units\na,mm\nb,in\n", 3, "job.units", "first row", "Empty"),
        ('id\n"a\n', 2, "", "CSV", "quote"),
        ("", 1, "", "heading row", "heading"),
    ],
)
def test_a_table_that_cannot_be_read(registry: Registry, text: str, row: int, column: str, rule: str, fix: str) -> None:
    with pytest.raises(UnusableJobError) as caught:
        read_table(text.encode(), registry)
    problem = next(p for p in caught.value.problems if (p.row, p.column) == (row, column))
    assert rule in problem.rule
    assert fix in problem.fix


def test_bytes_that_are_not_utf8_are_a_bad_document(registry: Registry) -> None:
    with pytest.raises(BadDocumentError):
        read_table(b"id\n\xff\n", registry)


def test_over_http(client: FlaskClient) -> None:
    answer = client.post("/v1/parts?as=csv", data=GOOD, content_type="text/csv; charset=utf-8")
    assert answer.status_code == 200
    assert answer.mimetype == "text/csv"
    assert answer.get_data().count(b"\r\n") > 10


def test_problems_name_row_and_column(client: FlaskClient) -> None:
    bad = GOOD.replace("shelf,800", "shelf,wide").replace("bench,600", "bench,-600")
    answer = client.post("/v1/plan", data=bad, content_type="text/csv")
    assert answer.status_code == 422
    assert [(e["row"], e["column"], e["pointer"]) for e in answer.get_json()["errors"]] == [
        (2, "width", "/cabinets/0/width"),
        (3, "width", "/cabinets/1/width"),
    ]


def test_a_cell_that_is_missing_is_named_too(client: FlaskClient) -> None:
    answer = client.post("/v1/plan", data=GOOD.replace("shelf,800", "shelf,"), content_type="text/csv")
    assert [(e["row"], e["column"]) for e in answer.get_json()["errors"]] == [(3, "width")]
