"""CSV in: one cabinet a row; problems name row and column. The CSV form is RFC 4180."""

import re
from typing import Any

import pytest
from casewright.api.job.cells import CellProblem
from casewright.api.job.marks import Marks
from casewright.api.job.table import read_table
from casewright.api.use.job_input import JobInput
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
        ("job.rates.band_per_m\nx\n", 1, "job.rates.band_per_m", "ends at a value", "job.rates.band_per_m.NAME"),
        ("id;width\na;1\u2009200\n", 2, "width", "nothing between its thousands", "1200"),
        ("id,id\na,b\n", 1, "id", "each column once", "second"),
        ("job.cabinets.0.id\na\n", 1, "job.cabinets.0.id", "path into the job", "columns"),
        ("id\na,b\n", 2, "", "heading over each", "heading"),
        ("id,job.units\na,mm\nb,in\n", 3, "job.units", "first row", "Empty"),
        ('id\n"a\n', 2, "", "CSV", "quote"),
        ("id,width (mm)\na,5\n", 1, "width (mm)", "known keys", '"width"'),
        ("id;width\na;#REF!\n", 2, "width", "a value", "formula"),
        ("id;title\na;#N/A\n", 2, "title", "a value", "formula"),
        ("id|width\na|5\n", 1, "id|width", "separated by commas", "semicolons"),
        ("id,width,depth\na;600;300\nb,700,300\n", 2, "", "separated by commas", "one mark"),
        ("Our cabinets\nid;width\na;600\n", 1, "", "heading in the first row", "Row 2"),
        ("", 1, "", "heading row", "heading"),
        ("id,,\na,b,\n", 2, "", "heading over each", "heading"),
    ],
)
def test_a_table_that_cannot_be_read(registry: Registry, text: str, row: int, column: str, rule: str, fix: str) -> None:
    with pytest.raises(BadDocumentError) as caught:
        JobInput.from_table(text.encode(), registry)
    problem = next(p for p in caught.value.problems if (p.row, p.column) == (row, column))
    assert rule in problem.rule
    assert fix in problem.fix


@pytest.mark.parametrize(
    ("cell", "read"),
    [
        ("23\u00bd in", "23 1/2 in"),
        ("23 \u215d\u2033", '23 5/8"'),
        ("\u00be in", "3/4 in"),
        ("23 5\u20448 in", "23 5/8 in"),
        ("23\u202f5/8\u00a0in", "23 5/8 in"),
        ("23\u2009\u215d in", "23 5/8 in"),
    ],
)
def test_a_cell_is_read_as_typed_before_the_spreadsheet_mended_it(registry: Registry, cell: str, read: str) -> None:
    document = read_table(f"id;width;title\na;{cell};{cell}\n".encode(), registry).document
    assert document["cabinets"] == [{"id": "a", "width": read, "title": cell}]


@pytest.mark.parametrize(
    ("cells", "width"),
    [
        ('"600,5","30,5 cm"', 600.5),  # as programs save it whose comma is both
        ('"1,200","30,5 cm"', None),  # may be a thousand: not taken for either
        ('600.5,"30,5 cm"', None),
    ],
)
def test_a_quoted_comma_is_a_decimal_mark_where_it_can_be_nothing_else(
    registry: Registry, cells: str, width: float | None
) -> None:
    table = read_table(f"id,width,depth\na,{cells}\n".encode(), registry)
    if width is not None:
        assert table.document["cabinets"] == [{"id": "a", "width": width, "depth": "30.5 cm"}]
    assert bool(table.problems) == (width is None)


def test_bytes_that_are_not_utf8_are_a_bad_document(registry: Registry) -> None:
    with pytest.raises(BadDocumentError):
        read_table(b"id\n\xff\n", registry)


def test_columns_left_empty_to_the_right_are_let_be(registry: Registry) -> None:
    assert read_table(b"id,width,,\na,600,,\nb,700,,,,\n", registry).document["cabinets"] == [
        {"id": "a", "width": 600},
        {"id": "b", "width": 700},
    ]


COMMA = 'id,width,depth\na,"600,5","30,5 cm"\n'
POINT = "id;width;depth\na;600.5;30.5 cm\n"


@pytest.mark.parametrize(
    ("text", "marks"),
    [
        (COMMA, Marks(",", ",")),
        (COMMA, Marks(decimal=",")),
        (POINT, Marks(";", ".")),
        (POINT, Marks(decimal=".")),
        (POINT.replace(".", ","), Marks(";", ",")),
        (POINT.replace(".", ","), Marks(";")),
        ("sep=;\n" + POINT, Marks(decimal=".")),
        ("id\twidth\tdepth\na\t600,5\t30,5 cm\n", Marks("\t", ",")),
    ],
)
def test_marks_may_be_stated(registry: Registry, text: str, marks: Marks) -> None:
    cabinet = {"id": "a", "width": 600.5, "depth": "30.5 cm"}
    assert JobInput.from_table(text.encode(), registry, marks).document["cabinets"] == [cabinet]


