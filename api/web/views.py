"""The views of a plan: every one takes the same job and answers with a part of the same plan."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from casewright.api.engine import make_plan
from casewright.api.web.etag import refuse_if_held, view_tag
from casewright.api.web.negotiation import CSV, JSON, TYPES, answer_format, body_format
from casewright.api.web.state import state
from casewright.api.wire.job_document import read_job
from casewright.api.wire.job_table import JobTable, read_table
from casewright.api.wire.made_by import fingerprint
from casewright.api.wire.plan_document import SECTIONS, plan_document, to_bytes
from casewright.api.wire.strict_json import read_json
from casewright.api.wire.tables import hardware_csv, parts_csv
from casewright.sdk.errors import NoGeometryError, ProblemsError
from casewright.sdk.model import Plan
from flask import Blueprint, Response, request

STOCK_SECTIONS = frozenset({"stock", "costs"})
"""Sections that need the stock planner; views without them leave it out."""

Writer = Callable[[Mapping[str, Any]], bytes]


@dataclass(frozen=True, slots=True)
class View:
    """One view: the sections of the plan it shows and the formats it is written in."""

    name: str
    title: str
    sections: tuple[str, ...]
    writers: Mapping[str, Writer]


VIEWS: tuple[View, ...] = (
    View("plan", "The whole plan", SECTIONS, {JSON: to_bytes}),
    View("parts", "The cut list with reasons", ("parts",), {JSON: to_bytes, CSV: parts_csv}),
    View("hardware", "The hardware list", ("summary", "hardware"), {JSON: to_bytes, CSV: hardware_csv}),
    View("steps", "The order of work", ("steps",), {JSON: to_bytes}),
    View("stock", "How the parts are cut from stock", ("stock",), {JSON: to_bytes}),
    View("mounting", "How each cabinet hangs", ("mounting", "checks", "weights"), {JSON: to_bytes}),
)


def blueprint() -> Blueprint:
    """Return the routes of every view."""
    routes = Blueprint("views", __name__)
    for view in VIEWS:
        routes.add_url_rule(f"/v1/{view.name}", view.name, _route(view), methods=["POST"])
    return routes


def _route(view: View) -> Callable[[], Response]:
    def answer() -> Response:
        return respond(view)

    return answer


def respond(view: View) -> Response:
    """Answer a request for a view."""
    form = answer_format(request, tuple(view.writers))
    document, table = read_body()
    held = state()
    print_ = fingerprint(document, held.registry)
    tag = view_tag(print_, view.name, form)
    refuse_if_held(request, tag)
    plan = planned(document, table, with_stock=bool(STOCK_SECTIONS.intersection(view.sections)))
    written = plan_document(plan, held.made_by, print_, view.sections)
    response = Response(view.writers[form](written), mimetype=TYPES[form])
    response.set_etag(tag)
    response.vary.add("Accept")
    return response


def planned(document: Any, table: JobTable | None, *, with_stock: bool = True) -> Plan:
    """Return the plan of a job document; problems of a table name its rows."""
    registry = state().registry
    try:
        return make_plan(read_job(document, registry), registry, with_stock=with_stock)
    except ProblemsError as error:
        if table is None or isinstance(error, NoGeometryError):
            raise
        raise table.explain(error.problems) from error


def read_body() -> tuple[Any, JobTable | None]:
    """Return the job document of the request, and the table it was read from if it was one."""
    form = body_format(request)
    body = request.get_data(cache=False)
    if form == JSON:
        return read_json(body), None
    table = read_table(body, state().registry)
    return table.document, table
