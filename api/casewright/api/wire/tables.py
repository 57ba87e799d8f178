"""CSV as it leaves (RFC 4180: CRLF line ends, quotes doubled).

A cell of text that begins with `=`, `+`, `-`, `@`, a tab or a carriage return could be taken for a formula by a
spreadsheet; it gets a leading apostrophe. Numbers are written bare.
"""

import csv
import io
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from casewright.sdk.model import Stage

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")

PART_COLUMNS = (
    "cabinet", "id", "name", "role", "quantity", "material", "length", "width", "thickness", "units", "length_text",
    "width_text", "thickness_text", "grain", "edge_band", "why_length", "why_width", "match", "no_stock",
    "bought_to_size",
)  # fmt: skip
HARDWARE_COLUMNS = ("item", "name", "cabinet", "for", "quantity")
STEP_COLUMNS = (
    "number", "stage", "machine", "action", "fence", "stop", "height", "depth", "cutter", "kerf", "tilt_deg", "units",
    "count", "part", "piece", "keeps", "leaves", "down", "against", "cuts", "do", "check", "cautions", "needs",
    "minutes", "start", "finish", "done",
)  # fmt: skip
CHECK_COLUMNS = ("level", "code", "subject", "message", "value", "limit", "unit", "source")


@dataclass(frozen=True, slots=True)
class TableForm:
    """How a table is written: the mark between cells, the decimal mark, and whether a byte order mark comes first."""

    delimiter: str = ","
    decimal: str = "."
    bom: bool = False

    def cell(self, cell: Any) -> Any:
        """Return a cell as it is written: numbers with the decimal mark, text never taken for a formula."""
        if self.decimal != "." and isinstance(cell, float):
            return repr(cell).replace(".", self.decimal)
        return safe(cell)


PLAIN = TableForm()


def safe(cell: Any) -> Any:
    """Return a cell that no spreadsheet takes for a formula."""
    if isinstance(cell, str) and cell.startswith(FORMULA_STARTS):
        return "'" + cell
    return "" if cell is None else cell


def write_csv(columns: Sequence[str], rows: Iterable[Sequence[Any]], stops: int = 0, form: TableForm = PLAIN) -> bytes:
    """Return a table as UTF-8 CSV with a heading row, and a row under it that says stop where there are `stops`."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n", delimiter=form.delimiter)
    writer.writerow(columns)
    if stops:
        reasons = "1 reason" if stops == 1 else f"{stops} reasons"
        writer.writerow([f"STOP: {reasons} not to cut; see checks", *[""] * (len(columns) - 1)])
    writer.writerows([form.cell(cell) for cell in row] for row in rows)
    return out.getvalue().encode("utf-8-sig" if form.bom else "utf-8")


def parts_csv(document: Mapping[str, Any], form: TableForm = PLAIN) -> bytes:
    """Return the parts of a plan document, one row each."""
    rows = (_part(part, document["units"]) for part in document["parts"])
    return write_csv(PART_COLUMNS, rows, document["stops"], form)


def _part(part: Mapping[str, Any], units: str) -> list[Any]:
    text, why = part["text"], part["why"]
    bands = "; ".join(f"{band['material']} on {band['edge']}" for band in part["edge_band"])
    return [
        part["cabinet"],
        part["id"],
        part["name"],
        part["role"],
        part["quantity"],
        part["material"],
        part["length"],
        part["width"],
        part["thickness"],
        units,
        text["length"],
        text["width"],
        text["thickness"],
        part["grain"],
        bands,
        reason(why["length"]),
        reason(why["width"]),
        "{row}: {place} of {of}".format(**part["match"]) if part["match"] else "",
        part["no_stock"],
        "yes" if part["bought_to_size"] else "",
    ]


def reason(terms: Sequence[Mapping[str, Any]]) -> str:
    """Return the terms of a size in one line, in numbers that sum: `inside width 22.5 + groove depth 0.375`."""
    words = []
    for i, term in enumerate(terms):
        minus = term["value"] < 0
        sign = "- " if minus else "+ " if i else ""
        words.append(f"{sign}{term['term']} {abs(term['value']):.10g}")
    return " ".join(words)


def hardware_csv(document: Mapping[str, Any], form: TableForm = PLAIN) -> bytes:
    """Return the hardware of a plan document, one row each."""
    rows = ([line[c] for c in HARDWARE_COLUMNS] for line in document["hardware"])
    return write_csv(HARDWARE_COLUMNS, rows, document["stops"], form)


def steps_csv(document: Mapping[str, Any], form: TableForm = PLAIN) -> bytes:
    """Return the steps of a plan document, one row for each line of pieces; a step without pieces is one row."""
    return _steps(document, document["steps"], form)


def cutting_csv(document: Mapping[str, Any], form: TableForm = PLAIN) -> bytes:
    """Return the steps of a plan document that cut and mill parts, as `steps_csv` does; no rows without stock."""
    steps = document["steps"] if document["stock"] else ()
    return _steps(document, [step for step in steps if step["stage"] in (Stage.CUT, Stage.MILL)], form)


def _steps(document: Mapping[str, Any], steps: Iterable[Mapping[str, Any]], form: TableForm) -> bytes:
    rows = ([_cell(step, piece, document["units"], name) for name in STEP_COLUMNS] for step, piece in _lines(steps))
    return write_csv(STEP_COLUMNS, rows, document["stops"], form)


def _lines(steps: Iterable[Mapping[str, Any]]) -> Iterator[tuple[Mapping[str, Any], Mapping[str, Any]]]:
    for step in steps:
        if not step["on"]:
            yield step, {}
        for piece in step["on"]:
            yield step, piece


def _cell(step: Mapping[str, Any], piece: Mapping[str, Any], units: str, name: str) -> Any:
    match name:
        case "units":
            return units
        case "number" | "stage" | "machine" | "action" | "do" | "check":
            return step[name]
        case "minutes" | "start" | "finish":
            return step.get(name)
        case "done":
            return "yes" if step.get(name) else ""
        case "cautions":
            return " ".join(step[name])
        case "needs":
            return " ".join(map(str, step[name]))
        case "cuts":
            return "; ".join(piece.get(name, ()))
        case "count" | "part" | "piece" | "keeps" | "leaves" | "down" | "against":
            return piece.get(name)
        case _:
            return step["setting"].get(name)


def checks_csv(document: Mapping[str, Any], form: TableForm = PLAIN) -> bytes:
    """Return the checks of a plan document, one row each, stops first."""
    rank = {"stop": 0, "caution": 1, "note": 2}
    rows = sorted(document["checks"], key=lambda check: rank[check["level"]])
    return write_csv(CHECK_COLUMNS, ([check[c] for c in CHECK_COLUMNS] for check in rows), form=form)
