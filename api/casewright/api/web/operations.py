"""What the OpenAPI document says of each kind of path: views, papers, one value, comparisons, cures, plain GETs."""

from collections.abc import Iterable, Mapping
from typing import Any

from casewright.api.job import limits
from casewright.api.job.comparison import compare_schema
from casewright.api.job.ranges import PileBody
from casewright.api.papers import PAPERS
from casewright.api.use.examples import example_job
from casewright.api.web.cures import FORMATS as FORMATS_OF_CURES
from casewright.api.web.from_stock import FORMATS as FORMATS_OF_PILES
from casewright.api.web.negotiation import TYPES
from casewright.api.web.papers import PAGES_HEADER, Paper
from casewright.api.web.problems import KINDS
from casewright.api.web.value import EVERY_FIELD, EXAMPLE, FORMATS, OWN, STOPS_HEADER
from casewright.api.web.views import View
from casewright.api.wire.compare_document import CompareView
from casewright.api.wire.cures_document import CuresView
from casewright.api.wire.from_stock_document import FromStockView
from casewright.api.wire.plan_schema import view_schema
from casewright.sdk.loader import Registry
from marshmallow import Schema

Described = dict[str, Any]
"""A piece of the document, as JSON values; where a schema stands, apispec puts its reference."""

_POST_PROBLEMS = (
    "bad-document", "not-acceptable", "already-have-plan", "too-large", "unsupported-media-type", "unusable-job",
    "unavailable",
)  # fmt: skip
_PAPER_PARAMETERS: Mapping[str, tuple[str, Described]] = {
    "subject": ("What to draw, by id; left out: everything.", {"type": "string", "maxLength": 200}),
    "page": (
        "Which sheet; an SVG is one sheet, the first by default.",
        {"type": "integer", "minimum": 1, "maximum": 9999},
    ),
    "paper": ("Paper size; A4 for jobs in mm, letter for jobs in inches.", {"type": "string", "enum": list(PAPERS)}),
    "exploded": ("Whether parts are drawn apart.", {"type": "string", "enum": ["true", "false"]}),
}


def view_operation(view: View, job: type[Schema]) -> Described:
    """Describe a view."""
    content: Described = {TYPES["json"]: {"schema": view_schema(f"{view.name.capitalize()}View", view.sections)}}
    if "csv" in view.formats:
        content[TYPES["csv"]] = {"schema": {"type": "string"}}
    if "ndjson" in view.formats:
        content[TYPES["ndjson"]] = _lines()
    return {
        "operationId": view.name,
        "summary": view.title,
        "parameters": [_as(view.formats)],
        "requestBody": _job_body(job),
        "responses": {
            "200": {"description": view.title, "headers": _etag_header(), "content": content},
            **_problems(*_POST_PROBLEMS),
        },
    }


def paper_operation(paper: Paper, job: type[Schema]) -> Described:
    """Describe a paper: the same request as a view, a file as the answer."""
    binary = {"schema": {"type": "string", "format": "binary"}}
    pages = {"description": "Sheets of the drawing", "schema": {"type": "string"}}
    return {
        "operationId": paper.path.replace("/", "-"),
        "summary": paper.title,
        "parameters": [
            _as(paper.formats),
            *(_in_query(name, *_PAPER_PARAMETERS[name]) for name in paper.parameters),
        ],
        "requestBody": _job_body(job),
        "responses": {
            "200": {
                "description": paper.title,
                "headers": {**_etag_header(), PAGES_HEADER: pages},
                "content": {TYPES[form]: _lines() if form == "ndjson" else binary for form in paper.formats},
            },
            **_problems(*_POST_PROBLEMS),
        },
    }


