"""The board: Prometheus' own parser reads it, and what workers count adds up, also past a worker's end."""

import json
import os
import urllib.request
from collections import defaultdict
from threading import Thread
from typing import Any

import pytest
from casewright.api.web import create_app
from casewright.api.web.classes import WorkClass
from casewright.api.web.guard import Guard
from casewright.api.web.line import Figures
from casewright.api.web.metrics import BUCKETS, Board, metrics_server
from casewright.api.web.settings import Settings
from casewright.sdk.loader import Registry
from prometheus_client.parser import text_string_to_metric_families


def read_samples(text: str) -> dict[str, dict[tuple[str, ...], float]]:
    """Return samples by name and label values, as Prometheus' Python client parses them."""
    counted: dict[str, dict[tuple[str, ...], float]] = defaultdict(dict)
    for family in text_string_to_metric_families(text):
        for sample in family.samples:
            counted[sample.name][tuple(sample.labels.values())] = sample.value
    return counted


def test_requests_are_counted_by_route_method_and_status(registry: Registry, job: dict[str, Any]) -> None:
    board = Board(2)
    app = create_app(registry, guard=Guard(Settings(), count=board.count))
    board.open(rule.rule for rule in app.url_map.iter_rules())
    client = app.test_client()
    sent = sum(len(client.post("/v1/parts", json=job).data) for _ in range(3))
    client.post("/v1/parts", json={**job, "title": 5})
    client.get("/secret/path")
    client.open("/healthz", method="BREW")
    text = board.text()
    counted = read_samples(text)
    assert counted["casewright_requests_total"] == {
        ("/v1/parts", "POST", "200"): 3,
        ("/v1/parts", "POST", "400"): 1,
        ("-", "GET", "404"): 1,
        ("-", "other", "405"): 1,
    }
    assert counted["casewright_request_seconds_count"] == {("/v1/parts",): 4, ("-",): 2}
    assert counted["casewright_sent_bytes_total"][("/v1/parts",)] > sent
    assert counted["casewright_cpu_seconds_total"][()] >= 0
    assert "secret" not in text


def test_buckets_hold_what_is_below_their_ends() -> None:
    board = Board(1)
    board.open(["/a"])
    for seconds in (0.0005, 0.001, 0.0011, 29.0, 31.0):
        board.count("/a", "GET", 200, seconds, 0)
    counted = read_samples(board.text())["casewright_request_seconds_bucket"]
    assert counted[("/a", "0.001")] == 2
    assert counted[("/a", "0.0025")] == 3
    assert counted[("/a", "30.0")] == 4
    assert counted[("/a", "+Inf")] == 5
    assert len(counted) == len(BUCKETS) + 1


def test_workers_add_up_and_outlive_themselves() -> None:
    board = Board(3)
    board.open(["/a"])
    for slot in (0, 1, 1, 2):
        child = os.fork()
        if child == 0:
            board.take(slot)
            for _ in range(100):
                board.count("/a", "GET", 200, 0.01, 7)
            os._exit(0)
        assert os.waitpid(child, 0)[1] == 0
    counted = read_samples(board.text())
    assert counted["casewright_requests_total"] == {("/a", "GET", "200"): 400}
    assert counted["casewright_sent_bytes_total"] == {("/a",): 2800}


def test_threads_of_one_worker_lose_nothing() -> None:
    board = Board(1)
    board.open(["/a"])
    threads = [Thread(target=lambda: [board.count("/a", "GET", 200, 0.01, 1) for _ in range(500)]) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert read_samples(board.text())["casewright_requests_total"] == {("/a", "GET", "200"): 4000}


def test_the_port_answers_metrics_and_nothing_else() -> None:
    board = Board(1)
    board.open(["/a"])
    board.count("/a", "GET", 200, 0.01, 1)
    server = metrics_server(board, "127.0.0.1", 0)
    thread = Thread(target=server.serve_forever, daemon=True)
    thread.start()
    base = f"http://127.0.0.1:{server.server_address[1]}"
    with urllib.request.urlopen(f"{base}/metrics", timeout=5) as answer:
        assert answer.headers["Content-Type"].startswith("text/plain; version=0.0.4")
        assert read_samples(answer.read().decode())["casewright_requests_total"] == {("/a", "GET", "200"): 1}
    with pytest.raises(urllib.error.HTTPError) as caught:
        urllib.request.urlopen(f"{base}/", timeout=5)
    assert caught.value.code == 404
    caught.value.close()
    server.shutdown()
    server.server_close()
    thread.join()


def test_a_broken_label_would_be_seen() -> None:
    # The parser this file trusts refuses text that is not Prometheus' format.
    with pytest.raises(ValueError, match=r".*"):
        read_samples('casewright_requests_total{route="/a} 1\n' + json.dumps({}))


def test_the_line_is_shown_by_class_of_work() -> None:
    board = Board(1)
    board.open([])
    board.count_line(WorkClass.SMALL, Figures(waiting=1, running=2, admitted=30, refused=4, waited_seconds=5.5))
    board.count_line(WorkClass.HEAVY, Figures(waiting=6, running=1, admitted=7, refused=0, waited_seconds=80.25))
    counted = read_samples(board.text())
    assert counted["casewright_line_waiting"] == {("small",): 1, ("heavy",): 6}
    assert counted["casewright_line_running"] == {("small",): 2, ("heavy",): 1}
    assert counted["casewright_line_admitted_total"] == {("small",): 30, ("heavy",): 7}
    assert counted["casewright_line_refused_total"] == {("small",): 4, ("heavy",): 0}
    assert counted["casewright_line_waited_seconds_total"] == {("small",): 5.5, ("heavy",): 80.25}
