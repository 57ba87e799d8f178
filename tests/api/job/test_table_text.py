"""The rows of a table from bytes. What a spreadsheet saves when it is not asked for CSV in UTF-8: from memory."""

import io
import zipfile

import pytest
from casewright.api.job.cells import CellProblem
from casewright.api.job.table_text import rows_of
from casewright.sdk.errors import BadDocumentError, ProblemsError, UnusableJobError

TEXT = "id;width\r\nbench;600\r\nshelf;800\r\n"
ROWS = [["id", "width"], ["bench", "600"], ["shelf", "800"]]


def workbook() -> bytes:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as packed:
        packed.writestr("xl/workbook.xml", "<workbook/>")
    return file.getvalue()


def refusal(body: bytes) -> CellProblem:
    with pytest.raises(ProblemsError) as caught:
        rows_of(body, "")
    (problem,) = caught.value.problems
    assert isinstance(problem, CellProblem)
    return problem


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_rows_are_read_whatever_of_these_they_are_written_in(encoding: str) -> None:
    assert rows_of(TEXT.encode(encoding), "") == (ROWS, ";")
    assert rows_of(TEXT.replace("\r\n", "\r").encode(encoding), "") == (ROWS, ";")


@pytest.mark.parametrize(
    ("body", "got"),
    [
        (TEXT.encode("utf-16-le"), "UTF-16"),
        (TEXT.encode("utf-32-be"), "UTF-32"),
        (b"\xff\xfei", "half a character"),
        (TEXT.replace("bench", "b\u00e4nk").encode("latin-1"), "0xe4"),
        (workbook(), "workbook"),
        (b" \r\n;;\r\n", "nothing"),
        (TEXT.replace("bench", '"bench').encode(), "end of data"),
    ],
)
def test_what_is_no_table_says_what_it_seems_to_be(body: bytes, got: str) -> None:
    problem = refusal(body)
    assert got in problem.got
    assert problem.row >= 1
    assert problem.fix


def test_a_nul_is_refused_as_in_json() -> None:
    with pytest.raises(UnusableJobError):
        rows_of(TEXT.replace("bench", "ben\0ch").encode(), "")
    with pytest.raises(BadDocumentError):
        rows_of(TEXT.encode("utf-16-le"), "")


def test_the_mark_is_that_of_the_first_line_that_has_one() -> None:
    assert rows_of(b"Our cabinets\nid;width\na;1\n", "")[1] == ";"
    assert rows_of(b"sep=,\nid,width;x\n", "")[1] == ","