@pytest.mark.parametrize(
    ("text", "marks", "row", "column"),
    [
        (POINT, Marks(decimal=","), 2, "width"),
        (POINT.replace(".", ","), Marks(decimal="."), 2, "depth"),
        (POINT, Marks(","), 1, "id;width;depth"),
    ],
)
def test_what_is_written_otherwise_than_stated_is_refused(
    registry: Registry, text: str, marks: Marks, row: int, column: str
) -> None:
    with pytest.raises(BadDocumentError) as caught:
        JobInput.from_table(text.encode(), registry, marks)
    assert (row, column) in [(p.row, p.column) for p in caught.value.problems if isinstance(p, CellProblem)]


GERMAN = GOOD.replace(",", ";").replace("17.8", "17,8").replace("600", "600,5").replace("shelf;800", "shelf;800,5")


@pytest.mark.parametrize(
    ("cell", "fix"),
    [
        ("600.5", "Write 600,5."),
        ("1.000", "Write 1000, or with decimals 1,000."),
        ("1.000,5", "Write 1000,5."),
        ("1 000", "Write 1000."),
        ("1\u202f000,5 mm", "Write 1000,5 mm."),
        ("60.0,5", "Write it as 600,5 is written."),
    ],
)
def test_the_number_with_another_mark_than_most_is_the_wrong_one(registry: Registry, cell: str, fix: str) -> None:
    with pytest.raises(BadDocumentError) as caught:
        JobInput.from_table(GERMAN.replace("600,5", cell).encode(), registry)
    (problem,) = caught.value.problems
    assert isinstance(problem, CellProblem)
    assert (problem.row, problem.column, problem.pointer) == (2, "width", "/cabinets/0/width")
    assert problem.fix == fix
    mended = re.sub(r"^Write (?:it as )?|\.$| is written|,? or .*", "", fix)
    assert JobInput.from_table(GERMAN.replace("600,5", mended).encode(), registry).read().cabinets


def test_a_column_of_ones_own_and_empty_rows_are_let_be(registry: Registry) -> None:
    text = (
        f"\r\n{GOOD}".replace("id,", "#seen,id,")
        .replace("bench,", "by Ida,bench,")
        .replace("\r\nshelf", "\r\n\r\n,shelf")
    )
    assert read_table(text.encode(), registry).document == read_table(GOOD.encode(), registry).document
    with pytest.raises(BadDocumentError) as caught:
        JobInput.from_table(text.replace("600", "wide").replace("800", "wide").encode(), registry).read()
    table = read_table(text.encode(), registry)
    assert [(table.places[one.pointer]) for one in caught.value.problems] == [(3, "width"), (5, "width")]


def test_what_stands_over_the_heading_is_named(registry: Registry) -> None:
    with pytest.raises(BadDocumentError) as caught:
        read_table(f"Cabinets of the workshop,,\r\n\r\n{GOOD}".encode(), registry)
    (problem,) = caught.value.problems
    assert "Row 3" in problem.fix


def test_faults_of_heading_rows_and_cells_are_named_at_once(registry: Registry) -> None:
    text = GOOD.replace("space.fixed_shelves", "space.fixed_shelvs").replace("bench,600", "bench,-600")
    text = text.replace("shelf,800", "shelf,wide").replace("rabbet,,,,,\r\n", "rabbet,,,,,,more\r\n")
    with pytest.raises(BadDocumentError) as caught:
        JobInput.from_table(text.encode(), registry)
    places = [(p.row, p.column) for p in caught.value.problems if isinstance(p, CellProblem)]
    assert places == [(1, "space.fixed_shelvs"), (2, "width"), (3, ""), (3, "width")]


def test_a_column_that_comes_twice_is_one_fault_and_what_stands_in_the_second_none(registry: Registry) -> None:
    text = GOOD.replace("space.fixed_shelves", "width").replace("bench,600", "bench,-600")
    with pytest.raises(BadDocumentError) as caught:
        JobInput.from_table(text.encode(), registry)
    places = [(p.row, p.column) for p in caught.value.problems if isinstance(p, CellProblem)]
    assert places == [(1, "width"), (2, "width")]


