"""Pieces that operations of the OpenAPI document share: bodies, answers and their headers, problems, parameters."""

from collections.abc import Iterable
from typing import Any

from casewright.api.job import limits
from casewright.api.web.etag import STOPS_HEADER
from casewright.api.web.negotiation import TYPES
from casewright.api.web.problems import KINDS
from marshmallow import Schema

Described = dict[str, Any]
"""A piece of the document, as JSON values; where a schema stands, apispec puts its reference."""

_POST_PROBLEMS = (
    "bad-document", "not-acceptable", "already-have-plan", "too-large", "unsupported-media-type", "unusable-job",
    "unavailable",
)  # fmt: skip


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


def answers_to_post(title: str, content: Described) -> Described:
    """Return the responses to a POST: its answer, and the problems it may have."""
    return {
        "200": {"description": title, "headers": answer_headers(), "content": content},
        **problem_answers(*_POST_PROBLEMS),
    }


def with_example(value: Any) -> Described:
    """Return an example as it stands beside a schema; nothing where there is none."""
    return {} if value is None else {"example": value}


def progress_lines() -> Described:
    """Return an answer as lines of progress that end with the result."""
    about = (
        'Lines of JSON: {"progress": {"stage", "done", "of"}}, last {"result": ...} (a file as '
        '{"media_type", "stops", "base64"}) or {"problem": ...}.'
    )
    lines = '{"progress":{"stage":"cutting","done":0,"of":1}}\n{"result":{}}\n'
    return {"schema": {"type": "string", "description": about}, "example": lines}


def answer_headers() -> Described:
    """Return the headers of every answer that is made of a job."""
    return {name: {"$ref": f"#/components/headers/{name}"} for name in ("ETag", STOPS_HEADER)}


def problem_answers(*names: str) -> Described:
    """Return the answers that problems of these kinds have, by status."""
    return {str(KINDS[name].status): {"$ref": f"#/components/responses/{name}"} for name in names}


def in_query(name: str, about: str, schema: Described) -> Described:
    """Return a parameter in the query."""
    return {"name": name, "in": "query", "description": about, "schema": schema}


def format_choice(formats: Iterable[str]) -> str:
    """Return the name of the parameter that picks a format."""
    return "-".join(("as", *formats))
