"""The OpenAPI 3.1 document, made from the registry: a plugin's options are in it as strictly as they are read."""

import json
from functools import lru_cache
from importlib.resources import files
from typing import Any

from apispec import APISpec
from casewright.api.job import limits
from casewright.api.job.comparison import compare_schema
from casewright.api.job.option_schema import new_spec
from casewright.api.job.schema import job_schemas
from casewright.api.papers import PAPERS
from casewright.api.web.negotiation import TYPES
from casewright.api.web.papers import PAGES_HEADER, PAPER_KINDS, Paper
from casewright.api.web.problems import KINDS, MEDIA_TYPE
from casewright.api.web.value import EXAMPLE, FIELDS, FORMATS, OWN, STOPS_HEADER
from casewright.api.web.views import VIEWS, View
from casewright.api.wire.compare_document import CompareView
from casewright.api.wire.made_by import software_version
from casewright.api.wire.plan_schema import view_schema
from casewright.sdk.loader import Registry

__all__ = ["example_job", "openapi_document", "openapi_text"]

_ABOUT = (
    "One job document in, many views of one plan out. Nothing is kept: the same job always gives the same bytes. "
    "Lengths are numbers or text in the job's units, or text with its own unit. A plan whose checks hold a `stop` "
    "answers the question and says do not cut. Saws and things hung overhead hurt people: every result defers to "
    "local code and to licensed practice."
)
_POST_PROBLEMS = (
    "bad-document", "not-acceptable", "already-have-plan", "too-large", "unsupported-media-type", "unusable-job",
)  # fmt: skip
_GET = {
    "examples": "Example jobs to begin from",
    "methods": "Methods with the JSON Schemas of their options",
    "materials": "The catalogue: stuffs and hardware, lengths in millimetres",
    "sources": "The documents that numbers come from",
    "limits": "Every limit on a job",
    "plugins": "Plugins found, loaded or not",
}
_SERVICE = {
    "/healthz": "Whether the process lives",
    "/readyz": "Whether it can answer",
    "/version": "What runs here",
    "/openapi.json": "This document",
}


def openapi_document(registry: Registry) -> dict[str, Any]:
    """Return the document for a registry."""
    spec = new_spec(
        "casewright",
        software_version(),
        description=_ABOUT,
        license={"name": "MIT", "identifier": "MIT"},
    )
    spec.components.schema("Problem", _problem_schema())
    for kind in KINDS.values():
        spec.components.response(kind.name, _problem_response(kind.title))
    job = job_schemas(registry).job
    for view in VIEWS:
        spec.path(f"/v1/{view.name}", operations={"post": _view(view, job)})
    for paper in PAPER_KINDS:
        spec.path(f"/v1/{paper.path}", operations={"post": _paper(paper, job)})
    spec.path("/v1/value", operations={"get": _value()})
    spec.path("/v1/compare", operations={"post": _compare(registry)})
    for name, title in _GET.items():
        spec.path(f"/v1/{name}", operations={"get": _get(name, title)})
    for path, title in _SERVICE.items():
        spec.path(path, operations={"get": _get(path.strip("/").removesuffix(".json"), title)})
    spec.path("/problems/{name}", operations={"get": _kind_of_problem()})
    return _finished(spec)


def openapi_text(registry: Registry) -> str:
    """Return the document as text for a file: sorted keys, two spaces, a line feed at the end."""
    return json.dumps(openapi_document(registry), indent=2, sort_keys=True, ensure_ascii=False) + "\n"


@lru_cache(maxsize=1)
def _example_text() -> str:
    return files("casewright.openapi").joinpath("examples/repair-bay.json").read_text("utf-8")


def example_job() -> dict[str, Any]:
    """Return the example job."""
    job: dict[str, Any] = json.loads(_example_text())
    return job


