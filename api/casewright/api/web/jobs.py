"""What every route that takes a job shares: the app's planner, and the job in the body."""

from typing import Any

from casewright.api.job.strict_json import read_json
from casewright.api.use.job_input import JobInput
from casewright.api.use.planning import Planner
from casewright.api.web.negotiation import CSV, JSON, body_format
from casewright.api.web.problems import ProblemError
from casewright.sdk.errors import Problem
from flask import current_app, g, request

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
    g.job = read(body, planner().registry)
    assert isinstance(g.job, JobInput)
    return g.job


def received_json(what: str, beside: str) -> Any:
    """Return the body of a request that holds a job and something `beside` it, which a table cannot.

    Raises the problems 400, 415 and 422.
    """
    if body_format(request) != JSON:
        problem = Problem("Content-Type", "application/json", "text/csv", f"Send the job and its {beside} as JSON.")
        raise ProblemError("unsupported-media-type", f"{what} is sent as JSON.", [problem])
    return read_json(request.get_data(cache=False))


def effort_can_be_lower() -> bool:
    """Return whether the job received is cut from stock, at more than the least effort."""
    job = g.get("job")
    stock = job.document.get("stock") if isinstance(job, JobInput) and isinstance(job.document, dict) else None
    return isinstance(stock, dict) and stock.get("effort") != 1
