"""The app as a whole: methods by RFC 9110."""

from collections.abc import Callable
from typing import Any

import pytest
from flask.testing import FlaskClient

IsProblem = Callable[[Any, str], dict[str, Any]]


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
def test_405_says_what_is_allowed(
    client: FlaskClient, method: str, path: str, allow: str, is_problem: IsProblem
) -> None:
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
