"""What every route that takes a job shares: the app's planner, and the job in the body."""

from collections.abc import Mapping
from enum import Enum
from typing import Any

from casewright.api.job.strict_json import read_json
from casewright.api.use.job_input import JobInput
from casewright.api.use.planning import Planner
from casewright.api.web.marks import sent_marks
from casewright.api.web.negotiation import CSV, JSON, body_format
from casewright.api.web.problems import ProblemError
from casewright.sdk.errors import Problem
from flask import current_app, g, request

KEY = "casewright"
"""Under what name an app keeps its planner: of all it holds, only the plans kept change after start."""


class Beside(Enum):
    """What a request may hold beside a job, and a table cannot."""

    CHANGES = "changes"
    RANGES = "ranges"


_LIGHTER: Mapping[Beside, str] = {
    Beside.CHANGES: "fewer changes at a time",
    Beside.RANGES: "narrower ranges, or ranges of larger steps",
}


def planner() -> Planner:
    """Return the planner of the app that answers this request."""
    current = current_app.extensions[KEY]
    assert isinstance(current, Planner)
    return current


def received_job() -> JobInput:
    """Return the job in the body of this request. Raises the problems 400, 415 and 422."""
    form = body_format(request)
    body = request.get_data(cache=False)
    registry = planner().registry
    g.job = JobInput.from_table(body, registry, sent_marks()) if form == CSV else JobInput.from_json(body, registry)
    assert isinstance(g.job, JobInput)
    return g.job


def received_json(what: str, beside: Beside) -> Any:
    """Return the body of a request that holds a job and something `beside` it, which a table cannot.

    Raises the problems 400, 415 and 422.
    """
    if body_format(request) != JSON:
        problem = Problem(
            "Content-Type", "application/json", "text/csv", f"Send the job and its {beside.value} as JSON."
        )
        raise ProblemError("unsupported-media-type", f"{what} is sent as JSON.", [problem])
    document = read_json(request.get_data(cache=False))
    g.beside, g.document = beside, document.get("job") if isinstance(document, dict) else None
    return document


def lighter_requests() -> list[str]:
    """Return what could be sent instead of what was received, to take less time; nothing that it has least of."""
    job = g.get("job")
    document = job.document if isinstance(job, JobInput) else g.get("document")
    read = document if isinstance(document, dict) else {}
    ways = [_LIGHTER[g.beside]] if "beside" in g else []
    listed = (read.get("cabinets"), read.get("loose_parts"))
    if sum(len(rows) for rows in listed if isinstance(rows, list)) > 1:
        ways.append("fewer cabinets or parts at a time")
    stock = read.get("stock")
    if isinstance(stock, dict) and stock.get("effort") != 1:
        ways.append("a lower stock.effort")
    return ways or ["a cabinet with fewer parts"]
