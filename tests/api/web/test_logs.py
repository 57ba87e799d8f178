"""Logs: one JSON object a line, with nothing of any job in it."""

import json
import logging
from collections.abc import Iterator
from typing import Any

import pytest
from casewright.api.web import create_app
from casewright.api.web.logs import JsonLines
from casewright.sdk.loader import Registry
from flask import Response
from flask.testing import FlaskClient

SECRET = "Ada's repair bay"


@pytest.fixture
def records() -> Iterator[list[dict[str, Any]]]:
    """Yield what is logged, as it is written."""
    lines: list[dict[str, Any]] = []

    class Keep(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            text = JsonLines().format(record)
            assert "\n" not in text
            lines.append(json.loads(text))

    logger, keep = logging.getLogger("casewright"), Keep()
    logger.addHandler(keep)
    level = logger.level
    logger.setLevel(logging.INFO)
    yield lines
    logger.setLevel(level)
    logger.removeHandler(keep)


def test_a_request_is_one_line_without_the_job(
    client: FlaskClient, job: dict[str, Any], records: list[dict[str, Any]]
) -> None:
    job["title"] = SECRET
    client.post(f"/v1/plan?{SECRET}=1", json=job, headers={"X-Request-Id": "one"})
    client.post("/v1/plan", json={**job, "unitz": SECRET})
    client.get(f"/{SECRET}")
    assert [(line["path"], line["status"]) for line in records] == [("/v1/plan", 400), ("/v1/plan", 400), ("-", 404)]
    assert records[0]["request"] == "one"
    assert records[0]["level"] == "info"
    assert not any(SECRET.split()[0] in json.dumps(line) for line in records)


def test_a_fault_is_told_by_its_place_only(registry: Registry, records: list[dict[str, Any]]) -> None:
    app = create_app(registry)

    @app.get("/fails")
    def fails() -> Response:
        raise KeyError(SECRET + "\nand a second line")

    app.test_client().get("/fails", headers={"X-Request-Id": "two"})
    fault, line = records
    assert (fault["raised"], fault["request"], line["status"]) == ("KeyError", "two", 500)
    assert fault["frames"][-1].endswith(" fails")
    assert SECRET.split()[0] not in json.dumps(records)


def test_each_record_is_one_line_of_json() -> None:
    record = logging.LogRecord(
        "gunicorn.error", logging.ERROR, "", 0, "Error handling request %s", (f"/?{SECRET}",), None
    )
    record.exc_info = (ValueError, ValueError(SECRET), None)
    text = JsonLines().format(record)
    assert "\n" not in text
    assert SECRET not in text
    assert json.loads(text)["raised"] == "ValueError"
