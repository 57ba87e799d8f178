"""Concurrent requests share nothing that changes: many threads, different jobs and views, the same bytes as alone.

The app is driven in process by threads that the interpreter switches every few microseconds, so that any state two
requests share would be met half changed. A planner that does keep state shows that the test sees it.
"""

import copy
import json
import random
import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest
from casewright.api.web import create_app
from casewright.sdk.loader import Registry
from flask import Response, request

THREADS = 8
SEED = 20260711
VIEWS = ("plan", "parts", "hardware", "mounting", "steps", "parts?as=csv", "drawings/elevation?as=svg", "model")


@pytest.fixture(autouse=True)
def switching() -> Iterator[None]:
    """Let threads take turns as often as they can."""
    before = sys.getswitchinterval()
    sys.setswitchinterval(1e-6)
    yield
    sys.setswitchinterval(before)


def jobs(example: dict[str, Any], count: int) -> list[dict[str, Any]]:
    """Return unlike jobs, some of them in error: other sizes, units, methods, stock and houses."""
    draw = random.Random(SEED)
    made = []
    for i in range(count):
        job = copy.deepcopy(example)
        job.pop("stock", None)
        job["title"] = f"job {i}"
        job["cabinets"] = job["cabinets"][i % 2 :][:1]
        job["cabinets"][0]["width"] = 26 + draw.randrange(64) / 8
        job["wall"].pop("cabinets_at", None)
        job["cabinets"][0].pop("count", None)
        if i % 5 == 1:
            job["units"] = "mm"
            job["materials"] = {key: {**m, "thickness": "18 mm"} for key, m in job["materials"].items()}
            job["house"]["depth"] = 300
            job["cabinets"][0] |= {"width": 600 + i, "height": 700, "space": {"front": "open", "fixed_shelves": 2}}
        if i % 5 == 2:
            job["house"]["case"]["corner"] = {"method": "rabbet"}
        if i % 7 == 3:
            job["cabinets"][0]["widht"] = 5
        if i % 7 == 4:
            job["house"]["face_frame"]["material"] = "absent"
        made.append(job)
    return made


def race(app: Any, requests: list[tuple[str, bytes]], rounds: int) -> list[str]:
    """Ask everything alone, then by many threads at once in shuffled orders; return where answers differ."""

    def ask(path: str, body: bytes) -> tuple[int, bytes, str | None]:
        answer = app.test_client().post(path, data=body, content_type="application/json")
        return answer.status_code, answer.data, answer.headers.get("ETag")

    alone = {pair: ask(*pair) for pair in requests}
    order = [pair for _ in range(rounds) for pair in random.Random(SEED).sample(requests, len(requests))]
    with ThreadPoolExecutor(THREADS) as pool:
        together = list(pool.map(lambda pair: ask(*pair), order))
    return [
        f"{pair[0]}: {alone[pair][0]} {got[0]}" for pair, got in zip(order, together, strict=True) if got != alone[pair]
    ]


def test_the_same_bytes_as_alone(registry: Registry, example: dict[str, Any], full: bool) -> None:
    views = VIEWS if full else VIEWS[:6]
    requests = [
        (f"/v1/{views[i % len(views)]}", json.dumps(job).encode())
        for i, job in enumerate(jobs(example, 96 if full else 24))
    ]
    app = create_app(registry)
    statuses = {app.test_client().post(p, data=b, content_type="application/json").status_code for p, b in requests}
    assert statuses == {200, 400, 422}
    assert race(app, requests, 6 if full else 2) == []


def test_an_app_made_cold_is_raced_too(example: dict[str, Any]) -> None:
    """The first requests fill what is made once: they too must not see it half made."""
    from casewright.sdk.loader import load

    requests = [("/v1/parts", json.dumps(job).encode()) for job in jobs(example, 8)]
    want = create_app(load(discover="built-in")).test_client()
    alone = [want.post(p, data=b, content_type="application/json").data for p, b in requests]
    cold = create_app(load(discover="built-in"))
    with ThreadPoolExecutor(THREADS) as pool:
        together = list(
            pool.map(lambda a: cold.test_client().post(a[0], data=a[1], content_type="application/json").data, requests)
        )
    assert together == alone


def test_shared_state_would_be_seen(registry: Registry) -> None:
    app = create_app(registry)
    shared: dict[str, bytes] = {}

    @app.post("/v1/leaky")
    def leaky() -> Response:
        shared["body"] = request.get_data()
        for _ in range(2000):
            pass
        return Response(shared["body"])

    requests = [("/v1/leaky", str(i).encode()) for i in range(50)]
    assert race(app, requests, 20)
