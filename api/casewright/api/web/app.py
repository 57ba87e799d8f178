"""The Flask app, put together: state, routes, problems."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from casewright.api.job import limits
from casewright.api.job.schema import job_schemas
from casewright.api.use.loading import installed
from casewright.api.use.planning import Planner
from casewright.api.web import compare, cures, docs, from_stock, library, papers, problems, service, value, views
from casewright.api.web.guard import Guard
from casewright.api.web.jobs import KEY
from casewright.api.web.openapi import openapi_document
from casewright.api.web.packing import pack
from casewright.api.web.settings import read_settings
from casewright.sdk.loader import Registry
from flask import Flask, Response, request

_QUESTIONS = {
    compare.NAME: compare.answer,
    cures.NAME: cures.answer,
    from_stock.NAME: from_stock.answer,
}


def create_app(
    registry: Registry | None = None, config: Mapping[str, Any] | None = None, guard: Guard | None = None
) -> Flask:
    """Return a WSGI app.

    `registry` defaults to every installed plugin; `config` is put over Flask's own; `guard` defaults to one with the
    settings of the environment. Between requests the app keeps the last few plans and nothing else. Raises
    `RefusedStartError` where a built-in plugin fails or a setting cannot be used.
    """
    guard = Guard(read_settings()) if guard is None else guard
    registry = installed() if registry is None else registry
    # No instance folder is used; naming one spares Flask a search that fails in a namespace installed as editable.
    app = Flask(__name__, static_folder=None, instance_path=str(Path(__file__).parent))
    app.config.from_mapping({"MAX_CONTENT_LENGTH": limits.BODY_BYTES, "MAX_FORM_MEMORY_SIZE": 0})
    app.config.from_mapping(dict(config or {}))
    app.url_map.merge_slashes = False
    app.extensions[KEY] = Planner(registry, keep=guard.settings.kept_plans)
    problems.register(app)
    app.register_blueprint(views.blueprint())
    app.register_blueprint(papers.blueprint())
    for name, answer in _QUESTIONS.items():
        app.add_url_rule(f"/v1/{name}", name, answer, methods=["POST"])
    app.register_blueprint(value.blueprint())
    app.register_blueprint(docs.blueprint(registry))
    app.register_blueprint(library.blueprint(job_schemas(registry)))
    app.register_blueprint(service.blueprint(guard.published(openapi_document(registry))))
    guard.register(app)
    app.after_request(_finish)
    return app


def _finish(response: Response) -> Response:
    pack(request, response)
    if request.method == "OPTIONS" and response.status_code == 200:
        response.headers.pop("Content-Type", None)
    if "Allow" in response.headers:
        response.headers["Allow"] = ", ".join(sorted(response.headers["Allow"].replace(" ", "").split(",")))
    return response
