"""Entity tags. The tag of a view is known from the job alone, so a job that is unchanged is not planned again.

By RFC 9110 (13.1.2) a matching If-None-Match answers 304 to GET and HEAD, and 412 to any other method.
"""

from collections.abc import Callable
from hashlib import sha256
from typing import Any

from casewright.api.web.negotiation import JSON, TYPES, answer_format
from casewright.api.web.problems import ProblemError
from casewright.api.wire.plan_document import to_bytes
from casewright.sdk.errors import Problem
from flask import Request, Response, request


def view_tag(fingerprint: str, view: str, form: str) -> str:
    """Return the tag (without quotes) of one view of one job in one format."""
    return f"{fingerprint[:40]}.{view}.{form}"


def refuse_if_current(request: Request, tag: str) -> None:
    """Raise the 412 problem if the client has this very answer. `*` names no stored answer and is ignored."""
    stored = request.if_none_match
    if stored.star_tag or not stored.contains_weak(tag):
        return
    problem = Problem("If-None-Match", "a tag that differs from the answer's", f'"{tag}"', "Use the answer you hold.")
    raise ProblemError("already-have-plan", "The answer you hold is this job's.", [problem], {"ETag": f'"{tag}"'})


STOPS_HEADER = "Casewright-Stops"
"""How many checks of the plan say stop. Lines of progress leave before that is known; their result holds it."""


def tagged(response: Response, tag: str, stops: int | None = None) -> Response:
    """Name an answer to a POST by its tag, and say that it hangs on `Accept`, and how many stops the plan has."""
    response.set_etag(tag)
    response.vary.add("Accept")
    if stops is not None:
        response.headers[STOPS_HEADER] = str(stops)
    return response


def answer_conditionally(request: Request, response: Response, tag: str) -> Response:
    """Tag a GET response, turning it into 304 where the client has it."""
    response.set_etag(tag)
    response.make_conditional(request)
    return response


def fixed_json(document: Any) -> Callable[[], Response]:
    """Return a route for GET that always answers with this document, written and tagged once."""
    body = to_bytes(document)
    tag = sha256(body).hexdigest()[:40]

    def answer() -> Response:
        answer_format(request, (JSON,))
        return answer_conditionally(request, Response(body, mimetype=TYPES[JSON]), tag)

    return answer
