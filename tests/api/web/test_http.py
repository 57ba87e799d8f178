"""Every status over HTTP: RFC 9110 for methods, conditions and negotiation, RFC 9457 for problems."""

import json
import logging
from typing import Any

import pytest
from casewright.api.job import limits
from casewright.api.web import create_app
from casewright.api.web.problems import KINDS
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.loader import Registry, load
from casewright.sdk.methods import MountDesign, MountingMethod, MountRequest
from flask import Response
from flask.testing import FlaskClient

PROBLEM = "application/problem+json"


def is_problem(answer: Any, name: str) -> dict[str, Any]:
    assert answer.mimetype == PROBLEM
    body: dict[str, Any] = answer.get_json()
    kind = KINDS[name]
    assert (body["type"], body["status"], answer.status_code) == (kind.type, kind.status, kind.status)
    assert body["title"]
    assert body["detail"]
    assert isinstance(body["errors"], list)
    return body


def test_the_example_job_has_a_plan(client: FlaskClient, example: dict[str, Any]) -> None:
    answer = client.post("/v1/plan", json=example)
    assert answer.status_code == 200
    assert answer.mimetype == "application/json"
    assert [line["cabinet"] for line in answer.get_json()["summary"]] == [c["id"] for c in example["cabinets"]]


@pytest.mark.parametrize("view", ["plan", "parts", "hardware", "steps", "stock", "mounting"])
def test_every_view_is_a_part_of_the_plan(client: FlaskClient, example: dict[str, Any], view: str) -> None:
    whole = client.post("/v1/plan", json=example).get_json()
    part = client.post(f"/v1/{view}", json=example).get_json()
    assert part.items() <= whole.items()
    assert view in part or view == "plan"


@pytest.mark.parametrize(
    "path", ["/", "/v1", "/v1/plan/", "/v2/plan", "//v1/limits", "/v1/limits/", "/problems/x", "/%00"]
)
def test_404(client: FlaskClient, path: str) -> None:
    is_problem(client.get(path), "not-found")


@pytest.mark.parametrize(
    ("method", "path", "allow"),
    [
        ("GET", "/v1/plan", "OPTIONS, POST"),
        ("PUT", "/v1/parts", "OPTIONS, POST"),
        ("DELETE", "/v1/limits", "GET, HEAD, OPTIONS"),
        ("POST", "/openapi.json", "GET, HEAD, OPTIONS"),
        ("TRACE", "/healthz", "GET, HEAD, OPTIONS"),
    ],
)
def test_405_says_what_is_allowed(client: FlaskClient, method: str, path: str, allow: str) -> None:
    answer = client.open(path, method=method)
    is_problem(answer, "method-not-allowed")
    assert answer.headers["Allow"] == allow


def test_options_and_head(client: FlaskClient) -> None:
    options = client.options("/v1/plan")
    assert (options.status_code, options.headers["Allow"], options.data) == (200, "OPTIONS, POST", b"")
    head, get = client.head("/v1/limits"), client.get("/v1/limits")
    assert (head.status_code, head.data) == (200, b"")
    assert head.headers["Content-Length"] == get.headers["Content-Length"]
    assert head.headers["ETag"] == get.headers["ETag"]


@pytest.mark.parametrize(
    ("accept", "mimetype"),
    [
        (None, "application/json"),
        ("*/*", "application/json"),
        ("text/csv", "text/csv"),
        ("text/*", "text/csv"),
        ("application/json;q=0.5, text/csv", "text/csv"),
        ("text/html, application/json", "application/json"),
    ],
)
def test_accept_chooses(client: FlaskClient, job: dict[str, Any], accept: str | None, mimetype: str) -> None:
    answer = client.post("/v1/parts", json=job, headers={} if accept is None else {"Accept": accept})
    assert (answer.status_code, answer.mimetype) == (200, mimetype)
    assert "Accept" in answer.headers["Vary"]


def test_as_overrides_accept(client: FlaskClient, job: dict[str, Any]) -> None:
    answer = client.post("/v1/parts?as=csv", json=job, headers={"Accept": "application/json"})
    assert answer.mimetype == "text/csv"


def test_406(client: FlaskClient, job: dict[str, Any]) -> None:
    body = is_problem(client.post("/v1/plan", json=job, headers={"Accept": "text/csv"}), "not-acceptable")
    assert body["errors"][0]["pointer"] == "Accept"
    is_problem(client.get("/v1/limits", headers={"Accept": "text/html"}), "not-acceptable")
    is_problem(client.post("/v1/parts", json=job, headers={"Accept": "text/csv;q=0"}), "not-acceptable")


@pytest.mark.parametrize("query", ["as=xml", "as=", "as=csv&as=json", "format=csv", "as=csv"])
def test_a_query_that_cannot_be_read(client: FlaskClient, job: dict[str, Any], query: str) -> None:
    is_problem(client.post(f"/v1/plan?{query}", json=job), "bad-query")


