"""`/docs`: the reference and a form to try example jobs, from files in this package; and `/v1/examples`.

The page is plain HTML, CSS and JavaScript under a strict content security policy, and asks nothing of any other
host. Its links are relative, so it works where the app is mounted under a prefix.
"""

import json
from functools import lru_cache
from hashlib import sha256
from importlib.resources import files
from typing import Any

from casewright.api.web.etag import answer_if_held
from casewright.api.web.negotiation import JSON, TYPES, answer_format
from casewright.api.wire.plan_document import to_bytes
from flask import Blueprint, Response, request

__all__ = ["POLICY", "blueprint", "examples"]

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src 'self' blob:; "
    "base-uri 'none'; form-action 'none'; frame-ancestors 'self'"
)
ASSETS = {
    "page.css": "text/css",
    "page.js": "text/javascript",
    "reference.js": "text/javascript",
    "try.js": "text/javascript",
    "mark.svg": "image/svg+xml",
}
FIRST = "repair-bay"
"""The example that a reader meets first; the others follow by name."""
_PAGE = "page.html"


def blueprint() -> Blueprint:
    """Return the routes of the page, its files and the example jobs."""
    routes = Blueprint("docs", __name__)
    _serve(routes, "/docs", _PAGE, "text/html")
    for name, mimetype in ASSETS.items():
        _serve(routes, f"/docs/{name}", name, mimetype)
    body = to_bytes(examples())
    tag = sha256(body).hexdigest()[:40]

    @routes.get("/v1/examples")
    def examples_document() -> Response:
        answer_format(request, (JSON,))
        return answer_if_held(request, Response(body, mimetype=TYPES[JSON]), tag)

    return routes


def _serve(routes: Blueprint, path: str, name: str, mimetype: str) -> None:
    content = files("casewright.api.web").joinpath("docs_assets", name).read_bytes()
    tag = sha256(content).hexdigest()[:40]

    def answer() -> Response:
        response = Response(content, mimetype=mimetype)
        response.headers["Content-Security-Policy"] = POLICY
        response.headers["Referrer-Policy"] = "no-referrer"
        response.headers["Cache-Control"] = "no-cache"
        return answer_if_held(request, response, tag)

    routes.add_url_rule(path, name.replace(".", "-"), answer, methods=["GET"])


@lru_cache(maxsize=1)
def _texts() -> tuple[tuple[str, str], ...]:
    found = [f for f in files("casewright.openapi").joinpath("examples").iterdir() if f.name.endswith(".json")]
    named = sorted((f.name.removesuffix(".json"), f.read_text("utf-8")) for f in found)
    return tuple(sorted(named, key=lambda pair: pair[0] != FIRST))


def examples() -> dict[str, Any]:
    """Return the example jobs: `{"examples": [{"name", "title", "job"}]}`."""
    jobs = [(name, json.loads(text)) for name, text in _texts()]
    return {"examples": [{"name": name, "title": job.get("title", name), "job": job} for name, job in jobs]}
