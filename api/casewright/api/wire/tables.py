"""CSV as it leaves (RFC 4180: CRLF line ends, quotes doubled).

A cell of text that begins with `=`, `+`, `-`, `@`, a tab or a carriage return could be taken for a formula by a
spreadsheet; it gets a leading apostrophe. Numbers are written bare.
"""

import csv
import io
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from casewright.api.engine.work.costs import unpriced
from casewright.api.job.marks import Marks
from casewright.sdk.model import Stage
from casewright.sdk.units import NM_PER_UNIT

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")

PART_COLUMNS = (
    "cabinet", "id", "name", "role", "quantity", "material", "length", "width", "thickness", "units", "length_text",
    "width_text", "thickness_text", "grain", "edge_band", "why_length", "why_width", "match", "no_stock",
    "bought_to_size", "over_size",
)  # fmt: skip
HARDWARE_COLUMNS = ("item", "name", "cabinet", "for", "quantity")
STEP_COLUMNS = (
    "number", "stage", "machine", "action", "fence", "stop", "height", "depth", "cutter", "kerf", "tilt_deg",
    "turn_deg", "units",
    "count", "part", "piece", "keeps", "leaves", "down", "against", "cuts", "do", "check", "cautions", "needs",
    "minutes", "start", "finish", "done",
)  # fmt: skip
CHECK_COLUMNS = ("level", "code", "subject", "message", "value", "limit", "unit", "source")
MOUNTING_COLUMNS = (
    "cabinet", "pointer", "method", "fastener", "number", "at", "height", "units", "pull_n", "shear_n", "use",
    "governs",
)  # fmt: skip
COST_COLUMNS = ("kind", "item", "name", "size", "quantity", "unit", "rate", "amount", "hours", "note")


@dataclass(frozen=True, slots=True)
class TableForm:
    """How a table is written: the mark between cells, the decimal mark, and whether a byte order mark comes first."""

    delimiter: str = ","
    decimal: str = "."
    bom: bool = False

    @property
    def name(self) -> str:
        """What tells this form from the plain one; nothing for that."""
        return "" if self == PLAIN else f"{ord(self.delimiter)}-{ord(self.decimal)}{'-bom' * self.bom}"

    def cell(self, cell: Any) -> Any:
        """Return a cell as it is written: numbers with the decimal mark, text never taken for a formula."""
        if isinstance(cell, float):
            return repr(cell).removesuffix(".0").replace(".", self.decimal)
        return safe(cell)


PLAIN = TableForm()


def table_form(stated: Marks, sent: Marks, *, bom: bool = False) -> TableForm:
    """Return how a table is written: with the marks that are stated, else those the job was sent with, if any."""
    delimiter, decimal = stated.delimiter or sent.delimiter, stated.decimal or sent.decimal
    return TableForm(delimiter or PLAIN.delimiter, decimal or PLAIN.decimal, bom)


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
        " and ".join(part["over_size"]),
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


def mounting_csv(document: Mapping[str, Any], form: TableForm = PLAIN) -> bytes:
    """Return the wall fasteners of a plan document, one row each; a cabinet of which none are known is one row.

    `at` is from the wall's left end and `height` over the floor, both in the job's units.
    """
    rows = (row for hung in document["mounting"] for row in _fasteners(hung, document["units"]))
    return write_csv(MOUNTING_COLUMNS, rows, document["stops"], form)


def _fasteners(hung: Mapping[str, Any], units: str) -> Iterator[list[Any]]:
    given = hung.get("given", {})
    whose = [hung["cabinet"], hung.get("pointer", ""), hung["method"], given.get("fastener")]
    if not hung.get("fasteners"):
        yield [*whose, *[None] * 3, units, *[None] * 4]
    for number, one in enumerate(hung.get("fasteners", ()), start=1):
        at, height = (_from_mm(mm, units) for mm in (one["at_mm"], given["strip_over_floor_mm"] + one["up_mm"]))
        forces = (round(one[name], 1) for name in ("pull_n", "shear_n"))
        yield [*whose, number, at, height, units, *forces, round(one["use"], 3), one["governs"]]


def _from_mm(value: float, units: str) -> float:
    return round(value * 1_000_000) / NM_PER_UNIT[units]


def costs_csv(document: Mapping[str, Any], form: TableForm = PLAIN) -> bytes:
    """Return what a job takes and costs, one row a line, and their total, which says how many have no amount."""
    costs, stock = document["costs"], document["stock"] or {"buy": ()}
    bought = {one["stock"]: one for one in stock["buy"]}
    sizes = {
        name: " × ".join(one[f"{side}_text"] for side in ("thickness", "length", "width"))
        for name, one in bought.items()
    }
    rows = [_cost_line(line, sizes if line["kind"] == "stock" else {}) for line in costs["lines"]]
    if rows:
        total, note = _figure(costs["total"]), unpriced(costs["missing"], len(rows))
        rows.append(["total", "", costs["currency"], "", None, "", None, total, costs["hours"] or None, note])
    return write_csv(COST_COLUMNS, rows, document["stops"], form)


def _figure(money: str | None) -> float | None:
    return None if money is None else float(money)


def _cost_line(line: Mapping[str, Any], sizes: Mapping[str, str]) -> list[Any]:
    rate, amount = (_figure(line[name]) for name in ("rate", "amount"))
    whose = [line["kind"], line["item"], line["name"], sizes.get(line["item"], "")]
    return [*whose, line["quantity"], line["unit"], rate, amount, line["hours"] or None, line["note"]]


Table = Callable[[Mapping[str, Any], TableForm], bytes]

TABLES: Mapping[str, Table] = {
    "parts": parts_csv,
    "hardware": hardware_csv,
    "steps": steps_csv,
    "stock": cutting_csv,
    "checks": checks_csv,
    "mounting": mounting_csv,
    "costs": costs_csv,
}
"""The views of a plan that are tables too, by name, and what writes each."""