@pytest.mark.parametrize(
    ("path", "json_value", "cell"),
    [
        ("width", -600, "-600"),
        ("width", "wide", "wide"),
        ("width", 0, "0"),
        ("case.material", "oak", "oak"),
        ("case.corner.method", "nails", "nails"),
        ("space.fixed_shelves", 99, "99"),
        ("widht", 600, "600"),
        ("title", "a\0b", "a\0b"),
        ("width", "", ""),
    ],
)
def test_a_fault_has_one_status_by_json_and_by_csv(
    client: FlaskClient, registry: Registry, path: str, json_value: Any, cell: str
) -> None:
    heading, row = (line.split(",") for line in GOOD.splitlines()[:2])
    cells = {**dict(zip(heading, row, strict=True)), path: cell}
    table = f"{','.join(cells)}\r\n{','.join(cells.values())}\r\n"
    job = read_table(GOOD.encode(), registry).document
    job["cabinets"] = job["cabinets"][:1]
    at = job["cabinets"][0]
    *steps, last = path.split(".")
    for step in steps:
        at = at[step]
    at[last] = json_value
    if not cell:
        del at[last]
    by_json = client.post("/v1/parts", json=job)
    by_csv = client.post("/v1/parts", data=table, content_type="text/csv")
    assert by_csv.status_code == by_json.status_code >= 400
    assert by_csv.get_json()["type"] == by_json.get_json()["type"]


def test_a_query_may_state_the_marks_of_the_table_sent(client: FlaskClient) -> None:
    table = GOOD.replace(",", ";").replace("17.8", "17,8")
    plain = client.post("/v1/parts?as=csv", data=GOOD, content_type="text/csv")
    for query in ("", "delimiter=semicolon&decimal=comma", "decimal=comma"):
        answer = client.post(f"/v1/plan?{query}", data=table, content_type="text/csv")
        assert answer.status_code == 200, answer.data[:300]
        assert len(answer.get_json()["parts"]) == plain.data.count(b"\r\n") - 1
    stated = client.post("/v1/parts?as=csv&delimiter=semicolon", data=table, content_type="text/csv")
    assert stated.data.startswith(plain.data.split(b"\r\n")[0].replace(b",", b";"))
    for path, query in (("labels", "decimal=point"), ("cures", "delimiter=comma"), ("plan", "delimiter=pipe")):
        assert client.post(f"/v1/{path}?{query}", data=table, content_type="text/csv").status_code == 400


def test_over_http(client: FlaskClient) -> None:
    answer = client.post("/v1/parts?as=csv", data=GOOD, content_type="text/csv; charset=utf-8")
    assert answer.status_code == 200
    assert answer.mimetype == "text/csv"
    assert answer.get_data().count(b"\r\n") > 10


def test_problems_name_row_and_column(client: FlaskClient) -> None:
    bad = GOOD.replace("shelf,800", "shelf,wide").replace("bench,600", "bench,-600")
    answer = client.post("/v1/plan", data=bad, content_type="text/csv")
    assert answer.status_code == 400
    assert [(e["row"], e["column"], e["pointer"]) for e in answer.get_json()["errors"]] == [
        (2, "width", "/cabinets/0/width"),
        (3, "width", "/cabinets/1/width"),
    ]


def test_a_cell_that_is_missing_is_named_too(client: FlaskClient) -> None:
    bad = (
        GOOD.replace("shelf,800", "shelf,") + "slap,600,700,300,plz,rabbet,,,,,\r\nwrong,600,700,300,ply,nails,,,,,\r\n"
    )
    for more in ("", "more,600,700,300,ply,rabbet,,,,,,cell\r\n"):
        answer = client.post("/v1/plan", data=bad + more, content_type="text/csv")
        places = {(e["row"], e["column"]) for e in answer.get_json()["errors"]}
        assert places == {(3, "width"), (4, "case.material"), (5, "case.corner.method"), *([(6, "")] if more else [])}


def test_an_answer_is_written_with_the_marks_of_the_job_sent(client: FlaskClient) -> None:
    sent = {"data": GERMAN, "content_type": "text/csv"}
    by_itself = client.post("/v1/parts?as=csv", **sent)
    stated = client.post("/v1/parts?as=csv&delimiter=semicolon&decimal=comma", **sent)
    assert by_itself.data.splitlines()[1].split(b";")[8] == b"17,8"
    assert (stated.data, stated.headers["ETag"]) == (by_itself.data, by_itself.headers["ETag"])
    as_points = client.post(
        "/v1/parts?as=csv", data=GOOD.replace("600", "600.5").replace("800", "800.5"), content_type="text/csv"
    )
    assert as_points.data.splitlines()[1].split(b",")[8] == b"17.8"
    assert as_points.headers["ETag"] != by_itself.headers["ETag"]
