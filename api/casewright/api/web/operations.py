"""What the OpenAPI document says of views, papers and plain GETs, and the parameters and examples that paths share."""

from collections.abc import Mapping
from typing import Any

from casewright.api.papers import PAPERS
from casewright.api.use.examples import example_job
from casewright.api.web.answer_examples import Examples
from casewright.api.web.marks import ANSWERED, SENT
from casewright.api.web.negotiation import TYPES
from casewright.api.web.operation_pieces import (
    Described,
    answer_headers,
    answers_to_post,
    format_choice,
    in_query,
    job_body,
    problem_answers,
    progress_lines,
    with_example,
)
from casewright.api.web.papers import PAGES_HEADER, PAPER_KINDS, Paper
from casewright.api.web.problems import KINDS
from casewright.api.web.question_operations import OTHER_FORMATS
from casewright.api.web.views import VIEWS, View
from casewright.api.wire.plan_schema import view_schema
from marshmallow import Schema

TAGS = {
    "plans": "A plan, and parts of it",
    "papers": "Drawings, booklet, labels, workbook and solid model",
    "questions": "What changes, cures, a pile and one number come to",
    "library": "What there is to choose from",
    "service": "The service itself",
}

_BINARY: Described = {"schema": {"type": "string", "format": "binary"}}
_PAPER_PARAMETERS: Mapping[str, tuple[str, Described]] = {
    "subject": ("What to draw, by id; left out: everything.", {"type": "string", "maxLength": 200}),
    "page": (
        "Which sheet; an SVG is one sheet, the first by default.",
        {"type": "integer", "minimum": 1, "maximum": 9999},
    ),
    "paper": ("Paper size; A4 for jobs in mm, letter for jobs in inches.", {"type": "string", "enum": list(PAPERS)}),
    "exploded": ("Whether parts are drawn apart.", {"type": "string", "enum": ["true", "false"]}),
}


def view_operation(view: View, job: type[Schema], examples: Examples) -> Described:
    """Describe a view."""
    schema = view_schema(f"{view.name.capitalize()}View", f"{view.title}.", view.sections)
    content: Described = {TYPES["json"]: {"schema": schema, **with_example(examples.view(view.name, "json"))}}
    if "csv" in view.formats:
        content[TYPES["csv"]] = {"schema": {"type": "string"}, **with_example(examples.view(view.name, "csv"))}
    if "ndjson" in view.formats:
        content[TYPES["ndjson"]] = progress_lines()
    return {
        "operationId": view.name,
        "tags": ["plans"],
        "summary": view.title,
        "parameters": [format_choice(view.formats), *(ANSWERED if view.table else SENT)],
        "requestBody": job_body(job),
        "responses": answers_to_post(view.title, content),
    }


def paper_operation(paper: Paper, job: type[Schema]) -> Described:
    """Describe a paper: the same request as a view, a file as the answer."""
    content = {TYPES[form]: progress_lines() if form == "ndjson" else _BINARY for form in paper.formats}
    answers = answers_to_post(paper.title, content)
    if "page" in paper.parameters:
        answers["200"] = {"$ref": "#/components/responses/drawing"}
    return {
        "operationId": paper.path.replace("/", "-"),
        "tags": ["papers"],
        "summary": paper.title,
        "parameters": [format_choice(paper.formats), *paper.parameters, *SENT],
        "requestBody": job_body(job),
        "responses": answers,
    }


def drawing_response() -> Described:
    """Return the answer that every drawing gives."""
    formats = next(paper.formats for paper in PAPER_KINDS if "page" in paper.parameters)
    pages = {"description": "Sheets of the drawing", "schema": {"type": "string"}}
    return {
        "description": "The drawing",
        "headers": {**answer_headers(), PAGES_HEADER: pages},
        "content": {TYPES[form]: _BINARY for form in formats},
    }


def get_operation(name: str, title: str, tag: str, schema: type[Schema] | Described, example: Any) -> Described:
    """Describe a path that answers GET with a JSON object."""
    content = {TYPES["json"]: {"schema": schema, **with_example(example)}}
    return {
        "operationId": f"get-{name}",
        "tags": [tag],
        "summary": title,
        "responses": {
            "200": {"description": title, "content": content},
            **problem_answers("bad-query", "not-acceptable"),
        },
    }


def problem_operation(schema: type[Schema], example: Any) -> Described:
    """Describe a kind of problem explained."""
    operation = get_operation("problem", "A kind of problem explained", "service", schema, example)
    about = "The last step of a problem's `type`."
    operation["parameters"] = [
        {
            "name": "name",
            "in": "path",
            "required": True,
            "description": about,
            "schema": {"type": "string", "enum": list(KINDS)},
        }
    ]
    operation["responses"] |= problem_answers("not-found")
    return operation


def job_examples() -> Described:
    """Return the example jobs that requests refer to; prices are left out, which no size follows."""
    job = {name: value for name, value in example_job().items() if name != "rates"}
    columns = "id,width,height,depth,case.material,job.units,job.materials.ply.kind,job.materials.ply.stuff,"
    table = f"{columns}job.materials.ply.thickness\r\n"
    table += "tools,600,700,300,ply,mm,sheet,birch-plywood,18\r\nspares,450,700,300,ply,,,,\r\n"
    return {
        "repair-bay": {"summary": "A workshop's repair bay", "value": job},
        "cabinets": {"summary": "Two cabinets, one a row", "value": table},
    }


def shared_parameters() -> dict[str, Described]:
    """Return the parameters that papers share, that tables share, and the choices of a format, by name."""
    tables = {name: (about, {"type": "string", "enum": list(values)}) for name, (about, values) in ANSWERED.items()}
    own = {name: in_query(name, *described) for name, described in {**_PAPER_PARAMETERS, **tables}.items()}
    choices = [*(view.formats for view in VIEWS), *(paper.formats for paper in PAPER_KINDS), *OTHER_FORMATS]
    about = "Format of the answer; overrides Accept."
    return own | {
        format_choice(formats): in_query("as", about, {"type": "string", "enum": list(formats)}) for formats in choices
    }
