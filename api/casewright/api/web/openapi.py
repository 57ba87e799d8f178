"""The OpenAPI 3.1 document, made from the registry: a plugin's options are in it as strictly as they are read."""

import json
from typing import Any

from casewright.api.job.option_schema import new_spec
from casewright.api.job.schema import JobSchemas, job_schemas
from casewright.api.web.answer_examples import AnswerExamples, Examples, published_examples
from casewright.api.web.etag import STOPS_HEADER
from casewright.api.web.library import documents, documents_shown
from casewright.api.web.library_schema import SERVICE_SCHEMAS, ProblemKind, library_schemas
from casewright.api.web.operation_pieces import Described
from casewright.api.web.operations import (
    TAGS,
    drawing_response,
    get_operation,
    job_examples,
    paper_operation,
    problem_operation,
    shared_parameters,
    view_operation,
)
from casewright.api.web.papers import PAPER_KINDS
from casewright.api.web.problems import KINDS, described, explained
from casewright.api.web.question_operations import (
    compare_operation,
    cures_operation,
    from_stock_operation,
    value_operation,
)
from casewright.api.web.shared import share_properties
from casewright.api.web.views import VIEWS
from casewright.api.wire.made_by import software_version
from casewright.api.wire.problem_schema import ProblemDocument
from casewright.api.wire.typed import references
from casewright.sdk.loader import Registry
from orjson import dumps, loads

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
    "checks/codes": "Codes of checks: what each means, and what may cure it",
}
_SERVICE = {
    "/healthz": "Whether the process lives",
    "/readyz": "Whether it can answer",
    "/version": "What runs here",
}
_HEADERS = {
    "ETag": "Names the answer by job, view, format, software and plugins.",
    STOPS_HEADER: "How many checks say stop: do not cut.",
}


def openapi_document(registry: Registry, examples: Examples | None = None) -> Described:
    """Return the document for a registry; its examples of answers are the published ones unless given."""
    spec = new_spec(
        "casewright",
        software_version(),
        description=_ABOUT,
        contact={"name": "Those who run this service"},
        license={"name": "MIT", "identifier": "MIT"},
    )
    schemas, examples = job_schemas(registry), examples or published_examples()
    spec.components.schema("Problem", schema=ProblemDocument)
    for name, example in job_examples().items():
        spec.components.example(name, example)
    for name, about in _HEADERS.items():
        spec.components.header(name, {"description": about, "schema": {"type": "string"}})
    for name, parameter in shared_parameters().items():
        spec.components.parameter(name, "query", parameter)
    for path, operations in _paths(schemas, examples).items():
        spec.path(path, operations=operations)
    document: Described = loads(dumps(spec.to_dict()))
    share_properties(document["components"]["schemas"])
    responses = {"drawing": drawing_response()}
    responses |= {name: described(KINDS[name]) for name in _used_responses(document["paths"])}
    body = document["paths"][f"/v1/{VIEWS[0].name}"]["post"]["requestBody"]
    for operations in document["paths"].values():
        if operations.get("post", {}).get("requestBody") == body:  # apispec knows no references to bodies
            operations["post"]["requestBody"] = {"$ref": "#/components/requestBodies/Job"}
    document["components"] |= {"responses": responses, "requestBodies": {"Job": body}}
    return document | {
        "servers": [{"url": "/"}],
        "security": [],
        "tags": [{"name": name, "description": about} for name, about in TAGS.items()],
    }


def _paths(schemas: JobSchemas, examples: Examples) -> dict[str, Described]:
    job, registry = schemas.job, schemas.registry
    paths: dict[str, Described] = {}
    for view in VIEWS:
        paths[f"/v1/{view.name}"] = {"post": view_operation(view, job, examples)}
    for paper in PAPER_KINDS:
        paths[f"/v1/{paper.path}"] = {"post": paper_operation(paper, job)}
    paths["/v1/value"] = {"get": value_operation(examples)}
    paths["/v1/compare"] = {"post": compare_operation(registry, examples)}
    paths["/v1/cures"] = {"post": cures_operation(job, examples)}
    paths["/v1/from-stock"] = {"post": from_stock_operation(job, examples)}
    shapes, shown = library_schemas(job), documents_shown(documents(schemas))
    for name, title in _GET.items():
        operation = get_operation(name.replace("/", "-"), title, "library", shapes[name], shown[name])
        paths[f"/v1/{name}"] = {"get": operation}
    for path, title in _SERVICE.items():
        shape, example = SERVICE_SCHEMAS[path]
        operation = get_operation(path.strip("/"), title, "service", shape, example or examples.version)
        paths[path] = {"get": operation}
    own: Described = {"type": "object", "description": "An OpenAPI 3.1 document.", "additionalProperties": True}
    paths["/openapi.json"] = {"get": get_operation("openapi", "This document", "service", own, {"openapi": "3.1.0"})}
    paths["/problems/{name}"] = {"get": problem_operation(ProblemKind, explained(KINDS["not-found"]))}
    return paths


def openapi_text(registry: Registry) -> str:
    """Return the document as text for a file, examples made anew: sorted keys, two spaces, a line feed at the end."""
    return json.dumps(openapi_document(registry, AnswerExamples()), indent=2, sort_keys=True, ensure_ascii=False) + "\n"


def _used_responses(value: Any) -> list[str]:
    """Return the names of the responses that anything refers to, in their order of kinds."""
    start = "#/components/responses/"
    used = {inner.removeprefix(start) for inner in references(value) if inner.startswith(start)}
    return [name for name in KINDS if name in used]
