"""The route of jobs from stock: a job with ranges in, the best jobs that stock yields out, with lines of progress."""

from casewright.api.job.ranges import read_question
from casewright.api.use.from_stock import from_stock_answer, least_job
from casewright.api.web.etag import refuse_if_current, tagged, view_tag
from casewright.api.web.jobs import Beside, planner, received_json
from casewright.api.web.negotiation import JSON, LINES, TYPES, answer_format
from casewright.api.web.progress import lines_response
from casewright.api.wire.made_by import fingerprint
from casewright.api.wire.plan_document import to_bytes
from flask import Response, request

NAME = "from-stock"
FORMATS = (JSON, LINES)


def answer() -> Response:
    """Return the answer to a request."""
    form = answer_format(request, FORMATS)
    document = received_json("A job with ranges", Beside.RANGES)
    planning = planner()
    tag = view_tag(fingerprint(document, planning.registry), NAME, form)
    refuse_if_current(request, tag)
    question = read_question(document, planning.registry)
    if form == LINES:
        response = lines_response(
            lambda: least_job(question, planning.registry),
            lambda progress: from_stock_answer(question, planning, progress),
        )
        return tagged(response, tag)
    jobs = from_stock_answer(question, planning)
    return tagged(Response(to_bytes(jobs), mimetype=TYPES[form]), tag, jobs["stops"])