def _view(view: View, job: Any) -> dict[str, Any]:
    formats = list(view.formats)
    content: dict[str, Any] = {TYPES["json"]: {"schema": view_schema(f"{view.name.capitalize()}View", view.sections)}}
    if "csv" in formats:
        content[TYPES["csv"]] = {"schema": {"type": "string"}}
    if "ndjson" in formats:
        content[TYPES["ndjson"]] = _lines()
    return {
        "operationId": view.name,
        "summary": view.title,
        "parameters": [
            {
                "name": "as",
                "in": "query",
                "description": "Format of the answer; overrides Accept.",
                "schema": {"type": "string", "enum": formats},
            }
        ],
        "requestBody": {
            "required": True,
            "description": f"At most {limits.BODY_BYTES} bytes.",
            "content": {
                TYPES["json"]: {
                    "schema": job,
                    "examples": {"repair-bay": {"summary": "A workshop's repair bay", "value": example_job()}},
                },
                TYPES["csv"]: {
                    "schema": {"type": "string", "description": "One cabinet a row, headed by dotted paths."}
                },
            },
        },
        "responses": {
            "200": {"description": view.title, "headers": _etag_header(), "content": content},
            **_problems(*_POST_PROBLEMS),
        },
    }


_PARAMETERS: dict[str, tuple[str, dict[str, Any]]] = {
    "subject": ("What to draw, by id; left out: everything.", {"type": "string", "maxLength": 200}),
    "page": (
        "Which sheet; an SVG is one sheet, the first by default.",
        {"type": "integer", "minimum": 1, "maximum": 9999},
    ),
    "paper": ("Paper size; A4 for jobs in mm, letter for jobs in inches.", {"type": "string", "enum": list(PAPERS)}),
    "exploded": ("Whether parts are drawn apart.", {"type": "string", "enum": ["true", "false"]}),
}


def _paper(paper: Paper, job: Any) -> dict[str, Any]:
    """Describe a paper: the same request as a view, a file as the answer."""
    view = _view(VIEWS[0], job)
    binary = {"schema": {"type": "string", "format": "binary"}}
    named = [("as", "Format of the answer; overrides Accept.", {"type": "string", "enum": list(paper.formats)})]
    named += [(name, *_PARAMETERS[name]) for name in paper.parameters]
    return {
        **view,
        "operationId": paper.path.replace("/", "-"),
        "summary": paper.title,
        "parameters": [
            {"name": name, "in": "query", "description": about, "schema": schema} for name, about, schema in named
        ],
        "responses": {
            "200": {
                "description": paper.title,
                "headers": {
                    **_etag_header(),
                    PAGES_HEADER: {"description": "Sheets of the drawing", "schema": {"type": "string"}},
                },
                "content": {TYPES[form]: _lines() if form == "ndjson" else binary for form in paper.formats},
            },
            **_problems(*_POST_PROBLEMS),
        },
    }


def _lines() -> dict[str, Any]:
    about = (
        'Lines of JSON: {"progress": {"stage", "done", "of"}} for each step, and last {"result": ...} (a file as '
        '{"media_type", "base64"}) or {"problem": ...}.'
    )
    return {"schema": {"type": "string", "description": about}}


def _value() -> dict[str, Any]:
    """Describe the number for one cell: our own parameters, and any path into the cabinet beside them."""
    title = "One number for one cell"
    every = sorted({word for words in FIELDS.values() for word in words})
    text = {"type": "string", "maxLength": 200}
    own = [
        {
            "name": name,
            "in": "query",
            "required": name == "field",
            "description": about,
            "schema": {"type": "string", "enum": every} if name == "field" else text,
            "example": EXAMPLE.get(name, "mm" if name == "units" else "cup-35"),
        }
        for name, about in OWN.items()
        if name != "item"
    ]
    own.append({"name": "item", "in": "query", "description": OWN["item"], "schema": text})
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
    form = {
        "name": "as",
        "in": "query",
        "description": "Format of the answer; overrides Accept.",
        "schema": {"type": "string", "enum": list(FORMATS)},
    }
    counted = {"type": "integer", "minimum": 0}
    found = {
        "type": "object",
        "properties": {
            "value": {"type": "number"},
            "units": {"type": "string"},
            "field": {"type": "string"},
            "stops": counted,
            "part": {"type": "string"},
            "item": {"type": "string"},
            "text": {"type": "string", "description": "the size for the bench, rounded to the tape"},
        },
        "required": ["value", "units", "field", "stops"],
    }
    return {
        "operationId": "value",
        "summary": title,
        "parameters": [form, *own, paths],
        "responses": {
            "200": {
                "description": title,
                "headers": {
                    **_etag_header(),
                    STOPS_HEADER: {
                        "description": "How many checks of the cabinet say stop: do not cut",
                        "schema": {"type": "string"},
                    },
                },
                "content": {
                    TYPES["text"]: {"schema": {"type": "string"}},
                    TYPES["xml"]: {"schema": {"type": "string"}},
                    TYPES["json"]: {"schema": found},
                },
            },
            "304": {"description": "The answer you hold is this one."},
            **_problems("bad-query", "not-acceptable", "unusable-job"),
        },
    }


