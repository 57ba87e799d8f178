"""What is read and answered: `Accept` and content types by RFC 9110, and `?as=`."""

import json
from collections.abc import Callable
from typing import Any

import pytest
from flask.testing import FlaskClient

IsProblem = Callable[[Any, str], dict[str, Any]]


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


def test_406(client: FlaskClient, job: dict[str, Any], is_problem: IsProblem) -> None:
    body = is_problem(client.post("/v1/plan", json=job, headers={"Accept": "text/csv"}), "not-acceptable")
    assert body["errors"][0]["pointer"] == "Accept"
    is_problem(client.get("/v1/limits", headers={"Accept": "text/html"}), "not-acceptable")
    is_problem(client.post("/v1/parts", json=job, headers={"Accept": "text/csv;q=0"}), "not-acceptable")


@pytest.mark.parametrize("query", ["as=xml", "as=", "as=csv&as=json", "format=csv", "as=csv"])
def test_a_query_that_cannot_be_read(
    client: FlaskClient, job: dict[str, Any], query: str, is_problem: IsProblem
) -> None:
    is_problem(client.post(f"/v1/plan?{query}", json=job), "bad-query")


@pytest.mark.parametrize(
    "headers",
    [
        {},
        {"Content-Type": "text/plain"},
        {"Content-Type": "application/vnd.x+xml"},
        {"Content-Type": "application/json; charset=latin-1"},
        {"Content-Type": "multipart/form-data; boundary=x"},
        {"Content-Type": "application/json", "Content-Encoding": "gzip"},
    ],
)
def test_415(client: FlaskClient, job: dict[str, Any], headers: dict[str, str], is_problem: IsProblem) -> None:
    is_problem(client.post("/v1/plan", data=json.dumps(job), headers=headers), "unsupported-media-type")
