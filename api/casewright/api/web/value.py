"""`GET /v1/value`: one number for one cell, from flat fields in the query.

Every parameter that is not one of `OWN` is a dotted path into one cabinet, as a column of a CSV job is
(`width`, `case.material`, `job.materials.sheet.thickness`), so a cell's formula alone can ask. Answers text by
default; `?as=xml` suits functions that pick a value out of XML, and HEAD suits those that ask it first.
"""

from collections.abc import Mapping
from xml.sax.saxutils import quoteattr

from casewright.api.use.one_value import FIELDS, CellValue, Question
from casewright.api.use.planning import Planner
from casewright.api.web.etag import STOPS_HEADER, answer_conditionally, view_tag
from casewright.api.web.jobs import planner
from casewright.api.web.negotiation import JSON, TEXT, TYPES, XML, answer_format
from casewright.api.web.problems import ProblemError
from casewright.api.wire.described import number, record, text, whole
from casewright.api.wire.made_by import fingerprint
from casewright.api.wire.plan_document import to_bytes
from casewright.sdk.errors import Problem
from flask import Blueprint, Response, request

FORMATS = (TEXT, XML, JSON)
OWN: Mapping[str, str] = {
    "field": "What to answer: a size or the quantity of a part, the quantity of an item, or a field of the cabinet.",
    "part": "A part by its id within the cabinet, such as side-left.",
    "item": "An item of hardware by its id, such as cup-35.",
    "units": "Units of the numbers given and answered, mm by default; the same as job.units.",
    "thickness": "Thickness of the one sheet the case is made of; short for a material of stuff birch-plywood.",
}
"""Parameters of our own; every other one is a path into the cabinet."""

CellAnswer = record(
    "CellAnswer",
    "One number for one cell.",
    value=number("the number, in `units`"),
    units=text("its unit; empty for a count"),
    field=text("what was asked for"),
    stops=whole("checks of the cabinet that say stop"),
    part=text("id of the part", required=False),
    item=text("id of the item", required=False),
    text=text("the size for the bench, rounded to the tape", required=False),
)

EVERY_FIELD = tuple(sorted({word for words in FIELDS.values() for word in words}))
EXAMPLE = {"field": "length", "part": "top", "width": "600", "height": "720", "depth": "300", "thickness": "18"}


def blueprint() -> Blueprint:
    """Return the route."""
    routes = Blueprint("value", __name__)

    @routes.get("/v1/value")
    def value() -> Response:
        _refuse_repeats()
        form = answer_format(request, FORMATS, tuple(request.args))
        own = {name: request.args[name] for name in OWN if name in request.args}
        question = _question(own)
        planning = planner()
        job = question.job({k: v for k, v in request.args.items() if k not in OWN and k != "as"}, planning.registry)
        answer = question.answer(job, planning)
        response = Response(_written(answer, form), mimetype=TYPES[form])
        response.headers[STOPS_HEADER] = str(answer.stops)
        response.vary.add("Accept")
        tag = view_tag(fingerprint([job.document, own], planning.registry), "value", form)
        return answer_conditionally(request, response, tag)

    return routes


def example_answer(planning: Planner, form: str) -> bytes:
    """Return the answer to the example of the OpenAPI document."""
    question = _question({name: EXAMPLE[name] for name in OWN if name in EXAMPLE})
    paths = {name: value for name, value in EXAMPLE.items() if name not in OWN}
    return _written(question.answer(question.job(paths, planning.registry), planning), form)


def _refuse_repeats() -> None:
    repeated = [name for name in request.args if len(request.args.getlist(name)) > 1]
    if repeated:
        problems = [Problem(f"?{n[:60]}", "each parameter once", "several", "Leave all but one out.") for n in repeated]
        raise ProblemError("bad-query", "Each parameter is read once.", problems)


def _question(own: Mapping[str, str]) -> Question:
    """Return what the parameters of our own ask. Raises the problems 400 and 422 where they do not say."""
    field = own.get("field")
    if field in EVERY_FIELD or ("part" in own and "item" in own):
        return Question(field or "", own.get("part"), own.get("item"), own.get("units"), own.get("thickness"))
    subject = next((name for name in ("part", "item") if name in own), "cabinet")
    got = "nothing" if field is None else repr(field[:60])
    fix = f"Write for example field={FIELDS[subject][0]}."
    problem = Problem("?field", f"one of: {', '.join(EVERY_FIELD)}", got, fix)
    raise ProblemError("bad-query", "`field` says which number to answer.", [problem])


def _written(answer: CellValue, form: str) -> bytes:
    if form == JSON:
        return to_bytes(answer.as_dict())
    number = format(answer.value, ".12g")
    if form == TEXT:
        return number.encode()
    marks = {"units": answer.units, "field": answer.field, "stops": answer.stops}
    attributes = "".join(f" {name}={quoteattr(str(mark))}" for name, mark in marks.items())
    return f'<?xml version="1.0" encoding="UTF-8"?>\n<value{attributes}>{number}</value>\n'.encode()
