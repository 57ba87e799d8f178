"""Papers over HTTP: drawings, labels, booklet, workbook and solid model, each from the same job."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from casewright.api.engine import Progress
from casewright.api.papers import (
    PAPERS,
    VIEWS,
    UnknownSubjectError,
    booklet,
    draw,
    labels,
    model,
    subjects,
    to_dxf,
    to_pdf,
    to_svg,
    workbook,
)
from casewright.api.web.etag import refuse_if_held, view_tag
from casewright.api.web.negotiation import LINES, TYPES, answer_format
from casewright.api.web.problems import ProblemError
from casewright.api.web.progress import file_result, lines_response
from casewright.api.web.state import state
from casewright.api.web.views import planned, read_body, refuse_unreadable
from casewright.api.wire.made_by import fingerprint
from casewright.sdk.errors import Problem
from casewright.sdk.model import Plan
from flask import Blueprint, Response, request

PAGES_HEADER = "Casewright-Pages"
"""Tells how many sheets a drawing has where one is answered at a time."""

Wanted = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Made:
    """What a paper came to: its bytes and how many sheets it has."""

    content: bytes
    pages: int | None = None


@dataclass(frozen=True, slots=True)
class Paper:
    """One kind of paper: path, title, formats, what its query may hold, and how it is made.

    `with_stock` says whether it shows how the parts are cut, which takes the stock planner.
    """

    path: str
    title: str
    formats: tuple[str, ...]
    parameters: tuple[str, ...]
    make: Callable[[Plan, str, str, Wanted], Made]
    with_stock: bool = False


def _drawing(view: str) -> Callable[[Plan, str, str, Wanted], Made]:
    def make(plan: Plan, print_: str, form: str, wanted: Wanted) -> Made:
        page = _page(wanted, 1 if form == "svg" else None)
        try:
            every = draw(plan, view, subject=wanted.get("subject"), paper=wanted.get("paper"), fingerprint=print_)
        except UnknownSubjectError as error:
            known = ", ".join(error.known[:12]) or "nothing"
            raise _none(
                "?subject", "something this view can draw", wanted["subject"], f"Use one of: {known}."
            ) from error
        if not every:
            what = ", ".join(subjects(plan, view)[:12]) or "nothing of this kind"
            fix = f"The plan holds {what}; give what the drawing needs, such as a wall or stock."
            raise _none("", f"a job with something to draw as {view}", "none", fix)
        if page is not None and page > len(every):
            raise _none("?page", f"a page from 1 to {len(every)}", str(page), "Ask for a page there is.")
        sheets = every if page is None else (every[page - 1],)
        if form == "svg":
            return Made(to_svg(sheets[0]).encode(), len(every))
        return Made(to_dxf(sheets) if form == "dxf" else to_pdf(sheets), len(every))

    return make


def _page(wanted: Wanted, default: int | None) -> int | None:
    word = wanted.get("page")
    if word is None:
        return default
    if not (word.isascii() and word.isdigit() and len(word) <= 4 and int(word) >= 1):
        raise _bad("page", "a whole number from 1", word, "Write for example ?page=1.")
    return int(word)


def _bad(name: str, rule: str, got: str, fix: str) -> ProblemError:
    return ProblemError("bad-query", f"`{name}` is {rule}.", [Problem(f"?{name}", rule, repr(got[:60]), fix)])


def _none(pointer: str, rule: str, got: str, fix: str) -> ProblemError:
    return ProblemError("nothing-to-draw", "There is no such drawing.", [Problem(pointer, rule, repr(got[:60]), fix)])


def _booklet(plan: Plan, print_: str, form: str, wanted: Wanted) -> Made:
    return Made(booklet(plan, print_, wanted.get("paper")))


def _labels(plan: Plan, print_: str, form: str, wanted: Wanted) -> Made:
    return Made(labels(plan, print_, wanted.get("paper")))


def _model(plan: Plan, print_: str, form: str, wanted: Wanted) -> Made:
    word = wanted.get("exploded", "false")
    if word not in ("true", "false"):
        raise _bad("exploded", "true or false", word, "Write ?exploded=true.")
    return Made(model(plan, word == "true"))


def _workbook(plan: Plan, print_: str, form: str, wanted: Wanted) -> Made:
    return Made(workbook(plan))


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
    Paper("labels", "Part labels", ("pdf",), ("paper",), _labels),
    Paper("booklet", "The booklet for the bench", ("pdf", LINES), ("paper",), _booklet, True),
    Paper("workbook", "Parts, hardware, settings and leftovers as a workbook", ("xlsx",), (), _workbook, True),
    Paper("model", "The cabinets as a solid model", ("glb",), ("exploded",), _model),
)


def blueprint() -> Blueprint:
    """Return the routes of every paper."""
    routes = Blueprint("papers", __name__)
    for paper in PAPER_KINDS:
        routes.add_url_rule(f"/v1/{paper.path}", paper.path.replace("/", "-"), _route(paper), methods=["POST"])
    return routes


def _route(paper: Paper) -> Callable[[], Response]:
    def answer() -> Response:
        return respond(paper)

    return answer


def respond(paper: Paper) -> Response:
    """Answer a request for a paper."""
    form = answer_format(request, paper.formats, paper.parameters)
    wanted = {name: request.args[name] for name in paper.parameters if name in request.args}
    size = wanted.get("paper")
    if size is not None and size not in PAPERS:
        raise _bad("paper", f"one of: {', '.join(PAPERS)}", size, "Use one of these, or leave it out.")
    document, table = read_body()
    print_ = fingerprint(document, state().registry)
    variant = ".".join(f"{name}-{wanted[name]}" for name in sorted(wanted))
    tag = view_tag(print_, paper.path.replace("/", "-") + (f".{_tame(variant)}" if variant else ""), form)
    refuse_if_held(request, tag)

    def write(progress: Progress | None = None) -> Made:
        plan = planned(document, table, print_, with_stock=paper.with_stock, progress=progress)
        if progress is not None:
            progress("writing", 0, 1)
        return paper.make(plan, print_, form, wanted)

    if form == LINES:
        refuse_unreadable(document, table)
        file_type = TYPES[paper.formats[0]]
        response = lines_response(lambda tell: file_result(write(tell).content, file_type))
        response.set_etag(tag)
        response.vary.add("Accept")
        return response
    made = write()
    response = Response(made.content, mimetype=TYPES[form])
    response.set_etag(tag)
    response.vary.add("Accept")
    if made.pages is not None:
        response.headers[PAGES_HEADER] = str(made.pages)
    return response


def _tame(text: str) -> str:
    """Return text that may stand in an entity tag: whatever is not plain is written by its code."""
    return "".join(c if c.isascii() and (c.isalnum() or c in "-._") else f"~{ord(c):x}" for c in text)[:200]
