"""The views of a plan: every one takes the same job and answers with a part of the same plan."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any

from casewright.api.web.etag import refuse_if_current, tagged, view_tag
from casewright.api.web.jobs import planner, received_job
from casewright.api.web.negotiation import CSV, JSON, LINES, TYPES, answer_format
from casewright.api.web.progress import lines_response
from casewright.api.wire.plan_document import SECTIONS, to_bytes
from casewright.api.wire.tables import checks_csv, cutting_csv, hardware_csv, parts_csv, steps_csv
from flask import Blueprint, Response, request

Writer = Callable[[Mapping[str, Any]], bytes]


@dataclass(frozen=True, slots=True)
class View:
    """One view: the sections of the plan it shows and the formats it is written in.

    `streamed` says whether it may be asked for as lines of progress before its result.
    """

    name: str
    title: str
    sections: tuple[str, ...]
    writers: Mapping[str, Writer]
    streamed: bool = False

    @property
    def formats(self) -> tuple[str, ...]:
        """The formats it can be asked for in, the first by default."""
        return (*self.writers, LINES) if self.streamed else tuple(self.writers)


VIEWS: tuple[View, ...] = (
    View("plan", "The whole plan", SECTIONS, {JSON: to_bytes}),
    View("parts", "The cut list with reasons", ("parts",), {JSON: to_bytes, CSV: parts_csv}),
    View("hardware", "The hardware list", ("summary", "hardware"), {JSON: to_bytes, CSV: hardware_csv}),
    View("steps", "The order of work", ("steps", "schedule"), {JSON: to_bytes, CSV: steps_csv}),
    View(
        "stock",
        "How the parts are cut from stock",
        ("stock", "steps"),
        {JSON: to_bytes, CSV: cutting_csv},
        streamed=True,
    ),
    View(
        "checks", "Every check, with value, limit and source", ("summary", "checks"), {JSON: to_bytes, CSV: checks_csv}
    ),
    View(
        "fits",
        "Which fits the shop's accuracy carries, and what is taken from the work",
        ("fits", "fits_not_proved"),
        {JSON: to_bytes},
    ),
    View(
        "built",
        "What comes out otherwise by what is built, and what no longer fits",
        ("summary", "built", "checks"),
        {JSON: to_bytes},
    ),
    View("mounting", "How each cabinet hangs", ("mounting", "checks", "weights"), {JSON: to_bytes}),
)


def blueprint() -> Blueprint:
    """Return the routes of every view."""
    routes = Blueprint("views", __name__)
    for view in VIEWS:
        routes.add_url_rule(f"/v1/{view.name}", view.name, partial(respond, view), methods=["POST"])
    return routes


def respond(view: View) -> Response:
    """Answer a request for a view."""
    form = answer_format(request, view.formats)
    job, planning = received_job(), planner()
    tag = view_tag(job.fingerprint, view.name, form)
    refuse_if_current(request, tag)
    if form == LINES:
        work = partial(planning.document, job, view.sections)
        return tagged(lines_response(job.read, lambda progress: work(progress=progress)), tag)
    document = planning.document(job, view.sections)
    response = Response(view.writers[form](document), mimetype=TYPES[form])
    if form == CSV:
        response.headers["Content-Disposition"] = f'inline; filename="{view.name}.csv"'
    return tagged(response, tag, document["stops"])
