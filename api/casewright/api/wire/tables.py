"""CSV as it leaves (RFC 4180: CRLF line ends, quotes doubled).

A cell of text that begins with `=`, `+`, `-`, `@`, a tab or a carriage return could be taken for a formula by a
spreadsheet; it gets a leading apostrophe. Numbers are written bare.
"""

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")

PART_COLUMNS = (
    "cabinet", "id", "name", "role", "quantity", "material", "length", "width", "thickness", "units", "length_text",
    "width_text", "thickness_text", "grain", "edge_band", "why_length", "why_width",
)  # fmt: skip
HARDWARE_COLUMNS = ("item", "name", "cabinet", "for", "quantity")
SETTING_COLUMNS = (
    "number", "tool", "distance", "units", "distance_text", "cutter_text", "depth_text", "count", "does", "part",
    "layout", "cut", "datum",
)  # fmt: skip
CHECK_COLUMNS = ("level", "code", "subject", "message", "value", "limit", "unit", "source")


def safe(cell: Any) -> Any:
    """Return a cell that no spreadsheet takes for a formula."""
    if isinstance(cell, str) and cell.startswith(FORMULA_STARTS):
        return "'" + cell
    return "" if cell is None else cell


def write_csv(columns: Sequence[str], rows: Iterable[Sequence[Any]]) -> bytes:
    """Return a table as UTF-8 CSV with a heading row."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(columns)
    writer.writerows([safe(cell) for cell in row] for row in rows)
    return out.getvalue().encode("utf-8")


def parts_csv(document: Mapping[str, Any]) -> bytes:
    """Return the parts of a plan document, one row each."""
    return write_csv(PART_COLUMNS, (_part(part, document["units"]) for part in document["parts"]))


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
    ]


def reason(terms: Sequence[Mapping[str, Any]]) -> str:
    """Return the terms of a size in one line, in numbers that sum: `inside width 22.5 + groove depth 0.375`."""
    words = []
    for i, term in enumerate(terms):
        minus = term["value"] < 0
        sign = "- " if minus else "+ " if i else ""
        words.append(f"{sign}{term['term']} {abs(term['value']):.10g}")
    return " ".join(words)


def hardware_csv(document: Mapping[str, Any]) -> bytes:
    """Return the hardware of a plan document, one row each."""
    return write_csv(HARDWARE_COLUMNS, ([line[c] for c in HARDWARE_COLUMNS] for line in document["hardware"]))


def settings_csv(document: Mapping[str, Any]) -> bytes:
    """Return the saw settings of a plan document in working order, one row a pass; no rows without stock."""
    units = document["units"]
    settings = document["stock"]["settings"] if document["stock"] else ()
    return write_csv(SETTING_COLUMNS, (_pass(one, row, units) for one in settings for row in one["passes"]))


def _pass(setting: Mapping[str, Any], row: Mapping[str, Any], units: str) -> list[Any]:
    return [
        setting["number"],
        setting["tool"],
        setting["distance"],
        units,
        setting["distance_text"],
        setting.get("cutter_text"),
        setting.get("depth_text"),
        row["count"],
        row["does"],
        row["part"],
        row["layout"],
        row["cut"],
        row["datum"],
    ]


def checks_csv(document: Mapping[str, Any]) -> bytes:
    """Return the checks of a plan document, one row each, stops first."""
    rank = {"stop": 0, "caution": 1, "note": 2}
    rows = sorted(document["checks"], key=lambda check: rank[check["level"]])
    return write_csv(CHECK_COLUMNS, ([check[c] for c in CHECK_COLUMNS] for check in rows))
