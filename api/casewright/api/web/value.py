"""`GET /v1/value`: one number for one cell, from flat fields in the query.

Every parameter that is not one of `OWN` is a dotted path into one cabinet, as a column of a CSV job is
(`width`, `case.material`, `job.materials.sheet.thickness`), so a cell's formula alone can ask. Answers text by
default; `?as=xml` suits functions that pick a value out of XML, and HEAD suits those that ask it first.
"""

import csv
import io
from collections.abc import Mapping
from typing import Any
from xml.sax.saxutils import quoteattr

from casewright.api.job.problems import advice
from casewright.api.job.table import CellProblem, read_table
from casewright.api.web.etag import answer_if_held, view_tag
from casewright.api.web.negotiation import JSON, TEXT, TYPES, XML, answer_format
from casewright.api.web.problems import ProblemError, count_of
from casewright.api.web.state import state
from casewright.api.web.views import planned
from casewright.api.wire.made_by import fingerprint
from casewright.api.wire.plan_document import plan_document, to_bytes
from casewright.sdk.errors import NoGeometryError, Problem, ProblemsError
from flask import Blueprint, Response, request

__all__ = ["EXAMPLE", "FIELDS", "FORMATS", "OWN", "STOPS_HEADER", "blueprint"]

FORMATS = (TEXT, XML, JSON)
STOPS_HEADER = "Casewright-Stops"
"""How many checks of the cabinet say stop: a number alone must not hide that it should not be cut."""

OWN: Mapping[str, str] = {
    "field": "What to answer: a size or the quantity of a part, the quantity of an item, or a field of the cabinet.",
    "part": "A part by its id within the cabinet, such as side-left.",
    "item": "An item of hardware by its id, such as cup-35.",
    "units": "Units of the numbers given and answered, mm by default; the same as job.units.",
    "thickness": "Thickness of the one sheet the case is made of; short for a material of stuff birch-plywood.",
}
"""Parameters of our own; every other one is a path into the cabinet."""

FIELDS: Mapping[str, tuple[str, ...]] = {
    "part": ("length", "width", "thickness", "quantity"),
    "item": ("quantity",),
    "cabinet": ("mass_kg", "hands", "stops", "cautions"),
}
"""What may be asked of a part, of an item, and of the cabinet where neither is named."""

ID = "cell"
EXAMPLE = {"field": "length", "part": "top", "width": "600", "height": "720", "depth": "300", "thickness": "18"}
_SHEET = {"kind": "sheet", "stuff": "birch-plywood"}


def blueprint() -> Blueprint:
    """Return the route."""
    routes = Blueprint("value", __name__)

    @routes.get("/v1/value")
    def value() -> Response:
        _refuse_repeats()
        form = answer_format(request, FORMATS, tuple(request.args))
        wanted = {name: request.args[name] for name in OWN if name in request.args}
        subject = _subject(wanted)
        document = _document(wanted, {k: v for k, v in request.args.items() if k not in OWN and k != "as"})
        held = state()
        print_ = fingerprint([document, wanted], held.registry)
        found = _found(document, wanted, subject)
        response = Response(_written(found, form), mimetype=TYPES[form])
        response.headers[STOPS_HEADER] = str(found["stops"])
        response.vary.add("Accept")
        return answer_if_held(request, response, view_tag(print_, "value", form))

    return routes


def _refuse_repeats() -> None:
    repeated = [name for name in request.args if len(request.args.getlist(name)) > 1]
    if repeated:
        problems = [Problem(f"?{n[:60]}", "each parameter once", "several", "Leave all but one out.") for n in repeated]
        raise ProblemError("bad-query", "Each parameter is read once.", problems)


def _subject(wanted: Mapping[str, str]) -> str:
    """Return what `field` is asked of. Raises the 400 problem where that cannot be told."""
    named = [name for name in ("part", "item") if name in wanted]
    if len(named) > 1:
        raise _unusable(
            [Problem("?item", "part or item, not both", repr(wanted["item"][:60]), "Leave one of them out.")]
        )
    subject = named[0] if named else "cabinet"
    every = sorted({word for words in FIELDS.values() for word in words})
    field = wanted.get("field")
    if field not in every:
        got = "nothing" if field is None else repr(field[:60])
        problem = Problem(
            "?field", f"one of: {', '.join(every)}", got, f"Write for example field={FIELDS[subject][0]}."
        )
        raise ProblemError("bad-query", "`field` says which number to answer.", [problem])
    if field not in FIELDS[subject]:
        fix = advice(field, FIELDS[subject])
        if subject == "cabinet":
            fix = f"Name a part, for example part=side-left, or ask the cabinet itself: {', '.join(FIELDS['cabinet'])}."
        raise _unusable([Problem("?field", f"a field of a {subject}", repr(field), fix)])
    return subject


