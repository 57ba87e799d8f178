"""The views of a plan: every one takes the same job and answers with a part of the same plan."""

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from casewright.api.engine import Progress, make_plan
from casewright.api.job.document import read_job
from casewright.api.job.strict_json import read_json
from casewright.api.job.table import JobTable, read_table
from casewright.api.web.etag import refuse_if_held, view_tag
from casewright.api.web.negotiation import CSV, JSON, LINES, TYPES, answer_format, body_format
from casewright.api.web.progress import lines_response
from casewright.api.web.state import state
from casewright.api.wire.made_by import fingerprint
from casewright.api.wire.plan_document import SECTIONS, plan_document, to_bytes
from casewright.api.wire.tables import checks_csv, hardware_csv, parts_csv, settings_csv
from casewright.sdk.errors import ProblemsError
from casewright.sdk.model import Plan
from flask import Blueprint, Response, request

STOCK_SECTIONS = frozenset({"stock", "costs"})
"""Sections that need the stock planner; views without them leave it out."""

Writer = Callable[[Mapping[str, Any]], bytes]


@dataclass(frozen=True, slots=True)
class View:
    """One view: the sections of the plan it shows and the formats it is written in.

    `told` says whether it may be asked for as lines of progress before its result.
    """

    name: str
    title: str
    sections: tuple[str, ...]
    writers: Mapping[str, Writer]
    told: bool = False

    @property
    def formats(self) -> tuple[str, ...]:
        """The formats it can be asked for in, the first by default."""
        return (*self.writers, LINES) if self.told else tuple(self.writers)


VIEWS: tuple[View, ...] = (
    View("plan", "The whole plan", SECTIONS, {JSON: to_bytes}),
    View("parts", "The cut list with reasons", ("parts",), {JSON: to_bytes, CSV: parts_csv}),
    View("hardware", "The hardware list", ("summary", "hardware"), {JSON: to_bytes, CSV: hardware_csv}),
    View("steps", "The order of work", ("steps",), {JSON: to_bytes}),
    View("stock", "How the parts are cut from stock", ("stock",), {JSON: to_bytes, CSV: settings_csv}, told=True),
    View(
        "checks", "Every check, with value, limit and source", ("summary", "checks"), {JSON: to_bytes, CSV: checks_csv}
    ),
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
    form = answer_format(request, view.formats)
    document, table = read_body()
    held = state()
    print_ = fingerprint(document, held.registry)
    tag = view_tag(print_, view.name, form)
    refuse_if_held(request, tag)
    with_stock = bool(STOCK_SECTIONS.intersection(view.sections))

    def write(progress: Progress | None = None) -> dict[str, Any]:
        plan = planned(document, table, print_, with_stock=with_stock, progress=progress)
        return plan_document(plan, held.made_by, print_, view.sections)

    if form == LINES:
        refuse_unreadable(document, table)
        response = lines_response(write)
    else:
        response = Response(view.writers[form](write()), mimetype=TYPES[form])
    response.set_etag(tag)
    response.vary.add("Accept")
    return response


def planned(
    document: Any,
    table: JobTable | None,
    print_: str,
    *,
    with_stock: bool = True,
    progress: Progress | None = None,
) -> Plan:
    """Return the plan of a job document with that fingerprint; problems of a table name its rows.

    One that is kept is not planned again, unless its progress is to be told.
    """
    registry, kept = state().registry, state().kept
    key = (print_, with_stock)
    found = kept.find(key) if progress is None else None
    if found is not None:
        return found
    told: dict[str, Any] = {} if progress is None else {"progress": progress}
    with _explained(table):
        plan = make_plan(read_job(document, registry), registry, with_stock=with_stock, **told)
    kept.keep(key, plan)
    return plan


def refuse_unreadable(document: Any, table: JobTable | None) -> None:
    """Raise what reading the job alone tells, before an answer begins that cannot change its status."""
    with _explained(table):
        read_job(document, state().registry)


@contextmanager
def _explained(table: JobTable | None) -> Iterator[None]:
    try:
        yield
    except ProblemsError as error:
        if table is None:
            raise
        raise table.explain(error) from error


def read_body() -> tuple[Any, JobTable | None]:
    """Return the job document of the request, and the table it was read from if it was one."""
    form = body_format(request)
    body = request.get_data(cache=False)
    if form == JSON:
        return read_json(body), None
    table = read_table(body, state().registry)
    return table.document, table
