"""What the OpenAPI document says of each kind of path: views, papers, one value, comparisons, cures, plain GETs."""

from collections.abc import Iterable, Mapping
from typing import Any

from casewright.api.job import limits
from casewright.api.job.comparison import compare_schema
from casewright.api.job.ranges import FromStockQuestion
from casewright.api.papers import PAPERS
from casewright.api.use.examples import example_job
from casewright.api.web.answer_examples import Examples
from casewright.api.web.compare import FORMATS as FORMATS_OF_COMPARISONS
from casewright.api.web.cures import FORMATS as FORMATS_OF_CURES
from casewright.api.web.etag import STOPS_HEADER
from casewright.api.web.from_stock import FORMATS as FORMATS_OF_PILES
from casewright.api.web.marks import ANSWERED, SENT
from casewright.api.web.negotiation import TYPES
from casewright.api.web.papers import PAGES_HEADER, PAPER_KINDS, Paper
from casewright.api.web.problems import KINDS
from casewright.api.web.value import EVERY_FIELD, EXAMPLE, OWN, CellAnswer
from casewright.api.web.value import FORMATS as FORMATS_OF_VALUES
from casewright.api.web.views import VIEWS, View
from casewright.api.wire.compare_document import CompareView
from casewright.api.wire.cures_document import CuresView
from casewright.api.wire.from_stock_document import from_stock_view
from casewright.api.wire.plan_schema import view_schema
from casewright.sdk.loader import Registry
from marshmallow import Schema

Described = dict[str, Any]
"""A piece of the document, as JSON values; where a schema stands, apispec puts its reference."""

TAGS = {
    "plans": "A plan, and parts of it",
    "papers": "Drawings, booklet, labels, workbook and solid model",
    "questions": "What changes, cures, a pile and one number come to",
    "library": "What there is to choose from",
    "service": "The service itself",
}

_POST_PROBLEMS = (
    "bad-document", "not-acceptable", "already-have-plan", "too-large", "unsupported-media-type", "unusable-job",
    "unavailable",
)  # fmt: skip
_OTHER_FORMATS = (FORMATS_OF_VALUES, FORMATS_OF_CURES, FORMATS_OF_PILES, FORMATS_OF_COMPARISONS)
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
    content: Described = {TYPES["json"]: {"schema": schema, **_example(examples.view(view.name, "json"))}}
    if "csv" in view.formats:
        content[TYPES["csv"]] = {"schema": {"type": "string"}, **_example(examples.view(view.name, "csv"))}
    if "ndjson" in view.formats:
        content[TYPES["ndjson"]] = _lines()
    return {
        "operationId": view.name,
        "tags": ["plans"],
        "summary": view.title,
        "parameters": [_as(view.formats), *(ANSWERED if view.table else SENT)],
        "requestBody": job_body(job),
        "responses": _answers(view.title, content),
    }


def paper_operation(paper: Paper, job: type[Schema]) -> Described:
    """Describe a paper: the same request as a view, a file as the answer."""
    content = {TYPES[form]: _lines() if form == "ndjson" else _BINARY for form in paper.formats}
    answers = _answers(paper.title, content)
    if "page" in paper.parameters:
        answers["200"] = {"$ref": "#/components/responses/drawing"}
    return {
        "operationId": paper.path.replace("/", "-"),
        "tags": ["papers"],
        "summary": paper.title,
        "parameters": [_as(paper.formats), *paper.parameters, *SENT],
        "requestBody": job_body(job),
        "responses": answers,
    }


def drawing_response() -> Described:
    """Return the answer that every drawing gives."""
    formats = next(paper.formats for paper in PAPER_KINDS if "page" in paper.parameters)
    pages = {"description": "Sheets of the drawing", "schema": {"type": "string"}}
    return {
        "description": "The drawing",
        "headers": {**_headers(), PAGES_HEADER: pages},
        "content": {TYPES[form]: _BINARY for form in formats},
    }


