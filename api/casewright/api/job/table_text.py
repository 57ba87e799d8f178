"""The rows and cells of a table from the bytes that a spreadsheet saves, or where they cannot be told apart."""

import csv
import io
import re
from collections.abc import Sequence

from casewright.api.job import limits
from casewright.api.job.cells import CellProblem
from casewright.sdk.errors import BadDocumentError, UnusableJobError

MARKS = {",": "commas", ";": "semicolons", "\t": "tabs"}
"""What may stand between cells, in words."""

_NAMED_MARK = re.compile(r"sep=([,;\t])", re.IGNORECASE)
_ZIP = b"PK\x03\x04"
_AS_CSV = "Save the sheet as CSV, in UTF-8."


def rows_of(body: bytes, mark: str) -> tuple[list[list[str]], str]:
    """Return a table's rows, and the mark between their cells: `mark`, or the one found where that is empty.

    Raises `BadDocumentError`, and `UnusableJobError` of a NUL, as JSON does.
    """
    text = _text(body)
    lines, separated = _separated(text)
    mark = mark or separated
    rows: list[list[str]] = []
    try:
        rows.extend(csv.reader(io.StringIO(lines, newline=""), strict=True, delimiter=mark))
    except csv.Error as error:
        fix = 'Close each quote that opens a cell, and write a quote within one twice: "".'
        raise _refused("CSV (RFC 4180)", str(error), fix, len(rows) + 1) from error
    if not any(cell.strip() for row in rows for cell in row):
        raise _refused("a heading row, then a row for each cabinet", "nothing", "Add the headings and the rows.", 1)
    if len(rows) - 1 > limits.TABLE_ROWS or max(map(len, rows)) > limits.TABLE_COLUMNS:
        rule = f"at most {limits.TABLE_ROWS} rows of at most {limits.TABLE_COLUMNS} cells under the headings"
        raise _refused(rule, f"{len(rows) - 1} rows of {max(map(len, rows))} cells", "Send less of it.", 1)
    return rows, mark


def parted_otherwise(row: Sequence[str], mark: str, cells: int) -> str | None:
    """Return the mark that parts a row into as many cells as the heading has, where its own mark does not."""
    text = mark.join(row)
    given = sum(1 for cell in row if cell.strip())
    others = (other for other in MARKS if other != mark and text.count(other) >= cells - 1 > 0)
    return next(others, None) if 2 * given < cells else None


def _text(body: bytes) -> str:
    """Return a table's text. Raises `BadDocumentError` that names the row and column of what is none."""
    if body.startswith(_ZIP):
        raise _refused("CSV text", "a workbook, or another zip archive", _AS_CSV, 1)
    if body.startswith((b"\xff\xfe", b"\xfe\xff")):
        try:
            text = body.decode("utf-16")
        except UnicodeDecodeError:
            raise _refused("UTF-16 text", "half a character", _AS_CSV, 1) from None
    else:
        text = _utf8(body)
    row = text[: text.find("\0")].count("\n") + 1
    if text.count("\0") > len(text) // 4:  # every second byte, or three of four
        raise _refused("UTF-8 text", "UTF-16 or UTF-32 without a byte order mark", _AS_CSV, row)
    if "\0" in text:
        raise UnusableJobError(CellProblem("", "text without NUL", "a NUL character", "Take it out.", row, ""))
    return text


def _utf8(body: bytes) -> str:
    try:
        return body.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = body[: error.start].decode("utf-8", "replace").splitlines() or [""]
        row = len(before)
        _, mark = _separated(before[0])
        heading, place = before[0].split(mark), before[-1].count(mark)
        column = heading[place].strip() if row > 1 and place < len(heading) else ""
        got = f"byte 0x{body[error.start]:02x} at byte {error.start}"
        raise _refused("UTF-8 text", got, "Save the table as UTF-8.", row, column) from None


def _separated(text: str) -> tuple[str, str]:
    """Return the lines of a table and the mark between its cells: the one its first line says, or its heading has."""
    first, _, rest = text.partition("\n")
    named = _NAMED_MARK.fullmatch(first.strip("\r"))
    if named:
        return rest, named[1]
    unquoted = (re.sub('"[^"]*"', "", line) for line in text.splitlines())
    heading = next((line for line in unquoted if any(mark in line for mark in MARKS)), "")
    return text, max(MARKS, key=lambda mark: (heading.count(mark), mark == ","))


def _refused(rule: str, got: str, fix: str, row: int, column: str = "") -> BadDocumentError:
    return BadDocumentError(CellProblem("", rule, got, fix, row, column))
