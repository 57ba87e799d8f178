"""Every error as a problem by RFC 9457."""

import logging
from collections.abc import Callable
from typing import Any

import pytest
from casewright.api.job import limits
from casewright.api.web import create_app
from casewright.api.web.guard import Guard
from casewright.api.web.settings import read_settings
from casewright.sdk import memory
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.loader import Registry, load
from casewright.sdk.methods import MountDesign, MountingMethod, MountRequest
from flask import Response
from flask.testing import FlaskClient

IsProblem = Callable[[Any, str], dict[str, Any]]


@pytest.mark.parametrize("path", ["/v1", "/v1/plan/", "/v2/plan", "//v1/limits", "/v1/limits/", "/problems/x", "/%00"])
def test_404(client: FlaskClient, path: str, is_problem: IsProblem) -> None:
    is_problem(client.get(path), "not-found")


@pytest.mark.parametrize(
    ("method", "path", "kind", "fix"),
    [
        ("POST", "/v1/drawings/elevaton", "not-found", "Ask for /v1/drawings/elevation."),
        ("POST", "/V1/plans", "not-found", "Ask for /v1/plan."),
        ("GET", "/öÿ", "not-found", "Ask for a path that /openapi.json lists."),
        ("GET", "/v1/plan", "method-not-allowed", "Send POST."),
        ("POST", "/v1/limits", "method-not-allowed", "Send GET."),
    ],
)
def test_a_wrong_path_or_method_names_the_right_one(
    client: FlaskClient, method: str, path: str, kind: str, fix: str, is_problem: IsProblem
) -> None:
    (entry,) = is_problem(client.open(path, method=method), kind)["errors"]
    assert entry["fix"] == fix


def test_413(client: FlaskClient, is_problem: IsProblem) -> None:
    body = b" " * (limits.BODY_BYTES + 1)
    is_problem(client.post("/v1/plan", data=body, content_type="application/json"), "too-large")


class Faulty(MountingMethod):
    """A mounting of an outside plugin that raises an error."""

    id, title = "faulty", "Faulty"

    def __init__(self, error: Exception) -> None:
        self.error = error

    def build(self, request: MountRequest, options: Any) -> MountDesign:
        raise self.error


class Outside:
    def __init__(self, error: Exception) -> None:
        self.error = error

    @hookimpl
    def casewright_mountings(self) -> list[MountingMethod]:
        return [Faulty(self.error)]


def answer_where_a_mounting_raises(error: Exception, example: dict[str, Any], noted: list[str]) -> Any:
    guard = Guard(read_settings({}), out_of_memory=lambda: noted.append("out of memory"))
    client = create_app(load(extra=[("outside", Outside(error))]), guard=guard).test_client()
    for cabinet in example["cabinets"]:
        cabinet["mounting"] = {"method": "faulty"}
    return client.post("/v1/plan", json=example)


def test_a_faulty_plugin_is_named_and_the_service_does_not_fail(example: dict[str, Any], is_problem: IsProblem) -> None:
    noted: list[str] = []
    answer = answer_where_a_mounting_raises(ZeroDivisionError("secret"), example, noted)
    body = is_problem(answer, "plugin-fault")
    assert (body["plugin"], body["method"], noted) == ("outside", "faulty", [])


def test_too_little_memory_is_no_plugins_fault_and_may_be_asked_again(
    example: dict[str, Any], is_problem: IsProblem
) -> None:
    noted: list[str] = []
    answer = answer_where_a_mounting_raises(MemoryError(), example, noted)
    (entry,) = is_problem(answer, "unavailable")["errors"]
    assert "fewer cabinets" in entry["fix"]
    assert int(answer.headers["Retry-After"]) > 0
    assert noted == ["out of memory"]


@pytest.mark.parametrize(("ended", "kind"), [(True, "unavailable"), (False, "plugin-fault")])
def test_an_interpreter_that_fails_at_the_end_of_its_memory_is_short_of_it(
    monkeypatch: pytest.MonkeyPatch, example: dict[str, Any], ended: bool, kind: str, is_problem: IsProblem
) -> None:
    monkeypatch.setattr(memory, "_has_ended", lambda: ended)
    noted: list[str] = []
    is_problem(answer_where_a_mounting_raises(SystemError("error return without exception set"), example, noted), kind)
    assert noted == ["out of memory"] * ended


@pytest.mark.parametrize(
    ("error", "kind"), [(MemoryError, "unavailable"), (RuntimeError, "internal"), (SystemError, "internal")]
)
def test_a_fault_as_an_answer_is_sent_off_is_a_problem_too(
    registry: Registry, error: type[Exception], kind: str, is_problem: IsProblem
) -> None:
    app = create_app(registry)
    raised = []

    @app.after_request
    def fails(response: Response) -> Response:
        if not raised:
            raised.append(error())
            raise raised[0]
        return response

    is_problem(app.test_client().get("/version"), kind)


def test_an_unexpected_fault_tells_nothing_and_is_logged(
    registry: Registry, job: dict[str, Any], caplog: pytest.LogCaptureFixture, is_problem: IsProblem
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