def value_operation() -> Described:
    """Describe the number for one cell: our own parameters, and any path into the cabinet beside them."""
    title = "One number for one cell"
    text = {"type": "string", "maxLength": 200}
    own = [
        {
            "name": name,
            "in": "query",
            "required": name == "field",
            "description": about,
            "schema": {"type": "string", "enum": list(EVERY_FIELD)} if name == "field" else text,
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
        "description": "Dotted paths into the cabinet, each a parameter of its own, as the columns of a CSV job are; "
        "those that begin with job. are paths into the job.",
        "schema": {"type": "object", "additionalProperties": text},
        "example": {name: EXAMPLE[name] for name in ("width", "height", "depth")},
    }
    answer = {
        "type": "object",
        "properties": {
            "value": {"type": "number"},
            "units": {"type": "string"},
            "field": {"type": "string"},
            "stops": {"type": "integer", "minimum": 0},
            "part": {"type": "string"},
            "item": {"type": "string"},
            "text": {"type": "string", "description": "the size for the bench, rounded to the tape"},
        },
        "required": ["value", "units", "field", "stops"],
    }
    stops = "How many checks of the cabinet say stop: do not cut"
    return {
        "operationId": "value",
        "summary": title,
        "parameters": [_as(FORMATS), *own, _in_query("item", OWN["item"], text), paths],
        "responses": {
            "200": {
                "description": title,
                "headers": {**_etag_header(), STOPS_HEADER: {"description": stops, "schema": {"type": "string"}}},
                "content": {
                    TYPES["text"]: {"schema": {"type": "string"}},
                    TYPES["xml"]: {"schema": {"type": "string"}},
                    TYPES["json"]: {"schema": answer},
                },
            },
            "304": {"description": "The answer you hold is this one."},
            **_problems("bad-query", "not-acceptable", "unusable-job"),
        },
    }


def compare_operation(registry: Registry) -> Described:
    """Describe comparisons."""
    title = "What changes to a job make different"
    changes = [
        {"name": "doors that lap less", "patch": {"house": {"doors": {"overlay": "3/8 in"}}}},
        {
            "name": "a wider cabinet for spare parts",
            "patch": [{"op": "replace", "path": "/cabinets/1/width", "value": 38}],
        },
    ]
    example = {"job": example_job(), "changes": changes}
    return {
        "operationId": "compare",
        "summary": title,
        "parameters": [_as(["json"])],
        "requestBody": {
            "required": True,
            "description": f"At most {limits.BODY_BYTES} bytes. Each change is a JSON Patch (RFC 6902) or a JSON Merge "
            "Patch (RFC 7396).",
            "content": {
                TYPES["json"]: {
                    "schema": compare_schema(registry),
                    "examples": {"repair-bay": {"summary": "Two changes to a workshop's repair bay", "value": example}},
                }
            },
        },
        "responses": {
            "200": {
                "description": title,
                "headers": _etag_header(),
                "content": {TYPES["json"]: {"schema": CompareView}},
            },
            **_problems(*_POST_PROBLEMS),
        },
    }


def cures_operation(job: type[Schema]) -> Described:
    """Describe cures."""
    title = "For each stop, changes of the job that were planned and clear it"
    example = example_job()
    example["house"]["mounting"]["per_stud"] = 1
    body = _job_body(job)
    body["content"][TYPES["json"]]["examples"] = {
        "too-few-fasteners": {"summary": "A repair bay whose wall cabinets hang on too few fasteners", "value": example}
    }
    return {
        "operationId": "cures",
        "summary": title,
        "parameters": [_as(FORMATS_OF_CURES)],
        "requestBody": body,
        "responses": {
            "200": {
                "description": f"{title}, up to {limits.CURES} each; at most {limits.CURE_TRIES} changes are tried",
                "headers": _etag_header(),
                "content": {TYPES["json"]: {"schema": CuresView}, TYPES["ndjson"]: _lines()},
            },
            **_problems(*_POST_PROBLEMS),
        },
    }


def from_stock_operation() -> Described:
    """Describe what a pile yields."""
    title = "The best few jobs, of ranges of sizes, that the stock on hand yields"
    ranges = {"width": {"least": 20, "most": 30}, "height": {"least": 24, "most": 33, "step": "1/4"}}
    job = {
        "units": "in",
        "materials": {"case": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 0.709}},
        "cabinets": [{"id": "tools", **ranges, "depth": 11, "case": {"material": "case"}}],
        "stock": {"offcuts": [{"id": "left-over", "material": "case", "length": 60, "width": 48}]},
    }
    about = f"At most {limits.BODY_BYTES} bytes. A range stands where a job has a size, a count or a number of shelves."
    example = {"summary": "A wall cabinet as large as an offcut allows", "value": {"job": job, "aim": "largest"}}
    return {
        "operationId": "from-stock",
        "summary": title,
        "parameters": [_as(FORMATS_OF_PILES)],
        "requestBody": {
            "required": True,
            "description": about,
            "content": {TYPES["json"]: {"schema": PileBody, "examples": {"one-offcut": example}}},
        },
        "responses": {
            "200": {
                "description": title,
                "headers": _etag_header(),
                "content": {TYPES["json"]: {"schema": FromStockView}, TYPES["ndjson"]: _lines()},
            },
            **_problems(*_POST_PROBLEMS),
        },
    }


def get_operation(name: str, title: str) -> Described:
    """Describe a path that answers GET with a JSON object."""
    return {
        "operationId": f"get-{name}",
        "summary": title,
        "responses": {
            "200": {"description": title, "content": {TYPES["json"]: {"schema": {"type": "object"}}}},
            **_problems("bad-query", "not-acceptable"),
        },
    }


def problem_operation() -> Described:
    """Describe a kind of problem explained."""
    operation = get_operation("problem", "A kind of problem explained")
    operation["parameters"] = [
        {"name": "name", "in": "path", "required": True, "schema": {"type": "string", "enum": list(KINDS)}}
    ]
    operation["responses"] |= _problems("not-found")
    return operation


def _in_query(name: str, about: str, schema: Described) -> Described:
    return {"name": name, "in": "query", "description": about, "schema": schema}


def _as(formats: Iterable[str]) -> Described:
    return _in_query("as", "Format of the answer; overrides Accept.", {"type": "string", "enum": list(formats)})


def _job_body(job: type[Schema]) -> Described:
    return {
        "required": True,
        "description": f"At most {limits.BODY_BYTES} bytes.",
        "content": {
            TYPES["json"]: {
                "schema": job,
                "examples": {"repair-bay": {"summary": "A workshop's repair bay", "value": example_job()}},
            },
            TYPES["csv"]: {"schema": {"type": "string", "description": "One cabinet a row, headed by dotted paths."}},
        },
    }


def _lines() -> Described:
    about = (
        'Lines of JSON: {"progress": {"stage", "done", "of"}} for each step, and last {"result": ...} (a file as '
        '{"media_type", "base64"}) or {"problem": ...}.'
    )
    return {"schema": {"type": "string", "description": about}}


def _etag_header() -> Described:
    about = "Names the answer by job, view, format, software and plugins."
    return {"ETag": {"description": about, "schema": {"type": "string"}}}


def _problems(*names: str) -> Described:
    return {str(KINDS[name].status): {"$ref": f"#/components/responses/{name}"} for name in names}