def value_operation(examples: Examples) -> Described:
    """Describe the number for one cell: our own parameters, and any path into the cabinet beside them."""
    title = "One number for one cell"
    words = {"type": "string", "maxLength": 200}
    own = [
        {
            "name": name,
            "in": "query",
            "required": name == "field",
            "description": about,
            "schema": {"type": "string", "enum": list(EVERY_FIELD)} if name == "field" else words,
            "example": EXAMPLE.get(name, "mm" if name == "units" else "cup-35"),
        }
        for name, about in OWN.items()
        if name != "item"
    ]
    paths = {
        "name": "cabinet",
        "in": "query",
        "style": "form",
        "explode": True,
        "description": "Dotted paths into the cabinet, each a parameter of its own, as columns of a CSV job are; "
        "those after job. lead into the job.",
        "schema": {"type": "object", "additionalProperties": words},
        "example": {name: EXAMPLE[name] for name in ("width", "height", "depth")},
    }
    content = {
        TYPES["text"]: {"schema": {"type": "string"}, **_example(examples.value("text"))},
        TYPES["xml"]: {"schema": {"type": "string"}, **_example(examples.value("xml"))},
        TYPES["json"]: {"schema": CellAnswer, **_example(examples.value("json"))},
    }
    return {
        "operationId": "value",
        "tags": ["questions"],
        "summary": title,
        "parameters": [_as(FORMATS_OF_VALUES), *own, _in_query("item", OWN["item"], words), paths],
        "responses": {
            "200": {"description": title, "headers": _headers(), "content": content},
            "304": {"description": "The answer you hold is this one."},
            **_problems("bad-query", "not-acceptable", "unusable-job"),
        },
    }


def compare_operation(registry: Registry, examples: Examples) -> Described:
    """Describe comparisons."""
    title = "What changes to a job make different"
    about = "Each change is a JSON Patch (RFC 6902) or a JSON Merge Patch (RFC 7396)."
    sent = {"two-changes": {"summary": "Two changes to one part", "value": examples.comparison()}}
    content = {TYPES["json"]: {"schema": CompareView, **_example(examples.answer("compare"))}}
    return {
        "operationId": "compare",
        "tags": ["questions"],
        "summary": title,
        "parameters": [_as(FORMATS_OF_COMPARISONS)],
        "requestBody": {
            "required": True,
            "description": f"At most {limits.BODY_BYTES} bytes. {about}",
            "content": {TYPES["json"]: {"schema": compare_schema(registry), "examples": sent}},
        },
        "responses": _answers(title, content),
    }


def cures_operation(job: type[Schema], examples: Examples) -> Described:
    """Describe cures."""
    title = "For each stop, changes of the job that were planned and clear it"
    content = {
        TYPES["json"]: {"schema": CuresView, **_example(examples.answer("cures"))},
        TYPES["ndjson"]: _lines(),
    }
    about = f"{title}, up to {limits.CURES} each; at most {limits.CURE_TRIES} changes are tried"
    return {
        "operationId": "cures",
        "tags": ["questions"],
        "summary": title,
        "parameters": [_as(FORMATS_OF_CURES), *SENT],
        "requestBody": job_body(job),
        "responses": _answers(about, content),
    }


def from_stock_operation(job: type[Schema], examples: Examples) -> Described:
    """Describe what a pile yields."""
    title = "The best few jobs, of ranges of sizes, that the stock on hand yields"
    about = f"At most {limits.BODY_BYTES} bytes. A range stands where a job has a size, a count or a number of shelves."
    sent = {"one-offcut": {"summary": "A cabinet as large as an offcut allows", "value": examples.pile()}}
    content = {
        TYPES["json"]: {"schema": from_stock_view(job), **_example(examples.answer("from-stock"))},
        TYPES["ndjson"]: _lines(),
    }
    return {
        "operationId": "from-stock",
        "tags": ["questions"],
        "summary": title,
        "parameters": [_as(FORMATS_OF_PILES)],
        "requestBody": {
            "required": True,
            "description": about,
            "content": {TYPES["json"]: {"schema": FromStockQuestion, "examples": sent}},
        },
        "responses": _answers(title, content),
    }


