"""The route of a pile: a job with ranges in, the best jobs that the stock yields out, with lines of progress."""

from casewright.api.job.ranges import read_question
from casewright.api.job.strict_json import read_json
from casewright.api.use.from_stock import from_stock_answer, least_job
from casewright.api.web.etag import refuse_if_current, tagged, view_tag
from casewright.api.web.jobs import planner
from casewright.api.web.negotiation import JSON, LINES, TYPES, answer_format, body_format
from casewright.api.web.problems import ProblemError
from casewright.api.web.progress import lines_response
from casewright.api.wire.made_by import fingerprint
from casewright.api.wire.plan_document import to_bytes
from casewright.sdk.errors import Problem
from flask import Blueprint, Response, request

NAME = "from-stock"
FORMATS = (JSON, LINES)


def blueprint() -> Blueprint:
    """Return the route."""
    routes = Blueprint(NAME, __name__)
    routes.add_url_rule(f"/v1/{NAME}", NAME, _answer, methods=["POST"])
    return routes


def _answer() -> Response:
    form = answer_format(request, FORMATS)
    if body_format(request) != JSON:
        problem = Problem("Content-Type", "application/json", "text/csv", "Send the job and its ranges as JSON.")
        raise ProblemError("unsupported-media-type", "A job with ranges is sent as JSON.", [problem])
    document = read_json(request.get_data(cache=False))
    planning = planner()
    tag = view_tag(fingerprint(document, planning.registry), NAME, form)
    refuse_if_current(request, tag)
    question = read_question(document, planning.registry)
    if form == LINES:
        least_job(question, planning.registry)  # what is wrong with the job is answered by its status, before lines
        return tagged(lines_response(lambda progress: from_stock_answer(question, planning, progress)), tag)
    return tagged(Response(to_bytes(from_stock_answer(question, planning)), mimetype=TYPES[form]), tag)
