"""The OpenAPI 3.1 document, made from the registry: a plugin's options are in it as strictly as they are read."""

import json

from casewright.api.job.option_schema import new_spec
from casewright.api.job.schema import job_schemas
from casewright.api.web.operations import (
    Described,
    compare_operation,
    cures_operation,
    from_stock_operation,
    get_operation,
    paper_operation,
    problem_operation,
    value_operation,
    view_operation,
)
from casewright.api.web.papers import PAPER_KINDS
from casewright.api.web.problems import KINDS, MEDIA_TYPE
from casewright.api.web.views import VIEWS
from casewright.api.wire.made_by import software_version
from casewright.sdk.loader import Registry

_ABOUT = (
    "One job document in, many views of one plan out. Nothing is kept: the same job always gives the same bytes. "
    "Lengths are numbers or text in the job's units, or text with its own unit. A plan whose checks hold a `stop` "
    "answers the question and says do not cut. Saws and things hung overhead hurt people: every result defers to "
    "local code and to licensed practice."
)
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


def openapi_document(registry: Registry) -> Described:
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
        spec.path(f"/v1/{view.name}", operations={"post": view_operation(view, job)})
    for paper in PAPER_KINDS:
        spec.path(f"/v1/{paper.path}", operations={"post": paper_operation(paper, job)})
    spec.path("/v1/value", operations={"get": value_operation()})
    spec.path("/v1/compare", operations={"post": compare_operation(registry)})
    spec.path("/v1/cures", operations={"post": cures_operation(job)})
    spec.path("/v1/from-stock", operations={"post": from_stock_operation()})
    for name, title in _GET.items():
        spec.path(f"/v1/{name}", operations={"get": get_operation(name, title)})
    for path, title in _SERVICE.items():
        spec.path(path, operations={"get": get_operation(path.strip("/").removesuffix(".json"), title)})
    spec.path("/problems/{name}", operations={"get": problem_operation()})
    document: Described = json.loads(json.dumps(spec.to_dict()))
    return document


def openapi_text(registry: Registry) -> str:
    """Return the document as text for a file: sorted keys, two spaces, a line feed at the end."""
    return json.dumps(openapi_document(registry), indent=2, sort_keys=True, ensure_ascii=False) + "\n"


def _problem_response(title: str) -> Described:
    schema = {"$ref": "#/components/schemas/Problem"}
    return {"description": title, "content": {MEDIA_TYPE: {"schema": schema}}}


def _problem_schema() -> Described:
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
