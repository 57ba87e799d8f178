"""A stop is never silent: every answer to a POST says how many there are, whatever its form."""

import csv
import io
import json
from typing import Any

import openpyxl
import pytest
from casewright.api.web import create_app
from casewright.api.web.guard import Guard
from casewright.api.web.papers import PAPER_KINDS
from casewright.api.web.settings import read_settings
from casewright.api.web.views import VIEWS
from casewright.sdk.loader import Registry
from flask.testing import FlaskClient

STOPPED: dict[str, Any] = {
    "units": "mm",
    "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
    "cabinets": [
        {
            "id": "tools",
            "width": 600,
            "height": 700,
            "depth": 300,
            "case": {"material": "ply"},
            "mounting": {"method": "screw-strip", "contents_kg": 20},
        }
    ],
    "wall": {"length": 3000, "cabinets_at": {"tools": [{"x": 100, "z": 1400}]}},
    "stock": {"sheets": [{"id": "sheet", "material": "ply", "length": 2440, "width": 1220}]},
}
"""A cabinet that hangs on a wall of which nothing is known: a stop, by what hanging needs to be computed."""


@pytest.fixture(scope="module")
def stops(client: FlaskClient) -> int:
    checks = client.post("/v1/checks", json=STOPPED).get_json()["checks"]
    count = sum(check["level"] == "stop" for check in checks)
    assert count > 0
    return count


@pytest.mark.parametrize("view", VIEWS, ids=lambda view: view.name)
def test_every_view(client: FlaskClient, stops: int, view: Any) -> None:
    for form in view.formats:
        answer = client.post(f"/v1/{view.name}?as={form}", json=STOPPED)
        if form == "ndjson":
            assert json.loads(answer.data.splitlines()[-1])["result"]["stops"] == stops
            continue
        assert answer.headers["Casewright-Stops"] == str(stops)
        if form == "json":
            assert answer.get_json()["stops"] == stops
        else:
            first = list(csv.reader(io.StringIO(answer.text)))[1]
            assert "stop" in first[0].lower()
            assert str(stops) in first[0] or view.name == "checks"


@pytest.mark.parametrize("paper", PAPER_KINDS, ids=lambda paper: paper.path)
def test_every_paper(client: FlaskClient, stops: int, paper: Any) -> None:
    answer = client.post(f"/v1/{paper.path}", json=STOPPED)
    if answer.status_code == 422:
        assert answer.get_json()["type"] == "/problems/nothing-to-draw"
        return
    assert answer.headers["Casewright-Stops"] == str(stops)
    if paper.path.startswith("drawings/") and answer.mimetype == "image/svg+xml":
        assert "STOP" in answer.text or "DO NOT" in answer.text


def test_comparisons_and_cures(client: FlaskClient, stops: int) -> None:
    sent = {"job": STOPPED, "changes": [{"name": "none", "patch": []}]}
    for path, body in (("compare", sent), ("cures", STOPPED)):
        answer = client.post(f"/v1/{path}", json=body)
        assert (answer.headers["Casewright-Stops"], answer.get_json()["stops"]) == (str(stops), stops)


def test_the_workbook_begins_with_them(client: FlaskClient, stops: int) -> None:
    book = openpyxl.load_workbook(io.BytesIO(client.post("/v1/workbook", json=STOPPED).data))
    assert book.sheetnames[0] == "STOP"
    assert book["STOP"].max_row == stops + 1
    assert "STOP" in book["Parts"].oddHeader.right.text


def test_a_plan_without_stops_says_so(client: FlaskClient, job: dict[str, Any]) -> None:
    answer = client.post("/v1/parts?as=csv", json=job)
    assert answer.headers["Casewright-Stops"] == "0"
    assert "STOP" not in answer.text


def test_other_origins_may_read_it(registry: Registry) -> None:
    guard = Guard(read_settings({"CASEWRIGHT_CORS_ORIGINS": "*"}))
    answer = create_app(registry, guard=guard).test_client().get("/healthz", headers={"Origin": "http://shop.example"})
    assert "Casewright-Stops" in answer.headers["Access-Control-Expose-Headers"]
