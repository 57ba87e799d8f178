"""The route of cures: a job in, the changes that clear its stops out, with lines of progress where they are wanted."""

from casewright.api.use.cures import cures_document
from casewright.api.web.etag import refuse_if_current, tagged, view_tag
from casewright.api.web.jobs import planner, received_job
from casewright.api.web.marks import SENT
from casewright.api.web.negotiation import JSON, LINES, TYPES, answer_format
from casewright.api.web.progress import lines_response
from casewright.api.wire.plan_document import to_bytes
from flask import Response, request

NAME = "cures"
FORMATS = (JSON, LINES)


def answer() -> Response:
    """Return the answer to a request."""
    form = answer_format(request, FORMATS, tuple(SENT))
    job, planning = received_job(), planner()
    tag = view_tag(job.fingerprint, NAME, form)
    refuse_if_current(request, tag)
    if form == LINES:
        return tagged(lines_response(job.read, lambda progress: cures_document(planning, job, progress)), tag)
    document = cures_document(planning, job)
    return tagged(Response(to_bytes(document), mimetype=TYPES[form]), tag, document["stops"])