@pytest.mark.parametrize(
    "headers",
    [
        {},
        {"Content-Type": "text/plain"},
        {"Content-Type": "application/vnd.x+json"},
        {"Content-Type": "application/json; charset=latin-1"},
        {"Content-Type": "multipart/form-data; boundary=x"},
        {"Content-Type": "application/json", "Content-Encoding": "gzip"},
    ],
)
def test_415(client: FlaskClient, job: dict[str, Any], headers: dict[str, str]) -> None:
    is_problem(client.post("/v1/plan", data=json.dumps(job), headers=headers), "unsupported-media-type")


def test_413(client: FlaskClient) -> None:
    body = b" " * (limits.BODY_BYTES + 1)
    is_problem(client.post("/v1/plan", data=body, content_type="application/json"), "too-large")


def test_an_answer_already_held(client: FlaskClient, job: dict[str, Any]) -> None:
    first = client.post("/v1/plan", json=job)
    tag = first.headers["ETag"]
    held = client.post("/v1/plan", json=dict(reversed(job.items())), headers={"If-None-Match": f'"x", W/{tag}'})
    is_problem(held, "already-have-plan")
    assert held.headers["ETag"] == tag
    job["title"] = "another"
    assert client.post("/v1/plan", json=job, headers={"If-None-Match": tag}).status_code == 200
    assert client.post("/v1/plan", json=job, headers={"If-None-Match": "*"}).status_code == 200


def test_tags_tell_views_and_formats_apart(client: FlaskClient, job: dict[str, Any]) -> None:
    paths = ("/v1/plan", "/v1/parts", "/v1/parts?as=csv", "/v1/steps")
    assert len({client.post(path, json=job).headers["ETag"] for path in paths}) == len(paths)


@pytest.mark.parametrize(
    "path", ["/v1/methods", "/v1/materials", "/v1/sources", "/v1/limits", "/v1/plugins", "/openapi.json"]
)
def test_304_on_get_only(client: FlaskClient, path: str) -> None:
    first = client.get(path)
    assert first.status_code == 200
    again = client.get(path, headers={"If-None-Match": first.headers["ETag"]})
    assert (again.status_code, again.data) == (304, b"")


def test_health_readiness_and_version(client: FlaskClient, registry: Registry) -> None:
    assert client.get("/healthz").get_json() == {"status": "alive"}
    assert client.get("/readyz").get_json()["status"] == "ready"
    version = client.get("/version").get_json()
    assert version["software"] == "casewright"
    assert len(version["plugins"]) == len(registry.plugins)


def test_every_kind_of_problem_is_explained_where_its_type_points(client: FlaskClient) -> None:
    for kind in KINDS.values():
        body = client.get(kind.type).get_json()
        assert (body["status"], body["title"]) == (kind.status, kind.title)


def test_methods_show_their_options(client: FlaskClient) -> None:
    methods = {(m["family"], m["id"]): m for m in client.get("/v1/methods").get_json()["methods"]}
    groove = methods["joints", "housed-groove"]
    assert "depth" in groove["options"]["properties"]
    assert groove["options"]["additionalProperties"] is False


def test_limits_are_the_ones_kept(client: FlaskClient) -> None:
    published = {row["name"]: row["value"] for row in client.get("/v1/limits").get_json()["limits"]}
    assert published["body_bytes"] == limits.BODY_BYTES
    assert published["json_depth"] == limits.JSON_DEPTH


class Faulty(MountingMethod):
    """A mounting of an outside plugin that fails."""

    id, title = "faulty", "Faulty"

    def build(self, request: MountRequest, options: Any) -> MountDesign:
        raise ZeroDivisionError("secret")


class Outside:
    @hookimpl
    def casewright_mountings(self) -> list[MountingMethod]:
        return [Faulty()]


def test_a_faulty_plugin_is_named_and_the_service_does_not_fail(example: dict[str, Any]) -> None:
    client = create_app(load(extra=[("outside", Outside())])).test_client()
    for cabinet in example["cabinets"]:
        cabinet["mounting"] = {"method": "faulty"}
    body = is_problem(client.post("/v1/plan", json=example), "plugin-fault")
    assert (body["plugin"], body["method"]) == ("outside", "faulty")


def test_an_unexpected_fault_tells_nothing_and_is_logged(
    registry: Registry, job: dict[str, Any], caplog: pytest.LogCaptureFixture
) -> None:
    app = create_app(registry)

    @app.get("/fails")
    def fails() -> Response:
        raise RuntimeError("a secret")

    with caplog.at_level(logging.ERROR):
        answer = app.test_client().get("/fails")
    is_problem(answer, "internal")
    assert "secret" not in answer.get_data(as_text=True)
    assert any(record.exc_info for record in caplog.records)


def test_no_answer_is_html(client: FlaskClient, job: dict[str, Any]) -> None:
    for method in ("GET", "POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE"):
        for path in ("/", "/v1/plan", "/v1/plan/", "/v1/limits", "/healthz", "/v1/value"):
            assert "html" not in client.open(path, method=method).headers.get("Content-Type", "")
