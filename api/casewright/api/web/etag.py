"""Entity tags. The tag of a view is known from the job alone, so a job that is unchanged is not planned again.

By RFC 9110 (13.1.2) a matching If-None-Match answers 304 to GET and HEAD, and 412 to any other method.
"""

from casewright.api.web.problems import ProblemError
from casewright.sdk.errors import Problem
from flask import Request, Response


def view_tag(fingerprint: str, view: str, form: str) -> str:
    """Return the tag (without quotes) of one view of one job in one format."""
    return f"{fingerprint[:40]}.{view}.{form}"


def refuse_if_held(request: Request, tag: str) -> None:
    """Raise the 412 problem if the client says it holds this answer. `*` names no stored answer and is ignored."""
    held = request.if_none_match
    if held.star_tag or not held.contains_weak(tag):
        return
    problem = Problem("If-None-Match", "a tag that differs from the answer's", f'"{tag}"', "Use the answer you hold.")
    raise ProblemError("already-have-plan", "The answer you hold is this job's.", [problem], {"ETag": f'"{tag}"'})


def answer_if_held(request: Request, response: Response, tag: str) -> Response:
    """Tag a GET response, turning it into 304 where the client holds it."""
    response.set_etag(tag)
    response.make_conditional(request)
    return response
