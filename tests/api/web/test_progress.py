"""Progress as lines of JSON, and as a bar on a terminal."""

import base64
import json
import socket
import threading
import time
from typing import Any

import pytest
from casewright.api.web import create_app
from casewright.sdk.loader import Registry
from flask.testing import FlaskClient
from werkzeug.utils import import_string

LINES = "application/x-ndjson"


def lines(answer: Any) -> list[dict[str, Any]]:
    assert answer.mimetype == LINES
    assert answer.data.endswith(b"\n")
    return [json.loads(line) for line in answer.data.splitlines()]


def rises(reports: list[dict[str, Any]]) -> bool:
    """Whether no stage goes back and none counts past its end."""
    seen: dict[str, int] = {}
    for line in reports:
        step = line["progress"]
        if step["done"] > step["of"] or step["done"] < seen.get(step["stage"], 0):
            return False
        seen[step["stage"]] = step["done"]
    return True


def test_stock_tells_its_progress_then_answers_the_same(client: FlaskClient, example: dict[str, Any]) -> None:
    answer = client.post("/v1/stock", json=example, headers={"Accept": LINES})
    *reports, last = lines(answer)
    assert answer.status_code == 200
    assert rises(reports)
    assert {line["progress"]["stage"] for line in reports} == {"cabinets", "cutting", "settings"}
    assert last["result"] == client.post("/v1/stock", json=example).get_json()
    assert answer.headers["ETag"] != client.post("/v1/stock", json=example).headers["ETag"]


def test_the_booklet_comes_as_base64(client: FlaskClient, job: dict[str, Any]) -> None:
    *reports, last = lines(client.post("/v1/booklet?as=ndjson", json=job))
    assert rises(reports)
    assert reports[-1]["progress"]["stage"] == "writing"
    assert last["result"]["media_type"] == "application/pdf"
    assert base64.b64decode(last["result"]["base64"]) == client.post("/v1/booklet", json=job).data


def test_what_reading_tells_keeps_its_status(client: FlaskClient, job: dict[str, Any]) -> None:
    for path in ("/v1/stock", "/v1/booklet"):
        answer = client.post(f"{path}?as=ndjson", json={**job, "unitz": "mm"})
        assert (answer.status_code, answer.mimetype) == (400, "application/problem+json")


def test_a_problem_found_on_the_way_is_the_last_line(client: FlaskClient, example: dict[str, Any]) -> None:
    example["cabinets"][1]["width"] = 3  # two stiles of 1 3/4 in leave no opening in a frame 3 in wide
    *reports, last = lines(client.post("/v1/stock?as=ndjson", json=example))
    assert reports
    assert last["problem"] == client.post("/v1/stock", json=example).get_json()
    assert last["problem"]["status"] == 422


def test_a_fault_of_ours_is_answered_as_any_other(
    registry: Registry, job: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise RuntimeError("a secret")

    monkeypatch.setattr("casewright.api.use.planning.make_plan", broken)
    (last,) = lines(create_app(registry).test_client().post("/v1/stock?as=ndjson", json=job))
    assert last["problem"]["status"] == 500
    assert "secret" not in json.dumps(last)


@pytest.mark.parametrize("where", ["casewright.api.use.planning.make_plan", "casewright.api.web.progress._problem"])
def test_too_little_memory_in_the_thread_is_the_last_line(
    registry: Registry, example: dict[str, Any], monkeypatch: pytest.MonkeyPatch, where: str
) -> None:
    """While the job is planned, and while a problem that came up is written."""
    kept, times = import_string(where), []

    def short(*given: Any, **named: Any) -> Any:
        times.append(1)
        if len(times) == 1:
            raise MemoryError
        return kept(*given, **named)

    example["cabinets"][1]["width"] = 3  # which cannot be built, as above
    monkeypatch.setattr(where, short)
    monkeypatch.setattr("casewright.api.web.progress.LOOK_SECONDS", 0.1)
    last = lines(create_app(registry).test_client().post("/v1/stock?as=ndjson", json=example))[-1]
    assert last["problem"]["status"] == 503
    assert times


def test_no_thread_for_want_of_memory_is_the_last_line(
    registry: Registry, job: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    """What Python raises then: `_threadmodule.c` of CPython turns every failure of `pthread_create` into this."""

    def none(self: threading.Thread) -> None:
        raise RuntimeError("can't start new thread")

    client = create_app(registry).test_client()
    monkeypatch.setattr(threading.Thread, "start", none)
    (last,) = lines(client.post("/v1/stock?as=ndjson", json=job))
    assert last["problem"]["status"] == 503


def test_other_views_have_no_lines(client: FlaskClient, job: dict[str, Any]) -> None:
    assert client.post("/v1/plan?as=ndjson", json=job).status_code == 400


def test_lines_end_when_the_client_has_left(
    registry: Registry, job: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    def slow(*_: object, progress: Any, **__: object) -> dict[str, Any]:
        progress("cutting", 1, 2)
        time.sleep(1.5)
        return {}

    monkeypatch.setattr("casewright.api.use.planning.Planner.document", slow)
    monkeypatch.setattr("casewright.api.web.progress.LOOK_SECONDS", 0.1)
    client, counts = create_app(registry).test_client(), {}
    for left in ("no", "half", "all"):
        ours, theirs = socket.socketpair()
        if left != "no":
            theirs.shutdown(socket.SHUT_WR)  # as a client does that only says it has sent everything
        if left == "all":
            theirs.close()
        answer = client.post("/v1/stock?as=ndjson", json=job, environ_overrides={"gunicorn.socket": ours})
        counts[left] = len(answer.data.splitlines())
        ours.close()
        theirs.close()
    assert counts == {"no": 2, "half": 2, "all": 1}