def _document(wanted: Mapping[str, str], paths: Mapping[str, str]) -> dict[str, Any]:
    """Return the job that flat fields stand for: they are read as a CSV job of one row."""
    cells = dict(paths)
    if "units" in wanted and "job.units" in cells:
        raise _unusable([Problem("?job.units", "units once", repr(cells["job.units"][:60]), "Leave it out.")])
    cells.setdefault("id", ID)
    cells.setdefault("job.units", wanted.get("units", "mm"))
    if "thickness" in wanted:
        cells.setdefault("case.material", "sheet")
        for key, word in {**_SHEET, "thickness": wanted["thickness"]}.items():
            cells.setdefault(f"job.materials.sheet.{key}", word)
    out = io.StringIO(newline="")
    csv.writer(out).writerows([list(cells), list(cells.values())])
    try:
        return read_table(out.getvalue().encode("utf-8", "replace"), state().registry).document
    except ProblemsError as error:
        raise _told(error, wanted) from error


def _found(document: dict[str, Any], wanted: Mapping[str, str], subject: str) -> dict[str, Any]:
    """Return the number asked for, with its units and how many checks say stop."""
    held = state()
    try:
        plan = planned(document, None, fingerprint(document, held.registry), with_stock=False)
    except ProblemsError as error:
        raise _told(error, wanted) from error
    written = plan_document(plan, held.made_by, "", ("summary", "parts", "hardware", "checks"))
    levels = [check["level"] for check in written["checks"]]
    field = wanted["field"]
    found: dict[str, Any] = {"value": None, "units": "", "field": field, "stops": levels.count("stop")}
    if subject == "cabinet":
        line = written["summary"][0]
        numbers = {**line, "stops": levels.count("stop"), "cautions": levels.count("caution")}
        return {**found, "value": numbers[field], "units": "kg" if field == "mass_kg" else ""}
    if subject == "item":
        lines = [row for row in written["hardware"] if row["item"] == wanted["item"]]
        if not lines:
            raise _unusable([_absent("item", wanted["item"], {row["item"] for row in written["hardware"]})])
        return {**found, "item": wanted["item"], "value": sum(row["quantity"] for row in lines)}
    parts = {part["id"].partition("/")[2]: part for part in written["parts"]}
    if wanted["part"] not in parts:
        raise _unusable([_absent("part", wanted["part"], parts)])
    part = parts[wanted["part"]]
    units = "" if field == "quantity" else written["units"]
    return {**found, "part": wanted["part"], "value": part[field], "units": units, "text": part["text"].get(field, "")}


def _absent(name: str, word: str, known: Any) -> Problem:
    return Problem(f"?{name}", f"a {name} that this cabinet has", repr(word[:60]), advice(word, known, most=20))


def _told(error: ProblemsError, wanted: Mapping[str, str]) -> ProblemError:
    """Return a problem whose places are the query's parameters."""
    kind = "no-geometry" if isinstance(error, NoGeometryError) else "unusable-job"
    return _unusable([Problem(_parameter(p, wanted), p.rule, p.got, p.fix) for p in error.problems], kind)


def _parameter(problem: Problem, wanted: Mapping[str, str]) -> str:
    """Return the parameter, as `?name`, that the value with this problem was read from; nothing for the job itself."""
    name = problem.column if isinstance(problem, CellProblem) else _name(problem.pointer, wanted)
    return f"?{name}" if name else ""


def _name(pointer: str, wanted: Mapping[str, str]) -> str:
    if pointer == "/units" and "units" in wanted:
        return "units"
    if pointer == "/materials/sheet/thickness" and "thickness" in wanted:
        return "thickness"
    steps = pointer.split("/")[1:]
    if steps[:1] == ["cabinets"]:
        return ".".join(steps[2:])
    return ".".join(["job", *steps]) if steps else ""


def _unusable(problems: list[Problem], kind: str = "unusable-job") -> ProblemError:
    return ProblemError(kind, count_of(problems), problems)


def _written(found: Mapping[str, Any], form: str) -> bytes:
    if form == JSON:
        return to_bytes(found)
    number = format(found["value"], ".12g")
    if form == TEXT:
        return number.encode()
    marks = "".join(f" {name}={quoteattr(str(found[name]))}" for name in ("units", "field", "stops"))
    return f'<?xml version="1.0" encoding="UTF-8"?>\n<value{marks}>{number}</value>\n'.encode()
