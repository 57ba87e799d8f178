"""Entity tags and conditional requests, by RFC 9110 (13.1.2)."""

from collections.abc import Callable
from typing import Any

import pytest
from flask.testing import FlaskClient

IsProblem = Callable[[Any, str], dict[str, Any]]


def test_an_answer_already_held(client: FlaskClient, job: dict[str, Any], is_problem: IsProblem) -> None:
    first = client.post("/v1/plan", json=job)
    tag = first.headers["ETag"]
    unchanged = client.post("/v1/plan", json=dict(reversed(job.items())), headers={"If-None-Match": f'"x", W/{tag}'})
    is_problem(unchanged, "already-have-plan")
    assert unchanged.headers["ETag"] == tag
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
