"""`/docs`: a bench to plan jobs at, the reference, and the pages for people.

All of it is plain HTML, CSS and JavaScript under a strict content security policy, and asks nothing of any other
host. Links are relative, so that they work where the app is mounted under a prefix.
"""

from collections.abc import Callable
from functools import lru_cache
from hashlib import sha256
from importlib.resources import files

from casewright.api.web.etag import answer_conditionally
from casewright.api.web.method_shelf import MethodShelf
from casewright.api.web.pages import FIGURES, PAGES, REFERENCE, figure, page_html
from casewright.sdk.loader import Registry
from flask import Blueprint, Response, abort, request

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src 'self' blob:; "
    "base-uri 'none'; form-action 'none'; frame-ancestors 'self'"
)
SCRIPTS = (
    "basics", "bench", "cabinets", "checks", "complete", "cut_list", "drawing", "drawings", "editor", "hanging",
    "lengths", "model", "page", "places", "plain_editor", "reference", "steps", "stock", "stops", "tabs",
    "tidy", "viewer",
)  # fmt: skip
ASSETS = {
    "page.css": "text/css",
    "mark.svg": "image/svg+xml",
    **{f"{name}.js": "text/javascript" for name in SCRIPTS},
    "library/codemirror.js": "text/javascript",
    "library/LICENSE-codemirror.txt": "text/plain",
    "library/three.js": "text/javascript",
    "library/LICENSE-three.txt": "text/plain",
}
"""Files of the page by path under `/docs`. Those of `library` are the work of others: `.ci/page/build` makes them."""


def blueprint(registry: Registry) -> Blueprint:
    """Return the routes of the page and its files, and of a page for each method of the registry."""
    shelf = MethodShelf(registry)
    routes = Blueprint("docs", __name__)

    @routes.get("/")
    def root() -> Response:
        return Response(status=302, mimetype="text/plain", headers={"Location": f"{request.script_root}/docs"})

    @routes.get("/docs")
    def front() -> Response:
        return _answer(_asset("page.html"), "text/html")

    @routes.get("/docs/methods")
    def methods() -> Response:
        return _answer(shelf.index(), "text/html")

    @routes.get("/docs/methods/<family>/<name>")
    def method(family: str, name: str) -> Response:
        return _answer(_or_absent(lambda: shelf.page(family, name)), "text/html")

    @routes.get("/docs/methods/<family>/<name>/<picture>.svg")
    def method_picture(family: str, name: str, picture: str) -> Response:
        return _answer(_or_absent(lambda: shelf.picture(family, name, picture)), "image/svg+xml")

    @routes.get("/docs/<path:name>")
    def page_or_asset(name: str) -> Response:
        if name in PAGES or name == REFERENCE:
            return _answer(page_html(name), "text/html")
        if name in FIGURES:
            return _answer(figure(name), "image/svg+xml")
        if name not in ASSETS:
            abort(404)
        return _answer(_asset(name), ASSETS[name])

    return routes


def _or_absent(ask: Callable[[], bytes]) -> bytes:
    try:
        return ask()
    except KeyError:
        abort(404)


@lru_cache(maxsize=len(ASSETS) + 1)
def _asset(name: str) -> bytes:
    return files("casewright.api.web").joinpath("docs_assets", *name.split("/")).read_bytes()


def _answer(content: bytes, mimetype: str) -> Response:
    response = Response(content, mimetype=mimetype)
    response.headers["Content-Security-Policy"] = POLICY
    response.headers["Referrer-Policy"] = "no-referrer"
    response.headers["Cache-Control"] = "no-cache"
    return answer_conditionally(request, response, sha256(content).hexdigest()[:40])
