"""The time budget of a request."""

import json
import signal
import time
from collections.abc import Callable
from typing import Any

import pytest
from casewright.api.web import create_app
from casewright.api.web.budget import Budget
from casewright.api.web.guard import Guard
from casewright.api.web.settings import Settings
from casewright.sdk.loader import Registry
from flask import Response

IsProblem = Callable[[Any, str], dict[str, Any]]


def test_a_request_over_its_budget_is_answered(registry: Registry, is_problem: IsProblem) -> None:
    app = create_app(registry, guard=Guard(Settings(), budget=Budget(0.05)))

    @app.get("/slow")
    def slow() -> str:
        while True:
            time.sleep(0.01)

    @app.get("/stream")
    def stream() -> Response:
        def lines() -> Any:
            yield b'{"progress":{}}\n'
            time.sleep(5)

        return Response(lines(), mimetype="application/x-ndjson")

    client = app.test_client()
    answer = client.get("/slow")
    assert "budget_seconds" in is_problem(answer, "over-budget")["errors"][0]["rule"]
    assert "X-Request-Id" in answer.headers
    assert client.get("/healthz").status_code == 200

    sent = client.get("/stream").data.splitlines()
    assert json.loads(sent[-1])["problem"]["type"] == "/problems/over-budget"
    time.sleep(0.1)  # no alarm is left behind


@pytest.mark.parametrize("error", [None, ZeroDivisionError()])
def test_an_alarm_that_comes_as_it_is_put_off_is_answered_too(
    registry: Registry, is_problem: IsProblem, monkeypatch: pytest.MonkeyPatch, error: Exception | None
) -> None:
    app = create_app(registry, guard=Guard(Settings(), budget=Budget(60)))
    real = signal.setitimer

    def late(which: int, seconds: float) -> Any:
        if seconds == 0:
            signal.raise_signal(signal.SIGALRM)
        return real(which, seconds)

    @app.get("/brief")
    def brief() -> str:
        if error is not None:
            raise error
        return "done"

    monkeypatch.setattr(signal, "setitimer", late)
    answer = app.test_client().get("/brief")
    monkeypatch.undo()
    signal.setitimer(signal.ITIMER_REAL, 0)
    is_problem(answer, "over-budget")


CHANGES = [{"name": "wider", "patch": []}]


@pytest.mark.parametrize(
    ("path", "parts", "stock", "fix"),
    [
        ("plan", 1, None, "Send a cabinet with fewer parts."),
        ("plan", 2, None, "Send fewer cabinets or parts at a time."),
        ("plan", 2, {"effort": 1}, "Send fewer cabinets or parts at a time."),
        ("plan", 1, {}, "Send a lower stock.effort."),
        ("compare", 1, None, "Send fewer changes at a time."),
        (
            "compare",
            2,
            {},
            "Send fewer changes at a time, or fewer cabinets or parts at a time, or a lower stock.effort.",
        ),
    ],
)
def test_the_advice_fits_what_was_sent(
    registry: Registry,
    job: dict[str, Any],
    path: str,
    parts: int,
    stock: Any,
    fix: str,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def endless(*_: object, **__: object) -> None:
        time.sleep(5)

    monkeypatch.setattr("casewright.api.use.planning.make_plan", endless)
    monkeypatch.setattr("casewright.api.web.compare.compare", endless)
    client = create_app(registry, guard=Guard(Settings(), budget=Budget(0.1))).test_client()
    lid = job["loose_parts"][0]
    sent = {**job, "loose_parts": [{**lid, "id": f"lid-{i}"} for i in range(parts)]}
    sent |= {} if stock is None else {"stock": stock}
    answer = client.post(f"/v1/{path}", json={"job": sent, "changes": CHANGES} if path == "compare" else sent)
    assert answer.status_code == 422
    assert [error["fix"] for error in answer.get_json()["errors"]] == [fix]


@pytest.mark.parametrize(
    ("stock", "advised"), [(None, False), ({"effort": 1}, False), ({}, True), ({"effort": 4}, True)]
)
def test_a_lower_effort_is_advised_where_it_can_be_lower(
    registry: Registry, job: dict[str, Any], stock: Any, advised: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    def endless(*_: object, **__: object) -> None:
        time.sleep(5)

    monkeypatch.setattr("casewright.api.use.planning.make_plan", endless)
    client = create_app(registry, guard=Guard(Settings(), budget=Budget(0.2))).test_client()
    for form in ("json", "ndjson"):
        answer = client.post(f"/v1/stock?as={form}", json=job if stock is None else {**job, "stock": stock})
        problem = json.loads(answer.data.splitlines()[-1])
        (error,) = problem.get("problem", problem)["errors"]
        assert ("effort" in error["fix"]) is advised
