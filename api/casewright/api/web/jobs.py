"""What every route that takes a job shares: the app's planner, the job in the body, and how an answer is tagged."""

from casewright.api.use.job_input import JobInput
from casewright.api.use.planning import Planner
from casewright.api.web.negotiation import CSV, body_format
from flask import Response, current_app, request

__all__ = ["KEY", "planner", "received_job", "tagged"]

KEY = "casewright"
"""Under what name an app keeps its planner: of all it holds, only the plans kept change after start."""


def planner() -> Planner:
    """Return the planner of the app that answers this request."""
    current = current_app.extensions[KEY]
    assert isinstance(current, Planner)
    return current


def received_job() -> JobInput:
    """Return the job in the body of this request. Raises the problems 400, 415 and 422."""
    form = body_format(request)
    body = request.get_data(cache=False)
    read = JobInput.from_table if form == CSV else JobInput.from_json
    return read(body, planner().registry)


def tagged(response: Response, tag: str) -> Response:
    """Name an answer to a POST by its tag, and say that it hangs on `Accept`."""
    response.set_etag(tag)
    response.vary.add("Accept")
    return response
