"""Papers over HTTP: drawings, labels, booklet, workbook and solid model, each from the same job."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

from casewright.api.engine import Progress
from casewright.api.papers import (
    PAPERS,
    VIEWS,
    UnknownSubjectError,
    booklet,
    draw,
    labels,
    model,
    outlines,
    subjects,
    to_dxf,
    to_pdf,
    to_svg,
    workbook,
)
from casewright.api.papers.archive import archive
from casewright.api.papers.folder import papers
from casewright.api.stock import no_progress
from casewright.api.use.cures import stop_cures
from casewright.api.web.etag import refuse_if_current, tagged, view_tag
from casewright.api.web.jobs import planner, received_job
from casewright.api.web.marks import SENT
from casewright.api.web.negotiation import LINES, TYPES, answer_format
from casewright.api.web.problems import ProblemError, bad_query
from casewright.api.web.progress import file_result, lines_response
from casewright.api.wire.plan_document import stop_count, to_bytes
from casewright.api.wire.tables import hardware_csv, parts_csv
from casewright.sdk.errors import Problem
from casewright.sdk.model import Plan
from casewright.sdk.model.cures import StopCures
from flask import Blueprint, Response, request

PAGES_HEADER = "Casewright-Pages"
"""Tells how many sheets a drawing has where one is answered at a time."""


@dataclass(frozen=True, slots=True)
class Order:
    """What a paper is made from: the plan with its fingerprint and cures, the format, and what the query says."""

    plan: Plan
    fingerprint: str
    form: str
    query: Mapping[str, str]
    cures: tuple[StopCures, ...] = ()


@dataclass(frozen=True, slots=True)
class Printed:
    """A paper as a file: its bytes, how many stops the plan has and, of a drawing, how many sheets there are."""

    content: bytes
    pages: int | None = None
    stops: int = 0


@dataclass(frozen=True, slots=True)
class Paper:
    """One kind of paper: path, title, formats, what its query may hold, and how it is made.

    `with_stock` says whether it shows how the parts are cut, or which are not, which takes the stock planner;
    `with_cures` whether it shows what cures the stops.
    """

    path: str
    title: str
    formats: tuple[str, ...]
    parameters: tuple[str, ...]
    make: Callable[[Order], Printed]
    with_stock: bool = False
    with_cures: bool = False


def _drawing(view: str) -> Callable[[Order], Printed]:
    def make(order: Order) -> Printed:
        plan, query = order.plan, order.query
        page = _page(query.get("page"), 1 if order.form == "svg" else None)
        try:
            every = draw(
                plan, view, subject=query.get("subject"), paper=query.get("paper"), fingerprint=order.fingerprint
            )
        except UnknownSubjectError as error:
            known = ", ".join(error.known[:12]) or "nothing"
            raise _none(
                "?subject", "something this view can draw", query["subject"], f"Use one of: {known}."
            ) from error
        if not every:
            what = ", ".join(subjects(plan, view)[:12]) or "nothing of this kind"
            fix = f"The plan holds {what}; give what the drawing needs, such as a wall or stock."
            raise _none("", f"a job with something to draw as {view}", "none", fix)
        if page is not None and page > len(every):
            raise _none("?page", f"a page from 1 to {len(every)}", str(page), "Ask for a page there is.")
        sheets = every if page is None else (every[page - 1],)
        if order.form == "svg":
            return Printed(to_svg(sheets[0]).encode(), len(every))
        return Printed(to_dxf(sheets) if order.form == "dxf" else to_pdf(sheets), len(every))

    return make


def _page(word: str | None, default: int | None) -> int | None:
    if word is None:
        return default
    if not (word.isascii() and word.isdigit() and len(word) <= 4 and int(word) >= 1):
        raise bad_query("page", "a whole number from 1", word, "Write for example ?page=1.")
    return int(word)


def _none(pointer: str, rule: str, got: str, fix: str) -> ProblemError:
    return ProblemError("nothing-to-draw", "There is no such drawing.", [Problem(pointer, rule, repr(got[:60]), fix)])


def _booklet(order: Order) -> Printed:
    return Printed(booklet(order.plan, order.fingerprint, order.query.get("paper"), order.cures))


def _labels(order: Order) -> Printed:
    return Printed(labels(order.plan, order.fingerprint, order.query.get("paper")))


def _model(order: Order) -> Printed:
    word = order.query.get("exploded", "false")
    if word not in ("true", "false"):
        raise bad_query("exploded", "true or false", word, "Write ?exploded=true.")
    return Printed(model(order.plan, word == "true"))


def _outlines(order: Order) -> Printed:
    return Printed(outlines(order.plan))


def _workbook(order: Order) -> Printed:
    return Printed(workbook(order.plan))


def _folder(order: Order) -> Printed:
    document = planner().write(order.plan, order.fingerprint)
    files = {
        "plan.json": to_bytes(document),
        "parts.csv": parts_csv(document),
        "hardware.csv": hardware_csv(document),
        **papers(order.plan, order.fingerprint, order.cures),
    }
    return Printed(archive(files))


PAPER_KINDS: tuple[Paper, ...] = (
    *(
        Paper(
            f"drawings/{view}",
            f"Drawing: {view}",
            ("svg", "dxf", "pdf"),
            ("page", "paper") if view == "wall" else ("subject", "page", "paper"),
            _drawing(view),
            view == "layout",
        )
        for view in VIEWS
    ),
    Paper("labels", "Part labels", ("pdf",), ("paper",), _labels, True),
    Paper("booklet", "The booklet for the bench", ("pdf", LINES), ("paper",), _booklet, True, True),
    Paper("workbook", "Parts, hardware, settings and leftovers as a workbook", ("xlsx",), (), _workbook, True),
    Paper("papers", "Every paper, and the plan as JSON and tables, in one archive", ("zip",), (), _folder, True, True),
    Paper("outlines", "Every part once, a block each, cuts on layers by kind and depth", ("dxf",), (), _outlines),
    Paper("model", "The cabinets as a solid model", ("glb",), ("exploded",), _model),
)


def blueprint() -> Blueprint:
    """Return the routes of every paper."""
    routes = Blueprint("papers", __name__)
    for paper in PAPER_KINDS:
        routes.add_url_rule(
            f"/v1/{paper.path}", paper.path.replace("/", "-"), partial(respond, paper), methods=["POST"]
        )
    return routes


def respond(paper: Paper) -> Response:
    """Answer a request for a paper."""
    form = answer_format(request, paper.formats, (*paper.parameters, *SENT))
    query = {name: request.args[name] for name in paper.parameters if name in request.args}
    size = query.get("paper")
    if size is not None and size not in PAPERS:
        raise bad_query("paper", f"one of: {', '.join(PAPERS)}", size, "Use one of these, or leave it out.")
    job, planning = received_job(), planner()
    variant = ".".join(f"{name}-{query[name]}" for name in sorted(query))
    name = paper.path.replace("/", "-") + (f".{_tame(variant)}" if variant else "")
    tag = view_tag(job.fingerprint, name, form)
    refuse_if_current(request, tag)

    def write(progress: Progress | None = None) -> Printed:
        plan = planning.plan(job, with_stock=paper.with_stock, progress=progress)
        report = progress or no_progress
        cures = stop_cures(planning, job, plan, report) if paper.with_cures else ()
        report("writing", 0, 1)
        made = paper.make(Order(plan, job.fingerprint, form, query, cures))
        return replace(made, stops=stop_count(plan.checks))

    if form == LINES:
        media_type = TYPES[paper.formats[0]]

        def work(progress: Progress) -> Any:
            made = write(progress)
            return file_result(made.content, media_type, made.stops)

        return tagged(lines_response(job.read, work), tag)
    printed = write()
    response = Response(printed.content, mimetype=TYPES[form])
    response.headers["Content-Disposition"] = f'inline; filename="{paper.path.rpartition("/")[2]}.{form}"'
    if printed.pages is not None:
        response.headers[PAGES_HEADER] = str(printed.pages)
    return tagged(response, tag, printed.stops)


def _tame(text: str) -> str:
    """Return text that may stand in an entity tag: whatever is not plain is written by its code."""
    return "".join(c if c.isascii() and (c.isalnum() or c in "-._") else f"~{ord(c):x}" for c in text)[:200]