def get_operation(name: str, title: str, tag: str, schema: type[Schema] | Described, example: Any) -> Described:
    """Describe a path that answers GET with a JSON object."""
    content = {TYPES["json"]: {"schema": schema, **_example(example)}}
    return {
        "operationId": f"get-{name}",
        "tags": [tag],
        "summary": title,
        "responses": {
            "200": {"description": title, "content": content},
            **_problems("bad-query", "not-acceptable"),
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
    operation["responses"] |= _problems("not-found")
    return operation


def job_examples() -> Described:
    """Return the example jobs that requests refer to."""
    columns = "id,width,height,depth,case.material,job.units,job.materials.ply.kind,job.materials.ply.stuff,"
    table = f"{columns}job.materials.ply.thickness\r\n"
    table += "tools,600,700,300,ply,mm,sheet,birch-plywood,18\r\nspares,450,700,300,ply,,,,\r\n"
    return {
        "repair-bay": {"summary": "A workshop's repair bay", "value": example_job()},
        "cabinets": {"summary": "Two cabinets, one a row", "value": table},
    }


def shared_parameters() -> dict[str, Described]:
    """Return the parameters that papers share, that tables share, and the choices of a format, by name."""
    tables = {name: (about, {"type": "string", "enum": list(values)}) for name, (about, values) in ANSWERED.items()}
    own = {name: _in_query(name, *described) for name, described in {**_PAPER_PARAMETERS, **tables}.items()}
    choices = [*(view.formats for view in VIEWS), *(paper.formats for paper in PAPER_KINDS), *_OTHER_FORMATS]
    about = "Format of the answer; overrides Accept."
    return own | {
        _as(formats): _in_query("as", about, {"type": "string", "enum": list(formats)}) for formats in choices
    }


def _in_query(name: str, about: str, schema: Described) -> Described:
    return {"name": name, "in": "query", "description": about, "schema": schema}


def _as(formats: Iterable[str]) -> str:
    """Return the name of the parameter that picks a format."""
    return "-".join(("as", *formats))


def job_body(job: type[Schema]) -> Described:
    """Return the body of a job, as JSON or as a table."""
    named = {name: {"$ref": f"#/components/examples/{name}"} for name in ("repair-bay", "cabinets")}
    table = {"type": "string", "description": "One cabinet a row, headed by dotted paths."}
    return {
        "required": True,
        "description": f"At most {limits.BODY_BYTES} bytes.",
        "content": {
            TYPES["json"]: {"schema": job, "examples": {"repair-bay": named["repair-bay"]}},
            TYPES["csv"]: {"schema": table, "examples": {"cabinets": named["cabinets"]}},
        },
    }


def _answers(title: str, content: Described) -> Described:
    """Return the responses to a POST: its answer, and the problems it may have."""
    return {"200": {"description": title, "headers": _headers(), "content": content}, **_problems(*_POST_PROBLEMS)}


def _example(value: Any) -> Described:
    return {} if value is None else {"example": value}


def _lines() -> Described:
    about = (
        'Lines of JSON: {"progress": {"stage", "done", "of"}} for each step, and last {"result": ...} (a file as '
        '{"media_type", "stops", "base64"}) or {"problem": ...}.'
    )
    lines = '{"progress":{"stage":"cutting","done":0,"of":1}}\n{"result":{}}\n'
    return {"schema": {"type": "string", "description": about}, "example": lines}


def _headers() -> Described:
    return {name: {"$ref": f"#/components/headers/{name}"} for name in ("ETag", STOPS_HEADER)}


def _problems(*names: str) -> Described:
    return {str(KINDS[name].status): {"$ref": f"#/components/responses/{name}"} for name in names}
