"""The views of a plan: every one takes the same job and answers with a part of the same plan."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any

from casewright.api.web.etag import refuse_if_current, tagged, view_tag
from casewright.api.web.jobs import planner, received_job
from casewright.api.web.marks import ANSWERED, SENT, answered_bom, sent_marks
from casewright.api.web.negotiation import CSV, JSON, LINES, TYPES, answer_format
from casewright.api.web.progress import lines_response
from casewright.api.wire.plan_document import SECTIONS, to_bytes
from casewright.api.wire.tables import PLAIN, TABLES, Table, TableForm, table_form
from flask import Blueprint, Response, request


@dataclass(frozen=True, slots=True)
class View:
    """One view: the sections of the plan it shows and the formats it is written in.

    `streamed` says whether it may be asked for as lines of progress before its result.
    """

    name: str
    title: str
    sections: tuple[str, ...]
    streamed: bool = False

    @property
    def table(self) -> Table | None:
        """What writes it as a table, where it is one."""
        return TABLES.get(self.name)

    @property
    def formats(self) -> tuple[str, ...]:
        """The formats it can be asked for in, the first by default."""
        return (JSON, *((CSV,) if self.table else ()), *((LINES,) if self.streamed else ()))

    def write(self, document: Mapping[str, Any], form: str, as_table: TableForm = PLAIN) -> bytes:
        """Return the view of a plan document in a format."""
        return self.table(document, as_table) if self.table is not None and form == CSV else to_bytes(document)


VIEWS: tuple[View, ...] = (
    View("plan", "The whole plan", SECTIONS),
    View("parts", "The cut list with reasons", ("parts",)),
    View("hardware", "The hardware list", ("summary", "hardware")),
    View("steps", "The order of work", ("steps", "schedule")),
    View(
        "stock",
        "How the parts are cut from stock",
        ("stock", "steps"),
        streamed=True,
    ),
    View("checks", "Every check, with value, limit and source", ("summary", "checks")),
    View(
        "fits",
        "Which fits the shop's accuracy carries, and what is taken from the work",
        ("fits", "fits_not_proved"),
    ),
    View(
        "built",
        "What comes out otherwise by what is built, and what no longer fits",
        ("summary", "built", "checks"),
    ),
    View("mounting", "How each cabinet hangs", ("mounting", "checks", "weights")),
    View("costs", "What is to be bought, and what the job costs by the shop's rates", ("costs", "stock")),
)


def blueprint() -> Blueprint:
    """Return the routes of every view."""
    routes = Blueprint("views", __name__)
    for view in VIEWS:
        routes.add_url_rule(f"/v1/{view.name}", view.name, partial(respond, view), methods=["POST"])
    return routes


def respond(view: View) -> Response:
    """Answer a request for a view."""
    form = answer_format(request, view.formats, tuple(ANSWERED if view.table else SENT))
    bom = answered_bom()
    job, planning = received_job(), planner()
    as_table = table_form(sent_marks(), job.marks, bom=bom)
    marks = as_table.name if form == CSV else ""
    tag = view_tag(job.fingerprint, f"{view.name}.{marks}" if marks else view.name, form)
    refuse_if_current(request, tag)
    if form == LINES:
        work = partial(planning.document, job, view.sections)
        return tagged(lines_response(job.read, lambda progress: work(progress=progress)), tag)
    document = planning.document(job, view.sections)
    response = Response(view.write(document, form, as_table), mimetype=TYPES[form])
    if form == CSV:
        response.headers["Content-Disposition"] = f'inline; filename="{view.name}.csv"'
    return tagged(response, tag, document["stops"])
