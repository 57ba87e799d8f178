"""The route of comparisons: a job, changes to try, and what each makes different."""

from casewright.api.job.comparison import read_comparison
from casewright.api.use.compare import compare
from casewright.api.web.etag import refuse_if_current, tagged, view_tag
from casewright.api.web.jobs import Beside, planner, received_json
from casewright.api.web.negotiation import JSON, TYPES, answer_format
from casewright.api.wire.made_by import fingerprint
from casewright.api.wire.plan_document import to_bytes
from casewright.sdk.errors import ProblemsError
from flask import Response, request

NAME = "compare"
FORMATS = (JSON,)


def answer() -> Response:
    """Return the answer to a request."""
    form = answer_format(request, FORMATS)
    document = received_json("A comparison", Beside.CHANGES)
    registry = planner().registry
    tag = view_tag(fingerprint(document, registry), NAME, form)
    refuse_if_current(request, tag)
    job, changes = read_comparison(document)
    try:
        compared = compare(job, changes, registry)
    except ProblemsError as error:
        raise type(error)(*(problem.under("/job") for problem in error.problems)) from error
    return tagged(Response(to_bytes(compared), mimetype=TYPES[form]), tag, compared["stops"])