def _compare(registry: Registry) -> dict[str, Any]:
    title = "What changes to a job make different"
    change = {"name": "doors that lap less", "patch": {"house": {"doors": {"overlay": "3/8 in"}}}}
    example = {"job": example_job(), "changes": [change]}
    return {
        "operationId": "compare",
        "summary": title,
        "parameters": [
            {
                "name": "as",
                "in": "query",
                "description": "Format of the answer; overrides Accept.",
                "schema": {"type": "string", "enum": ["json"]},
            }
        ],
        "requestBody": {
            "required": True,
            "description": f"At most {limits.BODY_BYTES} bytes. Each change is a JSON Merge Patch (RFC 7396).",
            "content": {
                TYPES["json"]: {
                    "schema": compare_schema(registry),
                    "examples": {"repair-bay": {"summary": "One change to a workshop's repair bay", "value": example}},
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


def _etag_header() -> dict[str, Any]:
    about = "Names the answer by job, view, format, software and plugins."
    return {"ETag": {"description": about, "schema": {"type": "string"}}}


def _get(name: str, title: str) -> dict[str, Any]:
    return {
        "operationId": f"get-{name}",
        "summary": title,
        "responses": {
            "200": {"description": title, "content": {TYPES["json"]: {"schema": {"type": "object"}}}},
            **_problems("bad-query", "not-acceptable"),
        },
    }


def _kind_of_problem() -> dict[str, Any]:
    operation = _get("problem", "A kind of problem explained")
    operation["parameters"] = [
        {"name": "name", "in": "path", "required": True, "schema": {"type": "string", "enum": list(KINDS)}}
    ]
    operation["responses"] |= _problems("not-found")
    return operation


def _problems(*names: str) -> dict[str, Any]:
    return {str(KINDS[name].status): {"$ref": f"#/components/responses/{name}"} for name in names}


def _problem_response(title: str) -> dict[str, Any]:
    schema = {"$ref": "#/components/schemas/Problem"}
    return {"description": title, "content": {MEDIA_TYPE: {"schema": schema}}}


def _problem_schema() -> dict[str, Any]:
    entry = {
        "type": "object",
        "properties": {
            "pointer": {"type": "string", "description": "JSON Pointer into the job, or the header or parameter"},
            "rule": {"type": "string"},
            "got": {"type": "string"},
            "fix": {"type": "string"},
            "row": {"type": "integer", "description": "of a CSV body; the heading is row 1"},
            "column": {"type": "string"},
        },
        "required": ["pointer", "rule", "got", "fix"],
    }
    return {
        "type": "object",
        "description": "RFC 9457 problem",
        "properties": {
            "type": {"type": "string"},
            "title": {"type": "string"},
            "status": {"type": "integer"},
            "detail": {"type": "string"},
            "errors": {"type": "array", "items": entry},
        },
        "required": ["type", "title", "status", "detail", "errors"],
    }


def _finished(spec: APISpec) -> dict[str, Any]:
    document: dict[str, Any] = json.loads(json.dumps(spec.to_dict()))
    return document
